// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include <QLineF>
#include <QList>
#include <QPointF>

namespace loopside::paper {

// Curves as single lines for QPainter::drawLines: one drawPolyline with a wide pen takes some twenty times as long.

/// At most two of the points in each pixel column (lowest and highest), in their order, and the curve's two ends: what
/// one sees is the same but for less than a pixel to the side. Neighbours in `points` are neighbours on the curve.
[[nodiscard]] QList<QPointF> thinned(const QList<QPointF>& points);

/// The lines from each point to the next.
[[nodiscard]] QList<QLineF> joined(const QList<QPointF>& points);

/// The same curve in dashes. They are measured along the whole curve, so that it looks broken where its points stand
/// close too.
[[nodiscard]] QList<QLineF> broken(const QList<QPointF>& points, double dash, double gap);

} // namespace loopside::paper
