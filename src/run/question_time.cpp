// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// When a set is said to have been read. A set of which nobody said so was read when it was entered, by a clock that
// does not jump, and is never asked about here unless it lies behind the close. Times of different devices are not
// compared: two people may log one run.

#include "run/question_rules.h"

#include <algorithm>
#include <set>
#include <span>

namespace loopside::run {

namespace {

constexpr std::size_t several = 3; ///< Sets. Our choice: two are one missed and the present one.
constexpr RunTime withinAMinute = std::chrono::minutes(1); ///< From the first to the last of the several.
constexpr RunTime oldFrom = std::chrono::minutes(2);       ///< Between reading and entering a set. Our choice.

std::string minutesText(RunTime time)
{
    return std::to_string(std::chrono::duration_cast<std::chrono::minutes>(time).count());
}

using SetsOfDevice = std::vector<const Fact*>; ///< In the order in which they were entered.

std::map<Id, SetsOfDevice> setsByDevice(const RunState& run)
{
    std::map<Id, SetsOfDevice> devices;
    for (const Fact& fact : run.facts) {
        if (std::holds_alternative<ReadingLogged>(fact.effective) && !fact.struck) {
            devices[fact.header.device].push_back(&fact);
        }
    }
    for (auto& [device, sets] : devices) {
        std::stable_sort(sets.begin(), sets.end(),
                         [](const Fact* a, const Fact* b) { return a->entered < b->entered; });
    }
    return devices;
}

bool isOld(const Fact* fact)
{
    return fact->entered - fact->seen >= oldFrom;
}

/// The old sets of one device that were entered in a row of several within a minute.
std::set<const Fact*> lateOf(const SetsOfDevice& sets)
{
    SetsOfDevice old;
    std::copy_if(sets.begin(), sets.end(), std::back_inserter(old), isOld);
    std::set<const Fact*> late;
    for (std::size_t last = several - 1; last < old.size(); ++last) {
        const auto row = std::span(old).subspan(last + 1 - several, several);
        if (row.back()->entered - row.front()->entered <= withinAMinute) {
            late.insert(row.begin(), row.end());
        }
    }
    return late;
}

/// What is odd about the time of a set after `before`, the one entered before it on its device, if there is one.
std::optional<Question> oddTime(const Fact& set, const Fact* before, const RunState& run)
{
    const RunTime ago{set.header.observed.agoMs};
    Question asked{.id = timeOrder, .of = &set};
    if (ago < RunTime{0}) {
        asked.variant = "future";
        asked.arguments = {{"minutes", minutesText(-ago)}};
    } else if (ago > set.entered) {
        asked.variant = "before-run";
        asked.arguments = {{"minutes", minutesText(ago)}};
    } else if (run.phase == Phase::Closed && set.seen > run.closedAt) {
        asked.variant = "after-run";
    } else if (before != nullptr && set.seen < before->seen) {
        asked.variant = "earlier";
        asked.arguments = {{"minutes", minutesText(before->seen - set.seen)}};
    } else {
        return std::nullopt;
    }
    return asked;
}

} // namespace

std::map<const Fact*, Question> askTimes(const RunState& run)
{
    std::map<const Fact*, Question> questions;
    for (const auto& [device, sets] : setsByDevice(run)) {
        const std::set<const Fact*> late = lateOf(sets);
        const Fact* before = nullptr;
        for (const Fact* set : sets) {
            auto odd = oddTime(*set, before, run);
            if (late.contains(set) && (!odd || odd->variant == "earlier")) { // written up from paper: no slip
                odd = Question{.id = enteredLate, .of = set};
                odd->arguments = {{"sets", std::to_string(late.size())}};
            }
            if (odd) {
                questions.emplace(set, *std::move(odd));
            }
            before = set;
        }
    }
    return questions;
}

} // namespace loopside::run
