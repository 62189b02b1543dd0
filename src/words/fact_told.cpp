// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "words/fact_told.h"

#include "words/digits.h"
#include "words/record_told.h"
#include "words/told.h"

#include <cstdlib>
#include <utility>

namespace loopside::words {

namespace {

std::string joined(const std::vector<std::string>& parts, const char* between)
{
    std::string text;
    for (const std::string& part : parts) {
        text += text.empty() ? part : between + part;
    }
    return text;
}

/// "40 s", "12 min", "26 h", "400 d", whichever is easily read; of either sign the same.
std::string spanText(std::int64_t ms)
{
    constexpr std::int64_t secondMs = 1'000;
    constexpr std::int64_t minuteMs = 60 * secondMs;
    constexpr std::int64_t hourMs = 60 * minuteMs;
    constexpr std::int64_t dayMs = 24 * hourMs;
    const std::int64_t length = std::abs(ms);
    const auto [unit, symbol] = length < 2 * minuteMs ? std::pair(secondMs, " s")
        : length < 2 * hourMs                         ? std::pair(minuteMs, " min")
        : length < 2 * dayMs                          ? std::pair(hourMs, " h")
                                                      : std::pair(dayMs, " d");
    return std::to_string(length / unit) + symbol;
}

/// "+02:00" as in ISO 8601.
std::string offsetText(int minutes)
{
    const int length = std::abs(minutes);
    return (minutes < 0 ? "−" : "+") + twoDigits(length / 60) + ":" + twoDigits(length % 60);
}

class Line
{
public:
    Line(const Words& words, const run::CartRecord& cart) : words_{words}, cart_{cart} {}

    std::string operator()(const run::ReadingLogged& reading) const
    {
        auto parts = gaugeTexts(reading, cart_);
        if (reading.oil) {
            parts.push_back(reading.oil->toText());
        }
        if (reading.flow) {
            parts.push_back(reading.flow->toText());
        }
        return joined(parts, " · ");
    }

    std::string operator()(const run::ModeChanged& changed) const
    {
        const std::string mode = words_.say("mode." + std::string(run::nameOf(changed.mode)));
        return changed.flow ? mode + ", " + changed.flow->toText() : mode;
    }

    std::string operator()(const run::ElementsChanged& changed) const
    {
        return words_.say({"told.elements-new",
                           {{"stage", std::to_string(changed.stage)}, {"elements", std::to_string(changed.elements)}}});
    }

    std::string operator()(const run::SignsSeen& seen) const
    {
        std::vector<std::string> parts;
        for (const std::string& sign : seen.signs) {
            const std::string id = "sign." + sign;
            parts.push_back(words_.has(id) ? words_.say(id) : sign);
        }
        return joined(parts, ", ");
    }

    std::string operator()(const run::Noted& note) const { return note.text; }

    std::string operator()(const run::AttachmentAdded& added) const { return attachedLine(words_, added); }

    std::string operator()(const run::SampleDrawn& sample) const
    {
        return words_.say({"told.sample-drawn", {{"sample", sample.id}}});
    }

    std::string operator()(const run::ClockJumped& jump) const
    {
        return words_.say({jump.byMs < 0 ? "told.clock-back" : "told.clock-forward", {{"time", spanText(jump.byMs)}}});
    }

    std::string operator()(const run::ClockOffsetChanged& offset) const
    {
        return words_.say(
            {"told.clock-offset", {{"from", offsetText(offset.fromMin)}, {"to", offsetText(offset.toMin)}}});
    }

    std::string operator()(const run::TabletRestarted& start) const
    {
        constexpr std::int64_t dayMs = 86'400'000;
        const char* id = start.byMs < 0 ? "told.restarted-back"
            : start.byMs > dayMs        ? "told.restarted-far"
                                        : "told.restarted";
        return words_.say({id, {{"time", spanText(start.byMs)}, {"sure", spanText(start.sureMs)}}});
    }

    std::string operator()(const run::TabletSlept& slept) const
    {
        return words_.say({"told.slept", {{"time", spanText(slept.forMs)}}});
    }

    template<class Other>
    std::string operator()(const Other&) const
    {
        return {};
    }

private:
    const Words& words_;
    const run::CartRecord& cart_;
};

template<class Event, class... Shown>
bool isOneOf(const Event& event)
{
    return (std::holds_alternative<Shown>(event) || ...);
}

} // namespace

std::vector<std::string> gaugeTexts(const run::ReadingLogged& reading, const run::CartRecord& cart)
{
    std::vector<std::string> texts;
    for (std::size_t i = 0; i < reading.gauges.size(); ++i) {
        const auto& gauge = reading.gauges[i];
        const auto* unit = reading.unit != nullptr ? reading.unit : cart.gauges[i].unit;
        const std::string name = "G" + std::to_string(i + 1) + " ";
        texts.push_back(gauge ? name + gauge->low.toText() + (gauge->high ? "–" + gauge->high->toText() : "") + " "
                                + std::string(unit->symbol)
                              : name + "–");
    }
    return texts;
}

bool hasFactLine(const run::Event& event)
{
    return isOneOf<run::Event, run::ReadingLogged, run::ModeChanged, run::ElementsChanged, run::SignsSeen, run::Noted,
                   run::AttachmentAdded, run::SampleDrawn, run::ClockJumped, run::ClockOffsetChanged,
                   run::TabletRestarted, run::TabletSlept>(event);
}

std::string factLine(const Words& words, const run::Event& event, const run::CartRecord& cart)
{
    return std::visit(Line{words, cart}, event);
}

} // namespace loopside::words
