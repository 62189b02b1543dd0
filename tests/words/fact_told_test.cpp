// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "words/fact_told.h"

#include <catch2/catch.hpp>

#include <set>

using namespace loopside;
using words::Words;

namespace {

run::CartRecord cartInPsiAndBar()
{
    run::CartRecord cart{
        .name = "Cart A", .flow = run::TypedFlow::parse("19 L/min").value(), .lastFluid = {}, .gauges = {}};
    for (const char* unit : {"psi", "bar"}) {
        cart.gauges.push_back({*units::unitNamed<units::Pressure>(unit), {}, {}, {}});
    }
    return cart;
}

std::string lineOf(const run::Event& event, std::string_view language = "en")
{
    return words::factLine(Words::in(language).value(), event, cartInPsiAndBar());
}

Decimal number(const char* text)
{
    return Decimal::parse(text).value();
}

} // namespace

TEST_CASE("a set is told with its digits as typed, each gauge in its own unit")
{
    run::ReadingLogged set{
        {run::GaugeTyped{number("38.0"), std::nullopt}, run::GaugeTyped{number("1.4"), number("1.7")}}};
    CHECK(lineOf(set) == "G1 38.0 psi · G2 1.4–1.7 bar");
    set.oil = run::TypedTemperature::parse("100 °F").value();
    CHECK(lineOf(set) == "G1 38.0 psi · G2 1.4–1.7 bar · 100 °F");
}

TEST_CASE("a gauge that could not be read is told, and a unit stated with the set holds for all")
{
    const run::ReadingLogged set{{std::nullopt, run::GaugeTyped{number("140"), std::nullopt}},
                                 *units::unitNamed<units::Pressure>("kPa")};
    CHECK(lineOf(set) == "G1 – · G2 140 kPa");
}

TEST_CASE("modes, changes, signs and samples have words in every language")
{
    const auto language = GENERATE("en", "es", "de");
    const std::vector<run::Event> events = {
        run::ModeChanged{run::Mode::Bypassing, run::TypedFlow::parse("24 L/min").value()},
        run::ElementsChanged{2, 4, {}}, run::SignsSeen{{"foam", "haze", "whine", "clicking", "leak"}},
        run::SampleDrawn{"S-7", 1}};
    for (const run::Event& event : events) {
        CHECK(words::hasFactLine(event));
        INFO(lineOf(event, language));
        CHECK(lineOf(event, language).find('{') == std::string::npos);
        CHECK(lineOf(event, language).find('[') == std::string::npos);
    }
    CHECK(lineOf(events[0], language).find("24 L/min") != std::string::npos);
    CHECK(lineOf(events[1], language).find('4') != std::string::npos);
    CHECK(lineOf(events[3], language).find("S-7") != std::string::npos);
}

TEST_CASE("what the program says by itself has no line")
{
    CHECK_FALSE(words::hasFactLine(run::AlertCleared{}));
    CHECK(lineOf(run::AlertCleared{}).empty());
}

TEST_CASE("what the clocks did is told in every language, with its lengths in a unit that is easily read")
{
    const auto language = GENERATE("en", "es", "de");
    constexpr std::int64_t minuteMs = 60'000;
    const std::vector<std::pair<run::Event, std::vector<std::string>>> told = {
        {run::ClockJumped{-58 * minuteMs}, {"58 min"}},
        {run::ClockJumped{26 * 60 * minuteMs}, {"26 h"}},
        {run::ClockOffsetChanged{-300, 345}, {"UTC−05:00", "UTC+05:45"}},
        {run::TabletRestarted{14 * minuteMs, 2 * minuteMs}, {"14 min", "2 min"}},
        {run::TabletRestarted{366 * 24 * 60 * minuteMs, 0}, {"366 d", "0 s"}},
        {run::TabletRestarted{-3 * 24 * 60 * minuteMs, 40'000}, {"3 d", "40 s"}},
        {run::TabletSlept{12 * minuteMs}, {"12 min"}}};
    std::set<std::string> lines;
    for (const auto& [event, parts] : told) {
        CHECK(words::hasFactLine(event));
        const std::string line = lineOf(event, language);
        INFO(line);
        for (const std::string& part : parts) {
            CHECK(line.find(part) != std::string::npos);
        }
        CHECK(line.find('{') == std::string::npos);
        lines.insert(line);
    }
    CHECK(lines.size() == told.size());
}
