// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "app/past_chart_item.h"

namespace loopside::app {

PastChartItem::PastChartItem(QQuickItem* parent) : ChartItem(parent) {}

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
    paper::paintPast(*painter, boundingRect(), chart_, style());
}

void PastChartItem::takeChart()
{
    chart_ = record_ == nullptr ? paper::PastChart() : record_->chart(row_);
    update();
}

} // namespace loopside::app
