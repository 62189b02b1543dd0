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

constexpr int nearPercent = 80;
constexpr std::uint64_t salt = 2026; // of the ids in the journal; nothing that is judged hangs on it

/// What the raw ΔP of a stage reaches or does not where `id` is said: its change limit, or the setting of its bypass
/// valve. Null where the digits of one set decide nothing.
const std::optional<run::TypedPressure>* limitOf(const run::StageRecord& stage, std::string_view id)
{
    return id == "stage-near-limit" || id == "stage-at-limit" ? &stage.changeLimit
        : id == "bypass-open"                                 ? &stage.bypass
                                                              : nullptr;
}

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
        const auto stage = static_cast<std::size_t>(finding.stage.value_or(1)) - 1;
        const auto* limit = limitOf(story_.setup.stages[stage], finding.id);
        const auto& drop = set.raw[stage];
        const int percent = finding.id == "stage-near-limit" ? nearPercent : 100;
        return limit != nullptr && *limit && drop && run::reaches(*drop, **limit, percent);
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

/// The raw ΔP of a stage (from 0) that was read last up to `at_s`, Pa.
std::optional<double> lastDrop_pa(std::size_t stage, double at_s, const std::vector<nlohmann::ordered_json>& objects)
{
    std::optional<double> last;
    for (const auto& object : objects) {
        const auto& drop = object["dp_pa"][stage];
        if (object["t_s"].get<double>() <= at_s && drop.is_number()) {
            last = drop.get<double>();
        }
    }
    return last;
}

AtLimit standsTo(const std::optional<run::TypedPressure>& limit, std::optional<double> drop_pa)
{
    constexpr double rounding = 1e-9;
    if (!limit || !drop_pa) {
        return AtLimit::Below;
    }
    const double part = *drop_pa / limit->value().in(units::pascal) + rounding;
    return part >= 1.0 ? AtLimit::At : part * 100.0 >= nearPercent ? AtLimit::Near : AtLimit::Below;
}

/// Whether a set before `at_s` read at the limit.
bool wasAt(const std::optional<run::TypedPressure>& limit, std::size_t stage, double at_s,
           const std::vector<nlohmann::ordered_json>& objects)
{
    return std::ranges::any_of(objects, [&](const auto& object) {
        const auto& drop = object["dp_pa"][stage];
        return object["t_s"].template get<double>() < at_s && drop.is_number()
            && standsTo(limit, drop.template get<double>()) == AtLimit::At;
    });
}

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

std::vector<AtLimit> limitsReadFor(const story::Expectation& expected, const story::Story& story,
                                   const std::vector<nlohmann::ordered_json>& objects)
{
    const run::RunTime at = expected.at.value_or(story.entries.back().entered);
    const double at_s = std::chrono::duration<double>(at).count();
    const bool isFlatTop = expected.id == "bypass-open" && expected.key != "no_finding";
    std::vector<AtLimit> stands;
    for (std::size_t i = 0; i < story.setup.stages.size(); ++i) {
        const auto* limit = limitOf(story.setup.stages[i], expected.id);
        if (limit != nullptr && (!expected.stage || *expected.stage == static_cast<int>(i) + 1)) {
            if (isFlatTop && wasAt(*limit, i, at_s, objects)) {
                return {}; // it stands: that is to be seen whatever one set of it reads
            }
            stands.push_back(standsTo(*limit, lastDrop_pa(i, at_s, objects)));
        }
    }
    return stands;
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
