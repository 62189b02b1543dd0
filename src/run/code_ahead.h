// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// How clean the oil is likely to be now, and how far it is to the target code: for when to draw the next bottle. It
// proves nothing; only a count does (proof.h).
//
// With one count of the tank the model of filtration/clean_up.h runs on: with what runs before taught of its mixing and
// of what gets in, else with the mixing factor as told, a quarter either way, and nothing that gets in (tank_ahead.h).
// The scatter of the test and the doubt of the tank are independent: their distances from the middle add as squares.
// From the second count on what the counts themselves tell takes its place (filtration/clean_up_learned.h), the floor
// from what gets in too.

#pragma once

#include "run/samples.h"

#include <optional>
#include <vector>

namespace loopside::run {

/// One size on its way.
struct SizeAhead
{
    std::size_t size = 0;                            ///< Place in PerSize.
    int counts = 0;                                  ///< Of the tank, that it rests on.
    filtration::Band nowPerMl = {};                  ///< 90 %.
    std::optional<double> targetPerMl = {};          ///< The most that the target allows; none: nothing is asked.
    std::optional<filtration::Reach> toTarget = {};  ///< Turnovers from now.
    std::optional<filtration::Band> floorPerMl = {}; ///< Where the counts tell it.
    double codesMore = 0.0;                          ///< Scale numbers that `moreHours` more would bring, middle value.
};

/// As much more is asked about: common practice asks for "a few hours".
inline constexpr double moreHours = 3.0;

struct CodeAhead
{
    std::vector<SizeAhead> sizes = {};                ///< Those that are counted.
    std::optional<oil::CleanlinessCode> nowBest = {}; ///< From the low ends, the middle and the high ends of the bands.
    std::optional<oil::CleanlinessCode> nowMiddle = {};
    std::optional<oil::CleanlinessCode> nowWorst = {};
    std::optional<filtration::Reach> toTarget = {}; ///< Of the slowest size, turnovers from now; none: not to be told.
    std::optional<std::size_t> slowest = {};        ///< Place among `sizes`.

    /// Whether more hours buy less than one number in every size that is not at its target.
    [[nodiscard]] bool isAtFloor() const;
};

/// Of a run that has a count of its tank; nothing otherwise. `standing` as of proof.h.
[[nodiscard]] std::optional<CodeAhead> codeAheadOf(const RunState& run, const Standing& standing);

/// It in sentences: the code now, turnovers and time to the target, what more hours would bring.
[[nodiscard]] std::vector<Message> tellCodeAhead(const CodeAhead& ahead, const RunState& run);

} // namespace loopside::run
