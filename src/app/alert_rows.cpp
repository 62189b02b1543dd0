// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "app/alert_rows.h"

#include "app/as_shown.h"
#include "app/wording.h"
#include "run/alert_log.h"
#include "run/level.h"
#include "words/told.h"

#include <QStringList>

#include <algorithm>
#include <ranges>

namespace loopside::app {

namespace {

QString levelOf(run::AlertId alert)
{
    switch (alert) {
    case run::AlertId::StopNow:
        return QStringLiteral("stop");
    case run::AlertId::StageAtLimit:
        return QStringLiteral("limit");
    case run::AlertId::StageNearLimit:
    case run::AlertId::ReadingOverdue:
        return QStringLiteral("caution");
    case run::AlertId::TargetTurnoversMet:
    case run::AlertId::TargetCodeMet:
        break;
    }
    return QStringLiteral("note");
}

QString becameOf(const Tablet& tablet, const run::AlertLine& line)
{
    const auto at = [&](const char* id, run::RunTime time) {
        return tablet.say({id, {{"time", hoursText(time).toStdString()}}});
    };
    QStringList parts = {at("app.log.raised", line.raised)};
    if (line.shelvedTimes > 0) {
        parts.append(tablet.say({"app.log.silenced", {{"times", std::to_string(line.shelvedTimes)}}}));
    }
    if (line.acknowledged) {
        parts.append(tablet.say({"app.log.acknowledged",
                                 {{"time", hoursText(*line.acknowledged).toStdString()},
                                  {"person", tablet.nameOf(line.acknowledgedBy).toStdString()}}}));
    }
    if (!line.why.empty()) {
        parts.append(toQt(line.why));
    }
    if (line.returned) {
        parts.append(at("app.log.over", *line.returned));
    } else if (line.isReplaced) {
        parts.append(tablet.label("app.log.replaced"));
    } else {
        parts.append(tablet.label("app.log.stands"));
    }
    return parts.join(QStringLiteral(" · "));
}

} // namespace

QList<QByteArray> alertRoles()
{
    return {"level", "text", "became", "stands"};
}

QList<RowModel::Row> alertRows(const Tablet& tablet, const run::RunState& run)
{
    QList<RowModel::Row> rows;
    const auto lines = run::alertLogOf(run);
    for (const run::AlertLine& line : std::views::reverse(lines)) {
        rows.append({levelOf(line.alert), asShown(words::alertSentence(tablet.words(), line.alert, line.told)),
                     becameOf(tablet, line), line.stands()});
    }
    return rows;
}

QString stopSinceLastSet(const Tablet& tablet, const run::RunState& run)
{
    const auto stop = run::stopSinceLastSet(run, tablet.standing(run));
    if (!stop) {
        return {};
    }
    for (const auto& [name, finding] : stop->told) {
        const std::string id = "app.stop." + finding;
        if (name == "finding" && tablet.words().has(id)) {
            return tablet.say({id, {{"stage", std::to_string(stop->stage.value_or(0))}}});
        }
    }
    return tablet.label("app.alert.stop-now");
}

} // namespace loopside::app
