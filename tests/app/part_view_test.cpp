// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "app_bench.h"

#include <catch2/catch.hpp>

using namespace loopside;
using namespace loopside::test;

namespace {

void type(app::PartView& part, const char* digits)
{
    for (const char* digit = digits; *digit != '\0'; ++digit) {
        part.fields()->key(QString(QLatin1Char(*digit)));
    }
}

/// The scene in which nobody entered anything for 70 min, with the sheet open.
struct Asked : AppBench
{
    Asked()
    {
        playScene(QStringLiteral("question-gap"));
        app()->run()->answer(QStringLiteral("part"));
    }

    [[nodiscard]] app::PartView& part() const { return *app()->run()->part(); }
    [[nodiscard]] double best() const { return tablet().standing(*tablet().shown()).credit.turnovers.best; }
};

} // namespace

TEST_CASE("a part of an unwatched time is asked for in minutes before it is an answer")
{
    Asked bench;
    CHECK(bench.part().isUp());
    CHECK(bench.part().text().contains(QStringLiteral("70\u00a0min")));
    CHECK(bench.entries(QStringLiteral("question-answered")) == 0);
    const double before = bench.best();
    type(bench.part(), "40");
    bench.part().log();
    CHECK_FALSE(bench.part().isUp());
    CHECK(bench.entries(QStringLiteral("question-answered")) == 1);
    CHECK(bench.best() == Approx(before + 40.0 * 19.0 / 600.0)); // minutes × L/min ÷ L
}

TEST_CASE("more minutes than there were, or none typed, are no answer, and the sheet says so")
{
    Asked bench;
    for (const char* digits : {"", "71"}) {
        bench.part().fields()->clear();
        type(bench.part(), digits);
        bench.part().log();
        CHECK(bench.part().isUp());
        CHECK(bench.part().problem().contains(QStringLiteral("70")));
        CHECK(bench.entries(QStringLiteral("question-answered")) == 0);
    }
}

TEST_CASE("going back leaves the question open")
{
    Asked bench;
    bench.part().back();
    CHECK_FALSE(bench.part().isUp());
    CHECK(bench.entries(QStringLiteral("question-answered")) == 0);
    CHECK(bench.app()->run()->answers()->rowCount() == 3);
}
