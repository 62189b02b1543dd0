// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "judged_stories.h"

#include "story/replay.h"

#include <algorithm>
#include <atomic>
#include <fstream>
#include <iterator>
#include <thread>

namespace loopside::evaluation {

namespace {

std::string withStage(const std::string& id, std::optional<int> stage)
{
    return stage ? id + " of stage " + std::to_string(*stage) : id;
}

Result<std::string> textIn(const std::filesystem::path& file)
{
    std::ifstream stream(file, std::ios::binary);
    if (!stream) {
        return fail(Errc::Io, file.string() + " cannot be opened");
    }
    return std::string(std::istreambuf_iterator<char>(stream), {});
}

template<class Map>
auto partOf(const Map& map, const std::string& name)
{
    const auto found = map.find(name);
    return found == map.end() ? typename Map::mapped_type{} : found->second;
}

Result<StoryCase> readCase(const std::filesystem::path& file, const Truths& truths, bool isAwaited)
{
    const auto text = textIn(file);
    auto story = text ? story::parseStory(*text) : Result<story::Story>(fail(text.error()));
    if (!story) {
        return fail(story.error().code, file.string() + ": " + story.error().sentence);
    }
    const std::string name = file.stem().string();
    return StoryCase{.name = name,
                     .story = *std::move(story),
                     .alsoTrue = partOf(truths.alsoTrue, name),
                     .meant = partOf(truths.meant, name),
                     .isNormal = truths.normal.contains(name),
                     .isAwaited = isAwaited};
}

Done readFolder(const std::filesystem::path& folder, const Truths& truths, bool isAwaited,
                std::vector<StoryCase>& cases)
{
    std::error_code problem;
    for (const auto& file : std::filesystem::directory_iterator(folder, problem)) {
        if (file.path().extension() == ".json") {
            auto one = readCase(file.path(), truths, isAwaited);
            if (!one) {
                return fail(one.error());
            }
            cases.push_back(*std::move(one));
        }
    }
    return problem ? Done{fail(Errc::Io, folder.string() + " cannot be listed: " + problem.message())} : Done{};
}

std::vector<std::string> namesIn(const Truths& truths)
{
    std::vector<std::string> names(truths.normal.begin(), truths.normal.end());
    for (const auto& [name, lines] : truths.alsoTrue) {
        names.push_back(name);
    }
    for (const auto& [name, sets] : truths.meant) {
        names.push_back(name);
    }
    return names;
}

/// Puts what became of the expectations of one story into the scores: each id once as said, once as ruled out.
void scoreExpectations(const StoryCase& one, const std::vector<std::size_t>& unmet, Confusion& confusion)
{
    std::map<std::pair<std::string, bool>, bool> held; // by id and whether it is to be said
    const auto& lines = one.story.expectations;
    for (std::size_t i = 0; i < lines.size(); ++i) {
        const bool isQuestion = lines[i].key.ends_with("question");
        if (!isQuestion && !lines[i].key.ends_with("finding")) {
            continue;
        }
        confusion.byId[lines[i].id].isQuestion |= isQuestion;
        bool& all = held.try_emplace({lines[i].id, !lines[i].key.starts_with("no_")}, true).first->second;
        all = all && std::ranges::find(unmet, i) == unmet.end();
    }
    for (const auto& [what, isHeld] : held) {
        IdScore& score = confusion.byId[what.first];
        auto& list = what.second ? (isHeld ? score.saidRightly : score.missed)
                                 : (isHeld ? score.keptSilent : score.spoken);
        list.push_back(one.name);
    }
}

void scoreAlarms(const StoryCase& one, const std::vector<Heard>& alarms, Confusion& confusion)
{
    std::set<std::size_t> sets;
    for (const Heard& heard : alarms) {
        IdScore& score = confusion.byId[heard.id];
        score.isQuestion |= heard.isQuestion;
        score.falseAlarms.push_back({one.name, one.story.entries[heard.entry].at, heard});
        (heard.isQuestion ? confusion.untrueQuestions : confusion.untrue) += 1;
        if (!heard.isQuestion) {
            sets.insert(heard.entry);
        }
    }
    confusion.setsWithUntrue += static_cast<int>(sets.size());
}

std::uint64_t seedOf(const StoryCase& one, int number)
{
    return story::saltOf(one.name + " " + std::to_string(number));
}

void scoreVariant(const StoryCase& one, const std::vector<nlohmann::ordered_json>& asWritten,
                  const story::Story& variant, const Hearing& hearing, NoiseScore& score)
{
    auto unmet = unmetIn(variant, hearing.objects);
    std::erase_if(unmet, [&](std::size_t i) {
        const auto stands = limitsReadFor(one.story.expectations[i], one.story, asWritten);
        return !stands.empty() && stands != limitsReadFor(variant.expectations[i], variant, hearing.objects);
    });
    ++score.variants;
    score.right += unmet.empty() ? 1 : 0;
    score.sets += hearing.sets;
    for (const std::size_t i : unmet) {
        ++score.unmet[textOf(one.story.expectations[i])];
    }
    for (const Heard& heard : falseAlarmsIn(hearing, one.story, one.truth())) {
        if (!heard.isQuestion) {
            ++score.untrue;
            ++score.alarmed[one.story.entries[heard.entry].at + " " + withStage(heard.id, heard.stage)];
        }
    }
}

} // namespace

bool StoryCase::hasGauges() const
{
    return std::ranges::any_of(story.entries, readingOf);
}

Result<std::vector<StoryCase>> readCases(const std::filesystem::path& stories, const std::filesystem::path& awaited,
                                         const Truths& truths)
{
    std::vector<StoryCase> cases;
    for (const auto& [folder, isAwaited] : {std::pair(stories, false), std::pair(awaited, true)}) {
        if (const Done read = readFolder(folder, truths, isAwaited, cases); !read) {
            return fail(read.error());
        }
    }
    std::ranges::sort(cases, {}, &StoryCase::name);
    for (const std::string& name : namesIn(truths)) {
        if (std::ranges::find(cases, name, &StoryCase::name) == cases.end()) {
            return fail(Errc::Malformed, "the truths name a story that is not there: \"" + name + "\"");
        }
    }
    return cases;
}

Result<std::vector<std::string>> missingIn(const StoryCase& one)
{
    const auto hearing = hear(one.story);
    if (!hearing) {
        return fail(hearing.error().code, one.name + ": " + hearing.error().sentence);
    }
    std::vector<std::string> missing;
    for (const std::size_t i : unmetIn(one.story, hearing->objects)) {
        missing.push_back(textOf(one.story.expectations[i]));
    }
    return missing;
}

Result<Confusion> confusionOf(const std::vector<StoryCase>& cases)
{
    Confusion confusion;
    for (const StoryCase& one : cases) {
        if (one.isAwaited) {
            continue;
        }
        const auto hearing = hear(one.story);
        if (!hearing) {
            return fail(hearing.error().code, one.name + ": " + hearing.error().sentence);
        }
        ++confusion.stories;
        confusion.sets += hearing->sets;
        scoreExpectations(one, unmetIn(one.story, hearing->objects), confusion);
        scoreAlarms(one, falseAlarmsIn(*hearing, one.story, one.truth()), confusion);
    }
    return confusion;
}

double NoiseScore::rightPercent() const
{
    return 100.0 * right / std::max(1, variants);
}

double NoiseScore::untruePer100() const
{
    return 100.0 * untrue / std::max(1, sets);
}

Result<NoiseScore> noiseOf(const StoryCase& one, int variants)
{
    const auto asWritten = hear(one.story);
    if (!asWritten) {
        return fail(asWritten.error().code, one.name + ": " + asWritten.error().sentence);
    }
    NoiseScore score{.story = one.name, .isNormal = one.isNormal};
    for (int number = 0; number < variants; ++number) {
        const story::Story variant = variantOf(one.story, seedOf(one, number), one.meant);
        const auto hearing = hear(variant);
        if (!hearing) {
            return fail(hearing.error().code,
                        one.name + ", variant " + std::to_string(number) + ": " + hearing.error().sentence);
        }
        scoreVariant(one, asWritten->objects, variant, *hearing, score);
    }
    return score;
}

Result<std::vector<NoiseScore>> noiseOfAll(const std::vector<StoryCase>& cases, int variants)
{
    std::vector<const StoryCase*> judged;
    for (const StoryCase& one : cases) {
        if (variants > 0 && one.hasGauges() && !one.isAwaited) {
            judged.push_back(&one);
        }
    }
    std::vector<Result<NoiseScore>> results(judged.size());
    std::atomic<std::size_t> next = 0;
    const auto work = [&] {
        for (std::size_t i = next++; i < judged.size(); i = next++) {
            results[i] = noiseOf(*judged[i], variants);
        }
    };
    std::thread other(work);
    work();
    other.join();
    std::vector<NoiseScore> scores;
    for (const auto& result : results) {
        if (!result) {
            return fail(result.error());
        }
        scores.push_back(*result);
    }
    return scores;
}

std::string textOf(const story::Expectation& expected)
{
    return (expected.at ? clockText(*expected.at) : "end") + " " + expected.key + " "
        + withStage(expected.id, expected.stage);
}

} // namespace loopside::evaluation
