// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "story/plan_json.h"

#include "base/require.h"
#include "words/planned.h"

#include <nlohmann/json.hpp>

namespace loopside::story {

namespace {

using Json = nlohmann::ordered_json;

words::Words english()
{
    auto words = words::Words::in("en");
    require(words.has_value(), "English is always there");
    return *std::move(words);
}

template<class Q>
Json number(const std::optional<Q>& quantity, typename Q::Unit unit)
{
    return quantity ? Json(quantity->in(unit)) : Json();
}

Json textOrNull(const std::string& text)
{
    return text.empty() ? Json() : Json(text);
}

template<class T>
Json orNull(const std::optional<T>& value)
{
    return value ? Json(*value) : Json();
}

Json itemJson(const words::Words& words, const run::ItemJudged& item)
{
    constexpr std::array<std::string_view, 3> fits = {"fits", "over", "unknown"};
    return {{"item", run::nameOf(item.item)},
            {"stage", orNull(item.stage)},
            {"fit", fits.at(static_cast<std::size_t>(item.fit))},
            {"share", orNull(item.share)},
            {"says", words.say(item.told)}};
}

void putVerdict(Json& object, const words::Words& words, const run::StartJudged& start, const run::CartRecord& cart)
{
    const auto* limiting = start.limitingItem();
    object["verdict"] = run::nameOf(start.verdict);
    object["limiting"] = limiting != nullptr ? Json(run::nameOf(limiting->item)) : Json();
    object["limiting_stage"] = limiting != nullptr ? orNull(limiting->stage) : Json();
    object["reason"] = words::verdictReason(words, start, cart, **units::unitNamed<units::Temperature>("°C"));
    object["go_slower_m3_s"] = number(start.slower, units::cubicMetrePerSecond);
    object["go_from"] = Json::array();
    for (const run::GoFrom& from : start.goFrom) {
        object["go_from"].push_back(
            {{"flow_m3_s", from.flow.in(units::cubicMetrePerSecond)},
             {"allowance", from.allowance},
             {"oil_c", from.temperature ? Json(from.temperature->in(units::celsius)) : Json()}});
    }
    object["items"] = Json::array();
    for (const run::ItemJudged& item : start.items) {
        object["items"].push_back(itemJson(words, item));
    }
    object["cautions"] = Json::array();
    for (const Message& message : start.cautions) {
        object["cautions"].push_back(words.say(message));
    }
    object["assumed"] = Json::array();
    for (const Message& message : start.assumed) {
        object["assumed"].push_back(words.say(message));
    }
    object["heating_k_per_h"] = orNull(start.heating_k_per_h);
}

void putStages(Json& object, const std::vector<run::StagePlan>& stages)
{
    for (const char* key : {"clean_dp_pa", "clean_dp_why", "room", "limits", "sets"}) {
        object[key] = Json::array();
    }
    for (const run::StagePlan& stage : stages) {
        Json limits = Json::array();
        for (const auto& finding : stage.limits) {
            limits.push_back(finding.sentence);
        }
        object["clean_dp_pa"].push_back(number(stage.cleanDp, units::pascal));
        object["clean_dp_why"].push_back(textOrNull(stage.why));
        object["room"].push_back(orNull(stage.room));
        object["sets"].push_back(orNull(stage.sets));
        object["limits"].push_back(std::move(limits));
    }
}

Json suitJson(const filtration::Suit& suit)
{
    return {{"subject", filtration::nameOf(suit.subject)},
            {"stage", orNull(suit.stage)},
            {"level", filtration::nameOf(suit.level)},
            {"says", suit.sentence},
            {"source", textOrNull(suit.source)}};
}

} // namespace

std::optional<run::TypedTemperature> firstOilTemperature(const Story& story)
{
    for (const auto& entry : story.entries) {
        for (const auto& step : entry.steps) {
            const auto* said = std::get_if<run::Said>(&step);
            const auto* reading = said != nullptr ? std::get_if<run::ReadingLogged>(said) : nullptr;
            if (reading != nullptr && reading->oil) {
                return reading->oil;
            }
        }
    }
    return std::nullopt;
}

Json planJson(const run::Setup& setup, const std::optional<run::TypedTemperature>& oil)
{
    const run::Plan plan = run::planOf(setup, oil ? std::optional(oil->value()) : std::nullopt);
    const words::Words words = english();
    Json object = {{"oil_c", oil ? Json(oil->value().in(units::celsius)) : Json()},
                   {"viscosity_m2_s", number(plan.viscosity, units::squareMetrePerSecond)},
                   {"viscosity_why", textOrNull(plan.viscosityWhy)},
                   {"caution", orNull(plan.caution)},
                   {"turnover_s", plan.turnover.in(units::second)},
                   {"run_s", number(plan.run, units::second)}};
    putVerdict(object, words, plan.start, setup.cart);
    putStages(object, plan.stages);
    object["gauges_pa"] = Json::array();
    for (const auto& gauge : plan.start.gauges) {
        object["gauges_pa"].push_back(number(gauge, units::pascal));
    }
    object["code"] = plan.code ? Json{{"turnovers", orNull(plan.code->turnovers)},
                                      {"run_s", number(plan.code->run, units::second)},
                                      {"why", textOrNull(plan.code->why)}}
                               : Json();
    object["tank"] = {{"at_level_l", number(plan.tank.atLevel, units::litre)},
                      {"level_fall_m", number(plan.tank.fall, units::metre)},
                      {"free_l", plan.tank.headSpace ? Json(plan.tank.headSpace->free.in(units::litre)) : Json()}};
    object["water"] = plan.water ? Json{{"in_oil_l", plan.water->water.in(units::litre)},
                                        {"capacity_l", number(plan.water->capacity, units::litre)},
                                        {"sets_more", plan.water->setsMore}}
                                 : Json();
    object["suits"] = Json::array();
    for (const filtration::Suit& suit : plan.suits) {
        object["suits"].push_back(suitJson(suit));
    }
    return object;
}

} // namespace loopside::story
