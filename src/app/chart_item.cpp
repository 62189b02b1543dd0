// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "app/chart_item.h"

namespace loopside::app {

ChartItem::ChartItem(QQuickItem* parent) : QQuickPaintedItem(parent)
{
    setOpaquePainting(true);
    connect(this, &ChartItem::styleChanged, this, [this] { update(); });
}

paper::TrendStyle ChartItem::style() const
{
    return {ground_, ink_, dim_, line_, limit_, shade_, curveColors_, family_, textPx_, strokePx_};
}

} // namespace loopside::app
