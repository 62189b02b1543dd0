// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "app/history_lines.h"

#include "app/setup_words.h"
#include "app/wording.h"
#include "base/text.h"

#include <nlohmann/json.hpp>

#include <algorithm>
#include <regex>

namespace loopside::app {

namespace {

using Json = nlohmann::ordered_json;

QString textOf(const Json& value)
{
    return value.is_null() || value == "" ? QStringLiteral("–")
                                          : toQt(value.is_string() ? value.get<std::string>() : value.dump());
}

/// "Stage 1 change limit" of "/stages/0/change_limit". A member that has no words is named as the journal names it.
QString nameOf(const Tablet& tablet, const std::string& path)
{
    static const std::regex parts("(?:/stages/([0-9]+))?/(.+)");
    std::smatch match;
    if (!std::regex_match(path, match, parts)) {
        return toQt(path);
    }
    std::string member = match[2].str();
    std::ranges::replace(member, '/', '.');
    const std::string id = "record." + member;
    const QString name = tablet.words().has(id) ? tablet.say({id, {}}) : toQt(member);
    return match[1].matched ? tablet.say({"app.stage", {{"stage", std::to_string(std::stoi(match[1].str()) + 1)}}})
            + QLatin1Char(' ') + name
                            : name;
}

QString changesBetween(const Tablet& tablet, const Json& before, const Json& after)
{
    const Json old = before.flatten();
    QStringList changes;
    const Json now = after.flatten();
    for (const auto& [path, value] : now.items()) {
        const Json was = old.contains(path) ? old.at(path) : Json();
        if (textOf(was) != textOf(value)) {
            changes.append(nameOf(tablet, path) + QStringLiteral(": ") + textOf(was) + QStringLiteral(" → ")
                           + textOf(value));
        }
    }
    for (const auto& [path, value] : old.items()) {
        if (!now.contains(path) && textOf(value) != textOf(Json())) {
            changes.append(nameOf(tablet, path) + QStringLiteral(": ") + textOf(value) + QStringLiteral(" → –"));
        }
    }
    return changes.isEmpty() ? tablet.label("app.history.same") : changes.join(QStringLiteral("; "));
}

HistoryLine lineOf(const run::Header& header, QStringList parts)
{
    parts.prepend(dayText(header.entered));
    parts.removeAll(QString());
    return {header.clock, joined(parts)};
}

HistoryLine runLine(const Tablet& tablet, const run::RunState& run, const std::string& place)
{
    const bool isClosed = run.phase == run::Phase::Closed;
    const double best = isClosed ? run.closed->turnovers.best : tablet.standing(run).credit.turnovers.best;
    const QString ending = isClosed ? tablet.say({"ending." + std::string(run::nameOf(run.closed->ending)), {}})
                                    : tablet.label("app.history.open");
    return lineOf(run.opened, {toQt(place), tablet.say({"app.shift.turnovers", {{"best", fixed(best, 1)}}}), ending});
}

HistoryLine transferLine(const Tablet& tablet, const run::Job& job, const std::string& place)
{
    return lineOf(job.opened,
                  {toQt(place), tablet.say({"app.history.waste", {{"volume", job.transfer()->planned.toText()}}})});
}

} // namespace

QList<RowModel::Row> historyRows(std::vector<HistoryLine> lines)
{
    std::ranges::stable_sort(lines, std::greater{}, &HistoryLine::clock);
    QList<RowModel::Row> rows;
    for (const HistoryLine& line : lines) {
        rows.append({QString(), line.text});
    }
    return rows;
}

std::vector<HistoryLine> workAtTank(const Tablet& tablet, const std::string& tank)
{
    std::vector<HistoryLine> lines;
    for (const auto& [id, run] : tablet.state().runs) {
        if (run.setup.tank.name != tank) {
            continue;
        }
        lines.push_back(runLine(tablet, run, run.setup.cart.name));
        for (const run::Fact& fact : run.facts) {
            const auto* result = std::get_if<run::ResultEntered>(&fact.effective);
            if (result != nullptr && !fact.struck && !result->code.empty()) {
                lines.push_back(lineOf(fact.header, {tablet.say({"app.history.code", {{"code", result->code}}})}));
            }
        }
    }
    for (const auto& [id, job] : tablet.state().jobs) {
        if (job.transfer() != nullptr && job.transfer()->tank == tank) {
            lines.push_back(transferLine(tablet, job, job.cart()));
        }
    }
    return lines;
}

std::vector<HistoryLine> workOfCart(const Tablet& tablet, const std::string& cart)
{
    std::vector<HistoryLine> lines;
    for (const auto& [id, run] : tablet.state().runs) {
        if (run.setup.cart.name == cart) {
            lines.push_back(runLine(tablet, run, run.setup.tank.name + ", " + run::fluidText(run.setup.tank.fluid)));
        }
    }
    for (const auto& [id, job] : tablet.state().jobs) {
        if (job.cart() == cart && job.flush() != nullptr) {
            lines.push_back(lineOf(job.opened,
                                   {tablet.say({"app.history.flush",
                                                {{"fluid", textOf(job.flush()->toFluid).toStdString()},
                                                 {"batches", std::to_string(job.batches().size())}}})}));
        } else if (job.cart() == cart) {
            lines.push_back(transferLine(tablet, job, job.transfer()->tank));
        }
    }
    return lines;
}

HistoryLine changeLine(const Tablet& tablet, const run::Header& header, const Json& before, const Json& after)
{
    const QString what = before.is_null() ? tablet.label("app.history.new") : changesBetween(tablet, before, after);
    return lineOf(header, {tablet.nameOf(header.person), what});
}

} // namespace loopside::app
