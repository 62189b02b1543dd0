// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// The tables of docs/findings.md as text.

#pragma once

#include "judged_stories.h"

#include <string>
#include <vector>

namespace loopside::evaluation {

/// Stories that have to stay right under noise, in percent of their variants.
inline constexpr double rightPercentMin = 95.0;
/// Whether a story (by name) is one of them.
[[nodiscard]] bool hasToStayRight(const std::string& name);

/// Cautions and stops that are not true for 100 sets of normal stories have to be fewer than this.
inline constexpr double untruePer100Max = 1.0;

/// One row a finding and question: where it ought to be said and is, where it must not and is not, and each false
/// alarm.
[[nodiscard]] std::string confusionTable(const Confusion& confusion);

/// One row a story that is awaited, with what is still missing.
[[nodiscard]] Result<std::string> awaitedTable(const std::vector<StoryCase>& cases);

/// One row a story. "!" marks what misses its aim.
[[nodiscard]] std::string noiseTable(const std::vector<NoiseScore>& scores);

/// What is false most in the normal stories together, and what fails most in each story, at most three of a kind.
[[nodiscard]] std::string whyTable(const std::vector<NoiseScore>& scores);

/// `document` with `tables` in the place of what stands between its marks; Malformed if it has no marks.
[[nodiscard]] Result<std::string> withTables(const std::string& document, const std::string& tables);

} // namespace loopside::evaluation
