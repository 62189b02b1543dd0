// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "app_bench.h"

#include <catch2/catch.hpp>

using namespace loopside;
using namespace loopside::test;

namespace {

/// A stage whose elements were changed; the points of its housing are still to be looked at.
struct Changed : AppBench
{
    Changed()
    {
        playScene(text("valve-in-bypass"));
        run = tablet().shown()->id;
        app()->openChangeover(1);
        for (const char* say : {"stopped", "done", "done"}) {
            view().press(text(say));
        }
        tablet().say(setOf({0, 0, 0}, "40 C"));
        view().gaugesLogged();
        view().press(text("all"));
        REQUIRE(view().wantsLook());
    }

    [[nodiscard]] app::ChangeoverView& view() const { return *app()->changeover(); }

    Id run;
};

} // namespace

TEST_CASE("a changeover that was left goes on at the points of the housing, and takes no elements twice")
{
    Changed bench;
    bench.restart();
    bench.tablet().show(bench.run);
    bench.app()->openChangeover(1);
    CHECK(bench.view().wantsLook());
    CHECK(bench.entries(text("elements-changed")) == 1);
    answerAll(bench, *bench.view().points());
    CHECK_FALSE(bench.view().wantsLook());
    bench.view().press(text("filtering"));
    CHECK_FALSE(bench.view().isOpen());
}

TEST_CASE("after the pump ran a change begins anew")
{
    Changed bench;
    bench.tablet().say(run::Said(run::ModeChanged{run::Mode::Filtering, std::nullopt}));
    bench.app()->openChangeover(1);
    CHECK_FALSE(bench.view().wantsLook());
    CHECK(bench.view().steps()->rows()[0][2].toString() == text("now"));
}

TEST_CASE("what happens at another run changes nothing of a changeover")
{
    Changed bench;
    bench.tablet().show(Id{});
    CHECK_FALSE(bench.view().isOpen());
    bench.view().gaugesLogged();
    bench.tablet().show(bench.run);
    CHECK(bench.view().wantsLook());
}
