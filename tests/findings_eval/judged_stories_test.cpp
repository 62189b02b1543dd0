// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// The judge judged: on stories whose sayings hang on a plain sign or on digits, so that no tuning of the diagnosis
// changes them.

#include "stories_at_hand.h"
#include "tables.h"

#include <catch2/catch.hpp>

using namespace loopside;
using namespace loopside::evaluation;
using namespace loopside::test;

namespace {

using std::chrono::minutes;

story::Expectation expecting(const std::string& key, const std::string& id, std::optional<run::RunTime> at = {})
{
    return {.place = "planted", .at = at, .key = key, .id = id};
}

bool holds(const std::vector<Heard>& alarms, const std::string& id)
{
    return std::ranges::find(alarms, id, &Heard::id) != alarms.end();
}

} // namespace

TEST_CASE("a story that is told as expected has nothing missing and a planted expectation is found missing")
{
    StoryCase one = caseOf("p_static-clicking");
    REQUIRE(one.name == "p_static-clicking");
    CHECK(missingIn(one).value().empty());
    one.story.expectations.push_back(expecting("finding", "no-flow"));
    one.story.expectations.push_back(expecting("question", "wrong-unit", minutes(10)));
    CHECK(missingIn(one).value() == std::vector<std::string>{"end finding no-flow", "00:10:00 question wrong-unit"});
    const NoiseScore score = noiseOf(one, 3).value();
    CHECK(score.variants == 3);
    CHECK(score.right == 0);
    CHECK(score.unmet.at("end finding no-flow") == 3);
}

TEST_CASE("a caution that nobody expects is a false alarm, and is none once it is told to be true")
{
    StoryCase one = caseOf("p_static-clicking");
    const Hearing hearing = hear(one.story).value();
    CHECK(hearing.sets == 3);
    CHECK_FALSE(holds(falseAlarmsIn(hearing, one.story, one.truth()), "static-clicking"));

    std::erase_if(one.story.expectations, [](const auto& line) { return line.id == "static-clicking"; });
    CHECK(holds(falseAlarmsIn(hearing, one.story, one.truth()), "static-clicking"));
    const NoiseScore score = noiseOf(one, 3).value();
    CHECK(score.alarmed.at("00:10:00 static-clicking") == 3);
    CHECK(score.untruePer100() >= 100.0 * 3 / score.sets);
    const Confusion confusion = confusionOf({one}).value();
    CHECK(confusion.byId.at("static-clicking").falseAlarms.size() == 1);
    CHECK(confusion.untrue >= 1);

    one.alsoTrue = {{.id = "static-clicking", .why = "it clicks"}};
    CHECK_FALSE(holds(falseAlarmsIn(hearing, one.story, one.truth()), "static-clicking"));
}

TEST_CASE("a question that nobody expects is a false alarm of its own kind")
{
    StoryCase one = caseOf("f24_");
    CHECK(confusionOf({one}).value().untrueQuestions == 0);
    std::erase_if(one.story.expectations, [](const auto& line) { return line.key == "question"; });
    const Confusion confusion = confusionOf({one}).value();
    CHECK(confusion.untrueQuestions > 0);
    CHECK_FALSE(confusion.byId.at("entered-late").falseAlarms.empty());
}

TEST_CASE("what is expected is true until it is ruled out, and never where it is")
{
    StoryCase one = caseOf("f03_");
    one.story.expectations = {expecting("no_finding", "aerated", minutes(10)),
                              expecting("finding", "aerated", minutes(30)),
                              expecting("no_finding", "aerated", minutes(60))};
    one.alsoTrue = {{.id = "no-flow", .stage = {}, .from = minutes(20), .until = minutes(25), .why = "w"},
                    {.id = "bypass-open", .stage = 2, .why = "w"}};
    const Truth truth = one.truth();
    CHECK_FALSE(truth.mayFind("aerated", {}, minutes(5)));
    CHECK_FALSE(truth.mayFind("aerated", {}, minutes(10)));
    CHECK(truth.mayFind("aerated", {}, minutes(20)));
    CHECK(truth.mayFind("aerated", {}, minutes(45)));
    CHECK_FALSE(truth.mayFind("aerated", {}, minutes(60)));
    CHECK_FALSE(truth.mayFind("no-flow", {}, minutes(19)));
    CHECK(truth.mayFind("no-flow", {}, minutes(25)));
    CHECK_FALSE(truth.mayFind("no-flow", {}, minutes(26)));
    CHECK(truth.mayFind("bypass-open", 2, minutes(0)));
    CHECK_FALSE(truth.mayFind("bypass-open", 1, minutes(0)));
    CHECK_FALSE(truth.mayAsk("jump", minutes(20)));
}

TEST_CASE("which side of a limit the digits of a variant fall on is not held against it")
{
    const StoryCase& one = caseOf("f04_");
    const Hearing hearing = hear(one.story).value();
    const auto limits = [&](int minute, std::optional<int> stage) {
        story::Expectation line = expecting("alert", "stage-at-limit", minutes(minute));
        line.stage = stage;
        return limitsReadFor(line, one.story, hearing.objects);
    };
    // Stage 2 reads 27, 32 and 36 psi of 35, stage 1 5 or 6 of 25.
    CHECK(limits(45, 2) == std::vector{AtLimit::Below});
    CHECK(limits(52, 2) == std::vector{AtLimit::Near});
    CHECK(limits(58, {}) == std::vector{AtLimit::Below, AtLimit::At});
    CHECK(limitsReadFor(expecting("finding", "no-flow"), one.story, hearing.objects).empty());

    // The valve of stage 2 opens at 25 psi; it reads 24 at 00:32 and 25 at 00:42.
    const StoryCase& flat = caseOf("f10_");
    const Hearing heard = hear(flat.story).value();
    const auto settings = [&](const std::string& key, int minute) {
        return limitsReadFor(expecting(key, "bypass-open", minutes(minute)), flat.story, heard.objects);
    };
    CHECK(settings("no_finding", 32) == std::vector{AtLimit::Below, AtLimit::Near});
    CHECK(settings("no_finding", 42) == std::vector{AtLimit::Below, AtLimit::At});
    // Once it stands there, that is to be seen whatever one set of it reads.
    CHECK(settings("finding", 42) == std::vector{AtLimit::Below, AtLimit::At});
    CHECK(settings("finding", 52).empty());
}

TEST_CASE("truths are refused with their place")
{
    const auto [text, sentence] = GENERATE(table<std::string, std::string>({
        {R"({"norml": []})", "\"norml\" is not a member"},
        {R"({"also_true": {"f": [{"id": "nonsense", "why": "w"}]}})",
         "also_true.f[0]: there is no finding or question"},
        {R"({"also_true": {"f": [{"id": "no-flow"}]}})", "also_true.f[0]: a truth needs a reason"},
        {R"({"also_true": {"f": [{"id": "no-flow", "why": "w", "form": "00:00:00"}]}})",
         "\"form\" is not a member here"},
        {R"({"also_true": {"f": [{"id": "no-flow", "why": "w", "from": "noon"}]}})", "is not a time"},
        {R"({"meant": {"f": {"noon": [1]}}})", "is not a time"},
        {R"({"normal": 3})", "type"},
        {"{", "parse"},
    }));
    CAPTURE(text);
    const auto truths = truthsFrom(text);
    REQUIRE_FALSE(truths.has_value());
    CHECK_THAT(truths.error().sentence, Catch::Contains(sentence));
}

TEST_CASE("truths that name no story are refused")
{
    const std::string tests = std::string(LOOPSIDE_SOURCE_DIR) + "/tests";
    const auto cases = readCases(tests + "/stories", tests + "/findings_eval/awaited",
                                 {.normal = {"no_such"}, .alsoTrue = {}, .meant = {}});
    REQUIRE_FALSE(cases.has_value());
    CHECK_THAT(cases.error().sentence, Catch::Contains("\"no_such\""));
}

TEST_CASE("an awaited story still waits and one that is told as expected belongs to the stories")
{
    for (const StoryCase& one : casesAtHand()) {
        if (one.isAwaited) {
            CAPTURE(one.name);
            CHECK_FALSE(missingIn(one).value().empty());
        }
    }
}

TEST_CASE("tables are put between their marks and nowhere else")
{
    const std::string marked = "a\n<!-- tables: written by findings_eval -->\nold\n<!-- end of tables -->\nb\n";
    const std::string once = withTables(marked, "new\n").value();
    CHECK(once == "a\n<!-- tables: written by findings_eval -->\n\nnew\n\n<!-- end of tables -->\nb\n");
    CHECK(withTables(once, "new\n").value() == once);
    CHECK_FALSE(withTables("a\n", "new\n").has_value());
}
