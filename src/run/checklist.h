// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// Checklists of a run: what is looked at before the pump starts, when a housing is open, when everything is put back,
// before spent oil is pumped to waste. Each point has an answer of its own, given by a person and kept as an entry
// `check-answered`, those of a transfer with the entry that opens it; there is no answer for all of them, and none
// before a person gives it. A point may be left out, with a reason. The words of a point stand in the catalogues as
// `check.<id>`.
//
// Source of the points: common practice of the trade, no source; the site's own procedure comes before them.

#pragma once

#include "run/caution.h"
#include "run/state.h"

#include <optional>
#include <span>
#include <string_view>
#include <vector>

namespace loopside::run {

enum class Checklist
{
    HookUp,
    BeforeStart,
    Housing,
    Restore,
    Transfer
};

inline constexpr std::array<Checklist, 5> checklists = {Checklist::HookUp, Checklist::BeforeStart, Checklist::Housing,
                                                        Checklist::Restore, Checklist::Transfer};

enum class Answer
{
    Done,
    DoesNotApply,
    Skipped
};

inline constexpr std::array<Answer, 3> answers = {Answer::Done, Answer::DoesNotApply, Answer::Skipped};

/// "done", "does-not-apply", "skipped".
[[nodiscard]] std::string_view nameOf(Answer answer);
/// The answer that an entry says; "yes" of old journals is "done". Nothing for any other word.
[[nodiscard]] std::optional<Answer> answerNamed(std::string_view say);

struct CheckPoint
{
    std::string_view id; ///< As entries name it.
    Checklist list;
    std::optional<Act> act; ///< Whose cautions are told at the point.
};

/// The points of `list`, in the order in which they are asked.
[[nodiscard]] std::vector<CheckPoint> pointsOf(Checklist list);
[[nodiscard]] const CheckPoint* pointNamed(std::string_view id);

/// What the journal has of one point.
struct PointAnswered
{
    Answer answer = Answer::Done;
    std::string why = {};  ///< Of one that was left out.
    bool wasAsked = false; ///< It came so quickly that it was asked about, and was confirmed.
    Id entry = {};
    Id person = {};
    RunTime at{0};
};

/// The answers to the points of `list`, one for each in their order; nothing where there is none. The latest counts.
/// Of the list of a housing those since the elements were changed last.
[[nodiscard]] std::vector<std::optional<PointAnswered>> answersIn(const RunState& run, Checklist list);

/// Why an answer has no place to go: a word that is no answer to this point, a point left out without a reason.
/// Nothing for checks that are no points of a list.
[[nodiscard]] std::optional<Error> faultIn(const CheckAnswered& answered);

/// An answer that comes this soon after the one before is asked about: nobody looks at two things in that time. It is
/// kept if the person says so. Ours, no source.
inline constexpr std::chrono::milliseconds quickAnswer{700};

} // namespace loopside::run
