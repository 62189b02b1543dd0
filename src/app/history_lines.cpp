// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "app/history_lines.h"

#include "app/as_shown.h"
#include "app/setup_words.h"
#include "app/wording.h"
#include "base/text.h"
#include "site/record_changes.h"
#include "words/oil_told.h"

#include <nlohmann/json.hpp>

#include <algorithm>

namespace loopside::app {

namespace {

using Json = nlohmann::ordered_json;

QString textOf(const Json& value)
{
    return value.is_null() || value == "" ? QStringLiteral("–")
                                          : toQt(value.is_string() ? value.get<std::string>() : value.dump());
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
    HistoryLine line = lineOf(run.opened,
                              {toQt(place), tablet.say({"app.shift.turnovers", {{"best", fixed(best, 1)}}}), ending});
    line.run = run.id;
    return line;
}

HistoryLine transferLine(const Tablet& tablet, const run::Job& job, const std::string& place)
{
    return lineOf(job.opened,
                  {toQt(place), tablet.say({"app.history.waste", {{"volume", job.transfer()->planned.toText()}}})});
}

QString changesText(const Tablet& tablet, const std::vector<site::Change>& changes)
{
    QStringList parts;
    for (const site::Change& change : changes) {
        parts.append(asHead(asShown(site::changeText(tablet.words(), change))));
    }
    return parts.isEmpty() ? tablet.label("app.history.same") : parts.join(QStringLiteral("; "));
}

/// What a record says of itself, in the order of the journal: the plain entry, its change, that it left service.
QString putText(const Tablet& tablet, const std::optional<run::RecordPut>& before, const run::RecordPut& put)
{
    if (const auto* serviced = std::get_if<run::RecordServiced>(&put)) {
        return serviced->isInService ? tablet.label("app.history.in-service")
                                     : tablet.say({"app.history.out-of-service", {{"why", serviced->why}}});
    }
    return before ? changesText(tablet, site::changesBetween(*before, put)) : tablet.label("app.history.new");
}

} // namespace

QList<RowModel::Row> historyRows(std::vector<HistoryLine> lines)
{
    std::ranges::stable_sort(lines, std::greater{}, &HistoryLine::clock);
    QList<RowModel::Row> rows;
    for (const HistoryLine& line : lines) {
        rows.append({QString(), line.text, line.run.isNone() ? QString() : toQt(toText(line.run))});
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
            lines.push_back(runLine(tablet, run,
                                    run.setup.tank.name + ", "
                                        + words::oilText(tablet.words(), run::fluidText(run.setup.tank.fluid))));
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

std::vector<HistoryLine> workForJob(const Tablet& tablet, const std::string& order)
{
    std::vector<HistoryLine> lines;
    for (const auto& [id, run] : tablet.state().runs) {
        if (run.setup.job == order) {
            lines.push_back(runLine(tablet, run, run.setup.tank.name + ", " + run.setup.cart.name));
        }
    }
    return lines;
}

std::vector<HistoryLine> changesOf(const Tablet& tablet, const std::string& kind, const std::string& name)
{
    std::vector<HistoryLine> lines;
    auto before = site::recordNamed(tablet.siteAsBegun(), kind, name);
    for (const auto& entered : tablet.state().records) {
        if (site::kindOf(entered.what) != kind || site::nameOf(entered.what) != name) {
            continue;
        }
        lines.push_back(
            lineOf(entered.header, {tablet.nameOf(entered.header.person), putText(tablet, before, entered.what)}));
        if (!std::holds_alternative<run::RecordServiced>(entered.what)) {
            before = entered.what;
        }
    }
    return lines;
}

HistoryLine changeLine(const Tablet& tablet, const run::Header& header, const Json& before, const Json& after)
{
    return lineOf(header,
                  {tablet.nameOf(header.person),
                   before.is_null() ? tablet.label("app.history.new")
                                    : changesText(tablet, site::changesBetween(before, after))});
}

} // namespace loopside::app
