// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "stories_at_hand.h"

#include <catch2/catch.hpp>

#include <algorithm>

namespace loopside::test {

using evaluation::StoryCase;

namespace {

std::vector<StoryCase> readAll()
{
    const std::string tests = std::string(LOOPSIDE_SOURCE_DIR) + "/tests";
    const auto truths = evaluation::readTruths(tests + "/findings_eval/truths.json");
    if (!truths) {
        FAIL(truths.error().sentence);
    }
    auto cases = evaluation::readCases(tests + "/stories", tests + "/findings_eval/awaited", *truths);
    if (!cases) {
        FAIL(cases.error().sentence);
    }
    return *std::move(cases);
}

} // namespace

const std::vector<StoryCase>& casesAtHand()
{
    static const std::vector<StoryCase> cases = readAll();
    return cases;
}

const StoryCase& caseOf(const std::string& name)
{
    const auto& cases = casesAtHand();
    const auto found = std::ranges::find_if(cases, [&](const StoryCase& one) { return one.name.starts_with(name); });
    if (found == cases.end()) {
        FAIL("there is no story " << name);
    }
    return *found;
}

} // namespace loopside::test
