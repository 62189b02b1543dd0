// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "paper/trend.h"

#include <QImage>

#include <functional>

namespace loopside::test {

/// A style in which each role has a colour of its own, so that pixels tell what they belong to.
[[nodiscard]] paper::TrendStyle distinctStyle();

/// What surrounds a painted area.
inline constexpr QRgb outside = 0xFFFF00FF;

/// `trend` painted at a distance of 20 pixels from each side of the picture.
inline constexpr int margin = 20;
[[nodiscard]] QImage painted(const paper::Trend& trend, QSize size, const paper::TrendStyle& style = distinctStyle());

/// The smallest rectangle around all pixels of `picture` for which `isMeant` holds; empty if there is none.
[[nodiscard]] QRect around(const QImage& picture, const std::function<bool(int x, int y)>& isMeant);

/// The same around all pixels of exactly `colour` within `within`.
[[nodiscard]] QRect around(const QImage& picture, const QColor& colour, const QRect& within);

/// How many pixels of exactly `colour` lie in `within`.
[[nodiscard]] int count(const QImage& picture, const QColor& colour, const QRect& within);

/// The middle of each horizontal line of `colour` that is at least half as long as the picture is wide, from the top
/// down.
[[nodiscard]] QList<double> longLines(const QImage& picture, const QColor& colour);

} // namespace loopside::test
