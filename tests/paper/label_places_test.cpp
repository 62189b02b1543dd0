// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "paper/label_places.h"

#include <catch2/catch.hpp>

using namespace loopside::paper;

namespace {

const QRectF panel(0, 0, 100, 50);

} // namespace

TEST_CASE("a label takes the first place within the panel that no other has")
{
    LabelPlaces places(panel, 2.0);
    const QList<QRectF> candidates = {QRectF(90, 10, 20, 10), QRectF(10, 10, 20, 10), QRectF(40, 10, 20, 10)};
    CHECK(places.take(candidates) == QRectF(10, 10, 20, 10));
    CHECK(places.take(candidates) == QRectF(40, 10, 20, 10));
    CHECK_FALSE(places.take(candidates).has_value());
}

TEST_CASE("labels side by side keep their distance")
{
    LabelPlaces places(panel, 2.0);
    REQUIRE(places.take({QRectF(10, 10, 20, 10)}));
    CHECK_FALSE(places.take({QRectF(31, 10, 20, 10)}).has_value());
    CHECK(places.take({QRectF(32, 10, 20, 10)}).has_value());
    CHECK(places.take({QRectF(10, 20, 20, 10)}).has_value()); // below it needs none
}

TEST_CASE("a label goes where the fewest lines are, and not over more than it may")
{
    LabelPlaces places(panel, 0.0);
    places.avoid({QLineF(0, 15, 100, 15), QLineF(12, 0, 12, 50)});
    const QRectF overTwo(10, 10, 20, 10);
    const QRectF overOne(40, 10, 20, 10);
    const QRectF overNone(40, 30, 20, 10);
    CHECK(places.linesOver(overTwo) == 2);
    CHECK_FALSE(places.take({overTwo, overOne}, 0).has_value());
    CHECK(places.take({overTwo, overOne}, 1) == overOne);
    CHECK(places.take({overTwo, overNone}) == overNone);
    CHECK(places.take({overTwo}) == overTwo);
}

TEST_CASE("a line is noticed wherever it enters a place")
{
    const auto [line, crosses] = GENERATE(table<QLineF, bool>({
        {QLineF(15, 15, 16, 16), true},  // lies in it
        {QLineF(0, 15, 15, 15), true},   // ends in it
        {QLineF(8, 14, 14, 8), true},    // cuts a corner off
        {QLineF(29, 22, 33, 18), false}, // passes a corner outside
        {QLineF(0, 25, 100, 25), false}, // runs below
        {QLineF(5, 15, 100, 15), true},  // runs through
    }));
    CAPTURE(line.x1(), line.y1());
    LabelPlaces places(panel, 0.0);
    places.avoid({line});
    CHECK((places.linesOver(QRectF(10, 10, 20, 10)) == 1) == crosses);
}
