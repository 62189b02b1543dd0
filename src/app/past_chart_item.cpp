// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "app/past_chart_item.h"

namespace loopside::app {

PastChartItem::PastChartItem(QQuickItem* parent) : QQuickPaintedItem(parent)
{
    setOpaquePainting(true);
    connect(this, &PastChartItem::styleChanged, this, [this] { update(); });
}

void PastChartItem::setRecord(RecordView* record)
{
    if (record == record_) {
        return;
    }
    if (record_ != nullptr) {
        record_->disconnect(this);
    }
    record_ = record;
    if (record_ != nullptr) {
        connect(record_, &RecordView::changed, this, &PastChartItem::takeChart);
    }
    takeChart();
    Q_EMIT chartChanged();
}

void PastChartItem::setRow(int row)
{
    if (row != row_) {
        row_ = row;
        takeChart();
        Q_EMIT chartChanged();
    }
}

void PastChartItem::paint(QPainter* painter)
{
    const paper::TrendStyle style{ground_, ink_, dim_, line_, ink_, ground_, curveColors_, family_, textPx_, strokePx_};
    paper::paintPast(*painter, boundingRect(), chart_, style);
}

void PastChartItem::takeChart()
{
    chart_ = record_ == nullptr ? paper::PastChart() : record_->chart(row_);
    update();
}

} // namespace loopside::app
