// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "words/words.h"

#include "run/checklist.h"
#include "words/record_told.h"
#include "words/told.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <array>
#include <cctype>
#include <filesystem>
#include <fstream>
#include <set>

using namespace loopside;
using words::Words;

namespace {

using Ids = std::set<std::string>;

Words wordsIn(std::string_view language)
{
    return Words::in(language).value();
}

Ids idsOf(const Words& words)
{
    Ids ids;
    for (const auto& [id, sentence] : words.all()) {
        ids.insert(id);
    }
    return ids;
}

/// The {names} in `sentence`.
Ids namesIn(const std::string& sentence)
{
    Ids names;
    for (auto open = sentence.find('{'); open != std::string::npos; open = sentence.find('{', open + 1)) {
        const auto close = sentence.find('}', open);
        names.insert(sentence.substr(open + 1, close == std::string::npos ? close : close - open - 1));
    }
    return names;
}

/// Every text between quotes that begins with `prefix` in the sources of the modules named.
Ids quotedIn(const std::vector<std::string>& modules, const std::string& prefix)
{
    Ids found;
    for (const std::string& module : modules) {
        for (const auto& file :
             std::filesystem::directory_iterator(std::string(LOOPSIDE_SOURCE_DIR) + "/src/" + module)) {
            std::ifstream stream(file.path());
            const std::string text(std::istreambuf_iterator<char>(stream), {});
            for (auto at = text.find("\"" + prefix); at != std::string::npos; at = text.find("\"" + prefix, at + 1)) {
                found.insert(text.substr(at + 1, text.find('"', at + 1) - at - 1));
            }
        }
    }
    return found;
}

/// What `say` needs for every id: a value for each name of its sentence.
std::string saidWhole(const Words& words, const std::string& id)
{
    Message message{id, {}};
    for (const std::string& name : namesIn(words.all().at(id))) {
        message.arguments.emplace_back(name, "7");
    }
    return words.say(message);
}

bool hasWord(std::string text, const std::string& word)
{
    std::transform(text.begin(), text.end(), text.begin(), [](unsigned char letter) { return std::tolower(letter); });
    for (auto at = text.find(word); at != std::string::npos; at = text.find(word, at + 1)) {
        const bool begins = at == 0 || std::isalpha(static_cast<unsigned char>(text[at - 1])) == 0;
        const std::size_t end = at + word.size();
        const bool ends = end == text.size() || std::isalpha(static_cast<unsigned char>(text[end])) == 0;
        if (begins && ends) {
            return true;
        }
    }
    return false;
}

/// `sentence` without the clean ΔP of an element and its multiples, and without the mark of a cart that pumped waste:
/// terms of the trade that say nothing of the oil.
std::string withoutTerms(std::string sentence)
{
    for (const std::string term : {"clean ΔP", "× clean", "ΔP limpia", "× limpio", "× limpia", "ΔP sauber", "× sauber",
                                   "flush before clean use", "lavar antes de uso limpio"}) {
        for (auto at = sentence.find(term); at != std::string::npos; at = sentence.find(term)) {
            sentence.erase(at, term.size());
        }
    }
    return sentence;
}

constexpr std::array<run::AlertId, 6> alertIds = {run::AlertId::StageNearLimit, run::AlertId::StageAtLimit,
                                                  run::AlertId::ReadingOverdue, run::AlertId::TargetTurnoversMet,
                                                  run::AlertId::TargetCodeMet,  run::AlertId::StopNow};

} // namespace

TEST_CASE("all languages have the same sentences with the same values in them")
{
    const Words english = wordsIn("en");
    REQUIRE(words::languages().size() == 3);
    for (const std::string_view language : words::languages()) {
        CAPTURE(language);
        const Words words = wordsIn(language);
        CHECK(idsOf(words) == idsOf(english));
        for (const auto& [id, sentence] : words.all()) {
            CAPTURE(id);
            CHECK(namesIn(sentence) == namesIn(english.all().at(id)));
        }
    }
}

TEST_CASE("everything that is said by a fixed id has a sentence")
{
    const auto language = GENERATE(as<std::string>{}, "en", "es", "de");
    const Words words = wordsIn(language);
    Ids wanted;
    for (const auto state : {run::AlertState::Unacknowledged, run::AlertState::Acknowledged, run::AlertState::Returned,
                             run::AlertState::Shelved, run::AlertState::OutOfService}) {
        wanted.insert("alert-state." + std::string(run::nameOf(state)));
    }
    for (const auto mode : {run::Mode::Stopped, run::Mode::Bypassing, run::Mode::Filtering}) {
        wanted.insert("mode." + std::string(run::nameOf(mode)));
    }
    for (const auto ending : {run::Ending::TargetMet, run::Ending::TargetMetCodeAwaited, run::Ending::StoppedEarly,
                              run::Ending::Abandoned}) {
        wanted.insert("ending." + std::string(run::nameOf(ending)));
    }
    for (const std::string_view question : run::questionIds) {
        if (question != run::timeOrder) { // has none without a variant
            wanted.insert("question." + std::string(question));
        }
    }
    for (const run::CautionRow& caution : run::cautionTable()) {
        wanted.insert("caution." + std::string(caution.id));
        for (const std::string_view rule : caution.rules) {
            wanted.insert("caution.rule." + std::string(rule));
        }
    }
    for (const run::Checklist list : run::checklists) {
        for (const run::CheckPoint& point : run::pointsOf(list)) {
            wanted.insert("check." + std::string(point.id));
        }
    }
    for (const run::Answer answer : run::answers) {
        wanted.insert("answer." + std::string(run::nameOf(answer)));
    }
    wanted.insert({"question.gauges-swapped.unclear", "question.time-order.earlier", "question.time-order.future",
                   "question.time-order.before-run", "question.time-order.after-run"});
    for (const std::string& id : wanted) {
        CAPTURE(language, id);
        CHECK(words.has(id));
    }
}

TEST_CASE("every refusal that the core can give has a sentence, and every such sentence is used")
{
    const Ids used = quotedIn({"run", "ledger", "store", "story"}, "refused.");
    CHECK(used.size() >= 15);
    const Words words = wordsIn("en");
    for (const std::string& id : used) {
        CAPTURE(id);
        CHECK(words.has(id));
    }
    for (const std::string& id : idsOf(words)) {
        if (id.starts_with("refused.")) {
            CAPTURE(id);
            CHECK(used.contains(id));
        }
    }
}

TEST_CASE("a sentence with its values has no brackets and no braces left")
{
    const auto language = GENERATE(as<std::string>{}, "en", "es", "de");
    const Words words = wordsIn(language);
    for (const auto& [id, sentence] : words.all()) {
        const std::string said = saidWhole(words, id);
        CAPTURE(id, said);
        CHECK(said.find_first_of("[]{}") == std::string::npos);
        CHECK_FALSE(said.empty());
    }
}

TEST_CASE("each alert is a whole sentence in each language, with everything that it was told with")
{
    const auto language = GENERATE(as<std::string>{}, "en", "es", "de");
    const Words words = wordsIn(language);
    for (const run::AlertId alert : alertIds) {
        for (const auto& [advice, minutes] : {std::pair("cold", "0"), std::pair("change", "12")}) {
            const std::string said = words::alertSentence(words, alert,
                                                          {{"tank", "PH-3"},
                                                           {"cart", "Grey"},
                                                           {"stage", "2"},
                                                           {"elements", "2"},
                                                           {"drop", "42 psi"},
                                                           {"limit", "41 psi"},
                                                           {"advice", advice},
                                                           {"best", "7.1"},
                                                           {"target", "7"},
                                                           {"low", "6.2"},
                                                           {"minutes", minutes}});
            CAPTURE(said);
            CHECK(said.find_first_of("[]{}") == std::string::npos);
            CHECK_THAT(said, Catch::Contains("PH-3") && Catch::Contains("Grey"));
        }
    }
}

TEST_CASE("an alert at the limit names the stage, the drop, the limit and what to do")
{
    const std::vector<Message::Argument> told = {{"tank", "PH-3"},    {"cart", "Grey"},   {"stage", "2"},
                                                 {"elements", "2"},   {"drop", "42 psi"}, {"limit", "42 psi"},
                                                 {"advice", "change"}};
    CHECK(words::alertSentence(wordsIn("en"), run::AlertId::StageAtLimit, told)
          == "PH-3, Grey: stage 2 is at its change limit. ΔP 42 psi, limit 42 psi. Change both elements of stage 2.");
}

TEST_CASE("nothing is called safe, and nothing clean")
{
    for (const std::string_view language : words::languages()) {
        const Words words = wordsIn(language);
        for (const auto& [id, sentence] : words.all()) {
            CAPTURE(language, id, sentence);
            for (const char* word :
                 {"safe", "safely", "clean", "sicher", "sauber", "seguro", "segura", "limpio", "limpia"}) {
                CHECK_FALSE(hasWord(withoutTerms(sentence), word));
            }
        }
    }
    CHECK(hasWord("The oil is Clean.", "clean")); // the search can find
    CHECK(hasWord(withoutTerms("The clean ΔP is low, the oil clean."), "clean"));
    CHECK_FALSE(hasWord("Take the cleaner.", "clean"));
}

TEST_CASE("a value may hold a brace without being taken for a name")
{
    const std::string said = wordsIn("en").say({"fault.capacity", {{"value", "{volume}"}, {"volume", "odd"}}});
    CHECK(said == "A tank of {volume} cannot hold odd of oil.");
}

TEST_CASE("an id that no catalogue has comes back in brackets, and an unknown language is refused")
{
    CHECK(wordsIn("de").say("no.such.id") == "[no.such.id]");
    const auto words = Words::in("fr");
    REQUIRE_FALSE(words.has_value());
    CHECK(words.error().code == Errc::NotFound);
    CHECK_THAT(words.error().sentence, Catch::Contains("\"fr\"") && Catch::Contains("en, es, de"));
}

TEST_CASE("an error is said in its own sentence where it has one, else in the plain one")
{
    CHECK(wordsIn("en").say(Error{Errc::Conflict, "plain", {"refused.open-already", {}}})
          == "This run is open already.");
    CHECK(wordsIn("en").say(Error{Errc::Io, "the disk is full", {}}) == "the disk is full");
}

TEST_CASE("a point of a checklist is told with its answer, its reason, and that it was asked about")
{
    const Words english = wordsIn("en");
    CHECK(words::checkLine(english, {"close-out-caps", "done"}) == "Both hose ends capped: done");
    CHECK(words::checkLine(english, {"close-out-caps", "done", {}, true})
          == "Both hose ends capped: done (asked again, confirmed)");
    CHECK(words::checkLine(english, {"close-out-caps", "skipped", "no caps left"})
          == "Both hose ends capped: left out: no caps left");
    CHECK(words::checkLine(english, {"setup-placement", "opposite-ends"}).empty());
}

TEST_CASE("a catalogue has no caution and no point that no table knows")
{
    Ids known;
    for (const run::CautionRow& caution : run::cautionTable()) {
        known.insert("caution." + std::string(caution.id));
        for (const std::string_view rule : caution.rules) {
            known.insert("caution.rule." + std::string(rule));
        }
    }
    for (const std::string& id : idsOf(wordsIn("en"))) {
        if (id.starts_with("caution.")) {
            CAPTURE(id);
            CHECK(known.contains(id));
        }
        if (id.starts_with("check.")) {
            CAPTURE(id);
            CHECK(run::pointNamed(id.substr(6)) != nullptr);
        }
    }
}

TEST_CASE("the lines of a reading say what is known and what is not")
{
    const Words english = wordsIn("en");
    run::StageRecord stage;
    stage.changeLimit = units::Typed<units::Pressure>::parse("42 psi").value();
    run::StageDrop drop;
    CHECK(words::stageLine(english, drop, stage, 2) == "stage 2  ΔP cannot be told");
    drop.raw = run::ExactPressure{Decimal::parse("38.0").value(), &stage.changeLimit->unit()};
    CHECK(words::stageLine(english, drop, stage, 2) == "stage 2  ΔP 38.0 psi of 42 psi");
    drop.reading = units::Pressure(0.816, units::psi);
    CHECK(words::stageLine(english, drop, stage, 2) == "stage 2  ΔP 38.0 psi ± 0.8 of 42 psi");
    CHECK(words::turnoverLine(english, {1.5, 2.25, 3.0}, {}) == "turnovers 2.25 (1.50 to 3.00)");
    run::Target target;
    target.turnovers = Decimal::parse("7").value();
    CHECK(words::turnoverLine(english, {1.5, 2.25, 3.0}, target) == "turnovers 2.25 (1.50 to 3.00) of 7");
    CHECK(words::elementsText(english, 1) == "the element");
    CHECK(words::elementsText(english, 4) == "all 4 elements");
    CHECK(words::closingLine(english, {run::Ending::StoppedEarly, {}, {1.5, 2.25, 3.0}, 900.4})
          == "The run ended (stopped early): 2.25 turnovers (1.50 to 3.00), 900 L through the filters. A count proves "
             "the "
             "result; turnovers do not.");
}

TEST_CASE("quantities of a sentence are told in the units that are wanted, names and what was typed are not")
{
    Words words = Words::of({{"alert.x", "{tank}: {drop} of {limit}, {oil}"},
                             {"question.x", "{drop}?"},
                             {"refused.x", "{volume}!"},
                             {"app.logged.holds", "as {value}"}});
    const Message alert{"alert.x", {{"tank", "200 L"}, {"drop", "175 kPa"}, {"limit", "170 kPa"}, {"oil", "32 °C"}}};
    CHECK(words.say(alert) == "200 L: 175 kPa of 170 kPa, 32 °C");
    words.want({units::unitNamed<units::Pressure>("psi").value(), units::unitNamed<units::Volume>("gal").value(),
                units::unitNamed<units::Temperature>("°F").value()});
    CHECK(words.say(alert) == "200 L: 25.4 psi of 24.7 psi, 90 °F"); // a tank may be called so
    CHECK(words.say({"question.x", {{"drop", "175 kPa"}}}) == "175 kPa?");
    CHECK(words.say({"refused.x", {{"volume", "-3 L"}}}) == "-3 L!");
    CHECK(words.say({"app.logged.holds", {{"value", "175 kPa"}}}) == "as 175 kPa");
}
