// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "app/chart_item.h"
#include "app/run_view.h"

#include <QElapsedTimer>
#include <QPointer>

namespace loopside::app {

/// The trend of a run on the screen, in the colours and sizes of the theme. Drawn anew when something was logged, and
/// as time goes on at most once a minute.
class TrendItem : public ChartItem
{
    Q_OBJECT
    QML_ELEMENT

    Q_PROPERTY(loopside::app::RunView* run READ run WRITE setRun NOTIFY runChanged)

public:
    explicit TrendItem(QQuickItem* parent = nullptr);

    [[nodiscard]] RunView* run() const { return run_; }
    void setRun(RunView* run);

    void paint(QPainter* painter) override;

Q_SIGNALS:
    void runChanged();

private:
    void takeTrend();
    void onTime();

    QPointer<RunView> run_;
    paper::Trend trend_; ///< As of the last change; what is painted, wherever Qt paints it.
    QElapsedTimer sinceTaken_;
};

} // namespace loopside::app
