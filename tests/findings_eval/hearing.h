// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// A story replayed in memory, and what was said in it that ought not to be.

#pragma once

#include "truth.h"

#include <nlohmann/json.hpp>

#include <string>
#include <vector>

namespace loopside::evaluation {

/// A caution, a stop or a question, and at which entry it was said.
struct Heard
{
    std::string id;
    std::optional<int> stage = {};
    bool isQuestion = false;
    bool isByDigits = false; ///< A limit or setting that the digits of this very set reach, or four fifths of a limit:
                             ///< true as read.
    std::size_t entry = 0;   ///< Its place in the story.
};

struct Hearing
{
    int sets = 0;                                ///< Sets of gauges that were logged.
    std::vector<Heard> heard = {};               ///< Findings at each set, questions when they are first asked.
    std::vector<nlohmann::ordered_json> objects; ///< What `replay --json` prints.
};

/// Replays `story`; the error is that of the replay.
[[nodiscard]] Result<Hearing> hear(const story::Story& story);

/// A finding expected or ruled out, a question, an alert; not a number and no forecast.
[[nodiscard]] bool isAboutWhatIsSaid(const story::Expectation& expected);

/// Expectations of that kind that `objects` does not meet, by their places in `story.expectations`.
[[nodiscard]] std::vector<std::size_t> unmetIn(const story::Story& story,
                                               const std::vector<nlohmann::ordered_json>& objects);

/// Where the ΔP that was read last stands to a limit, or to the setting of a bypass valve.
enum class AtLimit
{
    Below,
    Near, ///< Four fifths of it or more.
    At
};

/// By the digits of the last set up to the time of `expected`, for each stage that it is about; empty where it is about
/// no limit. Of a bypass valve only until a set has read at its setting, or where its opening is ruled out.
[[nodiscard]] std::vector<AtLimit> limitsReadFor(const story::Expectation& expected, const story::Story& story,
                                                 const std::vector<nlohmann::ordered_json>& objects);

/// What was heard and is not true. `original` is the story itself where a variant of it was heard.
[[nodiscard]] std::vector<Heard> falseAlarmsIn(const Hearing& hearing, const story::Story& original,
                                               const Truth& truth);

} // namespace loopside::evaluation
