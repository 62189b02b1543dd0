// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// Values of other units by NIST SP 811 (2008), appendix B.8: 1 psi = 6.894757 kPa, 1 US gal = 3.785412 L, t/°F = 1.8
// t/°C + 32.

#include "units/wanted.h"

#include <catch2/catch.hpp>

using namespace loopside;
using namespace loopside::units;

namespace {

template<class Q>
Typed<Q> typed(const char* text)
{
    return Typed<Q>::parse(text).value();
}

Wanted wanting(const char* pressure, const char* volume, const char* temperature)
{
    return {unitNamed<Pressure>(pressure).value(), unitNamed<Volume>(volume).value(),
            unitNamed<Temperature>(temperature).value()};
}

} // namespace

TEST_CASE("what is wanted in the unit it was typed in stays to the digit")
{
    const Wanted american = wanting("psi", "gal", "°F");
    CHECK(shown(typed<Pressure>("25.50 psi"), american) == "25.50 psi");
    CHECK(shown(typed<Volume>("1.80 gal"), american) == "1.80 gal");
    CHECK(shown(typed<Temperature>("98.60 °F"), american) == "98.60 °F");
    CHECK(shown(typed<Flow>("3.0 gpm"), american) == "3.0 gpm");
}

TEST_CASE("who wants nothing sees everything as typed")
{
    CHECK(shown(typed<Pressure>("170 kPa"), {}) == "170 kPa");
    CHECK(shown(typed<Volume>("760 L"), {}) == "760 L");
    CHECK(shown(typed<Temperature>("24 °C"), {}) == "24 °C");
    CHECK(shown(Pressure(35.0, kilopascal), *unitNamed<Pressure>("kPa").value(), {}) == "35 kPa");
    CHECK(shown("170 kPa", {}) == "170 kPa");
}

TEST_CASE("another unit has the digits that make sense in it")
{
    const Wanted american = wanting("psi", "gal", "°F");
    CHECK(shown(typed<Pressure>("170 kPa"), american) == "24.7 psi");
    CHECK(shown(typed<Volume>("760 L"), american) == "201 gal");
    CHECK(shown(typed<Volume>("8 L"), american) == "2.11 gal");
    CHECK(shown(typed<Temperature>("24 °C"), american) == "75 °F");
    CHECK(shown(typed<Temperature>("24.0 °C"), american) == "75.2 °F");
    CHECK(shown(typed<Temperature>("-40 °C"), american) == "-40 °F");
    CHECK(shown(typed<Flow>("24 L/min"), american) == "6.34 gpm");
    const Wanted metric = wanting("bar", "L", "°C");
    CHECK(shown(typed<Pressure>("25 psi"), metric) == "1.72 bar");
    CHECK(shown(typed<Volume>("200 gal"), metric) == "757 L");
    CHECK(shown(typed<Temperature>("100 °F"), metric) == "38 °C");
    CHECK(shown(typed<Flow>("3 gpm"), metric) == "11.4 L/min");
}

TEST_CASE("what was computed is in the wanted unit, else in that of the gauge")
{
    const NamedUnit<Pressure>& kpa = *unitNamed<Pressure>("kPa").value();
    CHECK(shown(Pressure(35.0, kilopascal), kpa, wanting("psi", "L", "°C")) == "5.1 psi");
    CHECK(shown(Pressure(35.0, kilopascal), kpa, wanting("bar", "L", "°C")) == "0.35 bar");
    CHECK(shown(Volume(1638.4, litre), *unitNamed<Volume>("L").value(), {}) == "1638 L");
    CHECK(shown(Volume(1638.4, litre), *unitNamed<Volume>("L").value(), wanting("psi", "gal", "°F")) == "433 gal");
}

TEST_CASE("of a text only what is one quantity from end to end is told in another unit")
{
    const Wanted american = wanting("psi", "gal", "°F");
    CHECK(shown("170 kPa", american) == "24.7 psi");
    CHECK(shown("24 °C", american) == "75 °F");
    CHECK(shown("760 L", american) == "201 gal");
    for (const char* text : {"", "–", "ISO VG 46", "1000 cSt", "0.75 kW", "16 A", "20 min", "10-20 kPa", "38", "kPa",
                             "170 kPa (24.7 psi)", "about 170 kPa", "G1 38 psi", "120 ppm", "3 L/min or so"}) {
        CAPTURE(text);
        CHECK(shown(text, american) == text);
    }
}
