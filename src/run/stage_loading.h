// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// A run seen from its elements: for each stage the loadings, one after the other, and the good sets of gauges of each.
//
// Load is what the elements caught, in litres' worth of the dirt that the oil held at the start of the run: litres
// through the filters, bent by clean-up (forecast/load_axis.h). Only filtering loads. A stretch that nobody watched
// counts as filtered unless somebody said that it was not: too much load is told rather than too little.
//
// Good is a set that was logged while filtering, that no question about typing holds back, and whose corrected ΔP is
// known.

#pragma once

#include "forecast/load_axis.h"
#include "run/judge.h"

#include <vector>

namespace loopside::run {

/// What is taken of the clean-up of a tank that nobody has counted: see `cleaningOf`.
[[nodiscard]] forecast::CleaningUp cleaningOf(const TankRecord& tank);

/// One good set, for one stage.
struct LoadedSet
{
    RunTime at{0};
    const Fact* fact = nullptr;
    StageDrop drop;             ///< With raw, reading and corrected.
    double filteringSecond = 0; ///< Of the run, whatever elements were in.
    double load_l = 0.0;        ///< Of the elements that are in.
    bool isLate = false;        ///< Entered later than seen.
    bool isAllAtOnce = false;   ///< One of several that were entered together, later: no scatter, no evidence.
    bool isDoubtful = false;    ///< The oil may not have gone through the filters: says nothing of dirt.
    bool isSwelling = false;    ///< A water element that takes water: its ΔP says nothing of dirt either.
    bool isDropDoubted = false; ///< A gauge beside the stage errs, or an element is missing: the same.
    bool isAtLimit = false;     ///< Raw ΔP at the change limit or above, in the digits as typed.
};

/// Raw ÷ corrected of a set: by how much the oil is thicker than at the stage's reference. 1 where that makes no sense.
[[nodiscard]] double rawPerCorrected(const LoadedSet& set);

/// From clean (or used) elements to their change or the end.
struct StageLoading
{
    int stage = 1;                ///< From 1.
    int number = 1;               ///< In this run and stage, from 1.
    std::string elementType = {}; ///< Empty if unknown.
    bool isMixed = false;         ///< Only some of the elements were new at its start.
    bool isUsed = false;          ///< The elements had caught something before: told, or it shows.
    bool isOver = false;          ///< Changed, or the run is closed.
    double load_l = 0.0;          ///< At its end, or at the last entry.
    std::vector<LoadedSet> sets = {};
};

/// How far the filters were used at one time of a run.
struct Filtered
{
    double seconds = 0.0;
    double turnovers = 0.0;
};

/// Up to the last entry.
struct RunLoadings
{
    std::vector<StageLoading> loadings = {}; ///< By stage, then by number; at least one for each stage.
    Filtered filtered = {};

    /// The loading of the elements that are in now.
    [[nodiscard]] const StageLoading& now(int stage) const;
};

/// `judged`: the sets of `moments` as judge.h has them.
[[nodiscard]] RunLoadings loadingsOf(const RunState& run, const std::vector<Moment>& moments,
                                     const std::vector<Question>& questions, const std::vector<JudgedSet>& judged);

} // namespace loopside::run
