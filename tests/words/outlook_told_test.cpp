// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// What is expected here follows from the rules in words/outlook_told.h and from the clock on the wall; worked out here.

#include "words/outlook_told.h"

#include <catch2/catch.hpp>

using namespace loopside;
using words::Words;

namespace {

using std::chrono::minutes;

Words wordsIn(std::string_view language)
{
    return Words::in(language).value();
}

/// A run that was opened at 12:00 by the wall clock, two hours east of UTC, and whose stages change at 25 psi.
run::RunState runAtNoon()
{
    constexpr std::int64_t tenUtc = std::int64_t{10} * 3'600'000;
    run::RunState run{
        .setup = {.title = "",
                  .tank = {.name = "T1", .volume = units::Typed<units::Volume>::parse("400 L").value(), .fluid = {}},
                  .cart = {.name = "C1",
                           .flow = units::Typed<units::Flow>::parse("20 L/min").value(),
                           .lastFluid = "",
                           .gauges = {}},
                  .stages = {{}, {}}},
        .fluid = {},
        .opened = {},
        .clock = run::RunClock(Stamp{.wallMs = tenUtc, .offsetMin = 120}, {})};
    for (auto& stage : run.setup.stages) {
        stage.changeLimit = units::Typed<units::Pressure>::parse("25 psi").value();
    }
    return run;
}

run::Outlook outlookOf(int low, int middle, int high, std::optional<double> probability)
{
    return {.stage = 2,
            .state = forecast::State::Forecast,
            .why = {},
            .limitAt = {minutes(low), minutes(middle), minutes(high)},
            .pBeforeTarget = probability,
            .asOf = minutes(60)};
}

std::string brief(const run::Outlook& outlook, std::string_view language = "en")
{
    return words::outlookBrief(wordsIn(language), outlook, runAtNoon());
}

} // namespace

TEST_CASE("a forecast is told by the wall clock of the place, in steps that fit its range")
{
    CHECK(brief(outlookOf(126, 141, 189, 0.92))
          == "Stage 2 reaches 25 psi about 14:20 (14:05–15:10); 92\u00A0% likely before the target.");
    CHECK(brief(outlookOf(126, 136, 149, {})) == "Stage 2 reaches 25 psi about 14:16 (14:06–14:29).");
    CHECK(brief(outlookOf(126, 246, 500, {})) == "Stage 2 reaches 25 psi about 16:00 (14:00–20:30).");
}

TEST_CASE("another day is told, and no time before the forecast itself")
{
    CHECK(brief(outlookOf(600, 750, 2400, {})) == "Stage 2 reaches 25 psi about 00:30\u00A0+1\u00A0d (22:00–04:00\u00A0+2\u00A0d).");
    CHECK(brief(outlookOf(61, 120, 300, {})) == "Stage 2 reaches 25 psi about 14:00 (13:00–17:00).");
}

TEST_CASE("a quantile that is not known is not made up")
{
    run::Outlook outlook = outlookOf(126, 141, 189, {});
    outlook.limitAt.t90.reset();
    CHECK(brief(outlook)
          == "Stage 2 reaches 25 psi about 14:15, hardly before 14:00; how late it may be cannot be told.");
    outlook.limitAt.t50.reset();
    CHECK(brief(outlook) == "Stage 2 hardly reaches 25 psi before 14:00; more cannot be told.");
    outlook.limitAt.t10.reset();
    CHECK(brief(outlook) == "Stage 2 reaches 25 psi later than can be told.");
}

TEST_CASE("a chance is never told as none or certain")
{
    const Words english = wordsIn("en");
    CHECK(words::chanceText(english, 0.0) == "under 1\u00A0%");
    CHECK(words::chanceText(english, 0.0099) == "under 1\u00A0%");
    CHECK(words::chanceText(english, 0.01) == "1\u00A0%");
    CHECK(words::chanceText(english, 0.5) == "50\u00A0%");
    CHECK(words::chanceText(english, 0.99) == "99\u00A0%");
    CHECK(words::chanceText(english, 0.9901) == "over 99\u00A0%");
    CHECK(words::chanceText(english, 1.0) == "over 99\u00A0%");
}

TEST_CASE("an early range says that it may move, and a state without a range says what it is")
{
    const Words english = wordsIn("en");
    run::Outlook outlook = outlookOf(126, 141, 189, 0.5);
    outlook.state = forecast::State::Early;
    CHECK(words::outlookCaveat(english, outlook, {}) == "May still move far. Check the gauge.");
    outlook.state = forecast::State::NotBeforeTarget;
    outlook.pBeforeTarget = 0.002;
    CHECK(brief(outlook)
          == "Stage 2 stays below 25 psi up to the target, as it looks; under 1\u00A0% likely to reach it before.");
    outlook.state = forecast::State::Reached;
    outlook.pBeforeTarget = 1.0;
    CHECK(brief(outlook) == "Stage 2 has reached its limit of 25 psi.");
    outlook.state = forecast::State::None;
    outlook.why = {"forecast.no-flow", {}};
    CHECK(brief(outlook) == "When stage 2 reaches its limit cannot be told yet.");
    CHECK(words::outlookCaveat(english, outlook, {}) == "Nothing flows: ΔP says nothing of dirt.");
}

TEST_CASE("the whole sentence says for which oil it is told, and that the gauge decides")
{
    run::ReadingLogged reading{.gauges = {}};
    reading.oil = run::TypedTemperature::parse("47 C").value();
    run::Moment last;
    last.reading = &reading;
    run::Standing standing;
    standing.lastReading = &last;
    const auto said = words::outlookSentence(wordsIn("en"), outlookOf(126, 141, 189, 0.92), runAtNoon(), standing);
    CHECK_THAT(said, Catch::Contains("last 47 °C") && Catch::EndsWith("Check the gauge."));
}

TEST_CASE("every state and every lack of a quantile has its sentence and its label in each language")
{
    const auto language = GENERATE(as<std::string>{}, "en", "es", "de");
    const auto state = GENERATE(forecast::State::None, forecast::State::Early, forecast::State::Forecast,
                                forecast::State::Reached, forecast::State::NotBeforeTarget);
    const int known = GENERATE(0, 1, 2, 3);
    run::Outlook outlook = outlookOf(126, 141, 189, 0.4);
    outlook.state = state;
    outlook.why = {"forecast.wide", {}};
    outlook.limitAt.t90 = known > 2 ? outlook.limitAt.t90 : std::nullopt;
    outlook.limitAt.t50 = known > 1 ? outlook.limitAt.t50 : std::nullopt;
    outlook.limitAt.t10 = known > 0 ? outlook.limitAt.t10 : std::nullopt;
    for (const std::string& said :
         {brief(outlook, language), words::outlookLabel(wordsIn(language), outlook, runAtNoon())}) {
        CAPTURE(language, known, said);
        CHECK(said.find_first_of("[]{}") == std::string::npos);
        CHECK_FALSE(said.empty());
        CHECK(said.find("..") == std::string::npos);
    }
}

TEST_CASE("spare sets are told where they were counted and a change is likely")
{
    run::Outlook outlook = outlookOf(125, 140, 190, 0.92);
    const auto caveat = [&](std::string_view language) {
        return words::outlookCaveat(wordsIn(language), outlook, run::Standing{});
    };
    CHECK(caveat("en").find("Spare") == std::string::npos);
    outlook.setsNeeded = 2;
    CHECK(caveat("en").find("Spare") == std::string::npos); // nobody counted
    outlook.spareSets = 1;
    CHECK_THAT(caveat("en"), Catch::StartsWith("Spare sets at hand: 1, fetch 1. "));
    CHECK_THAT(caveat("de"), Catch::StartsWith("Ersatzsätze zur Hand: 1; noch 1 holen. "));
    outlook.spareSets = 2;
    CHECK_THAT(caveat("es"), Catch::StartsWith("Juegos de repuesto a mano: 2. "));
    outlook.setsNeeded = 0;
    CHECK(caveat("en").find("Spare") == std::string::npos);
}
