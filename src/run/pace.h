// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// When to read next. Common practice, no source (trade practice; every figure is a default):
// 2, 5, 10, 15 min after the start, then every 15 min in the first hour, then every 30 min or once a turnover,
// whichever is shorter; 2 and 5 min after an element change, a valve move or a restart; every 10 min at most while a
// stage's ΔP is at half its limit or above. Never less than a minute. A start against its verdict is read after one
// minute (our choice).

#pragma once

#include "run/question.h"

#include <optional>
#include <vector>

namespace loopside::run {

inline constexpr RunTime leastInterval = std::chrono::minutes(1);
inline constexpr RunTime afterOverride = std::chrono::minutes(1); ///< The first reading of a start against its verdict.
inline constexpr RunTime overdueAfter = std::chrono::minutes(2);  ///< Past the due time an alert is raised.

/// For each moment, when the next reading was due as planned then; nothing while the cart was not filtering. A set that
/// a question holds back, that was entered late with others, or of which nothing could be read, plans nothing.
[[nodiscard]] std::vector<std::optional<RunTime>> dueTimes(const std::vector<Moment>& moments, const Setup& setup,
                                                           const std::vector<Question>& questions);

} // namespace loopside::run
