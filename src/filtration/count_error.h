// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// How well a count of particles tells what is in the oil, and how well two counts tell what became of it: the same oil
// before and after, or before and behind a stage at one moment.
//
// Two errors, added in ln c. Counting: N particles are a draw from a Poisson distribution, 1/√N for many; the intervals
// here are the exact ones, which also hold for few and for none. The test: bottle, settling, counter; `testScatter` of
// clean_up_learned.h for each of the two counts.
// Source: Poisson interval as of Garwood (Biometrika 28, 1936, from memory); for two counts the share of one in their
//   sum, which is binomial (Clopper and Pearson, Biometrika 26, 1934, from memory).
// Validity: particles that do not stick together, counted below the counter's limit of coincidence; one size at a time.
// Uncertainty: it is the answer: every interval and band holds 90 %, a twentieth lies on each side.

#pragma once

#include "base/result.h"
#include "filtration/clean_up_learned.h"
#include "oil/cleanliness_code.h"
#include "units/quantity.h"

namespace loopside::filtration {

struct Interval
{
    double low;
    double high;
};

/// Between what the number of particles in as much of the same oil lies, where so many were seen (from 0).
/// OutOfRange for a number below 0 or none at all.
[[nodiscard]] Result<Interval> particlesLikely(double particles);

/// The same per mL, of `counted`, from counting alone. OutOfRange too for a volume that is not above 0.
[[nodiscard]] Result<Interval> perMlLikely(double particles, units::Volume counted);

/// How many times the first count the second is, with counting and the scatter of both tests.
///
/// The turnovers of the counts do not matter. Where the particles of one are not told, its counting error is not
/// included. A second count of none needs the particles of both (0 of the second) and is taken to be of as much oil as
/// the first; its band begins at 0. OutOfRange, naming it, if the first count is not above 0 or a number cannot be;
/// Unavailable for a count of none of which the particles are not told.
[[nodiscard]] Result<Band> ratioOf(const CountSeen& first, const CountSeen& second, double scatter = testScatter);

/// What a ratio says of the oil: cleaner or dirtier only if all of its band is on that side of 1.
[[nodiscard]] oil::CodeChange changeOf(const Band& ratio);

/// The share of the particles that a stage holds back, from counts before and behind it at one moment: 1 less the ratio
/// of the two. Below 0 where more came out than went in. Fails as of `ratioOf`.
[[nodiscard]] Result<Band> captureOf(const CountSeen& before, const CountSeen& behind, double scatter = testScatter);

/// What three ports say of a stage.
enum class CaptureJudged
{
    Holds,     ///< It surely holds back half and more.
    NotProven, ///< Neither.
    Low,       ///< It surely lets more than a quarter through: a bypass valve, a seal, a torn or wrong element.
};

/// Below this, per mL before the stage, a stage is never judged as low: what the bottle and the counter bring in weighs
/// too much there. Our choice.
inline constexpr double leastToJudgePerMl = 20.0;

/// What `capture` says of a stage. `isRatedFor`: the elements are rated at this size or a finer one; a coarser stage is
/// not blamed for what it was not made for. The bounds are ours: in service a stage holds back far less of its β than
/// in its test, but one that passes a quarter at its own rating leaks.
[[nodiscard]] CaptureJudged judgeCapture(const Band& capture, double beforePerMl, bool isRatedFor);

/// Water that a run took out of the oil.
struct WaterTaken
{
    units::Volume volume;
    double ofCapacity; ///< Of what the elements can hold; above 1, some went elsewhere or a result misleads.
};

/// The water taken out of `oil` between two contents by mass, against `capacity`. OutOfRange as of
/// oil::waterToRemove, and if the capacity is not above 0.
[[nodiscard]] Result<WaterTaken> waterTaken(units::Volume oil, units::Density density, units::Fraction before,
                                            units::Fraction after, units::Volume capacity);

} // namespace loopside::filtration
