// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "base/text.h"
#include "cli/commands.h"
#include "cli/files.h"
#include "ledger/memory_journal.h"
#include "store/sqlite_journal.h"
#include "story/told_json.h"
#include "words/fact_told.h"
#include "words/outlook_told.h"
#include "words/told.h"

#include <nlohmann/json.hpp>

#include <algorithm>
#include <optional>
#include <set>
#include <utility>

namespace loopside::cli {

namespace {

using story::Told;
using words::Words;

std::string gaugeLine(const run::ReadingLogged& reading, const run::CartRecord& cart)
{
    std::string line;
    for (const std::string& gauge : words::gaugeTexts(reading, cart)) {
        line += "  " + gauge;
    }
    return reading.oil ? line + "  " + reading.oil->toText() : line;
}

/// Prints for people what the technician was told.
class Narrator
{
public:
    Narrator(const Words& words, std::ostream& out) : words_{words}, out_{out} {}

    void tell(const Told& told)
    {
        if (told.entry == nullptr) {
            say("           ! ", words::alertSentence(words_, told.raised->alert, told.raised->told));
            return;
        }
        out_ << told.entry->at << "  " << words_.say("mode." + std::string(run::nameOf(told.standing.mode)));
        if (const run::Moment* reading = told.reading()) {
            out_ << gaugeLine(*reading->reading, told.run.setup.cart);
        }
        out_ << "\n";
        if (const run::Moment* reading = told.reading(); reading != nullptr && reading->mode == run::Mode::Filtering) {
            tellStages(*reading, told);
        }
        tellWhatFollows(told);
    }

private:
    void say(const char* mark, const std::string& sentence) { out_ << mark << sentence << "\n"; }

    void tellStages(const run::Moment& reading, const Told& told)
    {
        const auto drops = run::dropsAt(reading, told.run);
        for (std::size_t i = 0; i < drops.size(); ++i) {
            say("           ", words::stageLine(words_, drops[i], told.run.setup.stages[i], static_cast<int>(i) + 1));
        }
        tellOutlooks(told);
        say("           ", words::turnoverLine(words_, told.standing.credit.turnovers, told.run.setup.target));
        if (const auto next = told.standing.nextReadingIn()) {
            const auto seconds = std::chrono::duration_cast<std::chrono::seconds>(*next).count();
            say("           ",
                words_.say({"told.next",
                            {{"minutes", std::to_string(seconds / 60)}, {"seconds", std::to_string(seconds % 60)}}}));
        }
    }

    void tellOutlooks(const Told& told)
    {
        for (const run::Outlook& outlook : told.standing.outlooks) {
            say("           ", words::outlookSentence(words_, outlook, told.run, told.standing));
        }
    }

    void tellWhatFollows(const Told& told)
    {
        for (const run::Question& question : told.standing.questions) {
            const bool isNew = std::any_of(told.committed.begin(), told.committed.end(),
                                           [&](const auto& one) { return one.header.id == question.of->header.id; });
            if (isNew) {
                say("           ? ", words::questionSentence(words_, question));
            }
        }
        tellNewFindings(told.standing.findings);
        for (const ledger::Committed& one : told.committed) {
            if (const auto* raised = std::get_if<run::AlertRaised>(&one.event)) {
                say("           ! ", words::alertSentence(words_, raised->alert, raised->told));
            }
            if (const auto* closed = std::get_if<run::RunClosed>(&one.event)) {
                tellClosing(*closed, told);
            }
        }
    }

    /// What was not found at the entry before: what it is, and what to do.
    void tellNewFindings(const std::vector<run::Finding>& findings)
    {
        std::set<std::pair<std::string_view, int>> found;
        for (const run::Finding& finding : findings) {
            const std::pair key(finding.id, finding.stage.value_or(0));
            found.insert(key);
            if (!found_.contains(key)) {
                say("           > ", words::findingSentence(words_, finding) + " " + words_.say(finding.act));
            }
        }
        found_ = std::move(found);
    }

    void tellClosing(const run::RunClosed& closed, const Told& told)
    {
        say("           ", words::closingLine(words_, closed));
        for (const std::string& line : words::creditLines(words_, told.standing.credit)) {
            say("           ", line);
        }
        say("           ", words::alertsLine(words_, run::alertMetrics(told.run, told.standing.now)));
    }

    const Words& words_;
    std::ostream& out_;
    std::set<std::pair<std::string_view, int>> found_; ///< At the last entry, with the stage.
};

/// A set above a dial's full scale that the story neither answers nor expects: most likely a slip in the file.
std::optional<std::string> unansweredRange(const Told& told, const story::Story& story)
{
    const bool isExpected = std::any_of(story.expectations.begin(), story.expectations.end(), [](const auto& expected) {
        return expected.key == "question" && expected.id == run::outOfRange;
    });
    if (isExpected) {
        return std::nullopt;
    }
    for (const run::Question& question : told.standing.questions) {
        if (question.id != run::outOfRange || question.answer != nullptr) {
            continue;
        }
        const auto entry = std::find_if(story.entries.begin(), story.entries.end(),
                                        [&](const auto& candidate) { return candidate.seen == question.of->seen; });
        return (entry == story.entries.end() ? std::string("entries") : entry->place) + ".gauges["
            + std::to_string(*question.gauge - 1)
            + "]: more than the dial or the relief setting allows; it is kept as typed and nobody answered the "
              "question";
    }
    return std::nullopt;
}

/// Replays once in memory, so that a story which is refused on the way leaves nothing behind.
Done rehearse(const StoryFile& file, std::uint64_t salt)
{
    ledger::MemoryJournal scratch;
    return story::replay(file.story, salt, scratch, {});
}

/// Where a replay writes: in memory, or to a file that nobody else writes to meanwhile.
struct Target
{
    std::optional<store::InstanceLock> lock;
    std::unique_ptr<ledger::Journal> journal;
};

Result<Target> targetFor(const ReplayOptions& options)
{
    if (options.journal.empty()) {
        return Target{std::nullopt, std::make_unique<ledger::MemoryJournal>()};
    }
    return openToWrite(options.journal, options.language).transform([](Held held) {
        return Target{std::move(held.lock), std::move(held.journal)};
    });
}

Done sentencesAsFailure(const std::vector<std::string>& sentences)
{
    if (sentences.empty()) {
        return {};
    }
    std::string all;
    for (const std::string& sentence : sentences) {
        all += (all.empty() ? "" : "\n") + sentence;
    }
    return fail(Errc::Conflict, all);
}

} // namespace

Done replay(const ReplayOptions& options, std::ostream& out)
{
    const auto words = Words::in(options.language);
    if (!words) {
        return fail(words.error());
    }
    const auto file = readStory(options.story);
    if (!file) {
        return fail(file.error());
    }
    std::uint64_t salt = story::saltOf(file->text);
    if (auto rehearsed = rehearse(*file, salt); !rehearsed) {
        return fail(rehearsed.error().code, options.story + ": " + rehearsed.error().sentence);
    }
    const auto target = targetFor(options);
    if (!target) {
        return fail(target.error());
    }
    ledger::Journal& journal = *target->journal;
    std::size_t before = 0; // the same story told twice into one journal is two runs
    if (auto counted = ledger::readAll(journal, [&](const ledger::Stored&) { return ++before, Done{}; }); !counted) {
        return counted;
    }
    salt += before;

    Narrator narrator(*words, out);
    std::vector<nlohmann::ordered_json> objects;
    std::optional<std::string> range;
    auto told = story::replay(file->story, salt, journal, [&](const Told& what) -> Done {
        if (options.json || options.check) {
            objects.push_back(story::toldJson(what, *words));
        }
        if (options.json) {
            out << objects.back().dump() << "\n";
        } else {
            narrator.tell(what);
        }
        out.flush(); // what is printed is acknowledged: it is in the journal
        range = unansweredRange(what, file->story);
        return {};
    });
    if (!told) {
        return fail(told.error().code, options.story + ": " + told.error().sentence);
    }
    if (range) {
        return fail(Errc::OutOfRange, options.story + ": " + *range);
    }
    return options.check ? sentencesAsFailure(story::unmet(file->story, objects)) : Done{};
}

} // namespace loopside::cli
