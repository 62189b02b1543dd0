// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "run/kit.h"

#include <algorithm>
#include <array>

namespace loopside::run {

namespace {

std::optional<std::size_t> firstOfTank(const std::vector<SampleSeen>& samples)
{
    for (std::size_t i = 0; i < samples.size(); ++i) {
        if (samples[i].isOfTank() && samples[i].turnovers < firstBottleUntil) {
            return i;
        }
    }
    return std::nullopt;
}

std::optional<std::size_t> latestAt(const std::vector<SampleSeen>& samples, int port)
{
    for (std::size_t i = samples.size(); i-- > 0;) {
        if (samples[i].drawn->port == port) {
            return i;
        }
    }
    return std::nullopt;
}

bool isTargetMet(const RunState& run, double turnovers)
{
    const auto& target = run.setup.target.turnovers;
    return target && turnovers >= target->toDouble();
}

/// Whether `sample`, drawn behind the first one, shows the tank as filtering left it.
bool isOfEnd(const SampleSeen& sample, const RunState& run, const Standing& standing)
{
    const bool isEnd = run.phase == Phase::Closed || !run.setup.target.turnovers;
    return isTargetMet(run, sample.turnovers)
        || (isEnd && standing.credit.turnovers.best - sample.turnovers < lastBottleWithin);
}

std::optional<std::size_t> lastOfTank(const RunState& run, const Standing& standing,
                                      const std::vector<SampleSeen>& samples)
{
    const auto first = firstOfTank(samples);
    for (std::size_t i = samples.size(); i-- > 0;) {
        const bool isLater = first ? i > *first && samples[i].turnovers > samples[*first].turnovers
                                   : samples[i].turnovers >= firstBottleUntil;
        if (samples[i].isOfTank() && isLater && isOfEnd(samples[i], run, standing)) {
            return i;
        }
    }
    return std::nullopt;
}

KitBottle beforeOf(const RunState& run, const Standing& standing, const std::vector<SampleSeen>& samples)
{
    const auto drawn = firstOfTank(samples);
    const bool isPast = run.phase == Phase::Closed || standing.credit.turnovers.best >= firstBottleUntil;
    const KitState state = drawn ? KitState::Drawn : isPast ? KitState::Over : KitState::Wanted;
    return {KitPart::Before, state, drawn ? std::optional(samples[*drawn].drawn->port) : std::nullopt, drawn};
}

KitBottle behindStage(const RunState& run, const std::vector<SampleSeen>& samples, int port)
{
    const auto drawn = latestAt(samples, port);
    const bool isLast = port == static_cast<int>(run.setup.cart.gauges.size());
    const KitState state = drawn ? KitState::Drawn : run.phase == Phase::Closed ? KitState::Over : KitState::Helps;
    return {isLast ? KitPart::Behind : KitPart::Between, state, port, drawn};
}

KitBottle afterOf(const RunState& run, const Standing& standing, const std::vector<SampleSeen>& samples,
                  const std::optional<int>& port)
{
    const auto drawn = lastOfTank(run, standing, samples);
    const double best = standing.credit.turnovers.best;
    const bool isTime = run.setup.target.turnovers ? isTargetMet(run, best) : best >= firstBottleUntil;
    const KitState state = drawn     ? KitState::Drawn
        : run.phase == Phase::Closed ? KitState::Over
        : isTime                     ? KitState::Wanted
                                     : KitState::Later;
    return {KitPart::After, state, drawn ? std::optional(samples[*drawn].drawn->port) : port, drawn};
}

} // namespace

std::string_view nameOf(KitPart part)
{
    constexpr std::array<std::string_view, 4> names = {"before", "between", "behind", "after"};
    return names.at(static_cast<std::size_t>(part));
}

std::string_view nameOf(KitState state)
{
    constexpr std::array<std::string_view, 5> names = {"drawn", "wanted", "helps", "later", "over"};
    return names.at(static_cast<std::size_t>(state));
}

std::vector<KitBottle> kitOf(const RunState& run, const Standing& standing, const std::vector<SampleSeen>& samples)
{
    std::vector<KitBottle> kit = {beforeOf(run, standing, samples)};
    for (int port = 2; port <= static_cast<int>(run.setup.cart.gauges.size()); ++port) {
        kit.push_back(behindStage(run, samples, port));
    }
    kit.push_back(afterOf(run, standing, samples, kit.front().port));
    return kit;
}

std::optional<RunTime> circulatingSince(const Standing& standing)
{
    std::optional<RunTime> since;
    for (const Moment& moment : standing.moments) {
        since = moment.mode == Mode::Stopped ? std::nullopt : since ? since : std::optional(moment.at);
    }
    return since;
}

} // namespace loopside::run
