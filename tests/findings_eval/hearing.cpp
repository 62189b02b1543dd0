// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "hearing.h"

#include "ledger/memory_journal.h"
#include "story/told_json.h"

#include <algorithm>
#include <array>
#include <set>

namespace loopside::evaluation {

namespace {

constexpr std::uint64_t salt = 2026; // of the ids in the journal; nothing that is judged hangs on it

/// Listens to a replay.
class Listener
{
public:
    Listener(const story::Story& story, const words::Words& words) : story_{story}, words_{words} {}

    void listen(const story::Told& told)
    {
        if (told.entry != nullptr) {
            entry_ = static_cast<std::size_t>(told.entry - story_.entries.data());
            if (const run::Moment* set = told.reading()) {
                ++hearing_.sets;
                listenToFindings(told, *set);
            }
        }
        listenToQuestions(told);
        hearing_.objects.push_back(story::toldJson(told, words_));
    }

    [[nodiscard]] Hearing take() { return std::move(hearing_); }

private:
    void listenToFindings(const story::Told& told, const run::Moment& set)
    {
        for (const run::Finding& finding : told.standing.findings) {
            if (finding.level != run::FindingLevel::Note) {
                hearing_.heard.push_back({.id = std::string(finding.id),
                                          .stage = finding.stage,
                                          .isByDigits = isByDigits(finding, set),
                                          .entry = entry_});
            }
        }
    }

    [[nodiscard]] bool isByDigits(const run::Finding& finding, const run::Moment& set) const
    {
        constexpr int nearPercent = 80;
        const bool isNear = finding.id == "stage-near-limit";
        if (!isNear && finding.id != "stage-at-limit") {
            return false;
        }
        const auto stage = static_cast<std::size_t>(*finding.stage) - 1;
        const auto& limit = story_.setup.stages[stage].changeLimit;
        const auto& drop = set.raw[stage];
        return limit && drop && run::reaches(*drop, *limit, isNear ? nearPercent : 100);
    }

    void listenToQuestions(const story::Told& told)
    {
        for (const run::Question& question : told.standing.questions) {
            if (asked_.emplace(question.id, question.of->header.id).second) {
                hearing_.heard.push_back({.id = std::string(question.id), .isQuestion = true, .entry = entry_});
            }
        }
    }

    const story::Story& story_;
    const words::Words& words_;
    Hearing hearing_;
    std::set<std::pair<std::string_view, Id>> asked_;
    std::size_t entry_ = 0;
};

const words::Words& english()
{
    static const words::Words words = words::Words::in("en").value();
    return words;
}

} // namespace

Result<Hearing> hear(const story::Story& story)
{
    Listener listener(story, english());
    ledger::MemoryJournal journal;
    const Done replayed = story::replay(story, salt, journal, [&](const story::Told& told) -> Done {
        listener.listen(told);
        return {};
    });
    if (!replayed) {
        return fail(replayed.error());
    }
    return listener.take();
}

bool isAboutWhatIsSaid(const story::Expectation& expected)
{
    constexpr std::array<std::string_view, 6> keys = {"finding",     "no_finding", "question",
                                                      "no_question", "alert",      "no_alert"};
    return std::ranges::find(keys, expected.key) != keys.end();
}

std::vector<std::size_t> unmetIn(const story::Story& story, const std::vector<nlohmann::ordered_json>& objects)
{
    std::vector<std::size_t> unmet;
    story::Story one{story.setup, {}, {}};
    for (std::size_t i = 0; i < story.expectations.size(); ++i) {
        if (isAboutWhatIsSaid(story.expectations[i])) {
            one.expectations = {story.expectations[i]};
            if (!story::unmet(one, objects).empty()) {
                unmet.push_back(i);
            }
        }
    }
    return unmet;
}

std::vector<Heard> falseAlarmsIn(const Hearing& hearing, const story::Story& original, const Truth& truth)
{
    std::vector<Heard> alarms;
    for (const Heard& heard : hearing.heard) {
        const run::RunTime at = original.entries[heard.entry].seen;
        const bool isTrue = heard.isByDigits
            || (heard.isQuestion ? truth.mayAsk(heard.id, at) : truth.mayFind(heard.id, heard.stage, at));
        if (!isTrue) {
            alarms.push_back(heard);
        }
    }
    return alarms;
}

} // namespace loopside::evaluation
