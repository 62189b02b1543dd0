// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// What is asked of simulated runs: hardly anything where nobody slipped, and most slips where somebody did. The shares
// are what we ask of it; how often people slip no source tells. Nothing was tuned on the runs of the second seed.

#include "practice/simulate.h"
#include "run/question.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <map>
#include <set>
#include <string>

using namespace loopside;
using namespace loopside::practice;
using namespace loopside::run;

namespace {

constexpr std::uint64_t runs = 200;

/// A run whose reader never misreads a dial by whole divisions, which would be a slip of its own.
Simulated runOf(std::uint64_t seed)
{
    Scenario scenario = drawScenario(seed);
    scenario.reader.misreadShare = 0.0;
    auto simulated = simulate(scenario);
    REQUIRE(simulated);
    return *std::move(simulated);
}

std::set<std::pair<std::string, Id>> questionsOf(const Simulated& simulated)
{
    const RunState run = asRun(simulated);
    std::set<std::pair<std::string, Id>> asked;
    for (const Question& question : questionsIn(timelineOf(run), run)) {
        asked.insert({std::string(question.id), question.of->header.id});
    }
    return asked;
}

/// Whether a true ΔP changed by more than a quarter between two readings, or the relief valve has opened.
bool trulyJumped(const Snapshot& from, const Snapshot& to)
{
    for (std::size_t i = 0; i < from.drops.size(); ++i) {
        if (std::abs(to.drops[i] / from.drops[i] - 1.0) > 0.25) {
            return true;
        }
    }
    return to.relieved;
}

struct Counted
{
    std::size_t sets = 0;
    std::map<std::string, std::size_t, std::less<>> asked = {}; ///< Sets, by question.
    std::size_t jumpsOfNothing = 0;                             ///< Asked where no true ΔP jumped.
};

void count(const Simulated& simulated, Counted& counted)
{
    const RunState run = asRun(simulated);
    const auto asked = questionsOf(simulated);
    std::size_t reading = 0;
    for (const Fact& fact : run.facts) {
        if (!std::holds_alternative<ReadingLogged>(fact.original)) {
            continue;
        }
        const auto& truths = simulated.truth.atReadings;
        for (const std::string_view id : questionIds) {
            const bool isAsked = asked.contains({std::string(id), fact.header.id});
            const bool isTrue = id == outOfRange && truths[reading].relieved; // over the relief setting it was
            counted.asked[std::string(id)] += isAsked && !isTrue ? 1U : 0U;
            if (isAsked && id == jumped && !trulyJumped(truths[reading - 1], truths[reading])) {
                ++counted.jumpsOfNothing;
            }
        }
        ++reading;
        ++counted.sets;
    }
}

/// The place in `entries` of a set in the middle of the run, filtering, with all gauges read and one like it before.
std::optional<std::size_t> middleSet(const Simulated& simulated)
{
    std::vector<std::size_t> sets;
    bool isFiltering = false;
    for (std::size_t i = 0; i < simulated.entries.size(); ++i) {
        const auto* mode = std::get_if<ModeChanged>(&simulated.entries[i].what);
        const auto* set = std::get_if<ReadingLogged>(&simulated.entries[i].what);
        isFiltering = mode != nullptr ? mode->mode == Mode::Filtering : isFiltering;
        if (set != nullptr && isFiltering && std::all_of(set->gauges.begin(), set->gauges.end(), [](const auto& gauge) {
                return gauge && !gauge->high;
            })) {
            sets.push_back(i);
        }
    }
    return sets.size() < 3 ? std::nullopt : std::optional(sets[sets.size() / 2]);
}

ReadingLogged swapped(ReadingLogged set, const CartRecord&)
{
    std::swap(set.gauges[0], set.gauges[1]);
    return set;
}

/// Typed from the other scale of the dial, to its usual digits.
ReadingLogged inOtherUnit(ReadingLogged set, const CartRecord& cart)
{
    const PressureUnit& used = *cart.gauges.front().unit;
    const bool isPsi = used.symbol == "psi";
    const PressureUnit& other = *units::unitNamed<units::Pressure>(isPsi ? "bar" : "psi").value();
    for (auto& gauge : set.gauges) {
        const units::Pressure value(gauge->low.toDouble(), used.unit);
        gauge->low = Decimal::nearest(value.in(other.unit), isPsi ? 1 : 0);
    }
    return set;
}

ReadingLogged tenTimes(ReadingLogged set, const CartRecord&)
{
    auto& gauge = set.gauges[1];
    gauge->low = Decimal::nearest(gauge->low.toDouble() * 10.0, gauge->low.places());
    return set;
}

using Slip = ReadingLogged (*)(ReadingLogged, const CartRecord&);

struct Hits
{
    std::size_t slips = 0;
    std::size_t asked = 0;  ///< With the question that names the slip.
    std::size_t heldBy = 0; ///< With any question about typing.

    [[nodiscard]] double share() const { return static_cast<double>(asked) / static_cast<double>(slips); }
    [[nodiscard]] double heldShare() const { return static_cast<double>(heldBy) / static_cast<double>(slips); }
};

/// Slips once in the middle of each run, where the gauges show it: the first stage's ΔP and the middle gauge are at
/// least `divisions` of the dial.
Hits hitsOf(Slip slip, std::string_view id, double divisions)
{
    Hits hits;
    for (std::uint64_t number = 0; number < runs; ++number) {
        Simulated simulated = runOf(80'000 + number);
        const auto place = middleSet(simulated);
        if (!place) {
            continue;
        }
        auto& set = std::get<ReadingLogged>(simulated.entries[*place].what);
        const double least = divisions * simulated.setup.cart.gauges[0].graduation->toDouble();
        if (set.gauges[0]->low.toDouble() - set.gauges[1]->low.toDouble() < least
            || set.gauges[1]->low.toDouble() < least) {
            continue;
        }
        set = slip(set, simulated.setup.cart);
        const RunState run = asRun(simulated);
        const auto moments = timelineOf(run);
        const auto questions = questionsIn(moments, run);
        const RunTime at = simulated.entries[*place].at;
        const auto isOfSlip = [&](const Question& question) {
            return question.of->seen == at && std::holds_alternative<ReadingLogged>(question.of->original);
        };
        ++hits.slips;
        hits.asked += std::any_of(questions.begin(), questions.end(),
                                  [&](const Question& question) { return isOfSlip(question) && question.id == id; });
        hits.heldBy += std::any_of(questions.begin(), questions.end(), [&](const Question& question) {
            return isOfSlip(question) && question.isAboutTyping();
        });
    }
    return hits;
}

} // namespace

TEST_CASE("of simulated sets without a slip less than one in 500 is questioned")
{
    const auto first = GENERATE(70'000U, 90'000U);
    Counted counted;
    for (std::uint64_t number = 0; number < runs; ++number) {
        count(runOf(first + number), counted);
    }
    CHECK(counted.sets > 3000);
    for (const std::string_view id : {gaugesSwapped, wrongUnit, digitSlip, timeOrder, enteredLate, outOfRange}) {
        CAPTURE(first, id, counted.sets, counted.asked[std::string(id)]);
        CHECK(counted.asked[std::string(id)] * 500 < counted.sets);
    }
    // Stages that block solid within minutes do jump, and are to be asked about.
    CAPTURE(first, counted.sets, counted.asked["jump"], counted.jumpsOfNothing);
    CHECK(counted.jumpsOfNothing * 500 < counted.sets);
    CHECK(counted.asked["jump"] * 50 < counted.sets);
}

TEST_CASE("a slip in a simulated run is found where the gauges show it")
{
    struct Kind
    {
        Slip slip;
        std::string_view id;
        double divisions;
        double leastShare;
        double leastHeld; ///< By this or another question about typing.
    };
    const auto kind = GENERATE(Kind{swapped, gaugesSwapped, 4.0, 0.9, 0.9},
                               Kind{inOtherUnit, wrongUnit, 4.0, 0.7, 0.75}, Kind{tenTimes, digitSlip, 4.0, 0.6, 0.95});
    const Hits hits = hitsOf(kind.slip, kind.id, kind.divisions);
    CAPTURE(kind.id, hits.slips, hits.asked, hits.heldBy);
    CHECK(hits.slips >= 30);
    CHECK(hits.share() >= kind.leastShare);
    CHECK(hits.heldShare() >= kind.leastHeld);
}
