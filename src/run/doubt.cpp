// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "run/doubt.h"

#include <algorithm>

namespace loopside::run {

bool isInDoubt(const Standing& standing, const Fact& set, const JudgedSet* judged)
{
    return isHeldBack(set, standing.questions) || (judged != nullptr && judged->isDoubtful);
}

bool isInDoubt(const Standing& standing, const Fact& set)
{
    const auto& sets = standing.diagnosis.sets;
    const auto judged = std::ranges::find_if(sets, [&](const JudgedSet& one) { return one.moment->fact == &set; });
    return isInDoubt(standing, set, judged == sets.end() ? nullptr : &*judged);
}

} // namespace loopside::run
