// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "app/run_view.h"
#include "paper/trend.h"

#include <QElapsedTimer>
#include <QPointer>
#include <QQuickPaintedItem>

namespace loopside::app {

/// The trend of a run on the screen, in the colours and sizes of the theme. Drawn anew when something was logged, and
/// as time goes on at most once a minute.
class TrendItem : public QQuickPaintedItem
{
    Q_OBJECT
    QML_ELEMENT

    Q_PROPERTY(loopside::app::RunView* run READ run WRITE setRun NOTIFY runChanged)
    Q_PROPERTY(QColor ground MEMBER ground_ NOTIFY styleChanged)
    Q_PROPERTY(QColor ink MEMBER ink_ NOTIFY styleChanged)
    Q_PROPERTY(QColor dim MEMBER dim_ NOTIFY styleChanged)
    Q_PROPERTY(QColor line MEMBER line_ NOTIFY styleChanged)
    Q_PROPERTY(QColor limit MEMBER limit_ NOTIFY styleChanged)
    Q_PROPERTY(QColor shade MEMBER shade_ NOTIFY styleChanged)
    /// One per stage, in order.
    Q_PROPERTY(QList<QColor> stageColors MEMBER stageColors_ NOTIFY styleChanged)
    Q_PROPERTY(QString family MEMBER family_ NOTIFY styleChanged)
    Q_PROPERTY(qreal textPx MEMBER textPx_ NOTIFY styleChanged)
    Q_PROPERTY(qreal strokePx MEMBER strokePx_ NOTIFY styleChanged)

public:
    explicit TrendItem(QQuickItem* parent = nullptr);

    [[nodiscard]] RunView* run() const { return run_; }
    void setRun(RunView* run);

    void paint(QPainter* painter) override;

Q_SIGNALS:
    void runChanged();
    void styleChanged();

private:
    void takeTrend();
    void onTime();

    QPointer<RunView> run_;
    paper::Trend trend_; ///< As of the last change; what is painted, wherever Qt paints it.
    QElapsedTimer sinceTaken_;
    QColor ground_;
    QColor ink_;
    QColor dim_;
    QColor line_;
    QColor limit_;
    QColor shade_;
    QList<QColor> stageColors_;
    QString family_;
    qreal textPx_ = 15.0;
    qreal strokePx_ = 3.0;
};

} // namespace loopside::app
