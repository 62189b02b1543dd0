// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// How something went over months, in the style of the trend: the same lines, marks, colours and letters.

#pragma once

#include "paper/trend.h"

#include <QList>
#include <QPainter>
#include <QString>

namespace loopside::paper {

struct PastPoint
{
    double day = 0.0; ///< Since 1970, UTC.
    double value = 0.0;
    bool isHollow = false; ///< What `PastChart::hollowText` says.

    friend bool operator==(const PastPoint&, const PastPoint&) = default;
};

struct PastCurve
{
    QString name; ///< "≥ 6 µm".
    QList<PastPoint> points;
};

struct PastChart
{
    QString title;           ///< "Cleanliness code".
    QString behind;          ///< "6 bottles of 3 runs": what it rests on.
    QString noCourse;        ///< Why nothing is drawn, with what is known; else empty.
    QString hollowText;      ///< What a mark with nothing in it stands for; empty where none is.
    QString unit;            ///< "ppm"; empty for a number without one.
    bool fromZero = true;    ///< The axis begins at 0.
    QList<PastCurve> curves; ///< At most three.

    [[nodiscard]] bool hasCourse() const { return noCourse.isEmpty(); }
};

/// The room above and below what is drawn, and a few lines of numbers: less shows nothing.
[[nodiscard]] double leastHeight(const PastChart& chart, const TrendStyle& style);

/// Draws `chart`, which has a course, into `area`: days from left to right, values upward, each curve with its mark and
/// its name at its right end. Nothing where the area is too small to be read.
void paintPast(QPainter& painter, const QRectF& area, const PastChart& chart, const TrendStyle& style);

} // namespace loopside::paper
