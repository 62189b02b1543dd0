// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// Sentences whose ids are put together from names: there is one for every name, in every language.

#include "words/told.h"

#include "run/pattern.h"

#include <catch2/catch.hpp>

using namespace loopside;
using words::Words;

namespace {

Words wordsIn(std::string_view language)
{
    return Words::in(language).value();
}

} // namespace

TEST_CASE("every finding that asks to stop the pump has a red alert of its own words")
{
    const auto language = GENERATE("en", "es", "de");
    const Words words = wordsIn(language);
    int stops = 0;
    for (const run::Pattern& pattern : run::patterns()) {
        if (pattern.level == run::FindingLevel::Stop) {
            ++stops;
            INFO(pattern.id);
            CHECK(words.all().contains("alert.stop-now." + std::string(pattern.id)));
        }
    }
    CHECK(stops > 0);
}

TEST_CASE("the red alert names tank, cart and what was found")
{
    const std::vector<Message::Argument> told = {
        {"tank", "BO-2"}, {"cart", "Cart B"}, {"finding", "stage-torn-or-bypassed"}, {"stage", "2"}};
    CHECK(words::alertSentence(wordsIn("en"), run::AlertId::StopNow, told)
          == "BO-2, Cart B: stage 2 is leaking or bypassed. Stop the pump now.");
}

TEST_CASE("every reason that takes turnovers has words")
{
    const auto language = GENERATE("en", "es", "de");
    const Words words = wordsIn(language);
    for (const std::string_view reason : run::cutReasons) {
        CHECK(words.all().contains("credit.why." + std::string(reason)));
    }
    for (const run::Pattern& pattern : run::patterns()) {
        if (pattern.takes != run::Takes::Nothing) {
            INFO(pattern.id);
            CHECK(words.all().contains("credit.why." + std::string(pattern.id)));
        }
    }
}

TEST_CASE("what the low end leaves out is told with its time, what rounds to nothing is not")
{
    run::Credit credit;
    credit.cuts = {{std::chrono::minutes(40), std::chrono::minutes(62), "valve-in-bypass", 1.045, 0.0},
                   {std::chrono::minutes(70), std::chrono::minutes(71), run::cutLate, 0.004, 0.0},
                   {std::chrono::minutes(80), std::chrono::minutes(130), run::cutUnwatched, 2.375, 2.375}};
    const auto lines = words::creditLines(wordsIn("en"), credit);
    REQUIRE(lines.size() == 2);
    CHECK(lines[0] == "40–62 min: the valve was likely in bypass. The low end leaves out 1.04 turnovers.");
    CHECK(lines[1]
          == "80–130 min: nothing was entered for over 45 min. The low end leaves out 2.38 turnovers, the best value "
             "2.38.");
}

namespace {

std::string stageAlert(run::AlertId alert, std::string_view drop, std::string_view advice)
{
    const std::vector<Message::Argument> told = {{"tank", "PH-3"},
                                                 {"cart", "Grey"},
                                                 {"stage", "2"},
                                                 {"elements", "2"},
                                                 {"drop", std::string(drop)},
                                                 {"limit", "42 psi"},
                                                 {"advice", std::string(advice)}};
    return words::alertSentence(wordsIn("en"), alert, told);
}

} // namespace

TEST_CASE("a stage at its limit and one over it are told apart")
{
    using Catch::Matchers::Contains;
    CHECK_THAT(stageAlert(run::AlertId::StageAtLimit, "42 psi", "change"), Contains("is at its change limit"));
    CHECK_THAT(stageAlert(run::AlertId::StageAtLimit, "43 psi", "change"), Contains("is over its change limit"));
    CHECK(words::isOverLimit({{"drop", "3.1 bar"}, {"limit", "300 kPa"}}));
    CHECK_FALSE(words::isOverLimit({{"drop", "3.0 bar"}, {"limit", "300 kPa"}}));
    CHECK_FALSE(words::isOverLimit({{"limit", "300 kPa"}}));
}

TEST_CASE("cold oil near the limit asks for no elements")
{
    using Catch::Matchers::Contains;
    const std::string cold = stageAlert(run::AlertId::StageNearLimit, "36 psi", "cold");
    CHECK_THAT(cold, Contains("The oil is cold") && !Contains("at hand"));
    CHECK_THAT(stageAlert(run::AlertId::StageNearLimit, "36 psi", "change"), Contains("at hand"));
}

TEST_CASE("alerts of a run younger than an hour are told by number and time, not by a rate")
{
    run::AlertMetrics metrics;
    metrics.raised = 3;
    metrics.perHour = 3.0;
    metrics.minutesOpen = 59;
    CHECK(words::alertsLine(wordsIn("en"), metrics) == "Alerts: 3 in 59 min, at most 0 in 10 min; 0 not returned.");
    metrics.minutesOpen = 60;
    CHECK(words::alertsLine(wordsIn("en"), metrics) == "Alerts: 3 (3.0 an hour, at most 0 in 10 min); 0 not returned.");
}

TEST_CASE("clicking has one advice wherever it is told")
{
    const auto language = GENERATE("en", "es", "de");
    const Words words = wordsIn(language);
    const std::string act = words.say("finding.static-clicking.do");
    const std::string first = act.substr(1, act.find('.') - 1); // without its capital
    for (const char* id : {"caution.clicking", "caution.if-clicking"}) {
        CAPTURE(id, first);
        CHECK_THAT(words.say(id), Catch::Matchers::Contains(first));
    }
}
