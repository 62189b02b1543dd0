// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "run/pace.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <span>

namespace loopside::run {

namespace {

using std::chrono::minutes;

constexpr std::array<RunTime, 7> afterStart = {minutes(2),  minutes(5),  minutes(10), minutes(15),
                                               minutes(30), minutes(45), minutes(60)};
constexpr std::array<RunTime, 2> afterDisturbance = {minutes(2), minutes(5)};
constexpr RunTime longest = minutes(30);
constexpr RunTime aboveHalfLimit = minutes(10);

/// The first mark, counted from `origin`, that is at least the shortest interval away from `now`.
std::optional<RunTime> nextMark(std::span<const RunTime> marks, RunTime origin, RunTime now)
{
    for (const RunTime mark : marks) {
        if (origin + mark >= now + leastInterval) {
            return origin + mark;
        }
    }
    return std::nullopt;
}

RunTime turnoverTime(const Moment& moment, const Setup& setup)
{
    const double seconds = (setup.tank.volume.value() / moment.flow).in(units::second);
    return RunTime{std::llround(std::min(seconds, 1e9) * 1000.0)};
}

bool isAboveHalfLimit(const Moment& moment, const Setup& setup)
{
    for (std::size_t i = 0; i < moment.raw.size(); ++i) {
        const auto& limit = setup.stages[i].changeLimit;
        if (limit && moment.raw[i] && reaches(*moment.raw[i], *limit, 50)) {
            return true;
        }
    }
    return false;
}

RunTime planned(const Moment& moment, const Setup& setup)
{
    const RunTime start = moment.filteringSince.value_or(moment.at);
    RunTime due =
        nextMark(afterStart, start, moment.at).value_or(moment.at + std::min(longest, turnoverTime(moment, setup)));
    if (const auto mark = nextMark(afterDisturbance, moment.disturbedAt.value_or(start), moment.at)) {
        due = std::min(due, *mark);
    }
    if (isAboveHalfLimit(moment, setup)) {
        due = std::min(due, moment.at + aboveHalfLimit);
    }
    return std::max(due, moment.at + leastInterval);
}

/// Whether the start was told against its verdict here, and is not struck.
bool isOverride(const Moment& moment)
{
    const auto* judged = std::get_if<StartTold>(&moment.fact->effective);
    return judged != nullptr && judged->isOverride() && !moment.fact->struck;
}

} // namespace

std::vector<std::optional<RunTime>> dueTimes(const std::vector<Moment>& moments, const Setup& setup,
                                             const std::vector<Question>& questions)
{
    std::vector<std::optional<RunTime>> due;
    due.reserve(moments.size());
    bool isOverridden = false; // the start that comes next
    for (const Moment& moment : moments) {
        const bool isGoodSet = moment.reading != nullptr && !isBlank(*moment.reading)
            && !isHeldBack(*moment.fact, questions) && !isEnteredLate(*moment.fact, questions);
        const bool plansAnew = isGoodSet || moment.disturbedAt == moment.at;
        if (moment.mode != Mode::Filtering) {
            due.emplace_back(std::nullopt);
            isOverridden = isOverridden || isOverride(moment);
        } else if (isOverridden) {
            due.emplace_back(moment.at + afterOverride);
            isOverridden = false;
        } else if (plansAnew || due.empty() || !due.back()) {
            due.emplace_back(planned(moment, setup));
        } else {
            due.push_back(due.back());
        }
    }
    return due;
}

} // namespace loopside::run
