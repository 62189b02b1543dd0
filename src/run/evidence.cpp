// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "run/evidence.h"

#include <algorithm>
#include <cmath>

namespace loopside::run {

namespace {

using units::pascal;
using units::Pressure;

constexpr int setsOfHeadBase = 3;
constexpr RunTime freshFor = std::chrono::minutes(5);
/// A set in which a gauge could not be read does not take the place of a fuller one, unless that is older than this.
constexpr RunTime longestReference = std::chrono::hours(1);

constexpr RunTime signsLast = std::chrono::minutes(15);

/// Below so many standard uncertainties of its reading a loss is no reference.
constexpr double leastReference = 4.0;

bool isReference(const std::optional<Measured>& then)
{
    return then && then->value > Pressure{} && then->value > then->reading * leastReference;
}

std::optional<Uncertain> movedFrom(const std::optional<Measured>& now, const std::optional<Measured>& then,
                                   const Uncertain& factor)
{
    return now && isReference(then) ? std::optional(moved(*now, *then, factor)) : std::nullopt;
}

/// What is not stage `i`: the loss of everything else that the gauges see.
std::optional<Measured> restOf(const Sight& sight, std::size_t i)
{
    const auto& whole = sight.total ? sight.total : sight.filters;
    return whole && sight.drops[i] ? std::optional(*whole - *sight.drops[i]) : std::nullopt;
}

Measured times(const Measured& measured, double factor)
{
    return {measured.value * factor, measured.reading * factor, measured.standing};
}

/// How many gauges were read.
auto knows(const Sight& sight)
{
    return std::count_if(sight.gauges.begin(), sight.gauges.end(), [](const auto& gauge) { return gauge.has_value(); });
}

void note(SignsNear& signs, const SignsSeen& seen)
{
    for (const std::string& sign : seen.signs) {
        signs.foam |= sign == "foam";
        signs.haze |= sign == "haze";
        signs.whine |= sign == "whine";
        signs.clicking |= sign == "clicking";
        signs.leak |= sign == "leak";
    }
}

} // namespace

Gatherer::Gatherer(const RunState& run, const std::vector<Moment>& moments, std::size_t sets)
    : run_{run},
      moments_{moments},
      sighting_{run},
      stages_{run.setup.stages.size()},
      needles_{run.setup.cart.gauges.size()}
{
    sights_.reserve(sets);
}

void Gatherer::rest(const Moment& pumpOff)
{
    offsets_ = offsetsFrom(*pumpOff.reading, run_.setup.cart);
    sighting_.noteStaticHead(pumpOff);
    pumpOff_ = &pumpOff;
}

void Gatherer::renew(const Moment& moment, const ElementsChanged& changed)
{
    const auto i = static_cast<std::size_t>(changed.stage - 1);
    if (i >= stages_.size()) {
        return;
    }
    const Sight* before = sights_.empty() ? nullptr : &sights_.back();
    stages_[i] = StageBook{};
    stages_[i].isNewSinceLast = true;
    stages_[i].renewal = Renewal{moment.at, changed.elements, {}, before};
    if (before != nullptr) {
        stages_[i].renewal->oldLoading = before->loading[i];
    }
}

void Gatherer::watchNeedles(const Sight& now)
{
    const Sight* before = sights_.size() > 1 ? &sights_[sights_.size() - 2] : nullptr;
    for (std::size_t i = 0; i < needles_.size(); ++i) {
        const bool stands = before != nullptr && now.gauges[i] && before->gauges[i]
            && now.gauges[i]->value == before->gauges[i]->value;
        needles_[i] = stands ? Standstill{needles_[i].sets + 1, needles_[i].since} : Standstill{1, &now};
    }
}

void Gatherer::watchFresh(const Sight& now)
{
    for (std::size_t i = 0; i < stages_.size(); ++i) {
        StageBook& stage = stages_[i];
        if (stage.first == nullptr) {
            stage.first = &now;
        }
        if (now.loading[i] && now.at - stage.first->at <= freshFor) {
            stage.freshSum += now.loading[i]->value;
            ++stage.freshCount;
        }
    }
}

SignsNear Gatherer::signsNear(const Sight& now) const
{
    const auto here = static_cast<std::size_t>(now.moment - moments_.data());
    SignsNear signs;
    const auto take = [&signs](const Moment& moment) {
        const auto* seen = std::get_if<SignsSeen>(&moment.fact->effective);
        if (seen != nullptr && !moment.fact->struck) {
            note(signs, *seen);
        }
    };
    for (std::size_t i = here; i-- > 0 && moments_[i].at >= now.at - signsLast;) {
        take(moments_[i]);
    }
    for (std::size_t i = here + 1; i < moments_.size() && moments_[i].reading == nullptr; ++i) {
        take(moments_[i]);
    }
    return signs;
}

std::optional<Uncertain> Gatherer::alone(const Sight& now, const Sight& then, std::size_t i) const
{
    constexpr Uncertain asBefore = {1.0, 0.0};
    const auto rest = movedFrom(restOf(now, i), restOf(then, i), asBefore);
    const auto stage = movedFrom(now.drops[i], then.drops[i], asBefore);
    return rest && stage && rest->above(0.0) > likely ? std::optional(quotient(*stage, *rest)) : std::nullopt;
}

void Gatherer::compareHead(Evidence& evidence) const
{
    const Sight& now = evidence.now;
    if (base_ != nullptr) {
        evidence.headSinceBase = movedFrom(now.head, headBase_, evidence.oilSinceBase);
    }
    if (last_ != nullptr) {
        evidence.headSinceLast = movedFrom(now.head, last_->head, evidence.oilSinceLast);
    }
    if (oneBefore_ != nullptr) {
        evidence.headSinceOneBefore = movedFrom(now.head, oneBefore_->head, expectedFactor(now, *oneBefore_));
    }
}

void Gatherer::compareStage(Evidence& evidence, std::size_t i) const
{
    const Sight& now = evidence.now;
    const StageBook& book = stages_[i];
    StageEvidence& stage = evidence.stages[i];
    stage.base = book.base;
    stage.renewal = book.renewal;
    if (book.freshCount > 0 && book.first->loading[i]) {
        const auto& told = run_.setup.stages[i].loaded;
        const double asFitted = told && !book.renewal ? std::max(1.0, told->toDouble()) : 1.0;
        stage.fresh = Uncertain{book.freshSum / book.freshCount / asFitted, book.first->loading[i]->sd / asFitted};
    }
    if (book.renewal && book.renewal->before != nullptr) {
        const Sight& before = *book.renewal->before;
        stage.ofOld = movedFrom(book.first->drops[i], before.drops[i], expectedFactor(*book.first, before));
        if (stage.ofOld) { // the two are not alike: the standing error does not cancel
            stage.ofOld->sd = std::hypot(stage.ofOld->sd, before.drops[i]->standing / before.drops[i]->value);
        }
    }
    const bool isSameForAll = std::none_of(stages_.begin(), stages_.end(),
                                           [](const StageBook& other) { return other.isNewSinceLast; });
    if (book.base != nullptr) {
        stage.sinceBase = movedFrom(now.drops[i], book.base->drops[i], expectedFactor(now, *book.base));
        stage.aloneSinceBase = isSameForAll ? alone(now, *book.base, i) : std::nullopt;
    }
    if (last_ != nullptr && !book.isNewSinceLast) {
        stage.last = last_->drops[i];
        stage.sinceLast = movedFrom(now.drops[i], last_->drops[i], evidence.oilSinceLast);
        stage.aloneSinceLast = isSameForAll ? alone(now, *last_, i) : std::nullopt;
    }
    const bool isSameSince = oneBefore_ != nullptr && !book.isNewSinceLast
        && oneBefore_->moment->elementsSince[i] == now.moment->elementsSince[i];
    if (isSameSince) {
        stage.sinceOneBefore = movedFrom(now.drops[i], oneBefore_->drops[i], expectedFactor(now, *oneBefore_));
    }
}

void Gatherer::compareSums(Evidence& evidence) const
{
    const Sight& now = evidence.now;
    const bool isAsLast = last_ != nullptr
        && std::none_of(stages_.begin(), stages_.end(), [](const StageBook& book) { return book.isNewSinceLast; });
    if (isAsLast) {
        evidence.filtersSinceLast = movedFrom(now.filters, last_->filters, evidence.oilSinceLast);
        evidence.totalSinceLast = movedFrom(now.total, last_->total, evidence.oilSinceLast);
        constexpr Uncertain asBefore = {1.0, 0.0};
        const auto head = movedFrom(now.head, last_->head, asBefore);
        const auto filters = movedFrom(now.filters, last_->filters, asBefore);
        if (head && filters && filters->above(0.0) > likely) {
            evidence.headAloneSinceLast = quotient(*head, *filters);
        }
    }
    if (base_ == nullptr || !headBase_) {
        return;
    }
    Measured expected = *headBase_; // at the push of the base
    for (const StageBook& book : stages_) {
        const auto i = static_cast<std::size_t>(&book - stages_.data());
        if (book.base == nullptr || !book.base->drops[i]) {
            return;
        }
        expected = expected + times(*book.base->drops[i], expectedFactor(*base_, *book.base).value);
    }
    if (now.total) {
        expected.standing = now.total->standing;
    }
    evidence.totalSinceBase = movedFrom(now.total, expected, evidence.oilSinceBase);
}

Evidence Gatherer::gather(const Moment& reading)
{
    sights_.push_back(sighting_.see(reading, offsets_));
    const Sight& now = sights_.back();
    watchNeedles(now);
    watchFresh(now);
    if (now.viscosity && (coldest_ == nullptr || *now.viscosity > *coldest_->viscosity)) {
        coldest_ = &now;
    }
    Evidence evidence{.run = run_, .now = now, .sights = sights_};
    evidence.base = base_;
    evidence.last = last_;
    evidence.needles = needles_;
    evidence.pumpOff = pumpOff_;
    evidence.coldest = coldest_;
    evidence.signs = signsNear(now);
    if (base_ != nullptr) {
        evidence.oilSinceBase = expectedFactor(now, *base_);
    }
    if (last_ != nullptr) {
        evidence.oilSinceLast = expectedFactor(now, *last_);
    }
    compareHead(evidence);
    evidence.stages.resize(stages_.size());
    for (std::size_t i = 0; i < stages_.size(); ++i) {
        compareStage(evidence, i);
    }
    compareSums(evidence);
    return evidence;
}

void Gatherer::averageHead(const Sight& now)
{
    if (!now.head || headSets_ >= setsOfHeadBase) {
        return;
    }
    const Measured atBase = times(*now.head, 1.0 / expectedFactor(now, *base_).value);
    const double n = ++headSets_;
    const Pressure mean = headBase_ ? headBase_->value * ((n - 1.0) / n) + atBase.value / n : atBase.value;
    headBase_ = Measured{mean, now.head->reading / std::sqrt(n), atBase.standing};
}

void Gatherer::settle(bool isSpoiled)
{
    if (isSpoiled) {
        return;
    }
    const Sight& now = sights_.back();
    if (base_ == nullptr) {
        base_ = &now;
    }
    averageHead(now);
    for (std::size_t i = 0; i < stages_.size(); ++i) {
        if (stages_[i].base == nullptr && now.drops[i]) {
            stages_[i].base = &now;
        }
        stages_[i].isNewSinceLast = false;
    }
    if (last_ == nullptr || knows(now) >= knows(*last_) || now.at - last_->at > longestReference) {
        oneBefore_ = last_;
        last_ = &now;
    }
}

std::optional<Uncertain> flowLeft(const Evidence& evidence)
{
    constexpr double grown = 1.1;
    const bool noneLoads = std::all_of(evidence.stages.begin(), evidence.stages.end(), [](const StageEvidence& stage) {
        return stage.sinceBase && stage.sinceBase->above(grown) < even;
    });
    return noneLoads && evidence.totalSinceBase ? evidence.totalSinceBase : evidence.headSinceBase;
}

} // namespace loopside::run
