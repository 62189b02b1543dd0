// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "paper/trend.h"

#include <QQuickPaintedItem>

namespace loopside::app {

/// A chart on the screen, in the colours and sizes of the theme: drawn anew whenever one of these changes.
class ChartItem : public QQuickPaintedItem
{
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("a chart of something")

    Q_PROPERTY(QColor ground MEMBER ground_ NOTIFY styleChanged)
    Q_PROPERTY(QColor ink MEMBER ink_ NOTIFY styleChanged)
    Q_PROPERTY(QColor dim MEMBER dim_ NOTIFY styleChanged)
    Q_PROPERTY(QColor line MEMBER line_ NOTIFY styleChanged)
    Q_PROPERTY(QColor limit MEMBER limit_ NOTIFY styleChanged)
    Q_PROPERTY(QColor shade MEMBER shade_ NOTIFY styleChanged)
    /// One per stage or curve, in order.
    Q_PROPERTY(QList<QColor> curveColors MEMBER curveColors_ NOTIFY styleChanged)
    Q_PROPERTY(QString family MEMBER family_ NOTIFY styleChanged)
    Q_PROPERTY(qreal textPx MEMBER textPx_ NOTIFY styleChanged)
    Q_PROPERTY(qreal strokePx MEMBER strokePx_ NOTIFY styleChanged)

Q_SIGNALS:
    void styleChanged();

protected:
    explicit ChartItem(QQuickItem* parent);

    [[nodiscard]] paper::TrendStyle style() const;

private:
    QColor ground_;
    QColor ink_;
    QColor dim_;
    QColor line_;
    QColor limit_;
    QColor shade_;
    QList<QColor> curveColors_;
    QString family_;
    qreal textPx_ = 15.0;
    qreal strokePx_ = 3.0;
};

} // namespace loopside::app
