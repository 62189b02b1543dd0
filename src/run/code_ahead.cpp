// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "run/code_ahead.h"

#include "base/text.h"
#include "run/plan.h"
#include "run/tank_ahead.h"

#include <algorithm>
#include <cmath>

namespace loopside::run {

namespace {

using filtration::Band;
using filtration::CountSeen;
using filtration::LearnedTank;
using filtration::Reach;

/// Turnovers that the pump makes in `moreHours`.
double turnoversMore(const Setup& setup)
{
    return moreHours * 60.0 / (setup.tank.volume.value() / setup.cart.flow.value()).in(units::minute);
}

std::optional<double> targetAt(const RunState& run, std::size_t size)
{
    const auto target = oil::CleanlinessCode::parse(run.setup.target.code);
    const auto range = target ? target->scales()[size].countRange() : std::nullopt;
    return range ? range->upToPerMl : std::nullopt;
}

double codesBetween(double from, double to)
{
    return from > 0.0 && to > 0.0 ? std::log2(from / to) : 0.0;
}

/// Turnovers from now, where `at` were since the count that they are counted from.
Reach fromNow(Reach reach, double at)
{
    for (auto* part : {&reach.low, &reach.best, &reach.high}) {
        *part = *part ? std::optional(std::max(0.0, **part - at)) : std::nullopt;
    }
    return reach;
}

/// What one count says of the oil, as far as its test scatters: of the logarithm, 90 % either way.
double scatterOf(const CountSeen& count)
{
    return ninetyPercent * std::hypot(filtration::testScatter, count.spread);
}

/// Both doubts of one size, each as a distance from the middle.
double both(double one, double other)
{
    return std::hypot(one, other);
}

/// The count now by the model: from `count`, which scatters, by a tank that is not known well.
Band nowByModel(const CountSeen& count, const TankAhead& tank, double since)
{
    const auto after = [&](const filtration::MixedTank& one) {
        return filtration::countAfter(count.perMl, since, one).value_or(count.perMl);
    };
    const double likely = after(tank.likely);
    const double ofCount = scatterOf(count) * std::clamp((likely - tank.likely.floorPerMl) / likely, 0.0, 1.0);
    return {likely * std::exp(-both(ofCount, std::log(likely / after(tank.best)))), likely,
            likely * std::exp(both(ofCount, std::log(after(tank.worst) / likely)))};
}

/// Turnovers from `count` to the target.
Reach reachByModel(const CountSeen& count, const TankAhead& tank, double targetPerMl)
{
    const auto to = [&](const filtration::MixedTank& one) -> std::optional<double> {
        const auto turnovers = filtration::turnoversBetween(count.perMl, targetPerMl, one);
        return turnovers ? std::optional(*turnovers) : std::nullopt;
    };
    const auto likely = to(tank.likely);
    const auto soonest = to(tank.best);
    const auto latest = to(tank.worst);
    if (!likely) {
        return {soonest, {}, {}, 0.0};
    }
    const double ofCount = scatterOf(count) / tank.likely.captureTimesMixing;
    return {std::max(0.0, *likely - both(ofCount, *likely - soonest.value_or(*likely))), likely,
            latest ? std::optional(*likely + both(ofCount, *latest - *likely)) : std::nullopt, 0.0};
}

/// From one count by the model alone, which what runs before taught makes better.
std::optional<SizeAhead> byModel(const CountSeen& count, const RunState& run, double now, SizeAhead ahead)
{
    const TankAhead tank = tankAhead(run.place, run.setup, ahead.size, mixingFactorOf(run.setup.tank));
    const double since = std::max(0.0, now - count.turnovers);
    ahead.nowPerMl = nowByModel(count, tank, since);
    ahead.codesMore = codesBetween(ahead.nowPerMl.best, nowByModel(count, tank, since + turnoversMore(run.setup)).best);
    if (tank.likely.floorPerMl > 0.0) {
        ahead.floorPerMl = Band{tank.best.floorPerMl, tank.likely.floorPerMl, tank.worst.floorPerMl};
    }
    if (ahead.targetPerMl) {
        Reach reach = reachByModel(count, tank, *ahead.targetPerMl);
        reach.neverShare = chanceNever(run.place, run.setup, ahead.size, *ahead.targetPerMl,
                                       tank.likely.captureTimesMixing);
        ahead.toTarget = fromNow(reach, since);
    }
    return ahead;
}

std::optional<SizeAhead> byCounts(const LearnedTank& tank, const RunState& run, double since, SizeAhead ahead)
{
    const auto now = tank.countAfter(since);
    const auto later = tank.countAfter(since + turnoversMore(run.setup));
    if (!now || !later) {
        return std::nullopt;
    }
    ahead.nowPerMl = *now;
    ahead.codesMore = codesBetween(now->best, later->best);
    ahead.floorPerMl = tank.isFloorTold() ? std::optional(tank.floorPerMl()) : std::nullopt;
    if (ahead.targetPerMl) {
        const auto reach = tank.turnoversTo(*ahead.targetPerMl);
        ahead.toTarget = reach ? std::optional(fromNow(*reach, since)) : std::nullopt;
    }
    return ahead;
}

std::vector<CountSeen> countsAt(const std::vector<SampleSeen>& samples, std::size_t size)
{
    std::vector<CountSeen> counts;
    for (const SampleSeen& sample : samples) {
        const auto& count = sample.counts[size];
        const bool isUsable = count && count->perMl > 0.0 && count->particles.value_or(1.0) > 0.0;
        const bool isTrue = sample.isOfTank() && sample.mode != Mode::Stopped && sample.fooledBy.empty();
        if (isTrue && isUsable) {
            counts.push_back(*count);
        }
    }
    return counts;
}

std::optional<SizeAhead> sizeAhead(const std::vector<SampleSeen>& samples, const RunState& run, double now,
                                   std::size_t size)
{
    const auto counts = countsAt(samples, size);
    if (counts.empty()) {
        return std::nullopt;
    }
    const SizeAhead ahead{.size = size, .counts = static_cast<int>(counts.size()), .targetPerMl = targetAt(run, size)};
    const auto tank = LearnedTank::from(counts);
    const double first = std::min_element(counts.begin(), counts.end(), [](const CountSeen& a, const CountSeen& b) {
                             return a.turnovers < b.turnovers;
                         })->turnovers;
    return tank ? byCounts(*tank, run, std::max(0.0, now - first), ahead) : byModel(counts.back(), run, now, ahead);
}

/// The code of one end of all bands; a size is never told lower than a larger one.
std::optional<oil::CleanlinessCode> codeOf(const std::vector<SizeAhead>& sizes, double Band::* end)
{
    oil::CleanlinessCode::Scales scales = {oil::ScaleNumber::notCounted(), oil::ScaleNumber::notCounted(),
                                           oil::ScaleNumber::notCounted()};
    double least = 0.0;
    for (auto ahead = sizes.rbegin(); ahead != sizes.rend(); ++ahead) {
        least = std::max(least, ahead->nowPerMl.*end);
        const auto scale = oil::scaleNumberOf(least);
        if (!scale) {
            return std::nullopt;
        }
        scales[ahead->size] = *scale;
    }
    const auto code = oil::CleanlinessCode::of(scales);
    return code ? std::optional(*code) : std::nullopt;
}

/// Orders by the middle, then by how likely it is never; never comes last.
bool isSooner(const Reach& a, const Reach& b)
{
    const double never = 1e9;
    return a.best.value_or(never + a.neverShare) < b.best.value_or(never + b.neverShare);
}

void findSlowest(CodeAhead& ahead, const RunState& run)
{
    std::size_t asked = 0;
    for (std::size_t size = 0; size < 3; ++size) {
        asked += targetAt(run, size) ? 1 : 0;
    }
    std::size_t known = 0;
    for (std::size_t i = 0; i < ahead.sizes.size(); ++i) {
        const auto& reach = ahead.sizes[i].toTarget;
        known += reach ? 1 : 0;
        if (reach && (!ahead.slowest || isSooner(*ahead.sizes[*ahead.slowest].toTarget, *reach))) {
            ahead.slowest = i;
        }
    }
    if (asked == 0 || known < asked) {
        ahead.slowest = std::nullopt; // a size that is asked for was not counted
        return;
    }
    ahead.toTarget = ahead.sizes[*ahead.slowest].toTarget;
}

std::string shown(const std::optional<double>& turnovers)
{
    return turnovers ? fixed(*turnovers, 1) : "∞";
}

Message wayTold(const CodeAhead& ahead, const RunState& run)
{
    const Reach& reach = *ahead.toTarget;
    if (!reach.best) {
        const bool isCounted = ahead.sizes[*ahead.slowest].counts > 1;
        return {isCounted ? "code-ahead.never" : "code-ahead.never-taught",
                {{"target", run.setup.target.code}, {"chance", fixed(100.0 * reach.neverShare, 0)}}};
    }
    const double each = (run.setup.tank.volume.value() / run.setup.cart.flow.value()).in(units::minute);
    return {*reach.best > 0.0 ? "code-ahead.way" : "code-ahead.there",
            {{"target", run.setup.target.code},
             {"least", shown(reach.low)},
             {"best", shown(reach.best)},
             {"most", shown(reach.high)},
             {"minutes", fixed(std::ceil(*reach.best * each), 0)}}};
}

} // namespace

bool CodeAhead::isAtFloor() const
{
    bool isAny = false;
    for (const SizeAhead& size : sizes) {
        const bool isOpen = size.targetPerMl && size.nowPerMl.best > *size.targetPerMl;
        if (isOpen && size.codesMore >= 1.0) {
            return false;
        }
        isAny = isAny || isOpen;
    }
    return isAny;
}

std::optional<CodeAhead> codeAheadOf(const RunState& run, const Standing& standing)
{
    const auto samples = samplesOf(run, standing);
    CodeAhead ahead;
    for (std::size_t size = 0; size < 3; ++size) {
        if (const auto one = sizeAhead(samples, run, standing.credit.turnovers.best, size)) {
            ahead.sizes.push_back(*one);
        }
    }
    if (ahead.sizes.empty()) {
        return std::nullopt;
    }
    ahead.nowBest = codeOf(ahead.sizes, &Band::low);
    ahead.nowMiddle = codeOf(ahead.sizes, &Band::best);
    ahead.nowWorst = codeOf(ahead.sizes, &Band::high);
    findSlowest(ahead, run);
    return ahead;
}

std::vector<Message> tellCodeAhead(const CodeAhead& ahead, const RunState& run)
{
    std::vector<Message> told;
    const bool isLearned = std::any_of(ahead.sizes.begin(), ahead.sizes.end(),
                                       [](const SizeAhead& size) { return size.counts > 1; });
    if (ahead.nowBest && ahead.nowMiddle && ahead.nowWorst) {
        const bool isTaught = run.place.mixing.has_value();
        told.push_back({isLearned      ? "code-ahead.now-counted"
                            : isTaught ? "code-ahead.now-taught"
                                       : "code-ahead.now-model",
                        {{"best", ahead.nowBest->toText()},
                         {"code", ahead.nowMiddle->toText()},
                         {"worst", ahead.nowWorst->toText()},
                         {"runs", std::to_string(isTaught ? run.place.mixing->runs : 0)}}});
    }
    if (ahead.toTarget) {
        told.push_back(wayTold(ahead, run));
    }
    if (ahead.isAtFloor()) {
        told.push_back({"code-ahead.floor", {{"hours", fixed(moreHours, 0)}}});
    }
    return told;
}

} // namespace loopside::run
