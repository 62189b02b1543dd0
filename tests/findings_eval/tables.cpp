// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "tables.h"

#include "base/text.h"

#include <algorithm>
#include <array>
#include <utility>

namespace loopside::evaluation {

namespace {

constexpr std::string_view beginMark = "<!-- tables: written by findings_eval -->\n";
constexpr std::string_view endMark = "<!-- end of tables -->\n";

std::string joined(const std::vector<std::string>& words)
{
    std::string text;
    for (const std::string& word : words) {
        text += (text.empty() ? "" : ", ") + word;
    }
    return text;
}

/// "7 of 8", or nothing where there is nothing to count.
std::string partText(std::size_t part, std::size_t rest)
{
    return part + rest == 0 ? "" : std::to_string(part) + " of " + std::to_string(part + rest);
}

/// Story by story, with the stage and the times: "f01 stage 2 at 00:10:00, 00:30:00".
std::string placesOf(const std::vector<Alarm>& alarms)
{
    std::map<std::string, std::vector<std::string>> times;
    for (const Alarm& alarm : alarms) {
        const std::string stage = alarm.heard.stage ? " stage " + std::to_string(*alarm.heard.stage) : "";
        times[alarm.story + stage].push_back(alarm.at);
    }
    std::vector<std::string> places;
    for (const auto& [place, at] : times) {
        places.push_back(place + " at " + joined(at));
    }
    std::string text;
    for (const std::string& place : places) {
        text += (text.empty() ? "" : "; ") + place;
    }
    return text;
}

std::string rowOf(const std::string& id, const IdScore& score)
{
    std::vector<std::string> missed = score.missed;
    for (const std::string& name : score.spoken) {
        missed.push_back(name + " (ruled out)");
    }
    return "| " + id + (score.isQuestion ? "?" : "") + " | " + partText(score.saidRightly.size(), score.missed.size())
        + " | " + partText(score.keptSilent.size(), score.spoken.size()) + " | " + joined(missed) + " | "
        + (score.falseAlarms.empty() ? "" : std::to_string(score.falseAlarms.size())) + " | "
        + placesOf(score.falseAlarms) + " |\n";
}

std::string mostOf(const std::map<std::string, int>& counts, std::size_t rows = 3)
{
    std::vector<std::pair<std::string, int>> most(counts.begin(), counts.end());
    std::ranges::stable_sort(most, std::greater{}, &std::pair<std::string, int>::second);
    most.resize(std::min(most.size(), rows));
    std::string text;
    for (const auto& [what, count] : most) {
        text += "    " + std::to_string(count) + " × " + what + "\n";
    }
    return text;
}

} // namespace

bool hasToStayRight(const std::string& name)
{
    constexpr std::array<std::string_view, 8> stories = {"f03_", "f06_", "f07_", "f08b_",
                                                         "f09_", "f10_", "f11_", "f16_"};
    return std::ranges::any_of(stories, [&](std::string_view story) { return name.starts_with(story); });
}

std::string confusionTable(const Confusion& confusion)
{
    std::string text = std::to_string(confusion.stories) + " stories, " + std::to_string(confusion.sets)
        + " sets: " + std::to_string(confusion.untrue) + " cautions and stops that are not true, in "
        + std::to_string(confusion.setsWithUntrue) + " sets; " + std::to_string(confusion.untrueQuestions)
        + " questions that need not be asked.\n\n"
        + "| finding, question? | said where expected | silent where ruled out | missed in | false | where |\n"
        + "|---|---|---|---|---|---|\n";
    for (const auto& [id, score] : confusion.byId) {
        text += rowOf(id, score);
    }
    return text;
}

Result<std::string> awaitedTable(const std::vector<StoryCase>& cases)
{
    std::string text = "| story | what it is about | not told as expected |\n|---|---|---|\n";
    for (const StoryCase& one : cases) {
        if (one.isAwaited) {
            const auto missing = missingIn(one);
            if (!missing) {
                return fail(missing.error());
            }
            text += "| " + one.name + " | " + one.story.setup.title + " | " + joined(*missing) + " |\n";
        }
    }
    return text;
}

std::string noiseTable(const std::vector<NoiseScore>& scores)
{
    std::string text = "| story | right, % | false in 100 sets | sets |\n|---|---|---|---|\n";
    int sets = 0;
    int untrue = 0;
    int variants = 0;
    for (const NoiseScore& score : scores) {
        const bool misses = hasToStayRight(score.story) && score.rightPercent() < rightPercentMin;
        const std::string name = hasToStayRight(score.story) ? "**" + score.story + "**" : score.story;
        text += "| " + name + (score.isNormal ? " (normal)" : "") + " | " + fixed(score.rightPercent(), 1)
            + (misses ? " !" : "") + " | " + fixed(score.untruePer100(), 1) + " | " + std::to_string(score.sets)
            + " |\n";
        variants = std::max(variants, score.variants);
        sets += score.isNormal ? score.sets : 0;
        untrue += score.isNormal ? score.untrue : 0;
    }
    const double per100 = 100.0 * untrue / std::max(1, sets);
    return std::to_string(variants) + " variants of each. Normal stories together: " + std::to_string(untrue)
        + " false in " + std::to_string(sets) + " sets, " + fixed(per100, 2) + " in 100"
        + (per100 >= untruePer100Max ? " !" : "") + ".\n\n" + text;
}

std::string whyTable(const std::vector<NoiseScore>& scores)
{
    std::map<std::string, int> inNormal;
    for (const NoiseScore& score : scores) {
        for (const auto& [alarm, count] : score.alarmed) {
            if (score.isNormal) {
                inNormal[alarm.substr(alarm.find(' ') + 1)] += count;
            }
        }
    }
    std::string text = "normal stories together: false alarms\n" + mostOf(inNormal, 10);
    for (const NoiseScore& score : scores) {
        if (!score.unmet.empty() || !score.alarmed.empty()) {
            text += score.story + ": " + fixed(score.rightPercent(), 1) + " % right\n" + mostOf(score.unmet)
                + (score.alarmed.empty() ? "" : "  false alarms\n" + mostOf(score.alarmed));
        }
    }
    return text;
}

Result<std::string> withTables(const std::string& document, const std::string& tables)
{
    const auto begin = document.find(beginMark);
    const auto end = document.find(endMark);
    if (begin == std::string::npos || end == std::string::npos || end < begin) {
        return fail(Errc::Malformed, "the document has no marks between which the tables stand");
    }
    return document.substr(0, begin + beginMark.size()) + "\n" + tables + "\n" + document.substr(end);
}

} // namespace loopside::evaluation
