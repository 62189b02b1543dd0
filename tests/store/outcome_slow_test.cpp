// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "store/outcome_rounds.h"
#include "store/temp_folder.h"

#include <catch2/catch.hpp>

using namespace loopside::test;

TEST_CASE("of 100 entries none changes and none goes without a word, whatever byte is turned and wherever it is cut")
{
    const Sample sample(100, false);
    for (const Harm harm : {Harm::FileCut, Harm::FileTurned, Harm::LogCut, Harm::LogTurned}) {
        CHECK_FALSE(outcomesOf(sample, harm, 997).empty());
    }
}
