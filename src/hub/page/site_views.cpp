// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "hub/page/site_views.h"

#include "base/text.h"
#include "hub/page/levels.h"
#include "oil/cleanliness_code.h"
#include "run/alert_log.h"
#include "run/demand.h"
#include "run/job.h"
#include "run/stock.h"
#include "run/tank_past.h"
#include "words/oil_told.h"
#include "words/outlook_told.h"
#include "words/told.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <ranges>
#include <set>

namespace loopside::page {

namespace {

bool isOpen(const run::RunState& run)
{
    return !run.setup.isPractice && run.phase != run::Phase::Closed;
}

/// Open runs, the gravest first.
std::vector<std::pair<const run::RunState*, Level>> openRuns(const Look& look)
{
    std::vector<std::pair<const run::RunState*, Level>> open;
    for (const auto& [id, run] : look.state().runs) {
        if (isOpen(run)) {
            open.emplace_back(&run, levelOf(look, run));
        }
    }
    std::ranges::stable_sort(open, std::greater{}, [](const auto& one) { return one.second.rank; });
    return open;
}

std::string turnoversText(const Look& look, const run::RunState& run)
{
    const bool isClosed = run.phase == run::Phase::Closed;
    const double best = isClosed ? run.closed->turnovers.best : look.standing(run).credit.turnovers.best;
    const auto& target = run.setup.target.turnovers;
    return target ? look.say({"app.shift.turnovers-of", {{"best", fixed(best, 1)}, {"target", target->toText()}}})
                  : look.say({"app.shift.turnovers", {{"best", fixed(best, 1)}}});
}

Json withSign(Json row, const std::string& sign, const std::string& word)
{
    row["sign"] = sign;
    row["word"] = word;
    return row;
}

Json openRunRow(const Look& look, const run::RunState& run, const Level& level)
{
    const std::string mode = look.say("mode." + std::string(run::nameOf(look.standing(run).mode)));
    const std::string due = dueText(look, run);
    Json row = {{"kind", "run"},
                {"id", toText(run.id)},
                {"name", run.setup.tank.name},
                {"detail", joined({run.setup.cart.name, mode, turnoversText(look, run)})},
                {"next", due.empty() ? due : look.say({"app.shift.read", {{"when", due}}})},
                {"started", dayAndTime(run.opened.entered)},
                {"isOpen", true},
                {"isLoud", run::isLate(look.standing(run)) || level.sign == "limit" || level.sign == "stop"}};
    return withSign(std::move(row), level.sign, level.word);
}

Json openJobRow(const Look& look, const run::Job& job)
{
    const auto standing = run::jobStanding(job, job.clock.at(look.now(), look.known().device));
    Json row = {{"kind", job.flush() != nullptr ? "flush" : "transfer"},
                {"name", job.flush() != nullptr ? job.cart() : job.transfer()->tank},
                {"started", dayAndTime(job.opened.entered)},
                {"isOpen", true},
                {"isLoud", false}};
    if (job.flush() != nullptr) {
        row["detail"] = look.say({"app.shift.flush", {{"batches", std::to_string(standing.flush->batches)}}});
        return withSign(std::move(row), "flush", look.say("app.chip.flush"));
    }
    row["detail"] = look.say(
        {"app.shift.transfer", {{"cart", job.cart()}, {"volume", job.transfer()->planned.toText()}}});
    const bool isOverdue = standing.transfer->isStopOverdue;
    row["isLoud"] = isOverdue;
    return withSign(std::move(row), isOverdue ? "stop" : "waste",
                    look.say(isOverdue ? "app.chip.stop-now" : "app.chip.waste"));
}

/// Those that nobody has begun, the first due first; those without a day last.
std::vector<const run::JobRecord*> plannedJobs(const Look& look)
{
    std::vector<const run::JobRecord*> jobs;
    for (const run::JobRecord& job : look.site().jobs) {
        if (!run::isTakenUp(look.state(), job)) {
            jobs.push_back(&job);
        }
    }
    std::ranges::stable_sort(jobs, {}, [](const auto* job) { return std::pair(job->due.empty(), job->due); });
    return jobs;
}

Json plannedRow(const Look& look, const run::JobRecord& job)
{
    const bool isOverdue = !job.due.empty() && job.due < dayText(look.now());
    Json row = {{"kind", "job"},
                {"name", job.tank},
                {"detail", joined({job.order, job.cart, job.reason})},
                {"next", job.due.empty() ? std::string() : look.say({"app.planned.due", {{"day", job.due}}})},
                {"isOpen", false},
                {"isLoud", isOverdue}};
    return withSign(std::move(row), isOverdue ? "caution" : "later",
                    look.say(isOverdue ? "app.planned.overdue" : "app.planned.planned"));
}

Json closedRow(const Look& look, const run::RunState& run)
{
    const std::string ending = look.say("ending." + std::string(run::nameOf(run.closed->ending)));
    Json row = {{"kind", "run"},
                {"id", toText(run.id)},
                {"name", run.setup.tank.name},
                {"detail", joined({run.setup.cart.name, turnoversText(look, run), ending})},
                {"started", dayAndTime(run.opened.entered)},
                {"isOpen", false},
                {"isLoud", false}};
    return withSign(std::move(row), "done", look.say("app.shift.closed"));
}

Json rowsOf(Json rows)
{
    return {{"rows", std::move(rows)}};
}

/// The run that goes on at the tank, else the last one there; null: none.
const run::RunState* lastRunAt(const Look& look, const std::string& tank)
{
    const run::RunState* last = nullptr;
    for (const auto& [id, run] : look.state().runs) {
        const bool isThere = run.setup.tank.name == tank && !run.setup.isPractice;
        if (isThere && (last == nullptr || isOpen(run) || !isOpen(*last))) {
            last = &run;
        }
    }
    return last;
}

std::string tankStateText(const Look& look, const std::string& tank, const run::RunState* run)
{
    for (const auto& [id, job] : look.state().jobs) {
        if (job.isOpen() && job.transfer() != nullptr && job.transfer()->tank == tank) {
            return look.say({"app.place.to-waste", {{"cart", job.cart()}}});
        }
    }
    if (run == nullptr) {
        return look.say("app.place.no-run-yet");
    }
    if (isOpen(*run)) {
        return joined({run->setup.cart.name, look.say("mode." + std::string(run::nameOf(look.standing(*run).mode)))});
    }
    return look.say({"app.place.last-run",
                     {{"day", dayText(run->opened.entered)}, {"turnovers", fixed(run->closed->turnovers.best, 1)}}});
}

/// What somebody wants of the oil: by the job that is planned next, else by the run.
std::string targetCodeOf(const Look& look, const std::string& tank, const run::RunState* run)
{
    for (const run::JobRecord* job : plannedJobs(look)) {
        if (job->tank == tank && !job->code.empty()) {
            return job->code;
        }
    }
    return run == nullptr ? std::string() : run->setup.target.code;
}

struct Verdict
{
    std::string sign;
    std::string id;
};

/// A code against a target, by the rule of oil/cleanliness_code.h.
Verdict verdictOf(const std::string& code, const std::string& target)
{
    const auto measured = oil::CleanlinessCode::parse(code);
    const auto wanted = oil::CleanlinessCode::parse(target);
    if (target.empty()) {
        return {"none", "page.target.none"};
    }
    if (code.empty()) {
        return {"unknown", "page.target.no-code"};
    }
    if (!measured || !wanted) {
        return {"unknown", "app.level.unknown"};
    }
    switch (oil::compareToTarget(*measured, *wanted).whole) {
    case oil::TargetVerdict::Better:
    case oil::TargetVerdict::Met:
        return {"ok", "page.target.met"};
    case oil::TargetVerdict::NotProven:
        return {"unknown", "page.target.not-proven"};
    case oil::TargetVerdict::NotMet:
        return {"caution", "page.target.not-met"};
    case oil::TargetVerdict::CannotTell:
        break;
    }
    return {"unknown", "app.level.unknown"};
}

Json tankRow(const Look& look, const run::TankRecord& tank)
{
    const run::RunState* run = lastRunAt(look, tank.name);
    const run::TankPast past = run::pastOf(look.state(), tank.name);
    const std::string code = past.codes.empty() ? tank.code : past.codes.front().code;
    const std::string target = targetCodeOf(look, tank.name, run);
    const Verdict verdict = verdictOf(code, target);
    Json row = {{"name", tank.name},
                {"detail",
                 joined({units::shown(tank.volume, look.words().wanted()),
                         words::oilText(look.words(), run::fluidText(tank.fluid))})},
                {"state", tankStateText(look, tank.name, run)},
                {"turnovers", run == nullptr ? std::string() : turnoversText(look, *run)},
                {"code", code},
                {"target", target},
                {"id", run == nullptr ? std::string() : toText(run->id)}};
    return withSign(std::move(row), verdict.sign, look.say(verdict.id));
}

std::string aheadText(const Look& look, const run::RunState& run, std::size_t stage)
{
    const run::Standing& standing = look.standing(run);
    if (stage >= standing.outlooks.size()) {
        return {};
    }
    const run::Outlook& ahead = standing.outlooks[stage];
    return run::tellsTimes(ahead, standing) ? words::outlookSentence(look.words(), ahead, run, standing)
                                            : look.say("outlook.not-filtering") + '.';
}

Json stageRow(const Look& look, const run::RunState& run, std::size_t stage)
{
    const run::Standing& standing = look.standing(run);
    const Level level = levelOf(look, run, stage);
    const auto fill = fillOf(run, standing, stage);
    const bool isRead = stage < standing.stages.size();
    const auto drop = isRead && standing.stages[stage].raw ? standing.stages[stage].raw->toText() : std::string();
    const bool isLoadingKnown = isRead && standing.stages[stage].loading;
    const auto& limit = run.setup.stages[stage].changeLimit;
    Json row = {{"id", toText(run.id)},
                {"name", joined({run.setup.tank.name, run.setup.cart.name})},
                {"stage", look.say({"app.stage", {{"stage", std::to_string(stage + 1)}}})},
                {"elements", run.setup.stages[stage].type},
                {"drop", drop},
                {"limit", limit ? limit->toText() : std::string()},
                {"fill", fill ? Json(std::round(*fill * 1000.0) / 1000.0) : Json()},
                {"loading", isLoadingKnown ? fixed(*standing.stages[stage].loading, 1) + " ×" : std::string()},
                {"ahead", aheadText(look, run, stage)}};
    row["rank"] = level.rank;
    return withSign(std::move(row), level.sign, level.word);
}

std::string becameText(const Look& look, const run::AlertLine& line)
{
    std::vector<std::string> parts = {look.say({"app.log.raised", {{"time", hoursText(line.raised)}}})};
    if (line.acknowledged) {
        parts.push_back(
            look.say({"app.log.acknowledged",
                      {{"time", hoursText(*line.acknowledged)}, {"person", look.nameOf(line.acknowledgedBy)}}}));
    }
    parts.push_back(line.why);
    return joined(parts);
}

int rankOf(const Json& row)
{
    constexpr std::array<std::string_view, 4> signs = {"note", "caution", "limit", "stop"};
    return static_cast<int>(std::ranges::find(signs, row["sign"].get<std::string>()) - signs.begin());
}

Json missingRow(const Look& look, const run::RunState& run, const std::string& kind, const Message& text,
                const std::string& since)
{
    Json row = {{"kind", kind},
                {"id", toText(run.id)},
                {"name", joined({run.setup.tank.name, run.setup.cart.name})},
                {"text", look.say(text)},
                {"since", since}};
    return withSign(std::move(row), kind == "reading" ? "caution" : "later", look.say("page.missing." + kind));
}

/// The samples that were drawn in a run and of which no result was told.
std::vector<std::string> samplesAwaited(const run::RunState& run)
{
    std::vector<std::string> drawn;
    std::set<std::string> told;
    for (const run::Fact& fact : run.facts) {
        if (const auto* sample = std::get_if<run::SampleDrawn>(&fact.effective); sample != nullptr && !fact.struck) {
            drawn.push_back(sample->id);
        }
        if (const auto* result = std::get_if<run::ResultEntered>(&fact.effective); result != nullptr && !fact.struck) {
            told.insert(result->sample);
        }
    }
    std::erase_if(drawn, [&](const std::string& sample) { return told.contains(sample); });
    return drawn;
}

/// Whether a sample was drawn once oil had gone through the filters, by which the run can be judged.
bool hasAfterSample(const run::RunState& run)
{
    bool hasFiltered = false;
    for (const run::Fact& fact : run.facts) {
        const auto* changed = std::get_if<run::ModeChanged>(&fact.effective);
        hasFiltered = hasFiltered || (changed != nullptr && !fact.struck && changed->mode == run::Mode::Filtering);
        if (hasFiltered && !fact.struck && std::holds_alternative<run::SampleDrawn>(fact.effective)) {
            return true;
        }
    }
    return false;
}

/// The same of a run that may be put away.
bool isSignedOff(const Look& look, const run::RunState& run)
{
    return run.isPutAway ? look.known().signedAway->contains(run.id) : page::isSignedOff(run);
}

void addMissing(const Look& look, const run::RunState& run, Json& rows)
{
    const bool isClosed = run.phase == run::Phase::Closed;
    const std::string started = dayAndTime(run.opened.entered);
    if (!isClosed && run::isLate(look.standing(run))) {
        rows.push_back(
            missingRow(look, run, "reading", {"page.missing.reading.text", {{"late", dueText(look, run)}}}, started));
    }
    if (isClosed && run.closed->ending != run::Ending::Abandoned && !hasAfterSample(run)) {
        rows.push_back(missingRow(look, run, "sample", {"page.missing.sample.text", {}}, started));
    }
    for (const std::string& sample : samplesAwaited(run)) {
        rows.push_back(missingRow(look, run, "result", {"page.missing.result.text", {{"sample", sample}}}, started));
    }
    if (isClosed && !isSignedOff(look, run)) {
        rows.push_back(missingRow(look, run, "sign-off", {"page.missing.sign-off.text", {}}, started));
    }
}

/// Every type of the catalogue, that a cart holds, or that was ever moved, each once.
std::vector<std::string> elementTypes(const Look& look)
{
    std::vector<std::string> types;
    const auto add = [&](const std::string& type) {
        if (!type.empty() && std::ranges::find(types, type) == types.end()) {
            types.push_back(type);
        }
    };
    for (const run::StageRecord& type : look.site().elementTypes) {
        add(type.type);
    }
    for (const site::SiteCart& cart : look.site().carts) {
        for (const run::StageRecord& stage : cart.stages) {
            add(stage.type);
        }
    }
    for (const auto& [type, stock] : look.state().stock) {
        add(type);
    }
    return types;
}

/// Taken out by changeovers, less what amendments gave back, or used elsewhere, in the last thirty days.
int usedLately(const Look& look, const std::string& type)
{
    constexpr std::int64_t thirtyDaysMs = 30LL * 24 * 60 * 60 * 1000;
    int used = 0;
    for (const auto& move : look.state().stockMoves) {
        if (run::isUse(move.what) && move.what.type == type
            && move.header.entered.wallMs > look.now().wallMs - thirtyDaysMs) {
            used -= move.what.elements;
        }
    }
    return used;
}

/// What open runs are expected to need up to their targets.
int wantedByRuns(const Look& look, const std::string& type)
{
    int wanted = 0;
    for (const auto& [id, run] : look.state().runs) {
        if (!isOpen(run)) {
            continue;
        }
        for (const run::Outlook& outlook : look.standing(run).outlooks) {
            const auto& stage = run.setup.stages[static_cast<std::size_t>(outlook.stage) - 1];
            wanted += run::elementTypeIn(run, outlook.stage) == type ? outlook.setsNeeded * stage.elements : 0;
        }
    }
    return wanted;
}

/// What planned jobs reserve. A job names no type: it counts for those of its cart, if it names that.
int reservedByJobs(const Look& look, const std::string& type)
{
    int reserved = 0;
    for (const run::JobRecord* job : plannedJobs(look)) {
        const auto cart = std::ranges::find_if(look.site().carts,
                                               [&](const site::SiteCart& one) { return one.cart.name == job->cart; });
        if (!job->elements || cart == look.site().carts.end()) {
            continue;
        }
        const bool holds = std::ranges::any_of(cart->stages,
                                               [&](const run::StageRecord& stage) { return stage.type == type; });
        reserved += holds ? static_cast<int>(job->elements->toDouble()) : 0;
    }
    return reserved;
}

std::string whereText(const Look& look, const std::string& type)
{
    std::vector<std::string> places;
    for (const site::SiteCart& cart : look.site().carts) {
        for (std::size_t i = 0; i < cart.stages.size(); ++i) {
            if (cart.stages[i].type == type) {
                places.push_back(
                    look.say({"app.stock.used-in", {{"cart", cart.cart.name}, {"stage", std::to_string(i + 1)}}}));
            }
        }
    }
    return joined(places);
}

std::string stockText(const Look& look, const run::StockStanding& stock)
{
    if (stock.isCounted) {
        return look.say({"app.stock.there", {{"elements", std::to_string(stock.elements)}}});
    }
    return stock.elements == 0 ? look.say("app.stock.not-told")
                               : look.say({"app.stock.only-used", {{"elements", std::to_string(-stock.elements)}}});
}

Json elementRow(const Look& look, const std::string& type)
{
    const auto found = look.state().stock.find(type);
    const run::StockStanding stock = found == look.state().stock.end() ? run::StockStanding{} : found->second;
    const int byRuns = wantedByRuns(look, type);
    const int byJobs = reservedByJobs(look, type);
    const int missing = byRuns + byJobs - stock.elements;
    Json row = {{"name", type},
                {"stock", stockText(look, stock)},
                {"used", usedLately(look, type)},
                {"wanted",
                 joined({byRuns == 0 ? std::string()
                                     : look.say({"page.elements.by-runs", {{"elements", std::to_string(byRuns)}}}),
                         byJobs == 0 ? std::string()
                                     : look.say({"page.elements.by-jobs", {{"elements", std::to_string(byJobs)}}})})},
                {"where", whereText(look, type)}};
    if (!stock.isCounted) {
        return withSign(std::move(row), "unknown", look.say("app.level.unknown"));
    }
    return missing > 0 ? withSign(std::move(row), "caution",
                                  look.say({"page.elements.short", {{"elements", std::to_string(missing)}}}))
                       : withSign(std::move(row), "ok", look.say("page.elements.enough"));
}

} // namespace

Json todayView(const Look& look)
{
    Json rows = Json::array();
    for (const auto& [run, level] : openRuns(look)) {
        rows.push_back(openRunRow(look, *run, level));
    }
    for (const auto& [id, job] : look.state().jobs) {
        if (job.isOpen()) {
            rows.push_back(openJobRow(look, job));
        }
    }
    for (const run::JobRecord* job : plannedJobs(look)) {
        rows.push_back(plannedRow(look, *job));
    }
    for (const auto& [id, run] : std::views::reverse(look.state().runs)) {
        const bool isToday = dayText(run.opened.entered) == dayText(look.now());
        if (run.phase == run::Phase::Closed && !run.setup.isPractice && isToday) {
            rows.push_back(closedRow(look, run));
        }
    }
    return rowsOf(std::move(rows));
}

Json tanksView(const Look& look)
{
    Json rows = Json::array();
    for (const run::TankRecord& tank : look.site().tanks) {
        rows.push_back(tankRow(look, tank));
    }
    return rowsOf(std::move(rows));
}

Json stagesView(const Look& look)
{
    std::vector<Json> rows;
    for (const auto& [id, run] : look.state().runs) {
        for (std::size_t i = 0; isOpen(run) && i < run.setup.stages.size(); ++i) {
            rows.push_back(stageRow(look, run, i));
        }
    }
    std::ranges::stable_sort(rows, std::greater{}, [](const Json& row) {
        return std::pair(row["rank"].get<int>(), row["fill"].is_null() ? -1.0 : row["fill"].get<double>());
    });
    Json sorted = Json::array();
    for (Json& row : rows) {
        row.erase("rank");
        sorted.push_back(std::move(row));
    }
    return rowsOf(std::move(sorted));
}

Json alertsView(const Look& look)
{
    std::vector<Json> rows;
    for (const auto& [id, run] : look.state().runs) {
        if (!isOpen(run)) {
            continue;
        }
        for (const run::AlertLine& line : run::alertLogOf(run)) {
            if (!line.stands()) {
                continue;
            }
            const run::Alert* alert = run.alertOf(line.alert, line.stage);
            const auto state = alert == nullptr ? run::AlertState::Unacknowledged : alert->state;
            Json row = {{"id", toText(run.id)},
                        {"name", joined({run.setup.tank.name, run.setup.cart.name})},
                        {"text", words::alertSentence(look.words(), line.alert, line.told)},
                        {"became", becameText(look, line)}};
            rows.push_back(withSign(std::move(row), signOf(line.alert),
                                    look.say("alert-state." + std::string(run::nameOf(state)))));
        }
    }
    std::ranges::stable_sort(rows, std::greater{}, rankOf);
    return rowsOf(rows);
}

Json missingView(const Look& look)
{
    Json rows = Json::array();
    for (const auto& [id, run] : std::views::reverse(look.state().runs)) {
        if (!run.setup.isPractice) {
            addMissing(look, run, rows);
        }
    }
    return rowsOf(std::move(rows));
}

bool isSignedOff(const run::RunState& run)
{
    return std::ranges::any_of(run.facts, [](const run::Fact& fact) {
        const auto* closed = std::get_if<run::RunClosed>(&fact.original);
        const auto* check = std::get_if<run::CheckAnswered>(&fact.original);
        return (closed != nullptr && !closed->why.empty()) || (check != nullptr && check->check == "close-out-sign");
    });
}

Json elementsView(const Look& look)
{
    Json rows = Json::array();
    for (const std::string& type : elementTypes(look)) {
        rows.push_back(elementRow(look, type));
    }
    return rowsOf(std::move(rows));
}

Json verifyView(const Look& look)
{
    const auto& verified = look.known().verified;
    Json faults = Json::array();
    if (!verified || (verified->upTo == 0 && look.known().last > 0)) {
        return withSign({{"text", look.say("page.verify.not-yet.text")}, {"faults", faults}}, "unknown",
                        look.say("page.verify.not-yet"));
    }
    for (const ledger::Fault& fault : verified->faults) {
        faults.push_back(fault.sentence);
    }
    const Message text = {"page.verify.text",
                          {{"entries", std::to_string(verified->upTo)},
                           {"of", std::to_string(look.known().last)},
                           {"when", utcText(verified->atMs)}}};
    const bool isWhole = verified->faults.empty();
    return withSign({{"text", look.say(text)}, {"faults", faults}}, isWhole ? "ok" : "stop",
                    look.say(isWhole ? "page.verify.whole" : "page.verify.faults"));
}

} // namespace loopside::page
