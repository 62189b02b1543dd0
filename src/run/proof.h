// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// What the bottles of a run prove: the verdict on the oil. A judgement like any other, computed afresh from the facts:
// a result that comes weeks later changes it by itself. Turnovers are never a verdict; without a count there is none.
//
// Where the target is not proven, a path of steps tells where to look, in the order in which common practice looks:
// was it filtered, may the bottles be compared, is the counter fooled, do the elements hold, did as much happen as was
// to be expected, and does dirt get in as fast as it is taken out. No step says "run longer" by itself.
// Source: the path is common practice, no source; the numbers in it are named where they stand.

#pragma once

#include "run/samples.h"

#include <array>
#include <optional>
#include <string_view>
#include <vector>

namespace loopside::run {

/// How the oil stands against the target code.
enum class OilVerdict
{
    NoTarget,   ///< No code was asked for.
    NotDrawn,   ///< No bottle shows the tank after filtering.
    Awaited,    ///< One was drawn; its result is not here.
    CannotTell, ///< Counted, but not what the target asks for; or not met, with foam or haze in the bottle.
    NotMet,     ///< At least two numbers above in some size.
    NotProven,  ///< At the target or one above in some size: within the scatter of a test.
    Met,        ///< One number below or more in all.
    Better,     ///< At least two below in all.
};

[[nodiscard]] std::string_view nameOf(OilVerdict verdict);

/// One size, from before to after.
struct SizeProof
{
    std::optional<filtration::Band> ratio = {}; ///< After ÷ before, 90 %; none where one is not counted.
    std::optional<oil::CodeChange> change = {}; ///< As of the ratio.
    std::optional<oil::TargetVerdict> target = {};
};

/// What two ports tell of the stage between them, at one size.
struct StageCapture
{
    int stage = 1;        ///< From 1.
    std::size_t size = 0; ///< Place in PerSize.
    std::size_t before = 0;
    std::size_t behind = 0; ///< Places among the samples.
    filtration::Band capture = {};
    filtration::CaptureJudged judged = filtration::CaptureJudged::NotProven;
};

/// What was to be expected and what came of it, in scale numbers.
struct CodesDown
{
    double turnovers = 0.0;
    double expected = 0.0; ///< 1.44 · turnovers · mixing: if the elements hold everything and nothing gets in.
    std::optional<filtration::Band> byPast = {}; ///< As much by the mixing that runs before taught; none: none did.
    int runs = 0;                                ///< Behind it.
    int gotLeast = 0;                            ///< Of the sizes counted in both; below 0: it rose.
    int gotMost = 0;

    /// Less than half of what was expected, even in the best size. Common practice.
    [[nodiscard]] bool isShort() const { return 2.0 * gotMost < expected; }
};

enum class StepAnswer
{
    Yes,
    No,
    CannotTell
};

/// A step of the path, with what it rests on.
struct PathStep
{
    std::string_view id; ///< One of `pathSteps`; the sentence is path.<id>.<yes|no|cannot-tell>.
    StepAnswer answer = StepAnswer::CannotTell;
    std::vector<Message> because = {};
};

inline constexpr std::array<std::string_view, 6> pathSteps = {"filtered",      "comparable", "counter-true",
                                                              "elements-hold", "enough",     "coarse-clean"};

struct Proof
{
    std::vector<SampleSeen> samples = {};
    std::optional<std::size_t> before = {}; ///< The first bottle of the tank, drawn before a turnover and a half.
    std::optional<std::size_t> after = {};  ///< The one that the target is held against, counted.
    std::optional<std::size_t> held = {};   ///< The one that is held against `before`: the latest that may be.
    OilVerdict verdict = OilVerdict::NotDrawn;
    filtration::PerSize<SizeProof> sizes = {};
    std::optional<Comparability> comparability = {}; ///< Of `before` and `held`, where both are counted.
    std::optional<CodesDown> codesDown = {};
    std::vector<StageCapture> captures = {};
    std::optional<filtration::WaterTaken> water = {}; ///< Where both waters and what the elements hold are known.
    std::vector<PathStep> path = {};                  ///< Empty where the target is met or nothing is counted.

    [[nodiscard]] bool isMet() const { return verdict == OilVerdict::Met || verdict == OilVerdict::Better; }
};

/// The proof of `run`. `standing` is its standing, with or without the forecast.
[[nodiscard]] Proof proofOf(const RunState& run, const Standing& standing);

/// The findings that bottles allow: target-code-met, samples-not-comparable, capture-low, not-getting-cleaner. None
/// where nothing is counted. `standing` is as of `proofOf`.
[[nodiscard]] std::vector<Finding> findingsOfSamples(const RunState& run, const Standing& standing);

} // namespace loopside::run
