// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "app/reading_rows.h"

#include "app/as_shown.h"
#include "app/wording.h"
#include "run/doubt.h"
#include "words/fact_told.h"

#include <algorithm>
#include <ranges>

namespace loopside::app {

namespace {

constexpr qsizetype mostReadings = 10;

/// "14:18 · in doubt · put right".
QString detailOf(const Tablet& tablet, const run::Fact& set, bool isDoubtful)
{
    QStringList parts = {clockText(set.header.entered)};
    if (set.seen != set.entered) {
        parts.append(tablet.say({"app.logged.seen-at", {{"time", hoursText(set.seen).toStdString()}}}));
    }
    if (isDoubtful) {
        parts.append(tablet.label("app.level.doubt"));
    }
    if (set.struck) {
        parts.append(tablet.label("app.logged.struck"));
    } else if (!set.amendedBy.empty()) {
        parts.append(tablet.label("app.logged.changed"));
    }
    return parts.join(QStringLiteral(" · "));
}

} // namespace

QList<QByteArray> readingRoles()
{
    return {"name", "detail", "sign", "entry"};
}

QList<RowModel::Row> readingRows(const Tablet& tablet, const run::RunState& run)
{
    const run::Standing& standing = tablet.standing(run);
    QList<RowModel::Row> rows;
    for (const run::Fact& fact : std::views::reverse(run.facts)) {
        if (!std::holds_alternative<run::ReadingLogged>(fact.original) || rows.size() == mostReadings) {
            continue;
        }
        const bool isDoubtful = !fact.struck && run::isInDoubt(standing, fact);
        rows.append({asShown(words::factLine(tablet.words(), fact.effective, run.setup.cart)),
                     detailOf(tablet, fact, isDoubtful), isDoubtful ? QStringLiteral("unknown") : QString(),
                     toQt(toText(fact.header.id))});
    }
    return rows;
}

} // namespace loopside::app
