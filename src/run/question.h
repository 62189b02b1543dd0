// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// What Loopside asks back. A question is a judgement: it holds as long as its ground does and is answered by an entry.
// What was typed stays as it is, whatever the answer.

#pragma once

#include "run/timeline.h"

#include <array>
#include <optional>
#include <string_view>
#include <vector>

namespace loopside::run {

/// A stretch of filtering longer than this without an entry is asked about (contracts: credit).
inline constexpr RunTime unwatchedAfter = std::chrono::minutes(45);

inline constexpr std::string_view outOfRange = "out-of-range";
inline constexpr std::string_view enteredLate = "entered-late";
inline constexpr std::string_view unwatchedGap = "unwatched-gap";
inline constexpr std::string_view changeoverWhileRunning = "changeover-while-running";

/// Every question that a story or an answer may name.
inline constexpr std::array<std::string_view, 9> questionIds = {"gauges-swapped", "wrong-unit", outOfRange,
                                                                "digit-slip",     "jump",       "time-order",
                                                                enteredLate,      unwatchedGap, changeoverWhileRunning};

struct Question
{
    std::string_view id;
    const Fact* of = nullptr;
    std::optional<int> gauge = {};            ///< From 1.
    const QuestionAnswered* answer = nullptr; ///< The latest, if there is one.

    [[nodiscard]] bool isAboutTyping() const { return id == outOfRange; }
};

/// All questions that `moments` of `run` raise, answered or not, oldest first.
[[nodiscard]] std::vector<Question> questionsIn(const std::vector<Moment>& moments, const RunState& run);

/// Whether a question about typing still holds back the set that `fact` logged.
[[nodiscard]] bool isHeldBack(const Fact& fact, const std::vector<Question>& questions);

} // namespace loopside::run
