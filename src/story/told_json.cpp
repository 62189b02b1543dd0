// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "story/told_json.h"

#include "base/text.h"
#include "run/alert.h"
#include "story/plan_json.h"
#include "story/proof_json.h"
#include "words/told.h"

#include <nlohmann/json.hpp>

#include <algorithm>

namespace loopside::story {

namespace {

using Json = nlohmann::ordered_json;

template<class Value, class Read>
Json perStage(const std::vector<run::StageDrop>& drops, std::size_t stages, Value run::StageDrop::* part, Read read)
{
    Json list = Json::array();
    for (std::size_t i = 0; i < stages; ++i) {
        const bool isKnown = i < drops.size() && drops[i].*part;
        list.push_back(isKnown ? Json(read(*(drops[i].*part))) : Json());
    }
    return list;
}

void putStages(Json& object, const Told& told)
{
    const std::size_t stages = told.run.setup.stages.size();
    std::vector<run::StageDrop> drops;
    if (const run::Moment* reading = told.reading()) {
        drops = run::dropsAt(*reading, told.run);
    }
    const auto pascals = [](units::Pressure pressure) { return pressure.in(units::pascal); };
    object["dp_pa"] = perStage(drops, stages, &run::StageDrop::raw,
                               [&](const run::ExactPressure& raw) { return pascals(raw.value()); });
    object["dp_standing_pa"] = perStage(drops, stages, &run::StageDrop::standing, pascals);
    object["dp_reading_pa"] = perStage(drops, stages, &run::StageDrop::reading, pascals);
    object["dp_corrected_pa"] = perStage(drops, stages, &run::StageDrop::corrected, pascals);
    object["loading"] = perStage(drops, stages, &run::StageDrop::loading, [](double loading) { return loading; });
}

Json secondsJson(const std::optional<run::RunTime>& time)
{
    return time ? Json(static_cast<double>(time->count()) / 1000.0) : Json();
}

Json forecastJson(const Told& told, const words::Words& words)
{
    Json list = Json::array();
    for (std::size_t i = 0; i < told.run.setup.stages.size(); ++i) {
        const run::Outlook none{.stage = static_cast<int>(i) + 1, .why = {"forecast.no-reading", {}}};
        const auto& outlooks = told.standing.outlooks;
        const run::Outlook& outlook = i < outlooks.size() ? outlooks[i] : none;
        list.push_back({{"stage", outlook.stage},
                        {"state", run::nameOf(outlook.state)},
                        {"why", words.say(outlook.why)},
                        {"t10_s", secondsJson(outlook.limitAt.t10)},
                        {"t50_s", secondsJson(outlook.limitAt.t50)},
                        {"t90_s", secondsJson(outlook.limitAt.t90)},
                        {"p_before_target", outlook.pBeforeTarget ? Json(*outlook.pBeforeTarget) : Json()},
                        {"phase", outlook.phase ? Json(*outlook.phase) : Json()},
                        {"past_loadings", outlook.pastLoadings}});
    }
    return list;
}

std::string clockText(run::RunTime time)
{
    const auto seconds = std::chrono::duration_cast<std::chrono::seconds>(time).count();
    const auto two = [](auto number) { return (number < 10 ? "0" : "") + std::to_string(number); };
    return two(seconds / 3600) + ":" + two(seconds / 60 % 60) + ":" + two(seconds % 60);
}

Json said(const std::vector<Message>& messages, const words::Words& words)
{
    Json list = Json::array();
    for (const Message& message : messages) {
        list.push_back(words.say(message));
    }
    return list;
}

Json findingsJson(const Told& told, const words::Words& words)
{
    Json list = Json::array();
    for (const run::Finding& finding : told.standing.findings) {
        list.push_back({{"id", finding.id},
                        {"stage", finding.stage ? Json(*finding.stage) : Json()},
                        {"level", run::nameOf(finding.level)},
                        {"since", clockText(finding.since)},
                        {"confidence", run::nameOf(finding.confidence)},
                        {"because", said(finding.because, words)},
                        {"ruled_out", said(finding.ruledOut, words)},
                        {"confirm", said(finding.confirm, words)},
                        {"do", words.say(finding.act)}});
    }
    return list;
}

Json questionsJson(const Told& told)
{
    Json list = Json::array();
    for (const run::Question& question : told.standing.questions) {
        const auto at = told.timeOf.find(question.of->header.id);
        list.push_back({{"id", question.id},
                        {"of", at == told.timeOf.end() ? Json() : Json(at->second)},
                        {"gauge", question.gauge ? Json(*question.gauge) : Json()},
                        {"answered", question.answer != nullptr}});
    }
    return list;
}

Json alertsJson(const run::RunState& run)
{
    std::vector<run::Alert> alerts = run.alerts;
    std::stable_sort(alerts.begin(), alerts.end(), [](const run::Alert& a, const run::Alert& b) {
        return run::priorityOf(a.id) > run::priorityOf(b.id);
    });
    Json list = Json::array();
    for (const run::Alert& alert : alerts) {
        Json object = {{"id", run::nameOf(alert.id)},
                       {"stage", alert.stage ? Json(*alert.stage) : Json()},
                       {"priority", run::nameOf(run::priorityOf(alert.id))},
                       {"state", run::nameOf(alert.state)}};
        if (alert.asToldThen) {
            object["as_told_then"] = true;
        }
        list.push_back(std::move(object));
    }
    return list;
}

double secondsOf(run::RunTime time)
{
    return static_cast<double>(time.count()) / 1000.0;
}

bool isRange(const Json& expected)
{
    return expected.is_array() && expected.size() == 2 && expected[0].is_number() && expected[1].is_number();
}

/// Where `got` is not as `expected`, or nothing. An object may tell more than is expected of it; two numbers in a list
/// are a range for one number.
std::optional<std::string> difference(const Json& expected, const Json& got, const std::string& place)
{
    const auto differs = [&] { return place + " is " + got.dump() + ", expected " + expected.dump(); };
    if (isRange(expected) && got.is_number()) {
        const double value = got.get<double>();
        const bool fits = value >= expected[0].get<double>() && value <= expected[1].get<double>();
        return fits ? std::nullopt : std::optional(differs());
    }
    if (!expected.is_structured() || expected.type() != got.type()
        || (expected.is_array() && expected.size() != got.size())) {
        return expected == got ? std::nullopt : std::optional(differs());
    }
    for (const auto& [key, value] : expected.items()) {
        const Json part = expected.is_array() ? got[std::stoul(key)] : got.value(key, Json());
        if (auto fault = difference(value, part, place + "." + key)) {
            return fault;
        }
    }
    return std::nullopt;
}

/// Looks one expectation up in what was told.
class Checker
{
public:
    Checker(const Expectation& expected, const Json& told) : expected_{expected}, told_{told} {}

    /// Why it is not met, or nothing.
    [[nodiscard]] std::optional<std::string> fault() const
    {
        const std::string& key = expected_.key;
        if (key == "alert" || key == "no_alert") {
            return presence("alerts", key == "alert");
        }
        if (key == "question" || key == "no_question") {
            return presence("questions", key == "question");
        }
        if (key == "finding" || key == "no_finding") {
            return presence("findings", key == "finding");
        }
        if (key == "turnovers") {
            return inRange(told_["turnovers"][expected_.bound]);
        }
        if (key == "loading") {
            return inRange(told_["loading"].at(static_cast<std::size_t>(expected_.stage.value_or(1)) - 1));
        }
        if (key == "next_reading_s") {
            return inRange(told_["next_reading_s"]);
        }
        if (key == "proof") {
            return difference(Json::parse(ledger::toJson(expected_.value)), told_["proof"], key);
        }
        if (key == "forecast") {
            return forecastFault();
        }
        return "\"" + key + "\" cannot be checked by this version";
    }

private:
    /// An object tells some of the members, ranges for numbers; a text is the state. The stage stands beside it or in
    /// it.
    [[nodiscard]] std::optional<std::string> forecastFault() const
    {
        Json expected = Json::parse(ledger::toJson(expected_.value));
        if (expected.is_string()) {
            expected = {{"state", expected}};
        }
        const int stage = expected_.stage ? *expected_.stage : expected.value("stage", 1);
        const Json& all = told_["forecast"];
        const auto index = static_cast<std::size_t>(stage) - 1;
        return index < all.size() ? difference(expected, all[index], "forecast")
                                  : "there is no stage " + std::to_string(stage) + " to forecast";
    }

    [[nodiscard]] bool isIt(const Json& object) const
    {
        const bool stageFits = !expected_.stage || object.value("stage", Json()) == *expected_.stage;
        const bool stands = object.value("state", "") != "returned" && !object.value("answered", false);
        return object["id"] == expected_.id && stageFits && stands;
    }

    [[nodiscard]] std::optional<std::string> presence(const char* list, bool wanted) const
    {
        const Json& all = told_[list];
        const bool isThere = std::any_of(all.begin(), all.end(), [&](const Json& object) { return isIt(object); });
        if (isThere == wanted) {
            return std::nullopt;
        }
        return expected_.key + " " + expected_.id + " is not met; told was " + all.dump();
    }

    [[nodiscard]] std::optional<std::string> inRange(const Json& value) const
    {
        const auto [from, to] = *expected_.range;
        if (value.is_number() && value.get<double>() >= from && value.get<double>() <= to) {
            return std::nullopt;
        }
        return expected_.key + " is " + value.dump() + ", expected from " + fixed(from, 3) + " to " + fixed(to, 3);
    }

    const Expectation& expected_;
    const Json& told_;
};

} // namespace

Json toldJson(const Told& told, const words::Words& words)
{
    const run::RunTime at = told.entry != nullptr ? told.entry->seen : told.standing.now;
    Json object;
    object["at"] = told.entry != nullptr ? told.entry->at : clockText(at);
    object["t_s"] = secondsOf(at);
    if (told.entry == nullptr) {
        object["cause"] = "time";
    } else if (told.entry->entered != told.entry->seen) {
        object["entered_t_s"] = secondsOf(told.entry->entered);
    }
    object["mode"] = run::nameOf(told.standing.mode);
    object["run"] = run::nameOf(told.run.phase);
    putStages(object, told);
    const run::TurnoverBand& band = told.standing.credit.turnovers;
    object["turnovers"] = {{"low", band.low}, {"best", band.best}, {"high", band.high}};
    object["filtered_l"] = told.standing.credit.filtered.in(units::litre);
    object["forecast"] = forecastJson(told, words);
    object["findings"] = findingsJson(told, words);
    object["questions"] = questionsJson(told);
    object["alerts"] = alertsJson(told.run);
    const auto next = told.standing.nextReadingIn();
    object["next_reading_s"] = next ? Json(secondsOf(*next)) : Json();
    object["proof"] = proofJson(told, words);
    return object;
}

std::vector<std::string> unmet(const Story& story, const std::vector<Json>& told)
{
    std::vector<std::string> faults;
    for (const Expectation& expected : story.expectations) {
        const auto at = std::find_if(told.rbegin(), told.rend(), [&](const Json& object) {
            return !expected.at || object["t_s"].get<double>() <= secondsOf(*expected.at);
        });
        std::optional<std::string> fault;
        if (expected.key == "plan") {
            fault = difference(Json::parse(ledger::toJson(expected.value)),
                               planJson(story.setup, firstOilTemperature(story)), "plan");
        } else if (at == told.rend()) {
            fault = "nothing was told up to then";
        } else {
            fault = Checker(expected, *at).fault();
        }
        if (fault) {
            faults.push_back(expected.place + ": " + *fault);
        }
    }
    return faults;
}

} // namespace loopside::story
