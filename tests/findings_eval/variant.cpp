// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "variant.h"

#include <algorithm>
#include <cmath>
#include <set>

namespace loopside::evaluation {

namespace {

using run::RunTime;
using Dials = std::vector<std::optional<run::GaugeTyped>>;

constexpr RunTime second = std::chrono::seconds(1);

/// Uniform from `low` to `high`, both counted.
std::int64_t drawn(SeededRandom& random, std::int64_t low, std::int64_t high)
{
    const auto count = static_cast<std::uint64_t>(high - low + 1);
    return low + static_cast<std::int64_t>(random.next() % count);
}

bool isRead(const story::Story& story, RunTime at)
{
    return std::ranges::any_of(
        story.entries, [&](const story::StoryEntry& entry) { return entry.seen == at && readingOf(entry) != nullptr; });
}

/// A map of time that keeps every order: each instant of the story moves by less than half way to its neighbours.
class MovedTimes
{
public:
    MovedTimes(const story::Story& story, SeededRandom& random)
    {
        std::set<RunTime> instants;
        for (const story::StoryEntry& entry : story.entries) {
            instants.insert({entry.seen, entry.entered});
        }
        for (auto at = instants.begin(); at != instants.end(); ++at) {
            RunTime by{0};
            if (at != instants.begin() && isRead(story, *at)) {
                const auto next = std::next(at);
                const RunTime back = roomIn(*at - *std::prev(at));
                const RunTime on = next == instants.end() ? timeOff : roomIn(*next - *at);
                by = second * drawn(random, -(back / second), on / second);
            }
            moved_[*at] = *at + by;
        }
    }

    [[nodiscard]] RunTime of(RunTime instant) const { return moved_.at(instant); }

    /// Where a time between two instants comes to lie: as far behind the first as before, ahead of the second.
    [[nodiscard]] RunTime between(RunTime time) const
    {
        const auto next = moved_.upper_bound(time);
        const auto& [instant, moved] = *std::prev(next);
        const RunTime there = moved + (time - instant);
        return next == moved_.end() ? there : std::min(there, next->second - second);
    }

private:
    static RunTime roomIn(RunTime gap) { return std::min(timeOff, std::max(RunTime{0}, (gap - second) / 2)); }

    std::map<RunTime, RunTime> moved_;
};

/// The mark by which a number on dial `place` can be misread.
Decimal markOf(const run::GaugeTyped& typed, const run::ReadingLogged& reading, const run::GaugeRecord& dial)
{
    const bool isOfDial = (reading.unit == nullptr || reading.unit == dial.unit) && dial.graduation;
    const double marks = isOfDial ? typed.low.toDouble() / dial.graduation->toDouble() : 0.5;
    const bool isOnMark = std::abs(marks - std::round(marks)) < 1e-9;
    return isOnMark ? *dial.graduation : Decimal(1, typed.low.places());
}

/// `number` a mark higher or lower; no needle stands below zero, none beyond the end of its dial.
Decimal off(const Decimal& number, const Decimal& mark, std::int64_t marks, const run::GaugeRecord& dial)
{
    const Decimal there = marks > 0 ? number + mark : marks < 0 ? number - mark : number;
    const bool isBeyond = dial.span && number <= *dial.span && there > *dial.span;
    return isBeyond ? number : std::max(there, Decimal(0, number.places()));
}

Dials misread(const Dials& dials, const run::ReadingLogged& reading, const std::vector<run::GaugeRecord>& gauges,
              SeededRandom& random)
{
    Dials misread = dials;
    for (std::size_t place = 0; place < misread.size(); ++place) {
        const std::int64_t marks = drawn(random, -1, 1);
        if (auto& dial = misread[place]) {
            const Decimal mark = markOf(*dial, reading, gauges[place]);
            dial->low = off(dial->low, mark, marks, gauges[place]);
            if (dial->high) {
                dial->high = off(*dial->high, mark, marks, gauges[place]);
            }
        }
    }
    return misread;
}

/// The digits of a whole number the other way round; nothing where digits would be lost.
std::optional<Decimal> turned(const Decimal& number)
{
    std::string digits = number.toText();
    if (number.places() != 0 || digits.back() == '0') {
        return std::nullopt;
    }
    std::ranges::reverse(digits);
    return Decimal::parse(digits).value();
}

/// A whole number with a nought too many; nothing of any other.
std::optional<Decimal> tenfold(const Decimal& number)
{
    return number.places() == 0 ? std::optional(Decimal::parse(number.toText() + "0").value()) : std::nullopt;
}

/// How `typed` came of `meant`, done again to `misread`: another dial, a nought too many, digits turned round.
run::GaugeTyped retyped(const run::GaugeTyped& typed, std::size_t place, const Dials& meant, const Dials& misread)
{
    const auto isMeantAt = [&](std::size_t other) { return meant[other] && meant[other]->low == typed.low; };
    if (isMeantAt(place)) {
        return *misread[place];
    }
    for (std::size_t other = 0; other < meant.size(); ++other) {
        if (isMeantAt(other)) {
            return *misread[other];
        }
    }
    for (const auto slip : {tenfold, turned}) {
        if (meant[place] && slip(meant[place]->low) == typed.low) {
            return {slip(misread[place]->low).value_or(typed.low), {}};
        }
    }
    return typed;
}

/// Varies the sets of a story, and the amendments that put them right.
class SetsMisread
{
public:
    SetsMisread(story::Story& story, const MeantSets& meant, SeededRandom& random)
        : story_{story}, meant_{meant}, random_{random}
    {
    }

    void vary()
    {
        for (std::size_t i = 0; i < story_.entries.size(); ++i) {
            for (story::Step& step : story_.entries[i].steps) {
                auto* said = std::get_if<run::Said>(&step);
                if (auto* reading = said != nullptr ? std::get_if<run::ReadingLogged>(said) : nullptr) {
                    vary(i, *reading);
                }
            }
        }
    }

private:
    void vary(std::size_t entry, run::ReadingLogged& reading)
    {
        const Dials meant = meantBy(entry, reading);
        const Dials read = misread(meant, reading, story_.setup.cart.gauges, random_);
        for (std::size_t place = 0; place < reading.gauges.size(); ++place) {
            if (auto& dial = reading.gauges[place]) {
                dial = retyped(*dial, place, meant, read);
            }
        }
        if (run::Amended* amendment = amendmentOf(entry)) {
            amendment->gauges = read;
        }
        if (reading.oil) {
            constexpr std::int64_t tenths = 10;
            const auto by = static_cast<double>(drawn(random_, static_cast<std::int64_t>(-oilOff_k * tenths),
                                                      static_cast<std::int64_t>(oilOff_k * tenths)));
            const units::Temperature oil = reading.oil->value() + by / tenths * units::kelvins;
            reading.oil = run::TypedTemperature(Decimal::nearest(oil.in(reading.oil->unit().unit), 1),
                                                reading.oil->unit());
        }
    }

    [[nodiscard]] Dials meantBy(std::size_t entry, const run::ReadingLogged& reading)
    {
        if (const run::Amended* amendment = amendmentOf(entry)) {
            return amendment->gauges;
        }
        const auto known = meant_.find(story_.entries[entry].at);
        if (known == meant_.end()) {
            return reading.gauges;
        }
        Dials dials;
        for (const Decimal& number : known->second) {
            dials.emplace_back(run::GaugeTyped{number, {}});
        }
        return dials;
    }

    /// The last amendment that gives other gauges to the set of `entry`.
    [[nodiscard]] run::Amended* amendmentOf(std::size_t entry)
    {
        run::Amended* last = nullptr;
        for (story::StoryEntry& later : story_.entries) {
            for (story::Step& step : later.steps) {
                auto* about = std::get_if<story::AboutEntry>(&step);
                auto* amended = about != nullptr && about->of == entry ? std::get_if<run::Amended>(&about->what)
                                                                       : nullptr;
                last = amended != nullptr && !amended->gauges.empty() ? amended : last;
            }
        }
        return last;
    }

    story::Story& story_;
    const MeantSets& meant_;
    SeededRandom& random_;
};

} // namespace

std::string clockText(RunTime time)
{
    const auto seconds = time / second;
    const auto two = [](auto number) { return (number < 10 ? "0" : "") + std::to_string(number); };
    return two(seconds / 3600) + ":" + two(seconds / 60 % 60) + ":" + two(seconds % 60);
}

const run::ReadingLogged* readingOf(const story::StoryEntry& entry)
{
    for (const story::Step& step : entry.steps) {
        const auto* said = std::get_if<run::Said>(&step);
        if (const auto* reading = said != nullptr ? std::get_if<run::ReadingLogged>(said) : nullptr) {
            return reading;
        }
    }
    return nullptr;
}

story::Story variantOf(const story::Story& story, std::uint64_t seed, const MeantSets& meant)
{
    SeededRandom random(seed);
    story::Story variant = story;
    SetsMisread(variant, meant, random).vary();
    const MovedTimes moved(story, random);
    for (story::StoryEntry& entry : variant.entries) {
        const RunTime by = moved.of(entry.entered) - entry.entered;
        entry.seen = moved.of(entry.seen);
        entry.entered += by;
        entry.at = clockText(entry.seen);
        if (entry.wall) {
            entry.wall->utcMs += by.count();
        }
    }
    for (story::Expectation& expected : variant.expectations) {
        if (expected.at) {
            expected.at = moved.between(*expected.at);
        }
    }
    return variant;
}

} // namespace loopside::evaluation
