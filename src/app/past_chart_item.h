// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "app/chart_item.h"
#include "app/record_view.h"
#include "paper/past_chart.h"

#include <QPointer>

namespace loopside::app {

/// One of the charts of a record on the screen, in the colours and sizes of the theme.
class PastChartItem : public ChartItem
{
    Q_OBJECT
    QML_ELEMENT

    Q_PROPERTY(loopside::app::RecordView* record READ record WRITE setRecord NOTIFY chartChanged)
    /// Its row in the charts of the record.
    Q_PROPERTY(int row READ row WRITE setRow NOTIFY chartChanged)

public:
    explicit PastChartItem(QQuickItem* parent = nullptr);

    [[nodiscard]] RecordView* record() const { return record_; }
    void setRecord(RecordView* record);
    [[nodiscard]] int row() const { return row_; }
    void setRow(int row);

    void paint(QPainter* painter) override;

Q_SIGNALS:
    void chartChanged();

private:
    void takeChart();

    QPointer<RecordView> record_;
    int row_ = 0;
    paper::PastChart chart_; ///< As of the last change; what is painted, wherever Qt paints it.
};

} // namespace loopside::app
