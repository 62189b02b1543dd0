// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "story/vocabulary.h"

#include "run/event.h"
#include "run/question.h"

#include <algorithm>
#include <array>

namespace loopside::story {

namespace {

constexpr std::array<std::string_view, 43> findings = {"warming",
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
                                                       "level-falling",
                                                       "level-rising",
                                                       "capture-low",
                                                       "samples-not-comparable",
                                                       "motor-overload",
                                                       "element-too-fine-or-reused",
                                                       "element-missing-or-unsealed"};

template<class List>
bool holds(const List& list, std::string_view id)
{
    return std::find(list.begin(), list.end(), id) != list.end();
}

} // namespace

bool isFinding(std::string_view id)
{
    return holds(findings, id);
}

bool isQuestion(std::string_view id)
{
    return holds(run::questionIds, id);
}

bool isAlert(std::string_view id)
{
    return run::alertNamed(id).has_value();
}

} // namespace loopside::story
