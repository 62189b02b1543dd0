// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// Expected steps by hand from the rule: 1, 2 or 5 times a power of ten, and the usual parts of an hour and a day.

#include "paper/ticks.h"

#include <QLocale>

#include <catch2/catch.hpp>

using namespace loopside::paper;

TEST_CASE("values step by 1, 2 or 5 as often as there is room")
{
    const auto [span, most, step] = GENERATE(table<double, int, double>({
        {25.0, 5, 5.0},
        {25.0, 3, 10.0},
        {26.0, 5, 10.0},
        {35.0, 2, 20.0},
        {1.7, 4, 0.5},
        {2.0, 2, 1.0},
        {0.3, 3, 0.1},
        {1000.0, 10, 100.0},
        {2.4, 1, 2.0}, // 5 would leave the axis
        {1.0, 1, 1.0},
    }));
    CAPTURE(span, most);
    CHECK_THAT(valueStep(span, most), Catch::WithinRel(step, 1e-9));
}

TEST_CASE("time steps by parts of an hour and of a day")
{
    const auto [span, most, step] = GENERATE(table<double, int, double>({
        {30.0, 6, 5.0},
        {30.0, 4, 10.0},
        {90.0, 8, 15.0},
        {140.0, 5, 30.0},
        {460.0, 8, 60.0},
        {1440.0, 4, 360.0},
        {1440.0, 1, 1440.0},
        {14400.0, 5, 2880.0},
    }));
    CAPTURE(span, most);
    CHECK(timeStep(span, most) == step);
}

TEST_CASE("an axis has every multiple of its step, both ends included")
{
    CHECK(multiplesOf(10.0, 0.0, 30.0) == QList<double>{0.0, 10.0, 20.0, 30.0});
    CHECK(multiplesOf(10.0, -12.0, 9.0) == QList<double>{-10.0, 0.0});
    CHECK(multiplesOf(0.1, 0.0, 0.3).size() == 4);
    CHECK(multiplesOf(5.0, 1.0, 4.0).isEmpty());
}

TEST_CASE("numbers have the digits that their step needs")
{
    QLocale::setDefault(QLocale::c());
    CHECK(valueText(20.0, 10.0) == QString("20"));
    CHECK(valueText(1.5, 0.5) == QString("1.5"));
    CHECK(valueText(0.25, 0.05) == QString("0.25"));
    CHECK(valueText(12000.0, 2000.0) == QString("12000"));
    CHECK(valueText(0.0, 0.5) == QString("0.0"));
    QLocale::setDefault(QLocale(QLocale::German));
    CHECK(valueText(1.5, 0.5) == QString("1.5")); // as every other number, whatever the device is set to
    QLocale::setDefault(QLocale::c());
}

TEST_CASE("hours may pass a day")
{
    CHECK(hoursText(0.0) == QString("0:00"));
    CHECK(hoursText(90.0) == QString("1:30"));
    CHECK(hoursText(1565.0) == QString("26:05"));
}
