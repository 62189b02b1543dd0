// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// How a tank went over time: what the charts hold, and that their pictures show it, read back from the pixels.

#include "paper/past_chart.h"

#include "paper/gui.h"
#include "paper/picture.h"
#include "paper/tank_charts.h"

#include <catch2/catch.hpp>

using namespace loopside;
using namespace loopside::paper;
using namespace loopside::test;

namespace {

constexpr std::int64_t msOfDay = 86'400'000;
const words::Words english = words::Words::in("en").value();

Stamp stampOf(int day)
{
    Stamp stamp;
    stamp.wallMs = day * msOfDay;
    return stamp;
}

Id runOf(std::uint8_t number)
{
    return Id{{number}};
}

/// Two runs: codes before and after in both, water once, a life that was whole and one that was cut short.
run::TankPast somePast()
{
    run::TankPast past;
    past.runs = 2;
    past.codes = {{"18/16/13", stampOf(41), runOf(2)},
                  {"20/18/15", stampOf(40), runOf(2)},
                  {"no code", stampOf(12), runOf(1)},
                  {"-/17/14", stampOf(11), runOf(1)},
                  {"21/19/16", stampOf(10), runOf(1)}};
    past.waters = {{"240 ppm", stampOf(40), runOf(2)}};
    past.lives = {{"P3", 820.0, false, stampOf(10), runOf(1)}, {"P3", 300.0, true, stampOf(40), runOf(2)}};
    past.ingresses = {{.verdict = run::Ingress::Verdict::NotProven, .days = 29.0, .numbers = 1, .at = stampOf(40)}};
    return past;
}

QImage pictureOf(const PastChart& chart)
{
    startGui();
    QImage picture(500, 200, QImage::Format_RGB32);
    QPainter painter(&picture);
    paintPast(painter, QRectF(0, 0, 500, 200), chart, distinctStyle());
    return picture;
}

} // namespace

TEST_CASE("codes stand in the order in which they were drawn, each size for itself, with the runs behind them")
{
    const PastChart codes = tankCharts(english, somePast())[0];
    CHECK(codes.hasCourse());
    CHECK(codes.behind == "Bottles: 4, from runs: 2"); // one of the five is no code
    REQUIRE(codes.curves.size() == 3);
    // Of the bottle of the microscope nobody knows the smallest size.
    CHECK(codes.curves[0].points == QList<PastPoint>{{10, 21}, {40, 20}, {41, 18}});
    CHECK(codes.curves[2].points == QList<PastPoint>{{10, 16}, {11, 14}, {40, 15}, {41, 13}});
    CHECK_FALSE(codes.fromZero);
}

TEST_CASE("a point stands on the day by the clock on the wall where it was told")
{
    run::TankPast past = somePast();
    constexpr std::int64_t hourBeforeMidnight = 23;
    past.codes[0].drawn.wallMs += hourBeforeMidnight * msOfDay / 24;
    past.codes[0].drawn.offsetMin = 120; // an hour into the next day there
    const PastChart codes = tankCharts(english, past)[0];
    CHECK(static_cast<int>(codes.curves[2].points.last().day) == 42);
}

TEST_CASE("fewer than two points are no course, and say so")
{
    const auto charts = tankCharts(english, somePast());
    CHECK_FALSE(charts[1].hasCourse());
    CHECK(charts[1].noCourse == "One point shows no course: it takes two");
    CHECK(charts[1].behind == "Bottles: 1, from runs: 1");
    CHECK_FALSE(charts[3].hasCourse());
    run::TankPast bare;
    bare.runs = 1;
    CHECK(tankCharts(english, bare)[1].noCourse == "Nothing is told yet");
    CHECK(tankCharts(english, run::TankPast{}).isEmpty());
}

TEST_CASE("a life that was cut short and dirt that is not proven are hollow marks with their words")
{
    run::TankPast past = somePast();
    past.ingresses.push_back(
        {.verdict = run::Ingress::Verdict::Dirtier, .days = 15.0, .numbers = 2, .at = stampOf(60)});
    const auto charts = tankCharts(english, past);
    CHECK(charts[2].curves[0].points == QList<PastPoint>{{10, 820, false}, {40, 300, true}});
    CHECK(charts[2].unit == "L");
    CHECK(charts[2].hollowText.startsWith("Hollow: changed before the limit"));
    CHECK(charts[3].curves[0].points[0].isHollow);
    CHECK_FALSE(charts[3].curves[0].points[1].isHollow);
    CHECK(charts[3].curves[0].points[1].value == 4.0); // 2 numbers in 15 days: 4 in 30
}

TEST_CASE("a chart is drawn in the colours of its curves, and one without a course or room is left blank")
{
    const TrendStyle style = distinctStyle();
    const PastChart codes = tankCharts(english, somePast())[0];
    const QImage picture = pictureOf(codes);
    const QRect whole = picture.rect();
    CHECK_FALSE(around(picture, style.stages[0], whole).isEmpty());
    // Of the three the code at 4 µm is the highest and that at 14 µm the lowest: on the left half, without their names.
    const QRect left(0, 0, 250, 200);
    CHECK(around(picture, style.stages[0], left).bottom() < around(picture, style.stages[2], left).top());
    PastChart without = codes;
    without.noCourse = "no";
    CHECK(around(pictureOf(without), style.stages[0], whole).isEmpty());
}
