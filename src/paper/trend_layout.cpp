// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "paper/trend_layout.h"

#include "paper/curve.h"
#include "paper/ticks.h"

#include <limits>

namespace loopside::paper {

namespace {

QFont fontOf(const TrendStyle& style)
{
    QFont font(style.family);
    font.setPixelSize(std::max(1, static_cast<int>(std::lround(style.textPx))));
    return font;
}

bool isDrawable(const QPointF& point)
{
    return std::isfinite(point.x()) && std::isfinite(point.y());
}

/// Makes `panel` reach to `value`, and to `least` in any case.
void makeRoom(TrendPanel& panel, double value, double least)
{
    panel.low = std::min(panel.low, value);
    panel.high = std::max({panel.high, value, least});
}

} // namespace

TrendLayout::TrendLayout(const QRectF& area, const Trend& trend, const TrendStyle& style, QPaintDevice* device)
    : area_{area}, trend_{trend}, style_{style}, font_{fontOf(style)}, metrics_{font_, device}
{
    constexpr double linesForTwo = 7.0;
    isLow_ = area.height() < linesForTwo * lineHeight();
    findRanges();
    placePanels();
    makeRoomForNames();
    takeCurves();
    takeBands();
    takeLimits();
}

void TrendLayout::findRanges()
{
    constexpr double leastLoading = 2.0; // clean is 1, and lies in the middle at the least
    end_ = std::max(1.0, trend_.endMinute);
    const auto makeRoomFor = [&](TrendPanel& panel, const QList<QPointF>& points, double least) {
        for (const QPointF& point : points) {
            if (isDrawable(point)) {
                makeRoom(panel, point.y(), least);
                last_ = std::max(last_, point.x());
            }
        }
    };
    for (const TrendStage& stage : trend_.stages) {
        makeRoomFor(raw_, stage.raw, std::numeric_limits<double>::min());
        if (!isLow_) {
            makeRoomFor(loading_, stage.loading, leastLoading);
        }
        if (stage.limit > 0.0) {
            makeRoom(raw_, stage.limit, 0.0);
        }
        for (const TrendAhead& ahead : stage.ahead) {
            if (std::isfinite(ahead.high) && !(stage.limit > 0.0)) {
                makeRoom(raw_, ahead.high, 0.0);
            }
        }
    }
}

void TrendLayout::placePanels()
{
    const double rawShare = isLow_ ? 1.0 : 0.7;
    const auto crisp = [](double edge) { return std::floor(edge) + 0.5; }; // a thin line fills one row of pixels
    const double height = area_.height() - lineHeight() - 3.0 * gap();
    const double top = crisp(area_.top() + gap());
    const double divide = crisp(top + rawShare * height);
    raw_.frame = QRectF(QPointF(0.0, top), QPointF(0.0, divide));
    loading_.frame = isLow_
        ? raw_.frame
        : QRectF(QPointF(0.0, divide + std::floor(gap())), QPointF(0.0, crisp(top + height + gap())));

    const double forMarks = markRadius() + thin();
    raw_.isForWords = raw_.frame.height() >= 4.0 * lineHeight();
    raw_.headroom = raw_.isForWords ? lineHeight() + heavy() : forMarks;
    loading_.headroom = forMarks;

    const double numbers = std::max(numbersWidth(raw_), numbersWidth(loading_));
    for (TrendPanel* panel : {&raw_, &loading_}) {
        panel->frame.setLeft(crisp(area_.left() + 2.0 * gap() + numbers));
        panel->frame.setRight(crisp(area_.right() - gap() - std::max(markRadius(), limitsWidth())));
    }
}

/// Lets the time axis reach so far that the names of the curves stand right of their last points.
void TrendLayout::makeRoomForNames()
{
    double widest = 0.0;
    for (const TrendStage& stage : trend_.stages) {
        widest = std::max(widest, textWidth(stage.name));
    }
    const double width = raw_.frame.width();
    const double forCurves = std::max(width / 2.0, width - widest - markRadius() - gap() - thin());
    end_ = std::max(end_, last_ * width / forCurves);
}

double TrendLayout::limitsWidth() const
{
    constexpr double most = 0.25;
    double width = 0.0;
    for (const TrendStage& stage : trend_.stages) {
        if (stage.limit > 0.0 && !stage.limitText.isEmpty()) {
            width = std::max(width, textWidth(stage.limitText));
        }
    }
    const double marks = static_cast<double>(trend_.stages.size()) * 2.5 * markRadius();
    return width > 0.0 ? std::min(most * area_.width(), width + marks + gap()) : 0.0;
}

double TrendLayout::numbersWidth(const TrendPanel& panel) const
{
    double width = textWidth(valueText(0.0, 1.0));
    if (!panel.isEmpty()) {
        const double step = stepOf(panel);
        for (const double value : multiplesOf(step, panel.low, panel.high)) {
            width = std::max(width, textWidth(valueText(value, step)));
        }
    }
    return width;
}

double TrendLayout::stepOf(const TrendPanel& panel) const
{
    const double room = panel.frame.height() - panel.headroom;
    return valueStep(panel.high - panel.low, std::max(1, static_cast<int>(room / (1.6 * lineHeight()))));
}

void TrendLayout::takeCurves()
{
    for (qsizetype i = 0; i < trend_.stages.size(); ++i) {
        const TrendStage& stage = trend_.stages[i];
        if (const auto pieces = piecesOf(stage.raw, stage.changedAt, raw_); !pieces.isEmpty()) {
            rawCurves_.append({i, pieces});
        }
        if (isLow_) {
            continue;
        }
        if (const auto pieces = piecesOf(stage.loading, stage.changedAt, loading_); !pieces.isEmpty()) {
            loadingCurves_.append({i, pieces});
        }
    }
}

QList<QList<QPointF>> TrendLayout::piecesOf(const QList<QPointF>& points, const QList<double>& cuts,
                                            const TrendPanel& panel) const
{
    QList<QList<QPointF>> pieces;
    QList<QPointF> piece;
    piece.reserve(points.size());
    const auto endPiece = [&] {
        if (!piece.isEmpty()) {
            pieces.append(thinned(piece));
            piece.clear(); // and keeps its room
        }
    };
    double before = 0.0;
    for (const QPointF& point : points) {
        if (!isDrawable(point)) {
            continue;
        }
        if (std::ranges::any_of(cuts, [&](double cut) { return before < cut && cut <= point.x(); })) {
            endPiece();
        }
        piece.append(QPointF(x(point.x()), panel.y(point.y())));
        before = point.x();
    }
    endPiece();
    return pieces;
}

void TrendLayout::takeBands()
{
    for (qsizetype i = 0; i < trend_.stages.size(); ++i) {
        const TrendStage& stage = trend_.stages[i];
        const double most = stage.limit > 0.0 ? stage.limit : raw_.high;
        TrendBand band{i, {}, {}, {}};
        for (const TrendAhead& ahead : stage.ahead) {
            if (raw_.isEmpty() || !std::isfinite(ahead.minute + ahead.low + ahead.middle + ahead.high)) {
                continue;
            }
            const auto place = [&](double value) {
                return QPointF(x(ahead.minute), raw_.y(std::clamp(value, raw_.low, most)));
            };
            band.low.append(place(ahead.low));
            band.middle.append(place(ahead.middle));
            band.high.append(place(ahead.high));
        }
        if (band.low.size() > 1) {
            bands_.append(band);
        }
    }
}

void TrendLayout::takeLimits()
{
    for (qsizetype i = 0; i < trend_.stages.size(); ++i) {
        const TrendStage& stage = trend_.stages[i];
        if (!(stage.limit > 0.0)) {
            continue;
        }
        const double y = raw_.y(stage.limit);
        const auto same = std::ranges::find_if(limits_, [&](const TrendLimit& limit) {
            return limit.value == stage.limitText && std::abs(limit.y - y) < 0.5;
        });
        if (same != limits_.end()) {
            same->stages.append(i);
        } else {
            limits_.append({y, {i}, stage.limitText});
        }
    }
    std::ranges::sort(limits_, {}, &TrendLimit::y);
}

} // namespace loopside::paper
