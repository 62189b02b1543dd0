// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// The patterns by which gauges and signs are read, as data: one row is one way in which one finding shows. A finding
// may have several rows; the first that holds is told.
//
// Source: the table of patterns and what they mean are common practice, no source. Which chance a clue needs is our
// choice: nine in ten and more, so that the rounding of a dial alone never says anything.

#pragma once

#include "run/clue.h"
#include "run/finding.h"

#include <array>
#include <span>

namespace loopside::run {

/// A clue that has to hold, with at least this chance (a quantile of uncertain.h). What needs `even` or less is there
/// so that the contrary can be excluded; it lends no confidence.
struct Need
{
    const Clue* clue = nullptr;
    double least = likely;
};

/// What cannot be told of elements while oil does not go through them as believed, or a gauge beside them errs.
inline constexpr std::array<std::string_view, 7> foundOfStages = {
    "stage-torn-or-bypassed", "corrected-falling", "element-missing-or-unsealed", "flow-falling", "bypass-open",
    "stage-loading",          "oil-stirred-up"};

enum class About
{
    Loop,
    Stage,
    Gauge
};

/// What a finding takes from the turnovers.
enum class Takes
{
    Nothing,
    AllDoubtful, ///< From the last good to the next good set.
    LostFlow     ///< The share of the flow that is missing.
};

/// When a pattern is told.
enum class Told
{
    AtOnce,
    WhenStrong, ///< At once if very likely and beyond what one needle misread would do; else as `Together`.
    Together,   ///< When two or three good sets in a row show it: of one a single needle may be misread.
    Twice       ///< When two good sets in a row do, each by itself: what they have in common is not independent.
};

struct Pattern
{
    std::string_view id;
    About about = About::Loop;
    FindingLevel level = FindingLevel::Note;
    Confidence atMost = Confidence::High; ///< What gauges alone can say of it at best.
    Told told = Told::AtOnce;
    std::array<Need, 4> needs = {};
    std::array<std::string_view, 5> excludes = {}; ///< Findings that this one explains; of the same stage, if both
                                                   ///< are of one.
    bool excludesStages = false;                   ///< And all of `foundOfStages`.
    std::array<std::string_view, 3> ruledOut = {}; ///< Sentences ruled-out.<…>.
    std::string_view hazard = "site";              ///< The sentence hazard.<…>.
    bool leansOnHead = false;                      ///< A weak last gauge allows no high confidence.
    bool leansOnOil = false;                       ///< Without a temperature the confidence is low.
    bool spoils = false;                           ///< A set with it is no reference for later ones.
    bool beginsInReferences = false;               ///< Begins in no set that something spoils.
    bool endsWithMode = false;                     ///< Over as soon as the valve is moved or the pump stopped.
    bool doubtsDrop = false;                       ///< The ΔP of the stages it touches is not that of their dirt.
    Takes takes = Takes::Nothing;
};

/// All rows. The order is that in which findings exclude each other: what explains most comes first.
[[nodiscard]] std::span<const Pattern> patterns();

} // namespace loopside::run
