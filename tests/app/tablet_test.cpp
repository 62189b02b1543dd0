// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "app_bench.h"

#include <catch2/catch.hpp>

namespace loopside::test {

TEST_CASE("a notice does not say that nothing was logged, and trouble does")
{
    AppBench bench;
    bench.tablet().setNotice(text("The clock was set."));
    CHECK(bench.app()->trouble() == text("The clock was set."));
    CHECK(bench.app()->troubleTitle().isEmpty());
    bench.tablet().setTrouble(text("The disk is full."));
    CHECK(bench.app()->troubleTitle() == text("Nothing was logged."));
}

TEST_CASE("no notice covers why nothing was logged")
{
    AppBench bench;
    bench.tablet().setTrouble(text("The disk is full."));
    bench.tablet().setNotice(text("The clock was set."));
    CHECK(bench.app()->trouble() == text("The disk is full."));
    bench.app()->dismissTrouble();
    bench.tablet().setNotice(text("The clock was set."));
    CHECK(bench.app()->trouble() == text("The clock was set."));
}

} // namespace loopside::test
