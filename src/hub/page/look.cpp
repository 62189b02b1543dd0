// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "hub/page/look.h"

#include "base/text.h"
#include "words/digits.h"
#include "words/outlook_told.h"

#include <algorithm>
#include <cstdlib>

namespace loopside::page {

void Standings::goOn(std::shared_ptr<const Known> known)
{
    const std::lock_guard lock(mutex_);
    if (known->changes != known_->changes) {
        kept_.clear(); // another record altogether
    }
    known_ = std::move(known);
}

std::shared_ptr<const run::Standing> Standings::of(const run::RunState& run, const Stamp& now)
{
    constexpr std::int64_t freshMs = 15'000;
    const std::lock_guard lock(mutex_);
    Kept& kept = kept_[run.id];
    const auto found = known_->changes->find(run.id);
    const std::uint64_t change = found == known_->changes->end() ? 0 : found->second;
    const bool isOver = run.phase == run::Phase::Closed;
    const bool isOld = kept.change != change || (!isOver && std::abs(now.wallMs - kept.atMs) >= freshMs);
    if (kept.standing == nullptr || isOld) {
        const run::RunTime time = run.clock.at(now, known_->device);
        kept = {now.wallMs, change, std::make_shared<const run::Standing>(run::standingOf(run, time))};
    }
    return kept.standing;
}

const run::Standing& Look::standing(const run::RunState& run) const
{
    auto& held = held_[run.id];
    if (held == nullptr) {
        held = standings_.of(run, now_);
    }
    return *held;
}

std::string Look::nameOf(const Id& person) const
{
    for (const auto* people : {&known_.site.people, &known_.site.peopleOut}) {
        const auto found = std::ranges::find(*people, person, &site::SitePerson::id);
        if (found != people->end()) {
            return found->name;
        }
    }
    constexpr std::size_t shownDigits = 8;
    return person.isNone() ? std::string() : toText(person).substr(0, shownDigits);
}

std::string dayText(const Stamp& stamp)
{
    constexpr std::size_t dayDigits = 10;
    constexpr std::int64_t minuteMs = 60'000;
    return utcText(stamp.wallMs + stamp.offsetMin * minuteMs).substr(0, dayDigits);
}

std::string dayAndTime(const Stamp& stamp)
{
    return dayText(stamp) + " " + words::clockText(stamp);
}

std::string hoursText(run::RunTime time)
{
    const auto minutes = std::chrono::duration_cast<std::chrono::minutes>(time).count();
    return std::to_string(minutes / 60) + ":" + words::twoDigits(static_cast<int>(minutes % 60));
}

} // namespace loopside::page
