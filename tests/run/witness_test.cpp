// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// The witness against hand computations, and how errors are carried into it.

#include "run/witness.h"

#include "run/walk.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>

using namespace loopside;
using namespace loopside::run;
using namespace loopside::test;

namespace {

/// The only good set of a run.
struct Seen
{
    explicit Seen(std::string_view set, std::string_view oil, Setup setup = ordinary()) : walk(std::move(setup))
    {
        walk.filteringAt(0);
        ReadingLogged reading = gauges(set);
        reading.oil = typed<units::Temperature>(std::string(oil));
        walk.sayAt(5, reading);
        moments = timelineOf(walk.run());
        sight = Sighting(walk.run()).see(moments.back(), {});
    }
    Seen(const Seen&) = delete;
    Seen& operator=(const Seen&) = delete;

    Walk walk;
    std::vector<Moment> moments = {};
    Sight sight = {};
};

double inPsi(units::Pressure pressure)
{
    return pressure.in(units::psi);
}

} // namespace

TEST_CASE("the head is the last gauge less static head, the sums follow from the gauges")
{
    // 44, 33 and 10 psi with 1 psi of static head: computed by hand.
    const Seen seen("44 33 10", "40 C");
    CHECK_THAT(inPsi(seen.sight.head->value), Catch::WithinAbs(9.0, 1e-9));
    CHECK_THAT(inPsi(seen.sight.filters->value), Catch::WithinAbs(34.0, 1e-9));
    CHECK_THAT(inPsi(seen.sight.total->value), Catch::WithinAbs(43.0, 1e-9));
    CHECK_THAT(inPsi(seen.sight.drops[1]->value), Catch::WithinAbs(23.0, 1e-9));
}

TEST_CASE("the errors of a gauge are its rounding and its grade, those of a difference their root of squares")
{
    // Rounding to 1 psi: 1/√12 (JCGM 100, NIST TN 1297, 4.6), three times for the reader: √(1/12 + 2/3) if a mark
    // higher or lower is as likely as the mark itself, computed by hand. Grade B of 100 psi: 2 % in the middle half, 3
    // % in the quarters beside it, each over √3. Independent parts add in quadrature: NIST TN 1297, appendix A.
    // Computed by hand.
    const Seen seen("44 33 10", "40 C");
    const double reading = std::sqrt(1.0 / 12.0 + 2.0 / 3.0);
    CHECK_THAT(inPsi(seen.sight.head->reading), Catch::WithinRel(reading, 1e-9));
    CHECK_THAT(inPsi(seen.sight.head->standing), Catch::WithinRel(3.0 / std::sqrt(3.0), 1e-9));
    CHECK_THAT(inPsi(seen.sight.drops[0]->reading), Catch::WithinRel(reading * std::sqrt(2.0), 1e-9));
    CHECK_THAT(inPsi(seen.sight.drops[0]->standing), Catch::WithinRel(2.0 * std::sqrt(2.0 / 3.0), 1e-9));
    CHECK_THAT(inPsi(seen.sight.drops[1]->standing), Catch::WithinRel(std::sqrt((4.0 + 9.0) / 3.0), 1e-9));
}

TEST_CASE("a pump-off check takes part of what a dial stands off by, less of it the higher the needle")
{
    Walk walk;
    walk.stoppedAt(0).readingAt(1, "1 1 1").filteringAt(2).readingAt(5, "44 33 10");
    const std::vector<Moment> moments = timelineOf(walk.run());
    Sighting sighting(walk.run());
    const Sight before = sighting.see(moments.back(), {});
    const auto off = std::find_if(moments.begin(), moments.end(), [](const Moment& m) { return m.reading != nullptr; });
    sighting.noteRest(*off);
    const Sight after = sighting.see(moments.back(), {});
    // Grade B at 10 psi, 3/√3 psi: a quarter and a tenth of it stay for slope; of three quarters what a reading good to
    // 0.866 psi leaves, as 1/√(1/a² + 1/b²). Computed by hand.
    const double grade = std::sqrt(3.0);
    const double zero = 1.0 / std::sqrt(1.0 / std::pow(0.75 * grade, 2.0) + 1.0 / 0.75);
    CHECK_THAT(inPsi(after.gauges[2]->standing), Catch::WithinRel(std::hypot(0.35 * grade, zero), 1e-9));
    CHECK(after.gauges[2]->standing < before.gauges[2]->standing);
    CHECK(after.gauges[0]->standing <= before.gauges[0]->standing);
}

TEST_CASE("what drives a laminar loss is dynamic viscosity times flow")
{
    // VG 46 is 46 mm²/s at 40 °C (ISO 3448); 20 L/min is 1/3000 m³/s. The usual density at 15 °C falls by about 16
    // kg/m³ until 40 °C (from memory), which 1 % leaves room for.
    const Seen warm("44 33 10", "40 C");
    const double density = 864.0;
    CHECK_THAT(*warm.sight.push, Catch::WithinRel(46e-6 * density / 3000.0, 0.02));
    // Twice the flow is twice the push: Hagen and Poiseuille.
    Setup fast = ordinary();
    fast.cart.flow = typed<units::Flow>("40 L/min");
    const Seen faster("44 33 10", "40 C", fast);
    CHECK_THAT(expectedFactor(faster.sight, warm.sight).value, Catch::WithinRel(2.0, 1e-9));
}

TEST_CASE("a colder oil is expected to cost more, and the thermometer makes it less sure")
{
    const Seen warm("44 33 10", "40 C");
    const Seen cold("44 33 10", "30 C");
    const Uncertain factor = expectedFactor(cold.sight, warm.sight);
    // VG 46 of index 98: about 73 mm²/s at 30 °C (ASTM D341, computed with oil/walther.h): 1.6 times. 5 to 9 % a
    // degree.
    CHECK_THAT(factor.value, Catch::WithinAbs(1.6, 0.08));
    const double degrees = 2.0 / std::sqrt(3.0); // two degrees either way: NIST TN 1297, 4.6
    CHECK(factor.sd / factor.value > degrees * 0.04 * std::sqrt(2.0));
    CHECK(factor.sd / factor.value < degrees * 0.1 * std::sqrt(2.0));
    CHECK_THAT(expectedFactor(warm.sight, cold.sight).value, Catch::WithinRel(1.0 / factor.value, 1e-9));
}

TEST_CASE("below about 3 psi the last gauge says that it is weak")
{
    CHECK_FALSE(Seen("44 33 5", "40 C").sight.isWeak()); // 4 psi
    CHECK(Seen("44 33 3", "40 C").sight.isWeak());       // 2 psi
    CHECK(Seen("44 33 -", "40 C").sight.isWeak());       // nothing
}

TEST_CASE("a loading carries the gauges, the catalogue and the thermometer")
{
    // Stage 2 costs 4 psi in this oil at 40 °C (its clean drop was told for 46 mm²/s and this flow): 8 psi is 2 times.
    const Seen seen("20 15 7", "40 C");
    const Uncertain& loading = *seen.sight.loading[1];
    CHECK_THAT(loading.value, Catch::WithinRel(2.0, 0.03));
    const double dials = std::hypot(1.5 / std::sqrt(6.0), 3.0 * std::sqrt(2.0 / 3.0)) / 4.0;
    CHECK(loading.sd > std::hypot(dials, 2.0 * cleanKnownTo) * 0.97);
    CHECK(loading.sd < std::hypot(dials, 2.0 * 0.15) * 1.03); // a thermometer adds no more than 10 %
}

TEST_CASE("a quotient of readings that share a standing error is as sure as Fieller's theorem says")
{
    // now − k·then with 4 ± 1 and 10 ± 1 of reading and 3 of standing: k = 0.7: 3/√(1 + 0.49 + 0.81). Computed by hand.
    const Measured now{4.0 * units::pascal, 1.0 * units::pascal, 3.0 * units::pascal};
    const Measured then{10.0 * units::pascal, 1.0 * units::pascal, 3.0 * units::pascal};
    const Ratio fell = moved(now, then, {1.0, 0.0});
    CHECK_THAT(fell.value, Catch::WithinRel(0.4, 1e-12));
    CHECK_THAT(fell.below(0.7), Catch::WithinRel(3.0 / std::sqrt(2.3), 1e-9));
    CHECK_THAT(fell.byReadingAlone().below(0.7), Catch::WithinRel(3.0 / std::sqrt(1.49), 1e-9));
    // Half of it expected: the bound is on now ÷ (then · 0.5).
    CHECK_THAT(fell.over({0.5, 0.0}).below(1.4), Catch::WithinRel(fell.below(0.7), 1e-9));
    // A reference that reads below 0 makes nothing sure, and no crash.
    const Ratio nothing = moved(now, {-1.0 * units::pascal, 9.0 * units::pascal, 3.0 * units::pascal}, {1.0, 0.0});
    CHECK(nothing.value == 1.0);
    CHECK(nothing.below(0.7) < likely);
}
