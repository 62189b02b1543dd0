// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// What Loopside asks back. A question is a judgement: it holds as long as its ground does and is answered by an entry.
// What was typed stays as it is, whatever the answer; what it should have been is an amendment, judged afresh.
//
//   gauges-swapped   the gauges stand the wrong way round while filtering            question_order.cpp
//   wrong-unit       every gauge is off by what lies between two units               question_unit.cpp
//   digit-slip       one gauge is off by a digit, the others are not                 question_digits.cpp
//   out-of-range     more than the dial or the relief setting allows                 question_range.cpp
//   time-order       read before the set before, in the future, or outside the run   question_time.cpp
//   entered-late     several sets entered within a minute with old times             question_time.cpp
//   jump             a ΔP changed at once and nothing was told that explains it      question_jump.cpp
//   unwatched-gap, changeover-while-running                                          question.cpp
//
// Source: common practice, no source, but for the error of a difference: NIST TN 1297, root sum of squares, k = 2.
// Validity: a question may be wrong. None refuses anything, and an answer "no" lets the set through as typed.

#pragma once

#include "run/timeline.h"

#include <array>
#include <optional>
#include <string_view>
#include <vector>

namespace loopside::run {

/// A stretch of filtering longer than this without an entry is asked about (contracts: credit).
inline constexpr RunTime unwatchedAfter = std::chrono::minutes(45);

inline constexpr std::string_view gaugesSwapped = "gauges-swapped";
inline constexpr std::string_view wrongUnit = "wrong-unit";
inline constexpr std::string_view outOfRange = "out-of-range";
inline constexpr std::string_view digitSlip = "digit-slip";
inline constexpr std::string_view jumped = "jump";
inline constexpr std::string_view timeOrder = "time-order";
inline constexpr std::string_view enteredLate = "entered-late";
inline constexpr std::string_view unwatchedGap = "unwatched-gap";
inline constexpr std::string_view changeoverWhileRunning = "changeover-while-running";

/// Every question that a story or an answer may name.
inline constexpr std::array<std::string_view, 9> questionIds = {gaugesSwapped, wrongUnit,    outOfRange,
                                                                digitSlip,     jumped,       timeOrder,
                                                                enteredLate,   unwatchedGap, changeoverWhileRunning};

/// What a set would say if its question were answered with yes.
struct Proposal
{
    std::vector<std::optional<GaugeTyped>> gauges = {}; ///< Empty: as typed.
    const PressureUnit* unit = nullptr;                 ///< Null: as typed.
};

struct Question
{
    std::string_view id;
    const Fact* of = nullptr;
    std::optional<int> gauge = {};                 ///< From 1; none where it is about more than one gauge.
    const QuestionAnswered* answer = nullptr;      ///< The latest, if there is one.
    std::string_view variant = {};                 ///< Which of its sentences asks; empty: its one.
    std::vector<Message::Argument> arguments = {}; ///< The values in the sentence.
    std::optional<Proposal> proposal = {};         ///< Where it can tell what was meant.

    /// Such a question holds its set back. Whether the cart is well is another matter (contracts: findings).
    [[nodiscard]] bool isAboutTyping() const;

    /// Whether it still waits: for an answer, or, where a slip was confirmed with "yes", for the amendment.
    [[nodiscard]] bool isOpen() const;
};

/// All questions that `moments` of `run` raise, answered or not, oldest first. An answer to a question about typing
/// counts only if the set was not amended after it. Takes a time in proportion to the moments.
[[nodiscard]] std::vector<Question> questionsIn(const std::vector<Moment>& moments, const RunState& run);

/// Whether a question about typing still holds back the set that `fact` logged.
[[nodiscard]] bool isHeldBack(const Fact& fact, const std::vector<Question>& questions);

/// Whether the set that `fact` logged is one of several entered within a minute with old times. It is kept and shown;
/// nothing is planned, learned or forecast from it.
[[nodiscard]] bool isEnteredLate(const Fact& fact, const std::vector<Question>& questions);

/// The question to put to the person now, or null: the latest that holds a set back, else the latest open one, with
/// sets that were entered late behind all others.
[[nodiscard]] const Question* firstToAsk(const std::vector<Question>& questions);

/// The amendment that "yes" stands for, its reason the question's id; nothing where the question does not know it.
[[nodiscard]] std::optional<Amended> proposalOf(const Question& question);

/// The latest set whose gauges stand the wrong way round and were kept as typed, while no set was read with the pump
/// off since: the gauges want a check with the pump off. Null: none.
[[nodiscard]] const Question* gaugesToCheck(const std::vector<Question>& questions, const std::vector<Moment>& moments);

} // namespace loopside::run
