// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "paper/curve.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <numeric>

using namespace loopside::paper;

namespace {

double lengthOf(const QList<QLineF>& lines)
{
    return std::accumulate(lines.begin(), lines.end(), 0.0,
                           [](double sum, const QLineF& line) { return sum + line.length(); });
}

} // namespace

TEST_CASE("a curve of points far apart is not thinned")
{
    const QList<QPointF> points = {{0.5, 1}, {1.5, 2}, {2.5, 1}, {7.0, 9}};
    CHECK(thinned(points) == points);
    CHECK(thinned({}).isEmpty());
    CHECK(thinned({{3, 4}}) == QList<QPointF>{{3, 4}});
}

TEST_CASE("a thinned curve keeps its ends, and lowest and highest of each pixel column in their order")
{
    const QList<QPointF> points = {{0.0, 5}, {0.1, 7}, {0.2, 9}, {0.3, 6}, {0.4, 2}, {0.6, 4}, {1.0, 8},
                                   {1.1, 3}, {1.2, 4}, {1.3, 9}, {1.9, 5}, {2.0, 1}, {2.1, 7}, {2.5, 6}};
    CHECK(thinned(points)
          == QList<QPointF>{{0.0, 5}, {0.2, 9}, {0.4, 2}, {1.1, 3}, {1.3, 9}, {2.0, 1}, {2.1, 7}, {2.5, 6}});
}

TEST_CASE("dashes follow the curve at the rhythm of dash and gap, however many points it has")
{
    const int points = GENERATE(2, 7, 1000);
    QList<QPointF> curve;
    for (int i = 0; i < points; ++i) {
        curve.append(QPointF(100.0 * i / (points - 1), 3.0));
    }
    const QList<QLineF> dashes = broken(curve, 6.0, 4.0);
    CHECK_THAT(lengthOf(dashes), Catch::WithinAbs(60.0, 1e-6)); // ten times 6 of 10
    for (const QLineF& dash : dashes) {
        CHECK(std::fmod(dash.x1() + 1e-9, 10.0) <= 6.0 + 1e-6);
        CHECK(dash.x2() - dash.x1() <= 6.0 + 1e-6);
        CHECK((dash.y1() == 3.0 && dash.y2() == 3.0));
    }
}

TEST_CASE("a curve that turns is as long in lines as from point to point")
{
    const QList<QPointF> curve = {{0, 0}, {3, 4}, {3, 4}, {6, 0}};
    CHECK_THAT(lengthOf(joined(curve)), Catch::WithinAbs(10.0, 1e-12)); // 3-4-5 triangles
    CHECK_THAT(lengthOf(broken(curve, 1e9, 1.0)), Catch::WithinAbs(10.0, 1e-9));
    CHECK(joined({{1, 1}}).isEmpty());
    CHECK(broken({}, 1.0, 1.0).isEmpty());
}
