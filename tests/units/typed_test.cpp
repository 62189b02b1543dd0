// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "units/typed.h"

#include <catch2/catch.hpp>

using namespace loopside;
using namespace loopside::units;

namespace {

/// Reads `text` as a `Q`; what it means in `unit`, and how it is printed again.
template<class Q>
void checkTyped(const std::string& text, double number, typename Q::Unit unit, const std::string& printed)
{
    CAPTURE(text);
    const auto typed = Typed<Q>::parse(text);
    REQUIRE(typed);
    // A decimal is one rounding from what was typed, a factor one, the way back one: 1e-14 is ample.
    CHECK_THAT(typed->value().in(unit), Catch::WithinRel(number, 1e-14));
    CHECK(typed->toText() == printed);
}

template<class Q>
Error refusal(const std::string& text)
{
    CAPTURE(text);
    const auto typed = Typed<Q>::parse(text);
    REQUIRE_FALSE(typed);
    return typed.error();
}

bool contains(const std::string& text, const std::string& part)
{
    return text.find(part) != std::string::npos;
}

/// Prints every unit of the kind as text, and reads it back.
template<class Q>
void checkRoundTrips()
{
    for (const auto& unit : namedUnits<Q>()) {
        CAPTURE(unit.symbol);
        const Typed<Q> typed(Decimal(2345, 2), unit);
        const auto again = Typed<Q>::parse(typed.toText());
        REQUIRE(again);
        CHECK(*again == typed);
        // Two conversions of one rounding each; for temperatures the shift is up to 460 times larger than 1 degree.
        CHECK_THAT(typed.value().in(unit.unit), Catch::WithinRel(23.45, 1e-13));
        CHECK(print(typed.value(), unit, 2) == "23.45 " + std::string(unit.symbol));
    }
}

} // namespace

TEST_CASE("a computed pressure has no digit finer than a thirtieth of its error")
{
    const auto& psi = *unitNamed<Pressure>("psi").value();
    const auto printed = [&](double error) {
        return printComputed(Pressure(3.5, psi.unit), psi, Pressure(error, psi.unit));
    };
    CHECK(printed(1.6) == "3.5 psi");
    CHECK(printed(2.9) == "3.5 psi");
    CHECK(printed(5.6) == "4 psi");
}

TEST_CASE("readings are taken as people type them")
{
    checkTyped<Pressure>("38 psi", 38.0, psi, "38 psi");
    checkTyped<Pressure>("2.6 bar", 2.6, bar, "2.6 bar");
    checkTyped<Pressure>("260 kPa", 260.0, kilopascal, "260 kPa");
    checkTyped<Pressure>("38psid", 38.0, psi, "38 psi");
    checkTyped<Pressure>("38 PSI", 38.0, psi, "38 psi");
    checkTyped<Pressure>("1.0 kg/cm2", 1.0, kgfPerCm2, "1.0 kgf/cm²");
    checkTyped<Volume>("24 gal", 24.0, gallon, "24 gal");
    checkTyped<Volume>("400 L", 400.0, litre, "400 L");
    checkTyped<Flow>("4 gpm", 4.0, gallonPerMinute, "4 gpm");
    checkTyped<Flow>("19 L/min", 19.0, litrePerMinute, "19 L/min");
    checkTyped<Flow>("19 lpm", 19.0, litrePerMinute, "19 L/min");
    checkTyped<Temperature>("72 F", 72.0, fahrenheit, "72 °F");
    checkTyped<Temperature>("22 C", 22.0, celsius, "22 °C");
    checkTyped<Temperature>("-4,5 °C", -4.5, celsius, "-4.5 °C");
    checkTyped<KinematicViscosity>("46 cSt", 46.0, centistokes, "46 cSt");
    checkTyped<KinematicViscosity>("46 mm2/s", 46.0, centistokes, "46 cSt");
    checkTyped<Length>("3 m", 3.0, metre, "3 m");
    checkTyped<Duration>("20 min", 20.0, minute, "20 min");
    checkTyped<Density>("0.87 kg/L", 870.0, kilogramPerCubicMetre, "0.87 g/mL");
}

TEST_CASE("the same reading in two units is the same quantity")
{
    // Exact by definition: bar = 100 kPa; US gallon = 231 in³ = 3.785411784 L; 72 °F = 22.2… °C (NIST SP 811, from
    // memory).
    CHECK_THAT(Typed<Pressure>::parse("2.6 bar")->value().in(kilopascal), Catch::WithinRel(260.0, 1e-14));
    CHECK_THAT(Typed<Volume>::parse("1 gal")->value().in(litre), Catch::WithinRel(3.785411784, 1e-14));
    CHECK_THAT(Typed<Temperature>::parse("72 F")->value().in(celsius), Catch::WithinRel(200.0 / 9.0, 1e-13));
    CHECK_THAT(Typed<Temperature>::parse("-40 F")->value().in(celsius), Catch::WithinRel(-40.0, 1e-13));
}

TEST_CASE("a comma is a point, and blanks around or between do not matter")
{
    checkTyped<Pressure>("2,6 bar", 2.6, bar, "2.6 bar");
    checkTyped<Pressure>("  2.60\tbar ", 2.6, bar, "2.60 bar");
    checkTyped<Pressure>("2,60bar", 2.6, bar, "2.60 bar");
}

TEST_CASE("a number without a unit is refused, and the sentence says which units there are")
{
    const Error error = refusal<Pressure>("38");
    CHECK(error.code == Errc::Malformed);
    CHECK(error.sentence == "\"38\" has no unit; a pressure needs one of Pa, kPa, MPa, mbar, bar, psi, kgf/cm², inHg");
}

TEST_CASE("a unit of another kind, or in letters of the wrong size, is refused by its name")
{
    const auto text = GENERATE(as<std::string>(), "38 gal", "38 kpa", "38 BAR", "38 psi psi", "38 e3 Pa", "38 °C",
                               "3 8 psi", "38 psi.", "38 ");
    CAPTURE(text);
    const Error error = refusal<Pressure>(text);
    CHECK(error.code == (text == "38 " ? Errc::Malformed : Errc::NotFound));
    CHECK(contains(error.sentence, "kgf/cm²"));
    CHECK(refusal<Volume>("24 gpm").code == Errc::NotFound);
    CHECK(refusal<Flow>("24 gal").code == Errc::NotFound);
    CHECK(refusal<Temperature>("22 c").code == Errc::NotFound);
}

TEST_CASE("a unit without a number is refused with an example")
{
    const Error error = refusal<Pressure>("psi");
    CHECK(error.code == Errc::Malformed);
    CHECK(error.sentence == "\"psi\" is not a pressure: a number and a unit are needed, such as \"38 psi\"");
    CHECK(refusal<Temperature>("").code == Errc::Malformed);
    CHECK(refusal<Volume>("1,234.5 L").code == Errc::Malformed);
    CHECK(refusal<Volume>("- 4 L").code == Errc::Malformed);
}

TEST_CASE("a number with too many digits is refused for that reason")
{
    const Error error = refusal<Pressure>("1234567890123 Pa");
    CHECK(error.code == Errc::OutOfRange);
    CHECK(contains(error.sentence, "more digits"));
}

TEST_CASE("the example that a refusal gives can be typed")
{
    const auto exampleIn = [](const std::string& sentence) {
        const std::size_t begin = sentence.find("such as \"") + 9;
        return sentence.substr(begin, sentence.rfind('"') - begin);
    };
    CHECK(Typed<Pressure>::parse(exampleIn(refusal<Pressure>("x").sentence)));
    CHECK(Typed<Volume>::parse(exampleIn(refusal<Volume>("x").sentence)));
    CHECK(Typed<Flow>::parse(exampleIn(refusal<Flow>("x").sentence)));
    CHECK(Typed<Duration>::parse(exampleIn(refusal<Duration>("x").sentence)));
    CHECK(Typed<Length>::parse(exampleIn(refusal<Length>("x").sentence)));
    CHECK(Typed<Density>::parse(exampleIn(refusal<Density>("x").sentence)));
    CHECK(Typed<KinematicViscosity>::parse(exampleIn(refusal<KinematicViscosity>("x").sentence)));
    CHECK(Typed<Temperature>::parse(exampleIn(refusal<Temperature>("x").sentence)));
}

TEST_CASE("what is typed survives the trip through text in every unit")
{
    checkRoundTrips<Pressure>();
    checkRoundTrips<Volume>();
    checkRoundTrips<Flow>();
    checkRoundTrips<Duration>();
    checkRoundTrips<Length>();
    checkRoundTrips<Density>();
    checkRoundTrips<KinematicViscosity>();
    checkRoundTrips<Temperature>();
}

TEST_CASE("the same amount in other digits or another unit is typed differently")
{
    const auto typed = [](const char* text) { return Typed<Pressure>::parse(text).value(); };
    CHECK(typed("1 bar") == typed("1 bar"));
    CHECK_FALSE(typed("1 bar") == typed("1.0 bar"));
    CHECK_FALSE(typed("1 bar") == typed("100 kPa"));
}
