// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// What the gauges say: one finding with its reasons. A finding is a judgement: it is computed afresh from the facts and
// never stored. What raises it stands in pattern.cpp, how it is said in the catalogues (finding.<id>, because.<…>).

#pragma once

#include "run/event.h"

#include <array>
#include <optional>
#include <string_view>
#include <vector>

namespace loopside::run {

enum class FindingLevel
{
    Note,    ///< Good to know.
    Caution, ///< Something is to be looked at or planned.
    Stop     ///< Stop the pump and look.
};

enum class Confidence
{
    Low,
    Medium,
    High
};

[[nodiscard]] std::string_view nameOf(FindingLevel level);
[[nodiscard]] std::string_view nameOf(Confidence confidence);

/// Every finding that there is a name for. Of those that need levels or a motor's current only the name is there
/// yet.
inline constexpr std::array<std::string_view, 45> findingIds = {
    "warming",
    "cooling",
    "stage-loading",
    "stage-near-limit",
    "stage-at-limit",
    "stage-torn-or-bypassed",
    "bypass-open",
    "valve-in-bypass",
    "no-flow",
    "dead-headed",
    "flow-falling",
    "return-restricted",
    "return-off",
    "aerated",
    "cold-oil",
    "water-element-swelling",
    "half-changed-pair",
    "one-element-not-flowing",
    "wrong-fluid-or-temperature",
    "gauge-stuck",
    "gauge-offset",
    "target-turnovers-met",
    "target-code-met",
    "not-getting-cleaner",
    "suction-starved",
    "relief-lifting",
    "fine-dirt-only",
    "deposits-from-oil",
    "oil-stirred-up",
    "static-clicking",
    "corrected-falling",
    "reading-noise",
    "would-exceed-limit-if-cold",
    "limit-above-bypass",
    "element-life-short",
    "element-life-long",
    "clean-dp-low",
    "clean-dp-high",
    "level-falling",
    "level-rising",
    "capture-low",
    "samples-not-comparable",
    "motor-overload",
    "element-too-fine-or-reused",
    "element-missing-or-unsealed",
};

[[nodiscard]] bool isFinding(std::string_view id);

struct Finding
{
    std::string_view id;           ///< One of `findingIds`.
    std::optional<int> stage = {}; ///< From 1, where it is about one.
    FindingLevel level = FindingLevel::Note;
    RunTime since{0}; ///< The earliest set from which it has held without a break.
    Confidence confidence = Confidence::Low;
    Message headline = {};
    std::vector<Message> because = {};
    std::vector<Message> ruledOut = {};
    std::vector<Message> confirm = {};
    Message act = {};    ///< What to do.
    Message hazard = {}; ///< What to mind while doing it.
};

/// The order in which findings are told: by level, by confidence, then by their place in the table of patterns, which
/// is kept by a stable sort.
void rank(std::vector<Finding>& findings);

} // namespace loopside::run
