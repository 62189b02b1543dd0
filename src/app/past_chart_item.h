// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "app/record_view.h"
#include "paper/past_chart.h"

#include <QPointer>
#include <QQuickPaintedItem>

namespace loopside::app {

/// One of the charts of a record on the screen, in the colours and sizes of the theme.
class PastChartItem : public QQuickPaintedItem
{
    Q_OBJECT
    QML_ELEMENT

    Q_PROPERTY(loopside::app::RecordView* record READ record WRITE setRecord NOTIFY chartChanged)
    /// Its row in the charts of the record.
    Q_PROPERTY(int row READ row WRITE setRow NOTIFY chartChanged)
    Q_PROPERTY(QColor ground MEMBER ground_ NOTIFY styleChanged)
    Q_PROPERTY(QColor ink MEMBER ink_ NOTIFY styleChanged)
    Q_PROPERTY(QColor dim MEMBER dim_ NOTIFY styleChanged)
    Q_PROPERTY(QColor line MEMBER line_ NOTIFY styleChanged)
    /// One per curve, in order.
    Q_PROPERTY(QList<QColor> curveColors MEMBER curveColors_ NOTIFY styleChanged)
    Q_PROPERTY(QString family MEMBER family_ NOTIFY styleChanged)
    Q_PROPERTY(qreal textPx MEMBER textPx_ NOTIFY styleChanged)
    Q_PROPERTY(qreal strokePx MEMBER strokePx_ NOTIFY styleChanged)

public:
    explicit PastChartItem(QQuickItem* parent = nullptr);

    [[nodiscard]] RecordView* record() const { return record_; }
    void setRecord(RecordView* record);
    [[nodiscard]] int row() const { return row_; }
    void setRow(int row);

    void paint(QPainter* painter) override;

Q_SIGNALS:
    void chartChanged();
    void styleChanged();

private:
    void takeChart();

    QPointer<RecordView> record_;
    int row_ = 0;
    paper::PastChart chart_; ///< As of the last change; what is painted, wherever Qt paints it.
    QColor ground_;
    QColor ink_;
    QColor dim_;
    QColor line_;
    QList<QColor> curveColors_;
    QString family_;
    qreal textPx_ = 15.0;
    qreal strokePx_ = 3.0;
};

} // namespace loopside::app
