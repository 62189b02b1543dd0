// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "app/figure_path.h"

#include <catch2/catch.hpp>

using loopside::app::figurePath;

namespace {

/// The elements of a path, "m" and "l" with a point, "c" with its three, in the order in which they are drawn.
std::string drawn(const char* text)
{
    const auto path = figurePath(QString::fromUtf8(text));
    if (!path) {
        return "no path";
    }
    std::string told;
    for (int i = 0; i < path->elementCount(); ++i) {
        const QPainterPath::Element element = path->elementAt(i);
        told += element.isMoveTo() ? "m" : element.isLineTo() ? "l" : element.isCurveTo() ? "c" : "";
        told += QString::number(element.x).toStdString() + "," + QString::number(element.y).toStdString() + " ";
    }
    return told;
}

} // namespace

TEST_CASE("the letters of a path draw lines and curves")
{
    CHECK(drawn("M1 2 L3.5 -4") == "m1,2 l3.5,-4 ");
    CHECK(drawn("M 1,2L3,4\nL 5 6 ") == "m1,2 l3,4 l5,6 ");
    CHECK(drawn("M0 0 C1 2 3 4 5 6") == "m0,0 c1,2 3,4 5,6 ");
    CHECK(drawn("M1 1 L2 1 L2 2 Z") == "m1,1 l2,1 l2,2 l1,1 ");
    CHECK(drawn("M1 1 L2 1 M5 5 L6 5") == "m1,1 l2,1 m5,5 l6,5 ");
}

TEST_CASE("more numbers behind a letter are more of the same, behind M they are lines")
{
    CHECK(drawn("M1 2 3 4 5 6") == "m1,2 l3,4 l5,6 ");
    CHECK(drawn("M0 0 L1 1 2 2") == "m0,0 l1,1 l2,2 ");
    CHECK(drawn("M0 0 C1 1 2 2 3 3 4 4 5 5 6 6") == "m0,0 c1,1 2,2 3,3 c4,4 5,5 6,6 ");
}

TEST_CASE("numbers as a script writes them are read")
{
    CHECK(drawn("M1e-7 0 L1e2 2.5E1") == "m1e-07,0 l100,25 ");
    CHECK(drawn("M.5-.5L1 1") == "m0.5,-0.5 l1,1 ");
}

TEST_CASE("an empty path is a path in which nothing is drawn")
{
    CHECK(drawn("") == "");
    CHECK(drawn("  ") == "");
}

TEST_CASE("what is no path draws nothing at all")
{
    for (const char* text : {"L1 2",
                             "Z",
                             "M1",
                             "M1 2 L3",
                             "M1 2 C1 2 3 4",
                             "M1 2 C1 2 3 4 5 6 7",
                             "M1 2 X3 4",
                             "m1 2",
                             "M1 2 l3 4",
                             "M1 2 H3",
                             "M1 2 A1 1 0 0 0 3 4",
                             "NaN",
                             "MNaN 1",
                             "Mnan 1",
                             "M1 inf",
                             "M1 1e999",
                             "M1 2 L3 4 !",
                             "1 2",
                             "M1 2 3",
                             "M1 2 Z 3",
                             "M--1 2",
                             "Mundefined 2",
                             "Mé 2"}) {
        INFO(text);
        CHECK(drawn(text) == "no path");
    }
}
