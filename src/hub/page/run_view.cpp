// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "hub/page/run_view.h"

#include "base/text.h"
#include "hub/page/chart.h"
#include "hub/page/levels.h"
#include "ledger/body.h"
#include "report/csv.h"
#include "report/entry_text.h"
#include "report/pictures.h"
#include "run/alert_log.h"
#include "run/run_code.h"
#include "run/stock.h"
#include "words/fact_told.h"
#include "words/oil_told.h"
#include "words/record_told.h"
#include "words/told.h"

#include <algorithm>
#include <ranges>

namespace loopside::page {

namespace {

Json saidOf(const Look& look, const std::vector<Message>& messages)
{
    Json lines = Json::array();
    for (const Message& message : messages) {
        lines.push_back(look.say(message));
    }
    return lines;
}

std::string saidOf(const Look& look, const Message& message)
{
    return message.id.empty() ? std::string() : look.say(message);
}

Json findingsOf(const Look& look, const run::Standing& standing)
{
    Json rows = Json::array();
    for (const run::Finding& finding : standing.findings) {
        rows.push_back({{"sign", run::nameOf(finding.level)},
                        {"text", words::findingSentence(look.words(), finding)},
                        {"do", saidOf(look, finding.act)},
                        {"hazard", saidOf(look, finding.hazard)},
                        {"because", saidOf(look, finding.because)},
                        {"ruledOut", saidOf(look, finding.ruledOut)},
                        {"confirm", saidOf(look, finding.confirm)}});
    }
    return rows;
}

Json alertsOf(const Look& look, const run::RunState& run)
{
    Json rows = Json::array();
    const auto lines = run::alertLogOf(run);
    for (const run::AlertLine& line : std::views::reverse(lines)) {
        std::vector<std::string> became = {look.say({"app.log.raised", {{"time", hoursText(line.raised)}}})};
        if (line.acknowledged) {
            became.push_back(
                look.say({"app.log.acknowledged",
                          {{"time", hoursText(*line.acknowledged)}, {"person", look.nameOf(line.acknowledgedBy)}}}));
        }
        became.push_back(line.why);
        became.push_back(line.returned ? look.say({"app.log.over", {{"time", hoursText(*line.returned)}}})
                                       : look.say(line.isReplaced ? "app.log.replaced" : "app.log.stands"));
        rows.push_back({{"sign", signOf(line.alert)},
                        {"text", words::alertSentence(look.words(), line.alert, line.told)},
                        {"became", joined(became)}});
    }
    return rows;
}

Json stagesOf(const Look& look, const run::RunState& run)
{
    Json rows = Json::array();
    const run::Standing& standing = look.standing(run);
    for (std::size_t i = 0; i < std::min(run.setup.stages.size(), standing.stages.size()); ++i) {
        const Level level = levelOf(look, run, i);
        const auto fill = fillOf(run, standing, i);
        rows.push_back(
            {{"text", words::stageLine(look.words(), standing.stages[i], run.setup.stages[i], static_cast<int>(i) + 1)},
             {"elements", run::elementTypeIn(run, static_cast<int>(i) + 1)},
             {"fill", fill ? Json(*fill) : Json()},
             {"sign", level.sign},
             {"word", level.word}});
    }
    return rows;
}

std::string entryText(const Look& look, const run::RunState& run, const run::Event& event)
{
    return report::entryText(look.words(), run, event, [&](const Id& person) { return look.nameOf(person); });
}

/// "in doubt · put right: first logged …".
std::string markOf(const Look& look, const run::RunState& run, const run::Fact& fact)
{
    std::vector<std::string> marks;
    if (fact.seen != fact.entered) {
        marks.push_back(look.say({"app.logged-at", {{"time", hoursText(fact.entered)}}}));
    }
    if (!fact.struck && run::isHeldBack(fact, look.standing(run).questions)) {
        marks.push_back(look.say("app.level.doubt"));
    }
    if (fact.struck) {
        marks.push_back(look.say("app.logged.struck"));
    } else if (!fact.amendedBy.empty()) {
        marks.push_back(look.say("app.logged.changed"));
        marks.push_back(look.say({"page.entry.first", {{"what", entryText(look, run, fact.original)}}}));
    }
    return joined(marks);
}

Json entriesOf(const Look& look, const run::RunState& run)
{
    Json rows = Json::array();
    for (const run::Fact* fact : report::factsBySeen(run)) {
        const std::string text = entryText(look, run, fact->effective);
        if (!text.empty()) {
            rows.push_back({{"at", hoursText(fact->seen)},
                            {"time", dayAndTime(fact->header.entered)},
                            {"person", look.nameOf(fact->header.person)},
                            {"text", text},
                            {"mark", markOf(look, run, *fact)}});
        }
    }
    return rows;
}

/// Pictures, sounds and the record, each with where its file is.
Json filesOf(const Look& look, const run::RunState& run, const HasFile& hasFile)
{
    Json rows = Json::array();
    for (const auto& told :
         report::attachmentsTold(look.words(), run, [&](const Id& person) { return look.nameOf(person); })) {
        rows.push_back({{"path", "runs/" + toText(run.id) + "/files/" + toText(told.entry)},
                        {"kind", run::nameOf(told.kind)},
                        {"isHere", hasFile(told.entry)},
                        {"text", told.caption}});
    }
    return rows;
}

/// Gauges, unit, oil, flow and ΔP of a set; empty fields for anything else.
std::vector<std::string> setFields(const Look& look, const run::RunState& run, const run::Fact& fact)
{
    const std::size_t gauges = run.setup.cart.gauges.size();
    const std::size_t stages = run.setup.stages.size();
    std::vector<std::string> fields(gauges + 3 + stages);
    const auto* reading = std::get_if<run::ReadingLogged>(&fact.effective);
    if (reading == nullptr) {
        return fields;
    }
    for (std::size_t i = 0; i < std::min(gauges, reading->gauges.size()); ++i) {
        const auto& gauge = reading->gauges[i];
        fields[i] = gauge ? gauge->low.toText() + (gauge->high ? "–" + gauge->high->toText() : "") : std::string();
    }
    const auto& unit = reading->unit != nullptr ? *reading->unit : *run.setup.cart.gauges.front().unit;
    fields[gauges] = std::string(unit.symbol);
    fields[gauges + 1] = reading->oil ? reading->oil->toText() : std::string();
    fields[gauges + 2] = reading->flow ? reading->flow->toText() : std::string();
    for (const run::Moment& moment : look.standing(run).moments) {
        for (std::size_t i = 0; moment.fact == &fact && i < std::min(stages, moment.raw.size()); ++i) {
            fields[gauges + 3 + i] = moment.raw[i] ? moment.raw[i]->toText() : std::string();
        }
    }
    return fields;
}

std::vector<std::string> csvHeader(const run::RunState& run)
{
    std::vector<std::string> header = {"run_time", "utc", "person", "kind", "state"};
    for (std::size_t i = 0; i < run.setup.cart.gauges.size(); ++i) {
        header.push_back("g" + std::to_string(i + 1));
    }
    header.insert(header.end(), {"unit", "oil", "flow"});
    for (std::size_t i = 0; i < run.setup.stages.size(); ++i) {
        header.push_back("dp" + std::to_string(i + 1));
    }
    header.emplace_back("text");
    return header;
}

} // namespace

Json runView(const Look& look, const run::RunState& run, const HasFile& hasFile)
{
    const run::Standing& standing = look.standing(run);
    const bool isClosed = run.phase == run::Phase::Closed;
    const Level level = isClosed ? Level{"done", look.say("app.shift.closed"), 0} : levelOf(look, run);
    const auto& band = isClosed ? run.closed->turnovers : standing.credit.turnovers;
    Json credit = Json::array();
    for (const std::string& line : words::creditLines(look.words(), standing.credit)) {
        credit.push_back(line);
    }
    return {{"id", toText(run.id)},
            {"code", run::codeOf(run.id)},
            {"name", run.setup.tank.name},
            {"detail",
             joined({run.setup.cart.name, words::oilText(look.words(), run::fluidText(run.setup.tank.fluid)),
                     units::shown(run.setup.tank.volume, look.words().wanted())})},
            {"job", run.setup.job},
            {"started", dayAndTime(run.opened.entered)},
            {"person", look.nameOf(run.opened.person)},
            {"mode", isClosed ? std::string() : look.say("mode." + std::string(run::nameOf(standing.mode)))},
            {"next", dueText(look, run)},
            {"sign", level.sign},
            {"word", level.word},
            {"turnovers", words::turnoverLine(look.words(), band, run.setup.target)},
            {"leftOut", credit},
            {"closing", isClosed ? words::closingLine(look.words(), *run.closed) : std::string()},
            {"stages", stagesOf(look, run)},
            {"findings", findingsOf(look, standing)},
            {"alerts", alertsOf(look, run)},
            {"entries", entriesOf(look, run)},
            {"files", filesOf(look, run, hasFile)},
            {"chart", chartOf(look, run)}};
}

std::string runCsv(const Look& look, const run::RunState& run)
{
    std::string csv = report::csvLine(csvHeader(run));
    for (const run::Fact* fact : report::factsBySeen(run)) {
        const std::string state = fact->struck ? "struck" : fact->amendedBy.empty() ? "" : "changed";
        std::vector<std::string> fields = {words::runTimeText(fact->seen), utcText(fact->header.entered.wallMs),
                                           report::asCsvText(look.nameOf(fact->header.person)),
                                           std::string(ledger::kindOf(fact->original)), state};
        for (std::string& field : setFields(look, run, *fact)) {
            fields.push_back(std::move(field));
        }
        fields.push_back(report::asCsvText(entryText(look, run, fact->effective)));
        csv += report::csvLine(fields);
    }
    return csv;
}

} // namespace loopside::page
