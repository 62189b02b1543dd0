// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "words/outlook_told.h"

#include "words/digits.h"

#include <algorithm>
#include <cmath>

namespace loopside::words {

namespace {

using std::chrono::minutes;

constexpr const char* noBreak = "\u00A0";
constexpr std::int64_t minutesOfDay = std::int64_t{24} * 60;

/// Minutes of the local wall clock since 1970.
std::int64_t localMinutes(const Stamp& stamp, double (*round)(double))
{
    return static_cast<std::int64_t>(round(static_cast<double>(stamp.wallMs) / 60000.0)) + stamp.offsetMin;
}

std::int64_t dayOf(std::int64_t localMinute)
{
    return (localMinute - ((localMinute % minutesOfDay) + minutesOfDay) % minutesOfDay) / minutesOfDay;
}

std::string clockText(std::int64_t localMinute)
{
    const std::int64_t ofDay = ((localMinute % minutesOfDay) + minutesOfDay) % minutesOfDay;
    return twoDigits(ofDay / 60) + ":" + twoDigits(ofDay % 60);
}

/// The times of one outlook as text.
class Times
{
public:
    Times(const run::Outlook& outlook, const run::RunState& run) : outlook_{outlook}, run_{run}
    {
        const run::TimeRange& range = outlook.limitAt;
        const run::RunTime wide = range.t10 && range.t90 ? *range.t90 - *range.t10 : run::RunTime::max();
        step_ = wide <= minutes(30) ? 1 : wide <= minutes(180) ? 5 : 15;
    }

    [[nodiscard]] std::string low() const { return text(outlook_.limitAt.t10, std::floor); }
    [[nodiscard]] std::string middle() const { return text(outlook_.limitAt.t50, std::round); }
    [[nodiscard]] std::string high() const { return text(outlook_.limitAt.t90, std::ceil); }

private:
    /// "14:20", or "02:10 +1 d" where that is another day than the one of the forecast; a line never ends inside. Never
    /// before the forecast.
    [[nodiscard]] std::string text(const std::optional<run::RunTime>& time, double (*round)(double)) const
    {
        if (!time) {
            return {};
        }
        const std::int64_t exact = localMinutes(run_.clock.stampAt(*time), round);
        const std::int64_t now = localMinutes(run_.clock.stampAt(outlook_.asOf), std::floor);
        const auto steps = static_cast<std::int64_t>(round(static_cast<double>(exact) / static_cast<double>(step_)));
        const std::int64_t minute = std::max(now, steps * step_);
        const std::int64_t days = dayOf(minute) - dayOf(now);
        return clockText(minute) + (days > 0 ? std::string(noBreak) + "+" + std::to_string(days) + noBreak + "d" : "");
    }

    const run::Outlook& outlook_;
    const run::RunState& run_;
    std::int64_t step_ = 1;
};

/// Which of three quantiles are told.
std::string rangeVariant(const run::TimeRange& range)
{
    return !range.t10 ? "beyond" : !range.t50 ? "hardly-before" : !range.t90 ? "no-latest" : "range";
}

std::string limitOf(const run::Outlook& outlook, const run::RunState& run)
{
    const auto& limit = run.setup.stages[static_cast<std::size_t>(outlook.stage - 1)].changeLimit;
    return limit ? limit->toText() : std::string();
}

std::vector<Message::Argument> argumentsOf(const run::Outlook& outlook, const run::RunState& run)
{
    const Times times(outlook, run);
    return {{"stage", std::to_string(outlook.stage)},
            {"limit", limitOf(outlook, run)},
            {"low", times.low()},
            {"middle", times.middle()},
            {"high", times.high()}};
}

bool hasRange(const run::Outlook& outlook)
{
    return outlook.state == forecast::State::Early || outlook.state == forecast::State::Forecast;
}

/// "1 spare set, fetch 1. "; nothing where none is needed or nobody counted.
std::string sparesText(const Words& words, const run::Outlook& outlook)
{
    if (!outlook.spareSets || outlook.setsNeeded <= 0) {
        return {};
    }
    const int missing = outlook.setsNeeded - *outlook.spareSets;
    return words.say(
               {missing > 0 ? "outlook.spares.fetch" : "outlook.spares.enough",
                {{"spares", std::to_string(*outlook.spareSets)}, {"fetch", std::to_string(std::max(missing, 0))}}})
        + " ";
}

} // namespace

std::string clockText(const Stamp& stamp)
{
    return clockText(localMinutes(stamp, std::floor));
}

std::string chanceText(const Words& words, double probability)
{
    const long percent = std::lround(probability * 100.0);
    if (probability < 0.01 || percent < 1) {
        return words.say({"outlook.under", {{"percent", "1"}}});
    }
    if (probability > 0.99 || percent > 99) {
        return words.say({"outlook.over", {{"percent", "99"}}});
    }
    return words.say({"outlook.percent", {{"percent", std::to_string(percent)}}});
}

std::string outlookBrief(const Words& words, const run::Outlook& outlook, const run::RunState& run)
{
    Message message{"outlook."
                        + (hasRange(outlook) ? rangeVariant(outlook.limitAt) : std::string(run::nameOf(outlook.state))),
                    argumentsOf(outlook, run)};
    if (!outlook.pBeforeTarget || outlook.state == forecast::State::Reached || outlook.state == forecast::State::None) {
        return words.say(message) + ".";
    }
    const char* chance = hasRange(outlook) ? "outlook.chance" : "outlook.chance.not-before-target";
    return words.say(message) + words.say({chance, {{"chance", chanceText(words, *outlook.pBeforeTarget)}}}) + ".";
}

std::string outlookCaveat(const Words& words, const run::Outlook& outlook, const run::Standing& standing)
{
    if (outlook.state == forecast::State::None) {
        return words.say(outlook.why);
    }
    std::string told = sparesText(words, outlook);
    told += outlook.state == forecast::State::Early ? words.say("outlook.may-move") + " " : "";
    const auto* last = standing.lastReading;
    if (outlook.state != forecast::State::Reached && last != nullptr && last->reading->oil) {
        told += words.say({"outlook.oil", {{"oil", last->reading->oil->toText()}}}) + " ";
    }
    return told + words.say("outlook.check");
}

std::string outlookSentence(const Words& words, const run::Outlook& outlook, const run::RunState& run,
                            const run::Standing& standing)
{
    return outlookBrief(words, outlook, run) + " " + outlookCaveat(words, outlook, standing);
}

std::string outlookLabel(const Words& words, const run::Outlook& outlook, const run::RunState& run)
{
    std::string id = std::string(run::nameOf(outlook.state));
    if (hasRange(outlook)) {
        const std::string variant = rangeVariant(outlook.limitAt);
        id = variant == "range" && outlook.state == forecast::State::Early ? "range-early" : variant;
    }
    return words.say({"outlook.label." + id, argumentsOf(outlook, run)});
}

} // namespace loopside::words
