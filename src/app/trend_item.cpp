// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "app/trend_item.h"

namespace loopside::app {

TrendItem::TrendItem(QQuickItem* parent) : ChartItem(parent) {}

void TrendItem::setRun(RunView* run)
{
    if (run == run_) {
        return;
    }
    if (run_ != nullptr) {
        run_->disconnect(this);
    }
    run_ = run;
    if (run_ != nullptr) {
        connect(run_, &RunView::changed, this, &TrendItem::takeTrend);
        connect(run_, &RunView::timeChanged, this, &TrendItem::onTime);
    }
    takeTrend();
    Q_EMIT runChanged();
}

void TrendItem::paint(QPainter* painter)
{
    paper::paintTrend(*painter, boundingRect(), trend_, style());
}

void TrendItem::takeTrend()
{
    trend_ = run_ == nullptr ? paper::Trend() : run_->trend();
    sinceTaken_.start();
    update();
}

void TrendItem::onTime()
{
    constexpr qint64 minuteMs = 60'000;
    if (sinceTaken_.hasExpired(minuteMs)) {
        takeTrend();
    }
}

} // namespace loopside::app
