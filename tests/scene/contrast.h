// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "fault.h"
#include "shown.h"

#include <QColor>

#include <map>
#include <tuple>

namespace loopside::scene {

/// Words on their ground. The project's own aim, also WCAG 2.1, 1.4.6 (level AAA).
inline constexpr double contrastMin = 7.0;
/// The edge or the face of what can be touched against what is around it. WCAG 2.1, 1.4.11.
inline constexpr double edgeContrastMin = 3.0;

/// Contrast of two colours, 1 to 21: (L1 + 0.05) ÷ (L2 + 0.05) with the lighter above, L the relative luminance
/// 0.2126 R + 0.7152 G + 0.0722 B of the linear channels.
/// Source: W3C, Web Content Accessibility Guidelines 2.1, "contrast ratio" and "relative luminance" (from memory; with
/// 0.03928 as the end of the linear part of sRGB, as printed there). Validity: opaque colours.
[[nodiscard]] double contrastOf(const QColor& a, const QColor& b);

/// A pair of colours that stood on a screen: theme, ink and ground as #rrggbb.
using ColourPair = std::tuple<QString, QString, QString>;

/// Where a pair was seen first.
struct Seen
{
    double contrast = 0.0;
    QString scene;
    QString words;
};

/// Grounds are read from a picture of the window without its words, so they are what is truly under the letters.
/// Takes in every pair; a fault for each that has less contrast than it should.
[[nodiscard]] Faults contrastFaults(std::map<ColourPair, Seen>& seen, QQuickWindow& window, const Shown& shown,
                                    const QString& theme, const QString& scene);

/// Names for colours: which roles of the theme have them now. "act, stage1".
[[nodiscard]] QString rolesOf(const QObject& theme, const QString& colour);

} // namespace loopside::scene
