// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "run/samples.h"

#include "base/text.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <utility>

namespace loopside::run {

namespace {

constexpr RunTime signsHoldFor = std::chrono::minutes(30);
constexpr RunTime oilHoldsFor = std::chrono::minutes(20);
constexpr double alikeK = 20.0;

/// At which size the first count stands: a counter begins at 4 µm(c), of two counts the microscope's are at 5 and 15.
std::size_t firstSize(std::size_t counts)
{
    return counts == 2 ? 1 : 0;
}

std::optional<double> particlesIn(const ResultEntered& result, double perMl)
{
    return result.counted ? std::optional(perMl * result.counted->value().in(units::millilitre)) : std::nullopt;
}

std::optional<oil::CleanlinessCode> codeOfCounts(const ResultEntered& result)
{
    std::vector<double> counts;
    for (const Decimal& count : result.countsPerMl) {
        counts.push_back(count.toDouble());
    }
    if (counts.size() == 1) {
        const auto scale = oil::scaleNumberOf(counts.front());
        const auto code = scale
            ? oil::CleanlinessCode::of({*scale, oil::ScaleNumber::notCounted(), oil::ScaleNumber::notCounted()})
            : Result<oil::CleanlinessCode>(fail(scale.error()));
        return code ? std::optional(*code) : std::nullopt;
    }
    const auto volume = result.counted ? std::optional(result.counted->value()) : std::nullopt;
    const auto code = oil::CleanlinessCode::fromCounts(counts, oil::CountBasis::PerMl, volume);
    return code ? std::optional(*code) : std::nullopt;
}

/// Whether a code and counts can be of one oil, as far as both tell it; the mark of few particles aside.
bool isOfOneOil(const std::string& code, const std::vector<Decimal>& counts)
{
    const auto told = oil::CleanlinessCode::parse(code);
    const auto made = codeOfCounts({.sample = {}, .code = {}, .countsPerMl = counts, .water = {}, .viscosity = {}});
    if (!told || !made) {
        return true; // what cannot be read contradicts nothing
    }
    for (std::size_t i = 0; i < told->scales().size(); ++i) {
        const auto& a = told->scales()[i];
        const auto& b = made->scales()[i];
        const bool isCounted = a.atLeast().has_value() && b.atLeast().has_value();
        if (isCounted && a.number() != b.number()) {
            return false;
        }
    }
    return true;
}

/// `known`, where `later` tells its sizes anew. Both begin as `firstSize` says.
void takeCounts(std::vector<Decimal>& known, const std::vector<Decimal>& later)
{
    std::array<std::optional<Decimal>, 3> sizes = {};
    for (const auto* counts : {&std::as_const(known), &later}) {
        for (std::size_t i = 0; i < counts->size() && firstSize(counts->size()) + i < sizes.size(); ++i) {
            sizes.at(firstSize(counts->size()) + i) = counts->at(i);
        }
    }
    known.clear();
    for (const auto& size : sizes) {
        if (size) {
            known.push_back(*size);
        }
    }
}

void readCode(SampleSeen& sample)
{
    sample.code = codeIn(*sample.result);
}

void readCounts(SampleSeen& sample)
{
    const auto& counts = sample.result->countsPerMl;
    const std::size_t first = firstSize(counts.size());
    for (std::size_t i = 0; i < counts.size() && first + i < sample.counts.size(); ++i) {
        const double perMl = counts[i].toDouble();
        sample.counts[first + i] = filtration::CountSeen{sample.turnovers, perMl, particlesIn(*sample.result, perMl)};
    }
    for (std::size_t i = 0; counts.empty() && sample.code && i < sample.counts.size(); ++i) {
        const auto seen = filtration::countSeen(sample.turnovers, sample.code->scales()[i]);
        sample.counts[i] = seen ? std::optional(*seen) : std::nullopt;
    }
}

/// Takes in what was told of a bottle while no later one of the same id was drawn.
void takeResults(SampleSeen& sample, const std::vector<Moment>& moments, std::size_t drawnAt, const std::string& id)
{
    for (std::size_t i = 0; i < moments.size(); ++i) {
        const Fact& fact = *moments[i].fact;
        const auto* bottle = std::get_if<SampleDrawn>(&fact.effective);
        const auto* result = std::get_if<ResultEntered>(&fact.effective);
        if (i > drawnAt && bottle != nullptr && bottle->id == id && !fact.struck) {
            return;
        }
        if (i > drawnAt && result != nullptr && result->sample == id && !fact.struck) {
            sample.result = sample.result ? withResult(*std::move(sample.result), *result) : *result;
            sample.toldAt = moments[i].at;
        }
    }
}

std::optional<units::Temperature> oilAt(const SampleDrawn& drawn, RunTime at, const std::vector<Moment>& moments)
{
    if (drawn.oil) {
        return drawn.oil->value();
    }
    const Moment* nearest = nullptr;
    for (const Moment& moment : moments) {
        const bool isRead = moment.reading != nullptr && moment.reading->oil;
        const bool isNearer = nearest == nullptr
            || std::chrono::abs(moment.at - at) < std::chrono::abs(nearest->at - at);
        nearest = isRead && isNearer && std::chrono::abs(moment.at - at) <= oilHoldsFor ? &moment : nearest;
    }
    return nearest != nullptr ? std::optional(nearest->reading->oil->value()) : std::nullopt;
}

/// What was seen near `at` that a counter of blocked light takes for dirt; a microscope tells it apart.
std::string_view fooledBy(const ResultEntered& result, RunTime at, const std::vector<Moment>& moments)
{
    for (const Moment& moment : moments) {
        const auto* seen = std::get_if<SignsSeen>(&moment.fact->effective);
        const bool isNear = seen != nullptr && !moment.fact->struck && std::chrono::abs(moment.at - at) <= signsHoldFor;
        for (const std::string_view sign : {"foam", "haze"}) {
            const bool isSeen = isNear && std::find(seen->signs.begin(), seen->signs.end(), sign) != seen->signs.end();
            if (isSeen && result.method != "microscope") {
                return sign;
            }
        }
    }
    return {};
}

SampleSeen sampleAt(const RunState& run, const Standing& standing, std::size_t place, const SampleDrawn& drawn)
{
    const Moment& moment = standing.moments[place];
    SampleSeen sample{.fact = moment.fact, .drawn = &drawn, .at = moment.at, .mode = moment.mode};
    const auto due = dueTimes(standing.moments, run.setup, standing.questions);
    sample.turnovers =
        creditOf(run, standing.moments, due, standing.questions, standing.diagnosis.sets, moment.at).turnovers.best;
    sample.oil = oilAt(drawn, moment.at, standing.moments);
    takeResults(sample, standing.moments, place, drawn.id);
    if (sample.result) {
        sample.fooledBy = fooledBy(*sample.result, moment.at, standing.moments);
        readCode(sample);
        readCounts(sample);
    }
    return sample;
}

bool isCirculating(const SampleSeen& sample)
{
    return sample.mode != Mode::Stopped;
}

/// Both told, and not alike; both told, and alike; or one is silent.
enum class Likeness
{
    Alike,
    Differs,
    Untold
};

Likeness textsOf(const std::string& first, const std::string& second)
{
    if (first.empty() || second.empty()) {
        return Likeness::Untold;
    }
    return first == second ? Likeness::Alike : Likeness::Differs;
}

Likeness points(const SampleDrawn& first, const SampleDrawn& second)
{
    if (first.port != second.port) {
        return Likeness::Differs;
    }
    const Likeness words = textsOf(first.point, second.point);
    const bool isPortEnough = first.port > 0 && first.point.empty() && second.point.empty();
    return isPortEnough ? Likeness::Alike : words;
}

Likeness temperatures(const SampleSeen& first, const SampleSeen& second)
{
    if (!first.oil || !second.oil) {
        return Likeness::Untold;
    }
    const double apart = std::abs(first.oil->in(units::celsius)-second.oil->in(units::celsius));
    return apart > alikeK ? Likeness::Differs : Likeness::Alike;
}

std::vector<Message::Argument> valuesOf(const SampleSeen& first, const SampleSeen& second)
{
    std::vector<Message::Argument> values = {{"first", first.drawn->id}, {"second", second.drawn->id}};
    if (first.oil && second.oil) {
        values.emplace_back("oil-base", fixed(first.oil->in(units::celsius), 0) + " °C");
        values.emplace_back("oil", fixed(second.oil->in(units::celsius), 0) + " °C");
    }
    return values;
}

} // namespace

std::optional<oil::CleanlinessCode> codeIn(const ResultEntered& result)
{
    const auto told = oil::CleanlinessCode::parse(result.code);
    return told ? std::optional(*told) : codeOfCounts(result);
}

ResultEntered withResult(ResultEntered known, const ResultEntered& later)
{
    const auto take = [](std::string& into, const std::string& told) { into = told.empty() ? into : told; };
    if (!later.countsPerMl.empty()) {
        takeCounts(known.countsPerMl, later.countsPerMl);
    }
    take(known.code, later.code);
    const bool isOtherOil = !known.code.empty() && !known.countsPerMl.empty()
        && !isOfOneOil(known.code, known.countsPerMl);
    if (isOtherOil && later.countsPerMl.empty()) {
        known.countsPerMl.clear();
    } else if (isOtherOil && later.code.empty()) {
        known.code.clear();
    }
    take(known.water, later.water);
    take(known.viscosity, later.viscosity);
    take(known.acid, later.acid);
    take(known.method, later.method);
    take(known.report, later.report);
    known.counted = later.counted ? later.counted : known.counted;
    return known;
}

std::vector<BottleTold> bottlesTold(const RunState& run)
{
    std::vector<BottleTold> all;
    std::map<std::string, std::size_t> named; // of bottles with one name the later one
    for (const Fact& fact : run.facts) {
        if (const auto* drawn = fact.struck ? nullptr : std::get_if<SampleDrawn>(&fact.effective)) {
            named[drawn->id] = all.size();
            all.push_back({&fact, {.sample = drawn->id, .code = {}, .water = {}, .viscosity = {}}});
        } else if (const auto* result = fact.struck ? nullptr : std::get_if<ResultEntered>(&fact.effective)) {
            const auto [place, isNew] = named.try_emplace(result->sample, all.size());
            if (isNew) {
                all.push_back({nullptr, {.sample = result->sample, .code = {}, .water = {}, .viscosity = {}}});
            }
            BottleTold& bottle = all[place->second];
            bottle.result = withResult(std::move(bottle.result), *result);
            bottle.told = &fact;
        }
    }
    std::erase_if(all, [](const BottleTold& bottle) { return bottle.told == nullptr; });
    return all;
}

std::vector<SampleSeen> samplesOf(const RunState& run, const Standing& standing)
{
    std::vector<SampleSeen> all;
    for (std::size_t i = 0; i < standing.moments.size(); ++i) {
        const Fact& fact = *standing.moments[i].fact;
        const auto* drawn = std::get_if<SampleDrawn>(&fact.effective);
        if (drawn != nullptr && !fact.struck) {
            all.push_back(sampleAt(run, standing, i, *drawn));
        }
    }
    return all;
}

Comparability compareSamples(const SampleSeen& first, const SampleSeen& second)
{
    Comparability all;
    const auto values = valuesOf(first, second);
    const auto note = [&](Likeness told, const std::string& what) {
        if (told == Likeness::Differs) {
            all.differs.push_back({"samples.differ." + what, values});
        } else if (told == Likeness::Untold) {
            all.untold.push_back({"samples.untold." + what, values});
        }
    };
    note(points(*first.drawn, *second.drawn), "point");
    note(isCirculating(first) == isCirculating(second) ? Likeness::Alike : Likeness::Differs, "circulation");
    note(textsOf(first.drawn->machine, second.drawn->machine), "machine");
    note(temperatures(first, second), "temperature");
    for (const SampleSeen* sample : {&first, &second}) {
        if (!sample->fooledBy.empty()) {
            all.differs.push_back({"samples.fooled." + std::string(sample->fooledBy), {{"sample", sample->drawn->id}}});
        }
    }
    const bool areTold = first.result && second.result;
    note(areTold ? textsOf(first.result->method, second.result->method) : Likeness::Untold, "method");
    return all;
}

} // namespace loopside::run
