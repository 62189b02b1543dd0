// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "app_bench.h"
#include "held.h"
#include "run/level.h"

#include <catch2/catch.hpp>

using namespace loopside;
using namespace loopside::test;

TEST_CASE("a target is told as reached only where what was read says so, not after a gap that nobody watched")
{
    AppBench bench;
    bench.playScene(QStringLiteral("valve-in-bypass"));
    const app::RunView& run = *bench.app()->run();
    REQUIRE(run.mode() == QStringLiteral("filtering"));
    REQUIRE(run.turnoversBest() < run.target());
    bench.pass(4 * 24 * 3600);
    REQUIRE(run.turnoversHigh() > run.target());
    CHECK(run.modeText().startsWith(text("filtering since ")));
    CHECK(run.modeText().endsWith(held("~−4~d")));
    CHECK(run.turnoversBest() < run.target());
    CHECK(run.remainingText() != bench.tablet().label("app.target-met"));
    CHECK(run.remainingText().contains(QStringLiteral("left")));
}

namespace {

/// "2:16" for the target of the shown run from so many turnovers on, at its rated flow.
std::string timeFrom(const Bench& bench, double turnovers)
{
    const auto& setup = bench.tablet().shown()->setup;
    const double minutesEach = (setup.tank.volume.value() / setup.cart.flow.value()).in(units::minute);
    const int minutes = static_cast<int>((setup.target.turnovers->toDouble() - turnovers) * minutesEach);
    return QStringLiteral("%1:%2").arg(minutes / 60).arg(minutes % 60, 2, 10, QLatin1Char('0')).toStdString();
}

} // namespace

TEST_CASE("the time left goes from the most to the least that may have been filtered")
{
    AppBench bench;
    bench.playScene(QStringLiteral("question-gap"));
    const app::RunView& run = *bench.app()->run();
    REQUIRE(run.turnoversHigh() - run.turnoversLow() > 1.0);
    CHECK(run.remainingText()
          == bench.tablet().say(
              {"app.remaining-range",
               {{"least", timeFrom(bench, run.turnoversHigh())}, {"most", timeFrom(bench, run.turnoversLow())}}}));
}

TEST_CASE("the time left is one where what was filtered is known to ten minutes")
{
    AppBench bench;
    bench.playScene(QStringLiteral("element-missing"));
    const app::RunView& run = *bench.app()->run();
    REQUIRE(run.turnoversHigh() - run.turnoversLow() < 0.1);
    CHECK(run.remainingText()
          == bench.tablet().say({"app.remaining", {{"time", timeFrom(bench, run.turnoversHigh())}}}));
}

TEST_CASE("a target that may be reached already is told with the time that it takes if it is not")
{
    AppBench bench;
    bench.playScene(QStringLiteral("element-missing"));
    const app::RunView& run = *bench.app()->run();
    const double left = run.target() - run.turnoversBest();
    const auto& setup = bench.tablet().shown()->setup;
    const double minutesEach = (setup.tank.volume.value() / setup.cart.flow.value()).in(units::minute);
    REQUIRE(bench.tablet().say(setOf({26, 17, 5}, "40 C")));
    bench.pass(static_cast<int>(left * minutesEach * 60.0) + 60); // nobody read: it may have filtered all that time
    REQUIRE(run.turnoversHigh() > run.target());
    REQUIRE(run.turnoversBest() < run.target());
    CHECK(run.remainingText()
          == bench.tablet().say(
              {"app.remaining-range", {{"least", "0:00"}, {"most", timeFrom(bench, run.turnoversLow())}}}));
}

TEST_CASE("the time left goes on to what it takes with the flow that a finding says is left")
{
    AppBench bench;
    bench.playScene(QStringLiteral("pump-starved"));
    const app::RunView& run = *bench.app()->run();
    const auto& state = *bench.tablet().shown();
    const double left = run::flowLeftNow(bench.tablet().standing(state));
    REQUIRE(left < 0.9);
    const double target = run.target();
    const double most = target - (target - run.turnoversLow()) / left; // as if so much had gone through
    CHECK(run.remainingText()
          == bench.tablet().say({"app.remaining-range",
                                 {{"least", timeFrom(bench, run.turnoversHigh())}, {"most", timeFrom(bench, most)}}}));
    REQUIRE(bench.tablet().say(run::Said(run::ModeChanged{run::Mode::Stopped, std::nullopt})));
    bench.pass(60);
    REQUIRE(bench.tablet().say(run::Said(run::ModeChanged{run::Mode::Filtering, std::nullopt})));
    CHECK(run::flowLeftNow(bench.tablet().standing(state)) == 1.0); // nobody has read since
}
