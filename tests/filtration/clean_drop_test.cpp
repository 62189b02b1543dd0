// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "filtration/clean_drop.h"

#include <catch2/catch.hpp>

#include <cmath>

using Catch::Contains;
using Catch::WithinAbs;
using Catch::WithinRel;
using namespace loopside::filtration;
using namespace loopside::units;

namespace {

Conditions warm()
{
    return {19.0 * litrePerMinute, 46.0 * centistokes, 855.0 * kilogramPerCubicMetre};
}

Conditions cold()
{
    return {15.0 * litrePerMinute, 270.0 * centistokes, 873.0 * kilogramPerCubicMetre};
}

CleanDrop clean()
{
    return {14.0 * kilopascal, 3.0 * kilopascal, warm()};
}

double kPaAt(const CleanDrop& drop, const Conditions& now)
{
    return cleanDropAt(drop, now).value().in(kilopascal);
}

/// The sentence in which both functions refuse.
std::string refusal(const CleanDrop& drop, const Conditions& now)
{
    const auto expected = cleanDropAt(drop, now);
    const auto corrected = correctedDrop(20.0 * kilopascal, drop, now);
    REQUIRE_FALSE(expected.has_value());
    REQUIRE_FALSE(corrected.has_value());
    CHECK(expected.error().code == loopside::Errc::OutOfRange);
    CHECK(corrected.error().sentence == expected.error().sentence);
    return expected.error().sentence;
}

} // namespace

TEST_CASE("at its own conditions a clean drop is itself and a reading stands uncorrected")
{
    CHECK_THAT(kPaAt(clean(), warm()), WithinRel(14.0, 1e-12));
    CHECK_THAT(correctedDrop(33.0 * kilopascal, clean(), warm()).value().in(kilopascal), WithinRel(33.0, 1e-12));
}

TEST_CASE("a clean stage corrects to its clean drop, whatever the conditions")
{
    const auto flow = GENERATE(4.0, 19.0, 38.0);
    const auto viscosity = GENERATE(5.0, 46.0, 6300.0);
    CAPTURE(flow, viscosity);
    const Conditions now{flow * litrePerMinute, viscosity * centistokes, 880.0 * kilogramPerCubicMetre};
    const auto corrected = correctedDrop(cleanDropAt(clean(), now).value(), clean(), now);
    REQUIRE(corrected.has_value());
    CHECK_THAT(corrected->in(kilopascal), WithinRel(14.0, 1e-9));
    CHECK_THAT(loading(*corrected, clean()), WithinRel(1.0, 1e-9));
}

TEST_CASE("an element with twice the resistance corrects to twice its own part, warm or cold")
{
    CleanDrop loaded = clean();
    loaded.total = 25.0 * kilopascal; // 2 × 11 for the element, 3 for the housing
    const Conditions now = GENERATE(warm(), cold());
    const auto corrected = correctedDrop(cleanDropAt(loaded, now).value(), clean(), now);
    REQUIRE(corrected.has_value());
    CHECK_THAT(corrected->in(kilopascal), WithinRel(25.0, 1e-9));
    CHECK_THAT(loading(*corrected, clean()), WithinRel(25.0 / 14.0, 1e-9));
}

TEST_CASE("the element's part grows with flow and viscosity, the housing's with the square of flow alone")
{
    CleanDrop element = clean();
    element.housing = Pressure{};
    CleanDrop housing = clean();
    housing.housing = housing.total;
    Conditions twiceTheFlow = warm();
    twiceTheFlow.flow = 38.0 * litrePerMinute;
    Conditions twiceAsThick = warm();
    twiceAsThick.viscosity = 92.0 * centistokes;
    Conditions heavier = warm();
    heavier.density = 940.5 * kilogramPerCubicMetre; // 1.1 times
    CHECK_THAT(kPaAt(element, twiceTheFlow), WithinRel(28.0, 1e-12));
    CHECK_THAT(kPaAt(housing, twiceTheFlow), WithinRel(56.0, 1e-12));
    CHECK_THAT(kPaAt(element, twiceAsThick), WithinRel(28.0, 1e-12));
    CHECK_THAT(kPaAt(housing, twiceAsThick), WithinRel(14.0, 1e-12));
    CHECK_THAT(kPaAt(element, heavier), WithinRel(15.4, 1e-12));
    CHECK_THAT(kPaAt(housing, heavier), WithinRel(15.4, 1e-12));
}

TEST_CASE("where a density is not known it is left out")
{
    CleanDrop drop = clean();
    Conditions now = cold();
    Conditions sameDensity = cold();
    sameDensity.density = warm().density;
    const double expected = kPaAt(drop, sameDensity);
    SECTION("now")
    {
        now.density = std::nullopt;
    }
    SECTION("of the clean drop")
    {
        drop.at.density = std::nullopt;
    }
    CHECK_THAT(kPaAt(drop, now), WithinRel(expected, 1e-12));
}

TEST_CASE("a reading below nothing is corrected as it was seen")
{
    CleanDrop element = clean();
    element.housing = Pressure{};
    Conditions thick = warm();
    thick.viscosity = 92.0 * centistokes;
    const auto corrected = correctedDrop(-2.0 * kilopascal, element, thick);
    REQUIRE(corrected.has_value());
    CHECK_THAT(corrected->in(kilopascal), WithinRel(-1.0, 1e-12));
    CHECK(loading(*corrected, element) < 0.0);
}

TEST_CASE("conditions that cannot be are refused with the fault named")
{
    const double number = GENERATE(0.0, -1.0, std::nan(""));
    CAPTURE(number);
    CleanDrop drop = clean();
    Conditions now = cold();
    SECTION("flow now")
    {
        now.flow = number * litrePerMinute;
        CHECK_THAT(refusal(drop, now), Contains("The flow now must be above zero"));
    }
    SECTION("viscosity now")
    {
        now.viscosity = number * centistokes;
        CHECK_THAT(refusal(drop, now), Contains("The viscosity now must be above zero"));
    }
    SECTION("density now")
    {
        now.density = number * kilogramPerCubicMetre;
        CHECK_THAT(refusal(drop, now), Contains("The density now must be above zero"));
    }
    SECTION("flow of the clean drop")
    {
        drop.at.flow = number * litrePerMinute;
        CHECK_THAT(refusal(drop, now), Contains("The flow of the clean differential pressure must be above zero"));
    }
    SECTION("viscosity of the clean drop")
    {
        drop.at.viscosity = number * centistokes;
        CHECK_THAT(refusal(drop, now), Contains("The viscosity of the clean differential pressure must be above zero"));
    }
    SECTION("the clean drop")
    {
        drop.total = number * kilopascal;
        CHECK_THAT(refusal(drop, now), Contains("The clean differential pressure must be above zero"));
    }
}

TEST_CASE("a housing's part outside the clean drop is refused")
{
    CleanDrop drop = clean();
    drop.housing = GENERATE(-0.1, 14.1, std::nan("")) * kilopascal;
    CHECK_THAT(refusal(drop, cold()), Contains("housing's part") && Contains("14.00 kPa"));
}

TEST_CASE("a clean drop and its correction are those of a worked example")
{
    // Computed outside this program: element 3.0 and housing 1.5 psi at 10 gpm, 30 cSt and 860 kg/m³.
    const CleanDrop drop{
        4.5 * psi, 1.5 * psi, {10.0 * gallonPerMinute, 30.0 * centistokes, 860.0 * kilogramPerCubicMetre}};
    const Conditions now{8.0 * gallonPerMinute, 100.0 * centistokes, 880.0 * kilogramPerCubicMetre};
    CleanDrop element = drop;
    element.total = 3.0 * psi;
    element.housing = Pressure{};
    CHECK_THAT(cleanDropAt(element, now).value().in(psi), WithinAbs(8.1860, 5e-5));
    CHECK_THAT(cleanDropAt(drop, now).value().in(psi), WithinAbs(9.1684, 5e-5));
    CHECK_THAT(correctedDrop(14.0 * psi, drop, now).value().in(psi), WithinAbs(6.2707, 5e-5));
}

TEST_CASE("where one of two elements flows, the elements' part doubles and the housing's stays")
{
    const Pressure both = cleanDropAt(clean(), cold(), {2, 2}).value();
    CHECK(both == cleanDropAt(clean(), cold()).value());
    const Pressure single = cleanDropAt(clean(), cold(), {1, 2}).value();
    CleanDrop housing = clean();
    housing.total = housing.housing;
    const Pressure housingPart = cleanDropAt(housing, cold()).value();
    CHECK_THAT((single - housingPart) / (both - housingPart), WithinRel(2.0, 1e-12));
    CHECK_THAT(kPaAt(clean(), warm()) + 11.0,
               WithinRel(cleanDropAt(clean(), warm(), {1, 2}).value().in(kilopascal), 1e-12));
}

TEST_CASE("no element that flows, or more than there are, is refused")
{
    const auto [flowing, of] = GENERATE(table<int, int>({{0, 2}, {3, 2}, {-1, 2}, {1, 0}}));
    const auto refused = cleanDropAt(clean(), cold(), {flowing, of});
    REQUIRE_FALSE(refused.has_value());
    CHECK(refused.error().code == loopside::Errc::OutOfRange);
    CHECK_THAT(refused.error().sentence, Contains("number of elements that flow"));
}

TEST_CASE("one new element beside an old one brings a pair below twice the clean drop")
{
    CHECK_THAT(halfChangedLoading(4.2).value(), WithinAbs(1.62, 5e-3)); // computed outside this program
    CHECK_THAT(halfChangedLoading(1.0).value(), WithinRel(1.0, 1e-12));
    // An old element that lets nothing through leaves one of two flowing.
    CHECK_THAT(halfChangedLoading(1e12).value(), WithinRel(2.0, 1e-9));
    CHECK(halfChangedLoading(2.0).value() < halfChangedLoading(3.0).value());
    const auto refused = halfChangedLoading(GENERATE(0.0, -1.0, std::nan("")));
    REQUIRE_FALSE(refused.has_value());
    CHECK_THAT(refused.error().sentence, Contains("loading of the old element"));
}
