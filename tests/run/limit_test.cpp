// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// Where a change limit is reached. That a drop of exactly the limit counts, and is compared in the digits as typed, is
// common practice, no source.

#include "run/drop.h"
#include "run/walk.h"

#include <catch2/catch.hpp>

using namespace loopside;
using namespace loopside::run;
using namespace loopside::test;

namespace {

Setup withLimit(std::string_view limit, std::string_view gaugeUnit)
{
    Setup setup = ordinary();
    setup.stages[0].changeLimit = std::nullopt;
    setup.stages[1].changeLimit = typed<units::Pressure>(limit);
    for (GaugeRecord& dial : setup.cart.gauges) {
        dial.unit = units::unitNamed<units::Pressure>(gaugeUnit).value();
        dial.span = std::nullopt;
    }
    return setup;
}

/// Stage 2 after one set of gauges while filtering: at-limit, near-limit or neither.
std::string stage2After(const Setup& setup, std::string_view set, std::string_view unit = {})
{
    const Walk walk = Walk(setup).filteringAt(0).readingAt(2, set, unit);
    if (walk.alert(AlertId::StageAtLimit, 2) != "normal") {
        return "at limit";
    }
    return walk.alert(AlertId::StageNearLimit, 2) != "normal" ? "near" : "below";
}

std::string rawOf(const Setup& setup, std::string_view set, std::size_t stage)
{
    const auto drops = dropsOf(gauges(set), Mode::Filtering, {}, setup, std::nullopt);
    return drops[stage].raw ? drops[stage].raw->toText() : "unknown";
}

/// ΔP of stage 1 after a pump-off check that showed `pumpOff`.
std::string rawAfterCheck(const Setup& setup, std::string_view pumpOff, std::string_view set)
{
    const auto drops = dropsOf(gauges(set), Mode::Filtering, offsetsFrom(gauges(pumpOff), setup.cart), setup,
                               std::nullopt);
    return drops[0].raw ? drops[0].raw->toText() : "unknown";
}

} // namespace

TEST_CASE("43 psi less 1 psi is at a limit of 42 psi, 42 psi less 1 psi is not")
{
    CHECK(stage2After(withLimit("42 psi", "psi"), "50 43 1") == "at limit");
    CHECK(stage2After(withLimit("42 psi", "psi"), "50 42 1") == "near");
}

TEST_CASE("digits that binary numbers cannot hold are compared as typed")
{
    // As doubles 42.3 − 0.3 is 41.99999999999999…
    CHECK(stage2After(withLimit("42 psi", "psi"), "50 42.3 0.3") == "at limit");
    CHECK(stage2After(withLimit("42.0 psi", "psi"), "50 42.2 0.3") == "near");
}

TEST_CASE("a stage is near its limit from 80 % of it on")
{
    // 80 % of 42 psi is 33.6 psi
    CHECK(stage2After(withLimit("42 psi", "psi"), "50 34.6 1") == "near");
    CHECK(stage2After(withLimit("42 psi", "psi"), "50 34.5 1") == "below");
}

TEST_CASE("a limit in another unit is compared on the digits of the gauges")
{
    // 2.9 bar is 42.06 psi (bar = 14.50377377 psi, SI derived) and 290 kPa
    const auto [set, unit, expected] = GENERATE(table<std::string, std::string, std::string>({
        {"50 43 1", "psi", "at limit"},
        {"50 42 1", "psi", "near"},
        {"50 43.0 1.0", "psi", "near"},
        {"50 43.1 1.0", "psi", "at limit"},
        {"400 300 10", "kPa", "at limit"},
        {"400 299 10", "kPa", "near"},
        {"4.00 3.00 0.10", "bar", "at limit"},
        {"4.00 2.99 0.10", "bar", "near"},
    }));
    CAPTURE(set, unit);
    CHECK(stage2After(withLimit("2.9 bar", unit), set) == expected);
}

TEST_CASE("a set typed in another unit than the gauges is judged in the unit it was typed in")
{
    CHECK(stage2After(ordinary(), "4 3 0.1", "bar") == "at limit"); // 2.9 bar is 42.06 psi
    CHECK(stage2After(ordinary(), "4 2.9 0.1", "bar") == "near");   // 2.8 bar is 40.6 psi
}

TEST_CASE("a swinging needle counts in its middle")
{
    CHECK(stage2After(withLimit("42 psi", "psi"), "50 40..46 1") == "at limit"); // 43 − 1
    CHECK(stage2After(withLimit("42 psi", "psi"), "50 40..45 1") == "near");     // 42.5 − 1
}

TEST_CASE("a gauge that could not be read leaves its stages unknown and the others known")
{
    CHECK(rawOf(ordinary(), "50 43 1", 0) == "7 psi");
    CHECK(rawOf(ordinary(), "- 43 1", 0) == "unknown");
    CHECK(rawOf(ordinary(), "- 43 1", 1) == "42 psi");
    CHECK(rawOf(ordinary(), "50 - 1", 0) == "unknown");
    CHECK(rawOf(ordinary(), "50 - 1", 1) == "unknown");
    CHECK(stage2After(ordinary(), "- 43 1") == "at limit");
    CHECK(stage2After(ordinary(), "50 - 1") == "below");
}

TEST_CASE("gauges in different units are subtracted in the unit of the first")
{
    Setup setup = ordinary();
    setup.cart.gauges[0].unit = units::unitNamed<units::Pressure>("kPa").value();
    // 1 psi is 6.894757293168 kPa
    CHECK(rawOf(setup, "300 1 1", 0) == "293.1052 kPa");
    CHECK(rawOf(setup, "300 20 1", 1) == "19 psi");
}

TEST_CASE("a pump-off check shifts a gauge only beyond what is misread, against the static head")
{
    // Static head 1 psi. Steps of 1 psi: 1/√12 (JCGM 100, rectangular), three times that for a reader who takes the
    // needle for a mark higher or lower (our choice), k = 2: ±1.73 psi.
    const auto [pumpOff, expected] = GENERATE(table<std::string, std::string>({
        {"1 1 1", "10 psi"},
        {"2.7 1 1", "10 psi"},  // 1.7 psi off
        {"2.8 1 1", "8.2 psi"}, // 1.8 psi off
        {"3 1 1", "8 psi"},
        {"1 3 1", "12 psi"},
        {"3 3 3", "10 psi"},    // both off alike
        {"0 1 1", "10 psi"},    // a mark low
        {"1..7 1 1", "10 psi"}, // 3 psi off, but ±6 × √(1/12 + 3) = ±10.5 psi with the swing
        {"- 1 1", "10 psi"},
        {"120 1 1", "10 psi"}, // beyond the dial: no zero
        {"6 1 1", "5 psi"},    // 5 psi off: a twentieth of the dial, the most that counts
        {"7 1 1", "10 psi"},   // more: pressure may be trapped, and taking it off would hide a limit
    }));
    CAPTURE(pumpOff);
    CHECK(rawAfterCheck(ordinary(), pumpOff, "20 10 4") == expected);
}

TEST_CASE("without a known static head a pump-off check shifts nothing")
{
    Setup setup = ordinary();
    setup.cart.staticHead = std::nullopt;
    CHECK(rawAfterCheck(setup, "3 1 1", "20 10 4") == "10 psi");
}

TEST_CASE("the last pump-off check counts from the next set on")
{
    Walk walk;
    walk.readingAt(0, "3 1 1").filteringAt(1).readingAt(3, "27 1 1"); // 27 − 2 − 1 = 24 psi, limit 25 psi
    CHECK(walk.alert(AlertId::StageAtLimit, 1) == "normal");
    walk.stoppedAt(5).readingAt(6, "1 1 1").filteringAt(7).readingAt(9, "26 1 1"); // now 25 psi
    CHECK(walk.alert(AlertId::StageAtLimit, 1) == "unacknowledged");
}

TEST_CASE("numbers that no gauge shows do not stop the program")
{
    Setup setup = withLimit("999999999999 bar", "Pa");
    CHECK(stage2After(setup, "0 999999999999 -999999999999") != "");
    setup.cart.gauges[1].unit = units::unitNamed<units::Pressure>("bar").value();
    CHECK(rawOf(setup, "1 999999999999 -999999999999", 0) != "unknown");
    CHECK(rawAfterCheck(setup, "999999999999 -999999999999 0", "-999999999999 999999999999 0") != "unknown");
}
