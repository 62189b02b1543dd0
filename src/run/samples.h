// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// The bottles of a run as they were drawn, with what was counted in them, however late it came; and whether two of them
// may be held against each other at all.
//
// A bottle from the tank, or from the port before the filters while they are fed from the tank, shows how the tank is.
// One from a port behind a stage shows how good a pass is, not what the tank holds.

#pragma once

#include "filtration/count_error.h"
#include "run/standing.h"

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace loopside::run {

/// A bottle. Points into the run and standing that it was read from.
struct SampleSeen
{
    const Fact* fact = nullptr; ///< That it was drawn.
    const SampleDrawn* drawn = nullptr;
    std::optional<ResultEntered> result = {}; ///< All that was told of it and not struck; none: nothing was.
    RunTime at{0};
    RunTime toldAt{0}; ///< When its result was last; 0 if none was.
    Mode mode = Mode::Stopped;
    double turnovers = 0.0;                     ///< Credited before it was drawn, best value.
    std::optional<units::Temperature> oil = {}; ///< As told of it, else of a set read within 20 min.
    std::string_view fooledBy = {}; ///< foam or haze, seen within 30 min: a counter takes air and water for dirt.
    std::optional<oil::CleanlinessCode> code = {};                         ///< As told, else of the counts.
    filtration::PerSize<std::optional<filtration::CountSeen>> counts = {}; ///< At 4, 6 and 14 µm(c).

    /// Whether it shows how the tank is.
    [[nodiscard]] bool isOfTank() const { return drawn->port <= 1; }
    [[nodiscard]] bool isCounted() const { return code.has_value(); }
};

/// What is known of a bottle once `later` is told of it as well: each thing as it was told last. A code that is told
/// without counts takes the place of counts that make another one, and counts without a code that of such a code.
[[nodiscard]] ResultEntered withResult(ResultEntered known, const ResultEntered& later);

/// Its code as told, else of its counts; none where neither makes one.
[[nodiscard]] std::optional<oil::CleanlinessCode> codeIn(const ResultEntered& result);

/// What is known of one bottle. Points into the run that it was read from.
struct BottleTold
{
    const Fact* bottle = nullptr; ///< That it was drawn; none: nobody told that.
    ResultEntered result;
    const Fact* told = nullptr; ///< Its last result.
};

/// Of each bottle of `run` of which a result was told, in the order in which they first appear.
[[nodiscard]] std::vector<BottleTold> bottlesTold(const RunState& run);

/// All bottles of `run` that were not struck, in the order in which they were drawn. Of two with one id a result is of
/// the later one.
[[nodiscard]] std::vector<SampleSeen> samplesOf(const RunState& run, const Standing& standing);

/// Whether two bottles are alike in all that changes a count but the oil: point, circulation, machine, temperature,
/// method; and whether neither was drawn from foam or haze.
struct Comparability
{
    std::vector<Message> differs = {}; ///< Each in a sentence. Any of these: they are not to be compared.
    std::vector<Message> untold = {};  ///< What nobody told of one or both.
    [[nodiscard]] bool isComparable() const { return differs.empty(); }
};

/// Temperatures count as alike up to 20 °C apart: ours, about what a run warms the oil.
[[nodiscard]] Comparability compareSamples(const SampleSeen& first, const SampleSeen& second);

} // namespace loopside::run
