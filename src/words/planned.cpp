// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "words/planned.h"

#include "base/text.h"

#include <algorithm>
#include <cmath>

namespace loopside::words {

namespace {

/// Rounded down to a tenth: a flow at which it goes must not be one at which it does not.
std::string flowText(units::Flow flow, const run::CartRecord& cart)
{
    const auto& unit = cart.flow.unit();
    return fixed(std::floor(flow.in(unit.unit) * 10.0 + 1e-6) / 10.0, 1) + " " + std::string(unit.symbol);
}

std::string temperatureText(units::Temperature temperature, const TemperatureUnit& unit)
{
    return fixed(std::ceil(temperature.in(unit.unit)), 0) + " " + std::string(unit.symbol);
}

/// The easiest way to go: the lowest flow, planned with what couplings and strainer take.
const run::GoFrom* easiest(const run::StartJudged& start)
{
    const auto& all = start.goFrom;
    const auto found = std::min_element(all.begin(), all.end(), [](const run::GoFrom& a, const run::GoFrom& b) {
        return std::pair(a.allowance, a.flow) < std::pair(b.allowance, b.flow);
    });
    return found == all.end() ? nullptr : &*found;
}

} // namespace

std::string verdictWord(const Words& words, run::Verdict verdict)
{
    return words.say("plan.verdict." + std::string(run::nameOf(verdict)));
}

std::string verdictReason(const Words& words, const run::StartJudged& start, const run::CartRecord& cart,
                          const TemperatureUnit& unit)
{
    Message message{"plan.reason." + std::string(run::nameOf(start.verdict)), {}};
    if (const auto* item = start.limitingItem()) {
        message.arguments.emplace_back("limiting", words.say(item->told));
    }
    if (start.verdict == run::Verdict::Go) {
        message.arguments.emplace_back("flow", cart.flow.toText());
    }
    if (start.slower) {
        message.arguments.emplace_back("slower", flowText(*start.slower, cart));
    }
    const auto* way = easiest(start);
    if (start.verdict == run::Verdict::Warm && way != nullptr && way->temperature) {
        message.arguments.emplace_back("temperature", temperatureText(*way->temperature, unit));
        message.arguments.emplace_back("flow", flowText(way->flow, cart));
    }
    std::string reason = words.say(message);
    if (start.verdict == run::Verdict::Go && !start.cautions.empty()) {
        reason += " " + words.say({"plan.reason.settle", {{"caution", words.say(start.cautions.front())}}});
    }
    return reason;
}

std::string itemName(const Words& words, const run::ItemJudged& item)
{
    return words.say(
        {"plan.item." + std::string(run::nameOf(item.item)), {{"stage", std::to_string(item.stage.value_or(0))}}});
}

std::string goFromLine(const Words& words, const run::GoFrom& from, const run::CartRecord& cart,
                       const TemperatureUnit& unit)
{
    Message message{from.allowance < 1.0 ? "plan.go-from" : "plan.go-from.bare", {{"flow", flowText(from.flow, cart)}}};
    if (from.temperature) {
        message.arguments.emplace_back("temperature", temperatureText(*from.temperature, unit));
    } else {
        message.id = "plan.go-from.never";
    }
    return words.say(message);
}

} // namespace loopside::words
