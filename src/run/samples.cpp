// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "run/samples.h"

#include "base/text.h"

#include <algorithm>
#include <cmath>

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

void readCode(SampleSeen& sample)
{
    const auto told = oil::CleanlinessCode::parse(sample.result->code);
    sample.code = told ? std::optional(*told) : codeOfCounts(*sample.result);
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

/// The latest result of `sample`, given while no later bottle of the same id was drawn.
const Moment* resultOf(const std::vector<Moment>& moments, std::size_t drawnAt, const std::string& id)
{
    const Moment* latest = nullptr;
    for (std::size_t i = 0; i < moments.size(); ++i) {
        const Fact& fact = *moments[i].fact;
        const auto* bottle = std::get_if<SampleDrawn>(&fact.effective);
        const auto* result = std::get_if<ResultEntered>(&fact.effective);
        if (i > drawnAt && bottle != nullptr && bottle->id == id && !fact.struck) {
            return latest;
        }
        latest = i > drawnAt && result != nullptr && result->sample == id && !fact.struck ? &moments[i] : latest;
    }
    return latest;
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
    if (const Moment* told = resultOf(standing.moments, place, drawn.id)) {
        sample.result = std::get_if<ResultEntered>(&told->fact->effective);
        sample.toldAt = told->at;
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
    const bool areTold = first.result != nullptr && second.result != nullptr;
    note(areTold ? textsOf(first.result->method, second.result->method) : Likeness::Untold, "method");
    return all;
}

} // namespace loopside::run
