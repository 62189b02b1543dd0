// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// The same story as another person would have written it down: needles read a mark higher or lower, a thermometer held
// elsewhere, a set read a little sooner or later. What was typed wrong stays typed wrong in the same way.

#pragma once

#include "base/id.h"
#include "story/story.h"

#include <cstdint>
#include <map>
#include <string>
#include <vector>

namespace loopside::evaluation {

/// How a story writes a time: HH:MM:SS.
[[nodiscard]] std::string clockText(run::RunTime time);

/// The set of gauges that an entry logs, or null.
[[nodiscard]] const run::ReadingLogged* readingOf(const story::StoryEntry& entry);

/// What the dials truly showed where a set was typed wrong and no amendment of the story says so; by the set's `at`.
using MeantSets = std::map<std::string, std::vector<Decimal>>;

/// How far a variant strays. Ours; common practice knows a mark, two degrees and a minute as what people differ by.
inline constexpr double oilOff_k = 2.0;
inline constexpr run::RunTime timeOff = std::chrono::minutes(1);

/// A variant of `story`, the same for the same seed.
///
/// Every number read off a dial moves by −1, 0 or +1 mark of it, alike likely, never below zero or off the dial: of a
/// set whose numbers lie on no marks (another unit) by the last digit that was typed. Oil temperatures move by up to
/// `oilOff_k` either way, sets in time by up to `timeOff` and by less than half way to what comes before or after;
/// whatever is told at the same instant moves along, the first entry stays. Expectations move with what they are about.
[[nodiscard]] story::Story variantOf(const story::Story& story, std::uint64_t seed, const MeantSets& meant = {});

} // namespace loopside::evaluation
