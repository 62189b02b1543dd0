// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "practice/simulate.h"

#include "base/require.h"
#include "run/drop.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace loopside::practice {

using run::Mode;
using run::RunTime;
using units::Duration;
using units::minute;
using units::second;

namespace {

constexpr std::array<double, 7> afterFirstStartMin = {2.0, 5.0, 10.0, 15.0, 30.0, 45.0, 60.0};
constexpr std::array<double, 3> afterStartMin = {0.25, 2.0, 5.0}; ///< A quarter of a minute: the needles settle.
constexpr Duration longest = 30.0 * minute;
constexpr Duration aboveHalfLimit = 10.0 * minute;
constexpr Duration leastInterval = 1.0 * minute;
constexpr int sparesPerStage = 3;
constexpr Duration pumpOffCheck = 1.0 * minute;

RunTime asRunTime(Duration time)
{
    return RunTime{std::llround(time.in(second) * 1e3)};
}

/// When somebody who reads at `now` plans to read next.
class Schedule
{
public:
    Schedule(Duration turnover, Duration start) : turnover_{turnover}, first_{start}, last_{start} {}

    void started(Duration now) { last_ = now; }

    [[nodiscard]] Duration next(Duration now, bool isAboveHalf) const
    {
        Duration due = now + std::min(longest, turnover_);
        if (now - first_ < afterFirstStartMin.back() * minute) {
            due = mark(afterFirstStartMin, first_, now).value_or(due);
        }
        if (const auto restart = mark(afterStartMin, last_, now); restart && last_ > first_) {
            due = std::min(due, *restart);
        }
        return std::max(isAboveHalf ? std::min(due, now + aboveHalfLimit) : due, now + leastInterval);
    }

private:
    template<std::size_t Size>
    static std::optional<Duration> mark(const std::array<double, Size>& minutes, Duration from, Duration now)
    {
        const auto found = std::ranges::find_if(minutes,
                                                [&](double m) { return from + m * minute > now + 1.0 * second; });
        return found == minutes.end() ? std::nullopt : std::optional(from + *found * minute);
    }

    Duration turnover_;
    Duration first_;
    Duration last_;
};

/// One run being lived through.
class Person
{
public:
    Person(const Scenario& scenario, PracticeCart cart)
        : scenario_{scenario},
          cart_{std::move(cart)},
          chance_{scenario.seed, 3000U},
          rated_{scenario.setup.cart.flow.value()},
          target_{scenario.setup.tank.volume.value() * scenario.setup.target.turnovers->toDouble()},
          faults_{scenario.faults},
          changes_(scenario.stages.size()),
          simulated_{.setup = scenario.setup}
    {
        std::ranges::stable_sort(faults_, {}, &FaultAt::at);
    }

    Simulated live()
    {
        say(run::ModeChanged{Mode::Stopped});
        if (scenario_.reader.checksPumpOff) {
            read();
            pass(pumpOffCheck);
        }
        switchTo(Mode::Filtering);
        Schedule schedule(scenario_.setup.tank.volume.value() / rated_, cart_.now());
        Duration due = schedule.next(cart_.now(), false);
        while (due < targetAt()) {
            pass(due - cart_.now());
            if (chance_.happens(scenario_.reader.missesShare)) {
                due = schedule.next(due, false);
                continue;
            }
            const Duration late = std::min(chance_.waiting(1.0) * scenario_.reader.meanLate, targetAt() - cart_.now());
            pass(late);
            const std::vector<int> percent = percentOfLimits(read());
            if (changeWhatIsAtLimit(percent)) {
                schedule.started(cart_.now());
            }
            due = schedule.next(cart_.now(), std::ranges::any_of(percent, [](int p) { return p >= 50; }));
        }
        pass(targetAt() - cart_.now());
        return end();
    }

private:
    void say(run::Said what) { simulated_.entries.push_back({asRunTime(cart_.now()), std::move(what)}); }

    /// Lets time pass, with the faults that come in it. Times are kept to the millisecond, as entries are.
    void pass(Duration time)
    {
        const Duration until = std::round((cart_.now() + time).in(second) * 1e3) * 1e-3 * second;
        const bool filters = cart_.modeTold() == Mode::Filtering;
        counted_ += filters ? rated_ * (until - cart_.now()) : units::Volume{};
        while (!faults_.empty() && faults_.front().at <= until) {
            advance(std::max(faults_.front().at - cart_.now(), Duration{}));
            const Done done = cart_.inflict(faults_.front().fault);
            require(done.has_value(), "a fault of a checked scenario can happen");
            faults_.erase(faults_.begin());
        }
        advance(std::max(until - cart_.now(), Duration{}));
    }

    void advance(Duration time)
    {
        const Done done = cart_.advance(time);
        require(done.has_value(), "a run of a checked scenario goes on");
    }

    void switchTo(Mode mode)
    {
        const Done done = cart_.setMode(mode);
        require(done.has_value(), "a mode without a flow can be set");
        say(run::ModeChanged{mode});
    }

    run::ReadingLogged read()
    {
        run::ReadingLogged reading = cart_.readGauges();
        simulated_.truth.atReadings.push_back(cart_.truth());
        say(reading);
        return reading;
    }

    /// 0, 50 or 100 for each stage, as read.
    [[nodiscard]] std::vector<int> percentOfLimits(const run::ReadingLogged& reading) const
    {
        std::vector<int> percent;
        const auto drops = run::rawDropsOf(reading, {}, scenario_.setup.cart);
        for (std::size_t i = 0; i < drops.size(); ++i) {
            const auto& limit = scenario_.setup.stages[i].changeLimit;
            const bool isKnown = drops[i] && limit;
            percent.push_back(isKnown && reaches(*drops[i], *limit)           ? 100
                                  : isKnown && reaches(*drops[i], *limit, 50) ? 50
                                                                              : 0);
        }
        return percent;
    }

    [[nodiscard]] bool isToChange(const std::vector<int>& percent, std::size_t stage) const
    {
        return scenario_.changesAtLimit && percent[stage] == 100 && changes_[stage] < sparesPerStage;
    }

    bool changeWhatIsAtLimit(const std::vector<int>& percent)
    {
        std::vector<std::size_t> toChange;
        for (std::size_t i = 0; i < percent.size(); ++i) {
            if (isToChange(percent, i)) {
                toChange.push_back(i);
            }
        }
        if (toChange.empty()) {
            return false;
        }
        switchTo(Mode::Stopped);
        pass(changeoverTime);
        for (const std::size_t i : toChange) {
            const int elements = scenario_.stages[i].elements;
            const Done done = cart_.changeElements(static_cast<int>(i + 1), elements);
            require(done.has_value(), "a stopped cart's elements can be changed");
            say(run::ElementsChanged{static_cast<int>(i + 1), elements, {}});
            ++changes_[i];
        }
        switchTo(Mode::Filtering);
        return true;
    }

    /// When the target is counted if filtering goes on.
    [[nodiscard]] Duration targetAt() const { return cart_.now() + (target_ - counted_) / rated_; }

    Simulated end()
    {
        Truth& truth = simulated_.truth;
        truth.targetAt = cart_.now();
        truth.atEnd = cart_.truth();
        say(run::ModeChanged{Mode::Stopped});
        const Duration horizon = horizonTimes * cart_.now();
        const auto isOpen = [](const StageLife& life) { return !life.changedAt && !life.limitAt; };
        while (cart_.now() < horizon && std::ranges::any_of(cart_.lives(), isOpen)) {
            pass(10.0 * minute);
        }
        truth.lives = cart_.lives();
        truth.dirt = cart_.dirtBalance();
        return std::move(simulated_);
    }

    const Scenario& scenario_;
    PracticeCart cart_;
    Chance chance_;
    units::Flow rated_;
    units::Volume target_;
    std::vector<FaultAt> faults_;
    std::vector<int> changes_; ///< Per stage.
    units::Volume counted_ = {};
    Simulated simulated_;
};

Id idOf(std::uint8_t kind, std::size_t count)
{
    Id id;
    id.bytes[0] = kind;
    id.bytes[14] = static_cast<std::uint8_t>(count >> 8U);
    id.bytes[15] = static_cast<std::uint8_t>(count);
    return id;
}

run::Header headerAt(RunTime at, std::size_t count)
{
    constexpr std::uint8_t entryKind = 0xE0;
    run::Header header;
    header.id = idOf(entryKind, count);
    header.device = idOf(0xD0, 1);
    header.sequence = count + 1;
    header.clock = static_cast<std::uint64_t>(at.count()) * 65536U + count;
    header.run = idOf(0xA0, 1);
    header.entered = {at.count(), 0, static_cast<std::uint64_t>(at.count()) * 1'000'000U, idOf(0xB0, 1)};
    return header;
}

} // namespace

bool Simulated::reachedLimit(std::optional<int> stage) const
{
    return std::ranges::any_of(truth.lives, [&](const StageLife& life) {
        const bool isMeant = (!stage || life.stage == *stage) && life.from == Duration{};
        return isMeant && life.limitAt && *life.limitAt < truth.targetAt;
    });
}

Result<Simulated> simulate(const Scenario& scenario)
{
    if (!scenario.setup.target.turnovers) {
        return fail(Errc::Unavailable, "A simulated run needs a target in turnovers; its set-up has none.");
    }
    return PracticeCart::of(scenario).transform(
        [&](const PracticeCart& cart) { return Person(scenario, cart).live(); });
}

run::RunState asRun(const Simulated& simulated, std::optional<RunTime> until)
{
    const run::Header opening = headerAt(RunTime{0}, 0);
    run::State state = run::apply({}, opening, run::RunOpened{simulated.setup});
    std::size_t count = 1;
    for (const Entry& entry : simulated.entries) {
        if (until && entry.at > *until) {
            break;
        }
        state = run::apply(std::move(state), headerAt(entry.at, count), run::asEvent(entry.what));
        ++count;
    }
    const run::RunState* run = state.runOf(opening.run);
    require(run != nullptr, "a run that was opened is there");
    return *run;
}

} // namespace loopside::practice
