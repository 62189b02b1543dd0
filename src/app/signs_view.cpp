// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "app/signs_view.h"

#include <array>

namespace loopside::app {

namespace {

/// As the journal has them, what is most urgent first.
constexpr std::array<const char*, 5> signNames = {"leak", "clicking", "whine", "foam", "haze"};

} // namespace

SignsView::SignsView(Tablet& tablet, QObject* parent)
    : QObject{parent}, tablet_{tablet}, signs_{{"name", "detail", "isChosen"}}
{
    connect(&tablet_, &Tablet::shownChanged, this, &SignsView::open);
    refresh();
}

void SignsView::refresh()
{
    QList<RowModel::Row> rows;
    for (const std::string name : signNames) {
        rows.append({tablet_.say({"sign." + name, {}}), tablet_.say({"app.sign." + name + ".known-by", {}}),
                     seen_.contains(static_cast<int>(rows.size()))});
    }
    signs_.setRows(std::move(rows));
    Q_EMIT changed();
}

void SignsView::open()
{
    seen_.clear();
    refresh();
}

void SignsView::toggle(int row)
{
    if (row >= 0 && row < static_cast<int>(signNames.size()) && seen_.erase(row) == 0) {
        seen_.insert(row);
    }
    refresh();
}

bool SignsView::log()
{
    run::SignsSeen seen;
    for (const int row : seen_) {
        seen.signs.emplace_back(signNames.at(static_cast<std::size_t>(row)));
    }
    return !seen.signs.empty() && tablet_.say(run::Said(std::move(seen)));
}

} // namespace loopside::app
