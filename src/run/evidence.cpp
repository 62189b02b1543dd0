// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "run/evidence.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace loopside::run {

namespace {

using units::pascal;
using units::Pressure;

constexpr std::size_t setsOfBase = 3;
constexpr RunTime baseFor = std::chrono::minutes(15);
constexpr RunTime freshFor = std::chrono::minutes(5);
constexpr RunTime growthFor = std::chrono::minutes(20); ///< In which a stage shows how fast it loads at first.
constexpr std::size_t setsOfReference = 3;
constexpr RunTime longestReference = std::chrono::minutes(90); ///< The dirt of an older set is not that of now.

constexpr RunTime signsLast = std::chrono::minutes(15);

/// As far as somebody misreads a needle, in divisions of its dial: a printed number taken for its neighbour.
constexpr double farthestSlip = 5.5;
constexpr double isMoved = 2.0; ///< In divisions: no needle of that dial is read so far off by itself.

std::optional<Ratio> movedFrom(const std::optional<Measured>& now, const std::optional<Measured>& then,
                               const Uncertain& factor)
{
    return now && then ? std::optional(moved(*now, *then, factor)) : std::nullopt;
}

std::optional<Ratio> movedBesideFrom(const std::optional<Measured>& aNow, const std::optional<Measured>& aThen,
                                     const std::optional<Measured>& bNow, const std::optional<Measured>& bThen)
{
    const auto flows = [](const std::optional<Measured>& loss) {
        return loss && Uncertain{loss->value.in(pascal), loss->reading.in(pascal)}.above(0.0) > likely;
    };
    return aNow && aThen && flows(bNow) && flows(bThen) ? std::optional(movedBeside(*aNow, *aThen, *bNow, *bThen))
                                                        : std::nullopt;
}

bool isSameFilling(const Sight& a, const Sight& b, std::size_t i)
{
    return a.moment->elementsSince[i] == b.moment->elementsSince[i];
}

bool areSameFillings(const Sight& a, const Sight& b)
{
    return a.moment->elementsSince == b.moment->elementsSince;
}

/// The losses that both `one` and `other` tell with the same elements, stage `without` left out: head and other stages.
std::optional<Measured> restOf(const Sight& one, const Sight& other, std::size_t without)
{
    std::optional<Measured> rest;
    const auto add = [&](const std::optional<Measured>& loss, const std::optional<Measured>& atOther) {
        if (loss && atOther) {
            rest = rest ? *rest + *loss : *loss;
        }
    };
    add(one.head, other.head);
    for (std::size_t i = 0; i < one.drops.size(); ++i) {
        if (i != without && isSameFilling(one, other, i)) {
            add(one.drops[i], other.drops[i]);
        }
    }
    return rest;
}

Measured times(const Measured& measured, double factor)
{
    return {measured.value * factor, measured.reading * factor, measured.standing};
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
    sighting_.noteRest(pumpOff);
    pumpOff_ = &pumpOff;
}

void Gatherer::renew(const Moment& moment, const ElementsChanged& changed)
{
    const auto i = static_cast<std::size_t>(changed.stage - 1);
    if (i >= stages_.size()) {
        return;
    }
    const Sight* before = sights_.empty() || isSpoiled_ ? nullptr : &sights_.back();
    stages_[i] = StageBook{};
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
        if (!now.loading[i]) {
            continue;
        }
        if (stage.first == nullptr) {
            stage.first = &now;
        }
        if (now.at - stage.first->at <= freshFor) {
            stage.freshSum += now.loading[i]->value;
            stage.freshTimes += now.at - stage.first->at;
            ++stage.freshCount;
        }
        if (now.at - stage.first->at <= growthFor) {
            stage.newest = &now;
        }
    }
}

double Gatherer::asFitted(std::size_t i) const
{
    const auto& told = run_.setup.stages[i].loaded;
    return told && !stages_[i].renewal ? std::max(1.0, told->toDouble()) : 1.0;
}

void Gatherer::tellFresh(StageEvidence& stage, std::size_t i) const
{
    const StageBook& book = stages_[i];
    if (book.freshCount == 0) {
        return;
    }
    const double told = asFitted(i);
    const Uncertain& first = *book.first->loading[i];
    const double mean = book.freshSum / book.freshCount;
    stage.fresh = Uncertain{mean / told, first.sd / told};
    stage.freshAtStart = stage.fresh;
    stage.isFresh = book.newest == &sights_.back();
    if (const RunTime seen = book.newest->at - book.first->at; seen > freshFor / 2) {
        const double growth = std::max(0.0, book.newest->loading[i]->value - first.value);
        const RunTime before = book.first->at - book.first->moment->disturbedAt.value_or(book.first->at);
        const double times = static_cast<double>((before + book.freshTimes / book.freshCount).count())
            / static_cast<double>(seen.count());
        stage.freshAtStart->value -= growth * std::min(1.0, times) / told;
    }
}

void Gatherer::tellLoading(StageEvidence& stage, std::size_t i) const
{
    const Sight& now = sights_.back();
    if (!now.loading[i] || !stage.fresh) {
        return;
    }
    const Sight& first = *stages_[i].first;
    const RunTime began = first.moment->disturbedAt.value_or(first.at);
    const FirstMinutes minutes{first, stages_[i].freshCount, stage.fresh->value, asFitted(i), std::min(began, now.at)};
    LoadingLine line;
    for (const Sight* sight : recent_.size() < setsOfReference ? std::span(recent_) : std::span(recent_).last(2)) {
        if (sight->loading[i] && isSameFilling(now, *sight, i)) {
            line.add(sight->at, sight->loading[i]->value);
        }
    }
    line.add(now.at, now.loading[i]->value);
    stage.loading = loadingSeen(now, i, line, minutes);
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

std::optional<Ratio> Gatherer::alone(const Sight& now, const Sight& then, std::size_t i) const
{
    return movedBesideFrom(now.drops[i], then.drops[i], restOf(now, then, i), restOf(then, now, i));
}

void Gatherer::compareHead(Evidence& evidence) const
{
    const Sight& now = evidence.now;
    if (base_ != nullptr) {
        evidence.headSinceBase = movedFrom(now.head, headBase_.value(), evidence.oilSinceBase);
    }
    if (last_ != nullptr) {
        evidence.headSinceLast = movedFrom(now.head, reference_->head, evidence.oilSinceLast);
    }
}

void Gatherer::compareStage(Evidence& evidence, std::size_t i) const
{
    const Sight& now = evidence.now;
    const StageBook& book = stages_[i];
    StageEvidence& stage = evidence.stages[i];
    stage.base = book.base;
    stage.renewal = book.renewal;
    tellFresh(stage, i);
    tellLoading(stage, i);
    if (book.renewal && book.renewal->before != nullptr && book.first != nullptr) {
        const Sight& before = *book.renewal->before;
        stage.ofOld = movedFrom(book.first->drops[i], before.drops[i], expectedFactor(*book.first, before));
    }
    if (book.base != nullptr) {
        stage.sinceBase = movedFrom(now.drops[i], book.base->drops[i], expectedFactor(now, *book.base));
        stage.sinceFirst = movedFrom(now.drops[i], book.drop.value(), expectedFactor(now, *book.base));
        stage.aloneSinceBase = alone(now, *book.base, i);
    }
    if (last_ != nullptr && isSameFilling(now, *last_, i)) {
        stage.last = last_->drops[i];
        stage.sinceLast = movedFrom(now.drops[i], reference_->drops[i], evidence.oilSinceLast);
        stage.aloneSinceLast = alone(now, *reference_, i);
    }
}

void Gatherer::compareSums(Evidence& evidence) const
{
    const Sight& now = evidence.now;
    if (last_ != nullptr && areSameFillings(now, *last_)) {
        evidence.filtersSinceLast = movedFrom(now.filters, reference_->filters, evidence.oilSinceLast);
        evidence.totalSinceLast = movedFrom(now.total, reference_->total, evidence.oilSinceLast);
        evidence.headAloneSinceLast = movedBesideFrom(now.head, reference_->head, now.filters, reference_->filters);
    }
    const auto headBase = headBase_.value();
    if (base_ == nullptr || !headBase) {
        return;
    }
    Measured expected = *headBase; // at the push of the base
    for (const StageBook& book : stages_) {
        const auto drop = book.drop.value();
        if (!drop) {
            return;
        }
        expected = expected + times(*drop, expectedFactor(*base_, *book.base).value);
    }
    if (now.total) {
        expected.standing = now.total->standing;
    }
    evidence.totalSinceBase = movedFrom(now.total, expected, evidence.oilSinceBase);
}

/// Whether two needles went, or one so far that nobody misreads it: from the last reference, oil and flow taken out.
bool Gatherer::isBeyondSlip(const Evidence& evidence) const
{
    if (last_ == nullptr) {
        return true; // there is no step: what holds then holds all needles against what is told
    }
    const Uncertain& factor = evidence.oilSinceLast;
    const Pressure head = sighting_.staticHead().value_or(Pressure{});
    int moved = 0;
    for (std::size_t i = 0; i < evidence.now.gauges.size(); ++i) {
        const auto& now = evidence.now.gauges[i];
        const auto& then = last_->gauges[i];
        if (!now || !then) {
            continue;
        }
        const Pressure push = then->value - head;
        const double gone = std::abs((now->value - head - push * factor.value).in(pascal))
            - std::abs(push.in(pascal)) * factor.sd;
        const double divisions = gone / divisionOf(run_.setup.cart.gauges[i]).in(pascal);
        if (divisions > farthestSlip) {
            return true;
        }
        moved += divisions > isMoved ? 1 : 0;
    }
    return moved > 1;
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
    evidence.isBeyondSlip = isBeyondSlip(evidence);
    evidence.oil = oilFits(evidence);
    return evidence;
}

void Gatherer::takeIntoBases(const Sight& now)
{
    if (base_ == nullptr) {
        base_ = &now;
    }
    if (now.head && now.at - base_->at <= baseFor) {
        headBase_.add(times(*now.head, 1.0 / expectedFactor(now, *base_).value));
    }
    for (std::size_t i = 0; i < stages_.size(); ++i) {
        StageBook& book = stages_[i];
        if (!now.drops[i]) {
            continue;
        }
        if (book.base == nullptr) {
            book.base = &now;
        }
        if (now.at - book.base->at > baseFor) {
            continue;
        }
        book.drop.add(times(*now.drops[i], 1.0 / expectedFactor(now, *book.base).value));
    }
}

void Gatherer::settle(bool isSpoiled)
{
    isSpoiled_ = isSpoiled;
    if (isSpoiled) {
        return;
    }
    const Sight& now = sights_.back();
    takeIntoBases(now);
    takeAsReference(now);
}

void Gatherer::takeAsReference(const Sight& now)
{
    last_ = &now;
    recent_.push_back(&now);
    std::erase_if(recent_, [&](const Sight* sight) { return now.at - sight->at > longestReference; });
    if (recent_.size() > setsOfReference) {
        recent_.erase(recent_.begin());
    }
    reference_ = now;
    const auto middle = [&](auto lossOf, auto isAlike) {
        Middle losses;
        for (const Sight* sight : recent_) {
            if (const std::optional<Measured> loss = lossOf(*sight); loss && isAlike(*sight)) {
                losses.add(times(*loss, expectedFactor(now, *sight).value));
            }
        }
        return losses.value();
    };
    const auto isAny = [](const Sight&) { return true; };
    const auto isSame = [&](const Sight& sight) { return areSameFillings(now, sight); };
    reference_->head = middle([](const Sight& sight) { return sight.head; }, isAny);
    reference_->filters = middle([](const Sight& sight) { return sight.filters; }, isSame);
    reference_->total = middle([](const Sight& sight) { return sight.total; }, isSame);
    for (std::size_t i = 0; i < stages_.size(); ++i) {
        reference_->drops[i] = middle([i](const Sight& sight) { return sight.drops[i]; },
                                      [&](const Sight& sight) { return isSameFilling(now, sight, i); });
    }
}

void Gatherer::Middle::add(const Measured& loss)
{
    if (losses_.size() < setsOfBase) {
        losses_.push_back(loss);
        std::sort(losses_.begin(), losses_.end(),
                  [](const Measured& a, const Measured& b) { return a.value < b.value; });
    }
}

std::optional<Measured> Gatherer::Middle::value() const
{
    constexpr double ofThree = 0.67; // standard deviation of the middle of three normal numbers ÷ theirs: computed
    switch (losses_.size()) {
    case 0:
        return std::nullopt;
    case 1:
        return losses_[0];
    case 2:
        return Measured{(losses_[0].value + losses_[1].value) * 0.5, losses_[0].reading * std::numbers::sqrt2 * 0.5,
                        losses_[0].standing};
    default:
        return Measured{losses_[1].value, losses_[1].reading * ofThree, losses_[1].standing};
    }
}

std::optional<Ratio> flowLeft(const Evidence& evidence)
{
    constexpr double grown = 1.1;
    const bool noneLoads = std::all_of(evidence.stages.begin(), evidence.stages.end(), [](const StageEvidence& stage) {
        return stage.sinceBase && stage.sinceBase->above(grown) < even;
    });
    return noneLoads && evidence.totalSinceBase ? evidence.totalSinceBase : evidence.headSinceBase;
}

} // namespace loopside::run
