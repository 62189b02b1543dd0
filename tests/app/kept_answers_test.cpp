// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "app/kept_answers.h"

#include "app_bench.h"

#include <catch2/catch.hpp>

using namespace loopside;
using namespace loopside::test;

namespace {

/// A set-up whose first two points of the hoses were answered before the tablet stopped.
struct Stopped : AppBench
{
    Stopped()
    {
        choose(0, 0);
        points().answer(QStringLiteral("done"));
        pass(2);
        points().answer(QStringLiteral("skipped"));
        points().becauseOf(QStringLiteral("pipe under the floor"));
        restart();
    }

    void choose(int tank, int cart)
    {
        app()->setup()->chooseTank(tank);
        app()->setup()->chooseCart(cart);
    }

    [[nodiscard]] app::ChecklistView& points() { return *app()->setup()->hosePoints(); }
};

} // namespace

TEST_CASE("answers of a set-up outlive a tablet that stops, are offered again and logged by nobody")
{
    Stopped bench;
    CHECK(bench.points().beforeText().isEmpty()); // no tank is chosen yet
    bench.choose(0, 0);
    CHECK(bench.points().answered() == 0);
    CHECK(bench.points().beforeText().contains(QStringLiteral("done")));
    CHECK(bench.entries(QStringLiteral("check-answered")) == 0);
}

TEST_CASE("an answer of before counts once a person says that it is still so")
{
    Stopped bench;
    bench.choose(0, 0);
    bench.points().stillSo();
    CHECK(bench.points().answered() == 1);
    CHECK(bench.points().beforeText().contains(QStringLiteral("pipe under the floor")));
    bench.pass(2);
    bench.points().stillSo();
    CHECK(bench.points().standingText() == QStringLiteral("2 of 3 answered, 1 left out"));
    CHECK(bench.points().beforeText().isEmpty()); // the third was never answered
    bench.points().stillSo();
    CHECK(bench.points().answered() == 2);
}

TEST_CASE("an answer of before may be given otherwise")
{
    Stopped bench;
    bench.choose(0, 0);
    bench.points().answer(QStringLiteral("does-not-apply"));
    bench.restart();
    bench.choose(0, 0);
    CHECK(bench.points().beforeText().contains(QStringLiteral("does not apply")));
}

TEST_CASE("what was looked at at one tank or cart is not offered at another")
{
    Stopped bench;
    bench.choose(1, 0);
    CHECK(bench.points().beforeText().isEmpty());
    bench.choose(0, 1);
    CHECK(bench.points().beforeText().isEmpty());
    bench.choose(0, 0);
    CHECK_FALSE(bench.points().beforeText().isEmpty());
}

TEST_CASE("after twelve hours nothing is offered")
{
    Stopped bench;
    bench.pass(12 * 3600 - 60);
    bench.choose(0, 0);
    CHECK_FALSE(bench.points().beforeText().isEmpty());
    bench.pass(120);
    CHECK(bench.points().beforeText().isEmpty());
}

TEST_CASE("answers of before that were thrown away stay so")
{
    Stopped bench;
    app::KeptAnswers kept(bench.tablet(), Id{});
    kept.keep("a tank", {"setup-vents", "done"});
    CHECK(kept.before("a tank", "setup-vents"));
    CHECK_FALSE(kept.before("a tank", "setup-traced"));
    kept.forget();
    CHECK_FALSE(kept.before("a tank", "setup-vents"));
    CHECK_FALSE(app::KeptAnswers(bench.tablet(), Id{}).before("a tank", "setup-vents"));
}
