// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "paper/past_chart.h"

#include "paper/curve.h"
#include "paper/mark.h"
#include "paper/ticks.h"

#include <QDateTime>
#include <QFontMetricsF>
#include <QTimeZone>

#include <algorithm>
#include <cmath>
#include <functional>
#include <limits>

namespace loopside::paper {

namespace {

constexpr double linesLeast = 8.0; ///< Heights of a letter: axis, dates, and room for a course.
constexpr double columnsLeast = 14.0;

QString dateText(double day)
{
    constexpr double secondsOfDay = 86'400.0;
    return QDateTime::fromSecsSinceEpoch(static_cast<qint64>(day * secondsOfDay), QTimeZone::utc())
        .toString(QStringLiteral("yyyy-MM-dd"));
}

/// What both axes span.
struct Span
{
    double low = std::numeric_limits<double>::infinity();
    double high = -std::numeric_limits<double>::infinity();

    void take(double value)
    {
        low = std::min(low, value);
        high = std::max(high, value);
    }
    /// Of one value or of none: wide enough to be an axis.
    void widen(double least)
    {
        if (!(high > low)) {
            low = std::isfinite(low) ? low - least / 2.0 : 0.0;
            high = low + least;
        }
    }
};

class PastPainter
{
public:
    PastPainter(QPainter& painter, const QRectF& area, const PastChart& chart, const TrendStyle& style)
        : painter_{painter}, area_{area}, chart_{chart}, style_{style}, font_{style.family}, metrics_{fontFor(painter)}
    {
        findSpans();
        place();
    }

    void paint()
    {
        painter_.setRenderHint(QPainter::Antialiasing);
        painter_.setFont(font_);
        paintFrame();
        paintValues();
        paintDates();
        for (qsizetype i = 0; i < chart_.curves.size(); ++i) {
            paintCurve(i);
        }
        writeNames();
    }

private:
    QFontMetricsF fontFor(QPainter& painter)
    {
        font_.setPixelSize(std::max(1, static_cast<int>(std::lround(style_.textPx))));
        return QFontMetricsF(font_, painter.device());
    }

    void findSpans()
    {
        for (const PastCurve& curve : chart_.curves) {
            for (const PastPoint& point : curve.points) {
                days_.take(point.day);
                values_.take(point.value);
            }
        }
        days_.widen(1.0);
        if (chart_.fromZero) {
            values_.take(0.0);
        }
        values_.widen(2.0);
        const double room = (values_.high - values_.low) / 8.0;
        values_.high += room;
        values_.low -= chart_.fromZero && values_.low >= 0.0 ? 0.0 : room;
    }

    [[nodiscard]] double gap() const { return style_.textPx * 0.4; }
    [[nodiscard]] double thin() const { return std::max(1.0, style_.strokePx / 3.0); }
    [[nodiscard]] double lineHeight() const { return std::max(style_.textPx, metrics_.height()); }
    [[nodiscard]] double markRadius() const { return style_.strokePx * 1.7; }
    [[nodiscard]] QColor colourOf(qsizetype curve) const { return style_.stages.value(curve, style_.ink); }
    [[nodiscard]] double x(double day) const
    {
        return frame_.left() + markRadius()
            + (frame_.width() - 2.0 * markRadius()) * (day - days_.low) / (days_.high - days_.low);
    }
    [[nodiscard]] double y(double value) const
    {
        return frame_.bottom() - frame_.height() * (value - values_.low) / (values_.high - values_.low);
    }
    [[nodiscard]] double step() const
    {
        const int most = std::max(1, static_cast<int>(frame_.height() / (1.5 * lineHeight())));
        return valueStep(values_.high - values_.low, most);
    }
    [[nodiscard]] QString numberText(double value) const
    {
        return valueText(value, step()) + (chart_.unit.isEmpty() ? QString() : QChar(QChar::Nbsp) + chart_.unit);
    }

    void place()
    {
        frame_ = area_.adjusted(0.0, lineHeight() / 2.0, 0.0, -lineHeight() - gap());
        double numbers = 0.0;
        for (const double value : multiplesOf(step(), values_.low, values_.high)) {
            numbers = std::max(numbers, metrics_.horizontalAdvance(numberText(value)));
        }
        double names = 0.0;
        for (const PastCurve& curve : chart_.curves) {
            names = std::max(names, metrics_.horizontalAdvance(curve.name));
        }
        names = std::min(names, area_.width() / 3.0);
        frame_.setLeft(area_.left() + numbers + gap());
        frame_.setRight(area_.right() - (names > 0.0 ? names + 2.0 * gap() : thin()));
    }

    void paintFrame()
    {
        painter_.setPen(QPen(style_.line, thin()));
        painter_.setBrush(Qt::NoBrush);
        painter_.drawRect(frame_);
        drawLine(QLineF(frame_.topLeft(), frame_.bottomLeft()), style_.dim, thin());
        drawLine(QLineF(frame_.bottomLeft(), frame_.bottomRight()), style_.dim, thin());
    }

    void paintValues()
    {
        for (const double value : multiplesOf(step(), values_.low, values_.high)) {
            const double at = y(value);
            drawLine(QLineF(frame_.left(), at, frame_.right(), at), style_.line, thin());
            const QString text = numberText(value);
            const double width = metrics_.horizontalAdvance(text);
            write(QPointF(frame_.left() - gap() - width, at), text, style_.dim);
        }
    }

    /// The first and the last day; those between where there is room.
    void paintDates()
    {
        const double width = metrics_.horizontalAdvance(dateText(days_.high));
        const double at = frame_.bottom() + gap() + lineHeight() / 2.0;
        const auto put = [&](double day) {
            const double middle = x(day);
            drawLine(QLineF(middle, frame_.bottom(), middle, frame_.bottom() + gap() / 2.0), style_.dim, thin());
            // not under the numbers of the axis, whose lowest reaches as far down
            const double left = std::max(frame_.left(), std::min(middle - width / 2.0, area_.right() - width));
            write(QPointF(left, at), dateText(day), style_.dim);
        };
        put(days_.low);
        if (dateText(days_.low) != dateText(days_.high) && x(days_.high) - x(days_.low) > width + gap()) {
            put(days_.high);
        }
    }

    void paintCurve(qsizetype curve)
    {
        QList<QPointF> points;
        for (const PastPoint& point : chart_.curves[curve].points) {
            points.append(QPointF(x(point.day), y(point.value)));
        }
        painter_.setPen(QPen(colourOf(curve), style_.strokePx, Qt::SolidLine, Qt::SquareCap));
        painter_.drawLines(joined(points));
        for (qsizetype i = 0; i < points.size(); ++i) {
            const QColor fill = chart_.curves[curve].points[i].isHollow ? style_.ground : colourOf(curve);
            paintMark(painter_, points[i], curve, colourOf(curve), fill, markRadius(),
                      std::max(1.0, style_.strokePx * 0.7));
        }
    }

    /// Right of the frame, each at the height of its last point, the higher ones pushed up by those below.
    void writeNames()
    {
        QList<qsizetype> order;
        for (qsizetype i = 0; i < chart_.curves.size(); ++i) {
            if (!chart_.curves[i].points.isEmpty() && !chart_.curves[i].name.isEmpty()) {
                order.append(i);
            }
        }
        const auto endOf = [&](qsizetype i) { return y(chart_.curves[i].points.last().value); };
        std::ranges::sort(order, std::greater{}, endOf);
        double free = area_.bottom() - lineHeight() / 2.0;
        for (const qsizetype i : order) {
            const double at = std::min(endOf(i), free);
            const double room = area_.right() - frame_.right() - gap();
            write(QPointF(frame_.right() + gap(), at), metrics_.elidedText(chart_.curves[i].name, Qt::ElideRight, room),
                  colourOf(i));
            free = at - lineHeight();
        }
    }

    /// `at` is left, and the middle of its height.
    void write(const QPointF& at, const QString& text, const QColor& colour)
    {
        painter_.setPen(colour);
        painter_.drawText(QPointF(at.x(), at.y() + (metrics_.ascent() - metrics_.descent()) / 2.0), text);
    }

    void drawLine(const QLineF& line, const QColor& colour, double width)
    {
        painter_.setPen(QPen(colour, width, Qt::SolidLine, Qt::FlatCap));
        painter_.drawLine(line);
    }

    QPainter& painter_;
    QRectF area_;
    const PastChart& chart_;
    const TrendStyle& style_;
    QFont font_;
    QFontMetricsF metrics_;
    Span days_;
    Span values_;
    QRectF frame_;
};

} // namespace

double leastHeight(const PastChart& chart, const TrendStyle& style)
{
    return chart.hasCourse() ? linesLeast * style.textPx : 0.0;
}

void paintPast(QPainter& painter, const QRectF& area, const PastChart& chart, const TrendStyle& style)
{
    painter.save();
    painter.setClipRect(area, Qt::IntersectClip);
    painter.fillRect(area, style.ground);
    if (chart.hasCourse() && area.height() >= leastHeight(chart, style)
        && area.width() >= columnsLeast * style.textPx) {
        PastPainter(painter, area, chart, style).paint();
    }
    painter.restore();
}

} // namespace loopside::paper
