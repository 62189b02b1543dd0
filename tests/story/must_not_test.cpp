// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// What must never be said in a story, held against every English sentence that is told in it.

#include "ledger/memory_journal.h"
#include "story/told_stories.h"
#include "words/outlook_told.h"
#include "words/told.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cctype>

using namespace loopside;
using namespace loopside::test;

namespace {

/// What a person hears and reads in a story, all of it in small letters.
class Heard
{
public:
    explicit Heard(const std::string& name)
    {
        const std::string text = textOf(std::string(LOOPSIDE_SOURCE_DIR) + "/tests/stories/" + name + ".json");
        const auto story = story::parseStory(text);
        REQUIRE(story.has_value());
        ledger::MemoryJournal journal;
        const auto done = story::replay(*story, story::saltOf(text), journal, [&](const story::Told& told) -> Done {
            hear(told);
            return {};
        });
        REQUIRE(done.has_value());
    }

    [[nodiscard]] bool says(const std::string& words) const { return all_.find(words) != std::string::npos; }

private:
    void hear(const story::Told& told)
    {
        for (const run::Finding& finding : told.standing.findings) {
            add(words::findingSentence(words_, finding));
            for (const auto* reasons : {&finding.because, &finding.ruledOut, &finding.confirm}) {
                for (const Message& reason : *reasons) {
                    add(words_.say(reason));
                }
            }
            add(words_.say(finding.act));
            add(words_.say(finding.hazard));
        }
        for (const run::Question& question : told.standing.questions) {
            add(words::questionSentence(words_, question));
        }
        for (const run::Outlook& outlook : told.standing.outlooks) {
            add(words::outlookSentence(words_, outlook, told.run, told.standing));
        }
        for (const run::Alert& alert : told.run.alerts) {
            add(words::alertSentence(words_, alert.id, alert.told));
        }
    }

    void add(std::string text)
    {
        std::transform(text.begin(), text.end(), text.begin(),
                       [](unsigned char letter) { return std::tolower(letter); });
        all_ += text + "\n";
    }

    words::Words words_ = words::Words::in("en").value();
    std::string all_;
};

} // namespace

TEST_CASE("the search for words finds what is said")
{
    const Heard kink("f11_kinked_return");
    CHECK(kink.says("kink"));
    CHECK_FALSE(kink.says("no such words are said"));
}

TEST_CASE("a falling raw drop of warming oil is never told as elements that improve")
{
    const Heard steady("f01_steady_saturday");
    for (const auto* words : {"improv", "recover", "cleaner", "corrected-falling", "healthy"}) {
        CHECK_FALSE(steady.says(words));
    }
    CHECK(steady.says("because the oil warms"));
}

TEST_CASE("a flat top is never told as a limit that is never reached")
{
    const Heard flat("f10_flat_top");
    CHECK_FALSE(flat.says("never"));
    CHECK(flat.says("bypass valve of stage 2"));
}

TEST_CASE("a kinked return is never a reason to change elements")
{
    const Heard kink("f11_kinked_return");
    CHECK_FALSE(kink.says("change all elements"));
    CHECK_FALSE(kink.says("change stage"));
    CHECK(kink.says("the elements are not the reason"));
}

TEST_CASE("counts taken while the oil was full of air make no forecast")
{
    const std::string text = textOf(std::string(LOOPSIDE_SOURCE_DIR) + "/tests/stories/f13_milk.json");
    const ToldStory milk = tell(text);
    REQUIRE_FALSE(milk.objects.empty());
    for (const auto& object : milk.objects) {
        for (const auto& forecast : object.at("forecast")) {
            CHECK(forecast.at("state") != "forecast");
        }
    }
}

TEST_CASE("no story is ever told that oil or a job is safe, or clean without a count")
{
    for (const auto* name : {"f01_steady_saturday", "f03_flat_line", "f04_hungry_stage", "f09_pop", "f11_kinked_return",
                             "f12_whine", "f14_thirsty_element", "f16_wrong_oil"}) {
        const Heard told{name};
        INFO(name);
        CHECK_FALSE(told.says("safe"));
        CHECK_FALSE(told.says("oil is clean"));
    }
}
