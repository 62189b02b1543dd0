// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// The diagnosis of a run: its good sets, read while filtering, one after the other against the patterns. Sets that a
// question about typing holds back, sets of which nothing could be read and sets in bypass mode drive nothing.
//
// What one needle misread could feign waits for a second set (`Told`) and then holds from the first. A pattern that
// holds is dropped only when its chance falls below a half, so that nothing chatters. Linear in the number of sets;
// sentences are made for the last one alone.

#pragma once

#include "run/pattern.h"
#include "run/question.h"

#include <optional>
#include <span>
#include <vector>

namespace loopside::run {

/// A pattern that holds at one set.
struct Sign
{
    const Pattern* pattern = nullptr;
    std::size_t place = 0; ///< From 0.
    double holds = 0.0;    ///< Least, in standard uncertainties, of what lends confidence.
    RunTime since{0};
    std::vector<double> ofNeed = {}; ///< How well it holds here and in the sets just before, newest first; 1 is enough.
};

/// One good set, judged from the gauges alone.
struct JudgedSet
{
    const Moment* moment = nullptr;
    std::vector<Sign> signs = {};     ///< In the order of the table of patterns.
    std::vector<Sign> suspected = {}; ///< That hold here and wait for the next set.
    double flowLeft = 1.0;            ///< Of the flow that was stated; below 1 only where a finding says so.
    bool isDoubtful = false;          ///< The oil may not have gone through the filters.

    [[nodiscard]] bool has(std::string_view id) const;

    /// Whether the set says nothing of the dirt in a stage (from 0): the oil may have gone past it.
    [[nodiscard]] bool isDoubtfulFor(std::size_t stage) const;

    /// Whether the ΔP of a stage (from 0) is not that of the dirt in its elements: a gauge beside it errs, or an
    /// element is missing.
    [[nodiscard]] bool doubtsDropOf(std::size_t stage) const;

    /// Whether a water element in a stage (from 0) swells: then its ΔP follows the water, not dirt.
    [[nodiscard]] bool isSwelling(std::size_t stage) const;
};

struct Diagnosis
{
    std::vector<JudgedSet> sets = {};
    std::vector<Finding> findings = {}; ///< Of the last set, from the gauges alone, ranked.
    std::vector<Finding> ended = {};    ///< Those that the pump or the valve has put an end to since; seen, not over.
};

[[nodiscard]] Diagnosis judgeSets(const RunState& run, const std::vector<Moment>& moments,
                                  const std::vector<Question>& questions);

/// What a forecast says of a stage: the chance that it reaches its limit before the next planned reading.
using LimitChances = std::span<const std::optional<double>>;

/// All findings that hold, ranked: those of the diagnosis, the target met, and limits near by the forecast's chances
/// (none, or one for each stage; 0.5 is near).
[[nodiscard]] std::vector<Finding> findingsOf(const RunState& run, const std::vector<Moment>& moments,
                                              const Diagnosis& diagnosis, const TurnoverBand& turnovers,
                                              LimitChances chances = {});

} // namespace loopside::run
