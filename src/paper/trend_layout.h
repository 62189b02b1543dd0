// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "paper/trend.h"

#include <QFont>
#include <QFontMetricsF>

#include <algorithm>
#include <cmath>

namespace loopside::paper {

/// One of the two panels of a trend: where it lies and which values it spans.
struct TrendPanel
{
    QRectF frame;
    double low = 0.0;
    double high = 0.0;
    double headroom = 0.0;   ///< Pixels kept free above `high`.
    bool isForWords = false; ///< Whether a line of words fits into the headroom.

    /// Nothing to show: its axis then has no numbers either.
    [[nodiscard]] bool isEmpty() const { return !(high > low); }
    [[nodiscard]] double y(double value) const
    {
        return frame.bottom() - (frame.height() - headroom) * (value - low) / (high - low);
    }
};

/// A curve of one stage in pixels, in a piece for each set of elements it had.
struct TrendCurve
{
    qsizetype stage = 0;
    QList<QList<QPointF>> pieces;

    /// Its last point; it has one.
    [[nodiscard]] QPointF last() const { return pieces.last().last(); }
};

/// A change limit; stages whose limits read the same share one line.
struct TrendLimit
{
    double y = 0.0;
    QList<qsizetype> stages;
    QString value; ///< "25 psi".
};

/// The way ahead of one stage in pixels.
struct TrendBand
{
    qsizetype stage = 0;
    QList<QPointF> low;
    QList<QPointF> middle;
    QList<QPointF> high;
};

/// Where everything of a trend lies in its area. Pixels of the painter; nothing is painted.
class TrendLayout
{
public:
    /// `device` is what will be painted on: it says how large text is. All arguments outlive the layout.
    TrendLayout(const QRectF& area, const Trend& trend, const TrendStyle& style, QPaintDevice* device);

    [[nodiscard]] const QRectF& area() const { return area_; }
    [[nodiscard]] const TrendPanel& raw() const { return raw_; }
    [[nodiscard]] const TrendPanel& loading() const { return loading_; }
    /// Both, from above, or the one of raw ΔP alone where there is no room for two.
    [[nodiscard]] QList<const TrendPanel*> panels() const
    {
        return isLow_ ? QList<const TrendPanel*>{&raw_} : QList<const TrendPanel*>{&raw_, &loading_};
    }
    [[nodiscard]] bool isEmpty() const { return raw_.isEmpty() && loading_.isEmpty(); }

    [[nodiscard]] const QFont& font() const { return font_; }
    /// Of a line of words without the room for accents on capitals.
    [[nodiscard]] double lineHeight() const
    {
        return std::max(style_.textPx, metrics_.capHeight() + metrics_.descent());
    }
    /// Where the text of a label begins that fills `place`.
    [[nodiscard]] QPointF baselineIn(const QRectF& place) const
    {
        return {place.left(), place.center().y() + (metrics_.ascent() - metrics_.descent()) / 2.0};
    }
    [[nodiscard]] double textWidth(const QString& text) const { return metrics_.horizontalAdvance(text); }
    [[nodiscard]] double gap() const { return style_.textPx * 0.4; }
    [[nodiscard]] double thin() const { return std::max(1.0, style_.strokePx / 3.0); }
    [[nodiscard]] double heavy() const { return style_.strokePx * 1.6; }
    [[nodiscard]] double markRadius() const { return style_.strokePx * 1.7; }

    /// Minutes to the right end of the time axis.
    [[nodiscard]] double end() const { return end_; }
    [[nodiscard]] double x(double minute) const { return raw_.frame.left() + raw_.frame.width() * minute / end_; }

    /// From one number to the next on the axis of `panel`, which is not empty.
    [[nodiscard]] double stepOf(const TrendPanel& panel) const;

    /// Those that have points, in the order of the stages.
    [[nodiscard]] const QList<TrendCurve>& rawCurves() const { return rawCurves_; }
    [[nodiscard]] const QList<TrendCurve>& loadingCurves() const { return loadingCurves_; }
    [[nodiscard]] const QList<TrendBand>& bands() const { return bands_; }
    /// From the highest to the lowest.
    [[nodiscard]] const QList<TrendLimit>& limits() const { return limits_; }
    /// Room right of the panels for the values of the limits.
    [[nodiscard]] double limitsWidth() const;
    /// `text`, cut where it is wider than `width`.
    [[nodiscard]] QString cut(const QString& text, double width) const
    {
        return metrics_.elidedText(text, Qt::ElideRight, width);
    }

private:
    void findRanges();
    void placePanels();
    void makeRoomForNames();
    void takeCurves();
    void takeBands();
    void takeLimits();
    [[nodiscard]] QList<QList<QPointF>> piecesOf(const QList<QPointF>& points, const QList<double>& cuts,
                                                 const TrendPanel& panel) const;
    [[nodiscard]] double numbersWidth(const TrendPanel& panel) const;

    QRectF area_;
    const Trend& trend_;
    const TrendStyle& style_;
    QFont font_;
    QFontMetricsF metrics_;
    double last_ = 0.0; ///< Minute of the last point.
    double end_ = 1.0;
    bool isLow_ = false; ///< Room for one panel.
    TrendPanel raw_;
    TrendPanel loading_;
    QList<TrendCurve> rawCurves_;
    QList<TrendCurve> loadingCurves_;
    QList<TrendBand> bands_;
    QList<TrendLimit> limits_;
};

} // namespace loopside::paper
