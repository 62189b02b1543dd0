// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "run/learning.h"

#include "run/six_digits.h"
#include "run/stage_loading.h"

#include <algorithm>
#include <iterator>

namespace loopside::run {

namespace {

using units::pascal;

constexpr std::size_t fewestPoints = 3;

/// The sets that a loading may teach by, up to the first at the limit.
std::vector<LoadedSet> teachingSets(const StageLoading& loading)
{
    std::vector<LoadedSet> sets;
    for (const LoadedSet& set : loading.sets) {
        if (set.isLate || set.isAllAtOnce || set.isDoubtful || set.isDropDoubted) {
            continue;
        }
        sets.push_back(set);
        if (set.isAtLimit) {
            break;
        }
    }
    return sets;
}

/// Every point, or evenly chosen ones with the first and the last among them.
std::vector<LoadingLearned::Point> thinned(const std::vector<LoadedSet>& sets)
{
    const std::size_t count = std::min(sets.size(), curvePointsMost);
    std::vector<LoadingLearned::Point> points;
    for (std::size_t i = 0; i < count; ++i) {
        const LoadedSet& set = sets[i * (sets.size() - 1) / (count - 1)];
        points.push_back({sixDigits(set.load_l), sixDigits(set.drop.corrected->in(pascal))});
    }
    return points;
}

std::optional<LoadingLearned> taughtBy(const StageLoading& loading, const Setup& setup)
{
    const std::vector<LoadedSet> sets = teachingSets(loading);
    const bool hasSwollen = std::any_of(sets.begin(), sets.end(), [](const LoadedSet& set) { return set.isSwelling; });
    if (!loading.isOver || loading.isMixed || hasSwollen || sets.size() < fewestPoints) {
        return std::nullopt;
    }
    const StageRecord& stage = setup.stages[static_cast<std::size_t>(loading.stage - 1)];
    const LoadedSet& last = sets.back();
    LoadingLearned learned;
    learned.stage = loading.stage;
    learned.number = loading.number;
    learned.tank = setup.tank.name;
    learned.elementType = loading.elementType;
    learned.kind = stage.kind;
    learned.isCutShort = !last.isAtLimit;
    learned.isUsed = loading.isUsed;
    learned.readingError_pa = sixDigits((*last.drop.reading / rawPerCorrected(last)).in(pascal));
    learned.limit_pa = sixDigits(last.drop.corrected->in(pascal));
    learned.end_l = sixDigits(last.isAtLimit ? last.load_l : std::max(loading.load_l, last.load_l));
    learned.curve = thinned(sets);
    const bool isUsable = learned.limit_pa > 0.0 && learned.end_l > 0.0;
    return isUsable ? std::optional(learned) : std::nullopt;
}

/// How near `learned` stands to `elements`; nothing where it is no kin.
std::optional<forecast::Kinship> kinship(const LoadingLearned& learned, const ElementsOf& elements)
{
    if (learned.isWithdrawn) {
        return std::nullopt;
    }
    if (!elements.type.empty() && learned.elementType == elements.type) {
        return learned.tank == elements.tank ? forecast::Kinship::SameTank : forecast::Kinship::SameType;
    }
    const bool isSameKind = !elements.kind.empty() && learned.kind == elements.kind;
    return isSameKind ? std::optional(forecast::Kinship::SameKind) : std::nullopt;
}

/// The nearest kinship with any stage of `setup`.
std::optional<forecast::Kinship> nearestKinship(const LoadingLearned& learned, const Setup& setup)
{
    std::optional<forecast::Kinship> nearest;
    for (const StageRecord& stage : setup.stages) {
        const auto found = kinship(learned, {setup.tank.name, stage.type, stage.kind});
        if (found && (!nearest || *found < *nearest)) {
            nearest = found;
        }
    }
    return nearest;
}

} // namespace

std::vector<LoadingLearned> learningChanges(const RunState& run, const Standing& standing)
{
    if (run.setup.isPractice) {
        return {};
    }
    std::vector<LoadingLearned> now;
    for (const StageLoading& loading :
         loadingsOf(run, standing.moments, standing.questions, standing.diagnosis.sets).loadings) {
        if (auto taught = taughtBy(loading, run.setup)) {
            now.push_back(*std::move(taught));
        }
    }
    std::vector<LoadingLearned> changes;
    for (LoadingLearned told : run.taught) {
        const bool stillStands = std::any_of(now.begin(), now.end(), [&](const LoadingLearned& taught) {
            return taught.stage == told.stage && taught.number == told.number;
        });
        if (!stillStands && !told.isWithdrawn) {
            told.isWithdrawn = true;
            changes.push_back(std::move(told));
        }
    }
    std::copy_if(now.begin(), now.end(), std::back_inserter(changes), [&](const LoadingLearned& taught) {
        return std::find(run.taught.begin(), run.taught.end(), taught) == run.taught.end();
    });
    return changes;
}

std::vector<LoadingLearned> learnedFor(const State& state, const Setup& setup)
{
    struct Kin
    {
        forecast::Kinship kinship;
        const LoadingLearned* learned;
    };
    std::vector<Kin> all;
    for (auto run = state.runs.rbegin(); run != state.runs.rend(); ++run) { // ids rise with time: the latest first
        for (const LoadingLearned& learned : run->second.taught) {
            if (const auto nearest = nearestKinship(learned, setup)) {
                all.push_back({*nearest, &learned});
            }
        }
    }
    std::stable_sort(all.begin(), all.end(), [](const Kin& a, const Kin& b) { return a.kinship < b.kinship; });
    all.resize(std::min(all.size(), learnedMost));
    std::vector<LoadingLearned> learned;
    std::transform(all.begin(), all.end(), std::back_inserter(learned), [](const Kin& kin) { return *kin.learned; });
    return learned;
}

std::vector<forecast::PastLoading> pastLoadings(const std::vector<LoadingLearned>& learned, const ElementsOf& elements)
{
    std::vector<forecast::PastLoading> past;
    for (const LoadingLearned& one : learned) {
        const auto kin = kinship(one, elements);
        if (!kin) {
            continue;
        }
        forecast::PastLoading loading;
        loading.kinship = *kin;
        loading.endLoad = one.end_l;
        loading.limit = one.limit_pa * pascal;
        loading.isCutShort = one.isCutShort;
        loading.isUsed = one.isUsed;
        loading.readingError = one.readingError_pa * pascal;
        for (const auto& [load, drop] : one.curve) {
            loading.curve.push_back({load, drop * pascal});
        }
        past.push_back(std::move(loading));
    }
    return past;
}

} // namespace loopside::run
