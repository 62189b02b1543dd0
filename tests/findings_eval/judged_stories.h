// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// All stories judged: as they are written, and in many variants.

#pragma once

#include "hearing.h"

#include <filesystem>
#include <map>
#include <string>
#include <vector>

namespace loopside::evaluation {

/// A story with what is true in it.
struct StoryCase
{
    std::string name; ///< Its file without ".json".
    story::Story story;
    std::vector<AlsoTrue> alsoTrue = {};
    MeantSets meant = {};
    bool isNormal = false;
    bool isAwaited = false; ///< The diagnosis does not get it right yet, and that is known.

    [[nodiscard]] Truth truth() const { return {story, alsoTrue}; }
    [[nodiscard]] bool hasGauges() const;
};

/// Every story of the folder `stories` and, marked as awaited, of `awaited`, by name. Io or Malformed, with the file,
/// if one cannot be read or if the truths name a story that is not there.
[[nodiscard]] Result<std::vector<StoryCase>> readCases(const std::filesystem::path& stories,
                                                       const std::filesystem::path& awaited, const Truths& truths);

/// What a story expects of what is said and was not told, each as `textOf` says it. The error is that of the replay.
[[nodiscard]] Result<std::vector<std::string>> missingIn(const StoryCase& one);

/// One false alarm and where: for tables and for whoever mends it.
struct Alarm
{
    std::string story;
    std::string at; ///< Of the story as written.
    Heard heard;
};

/// What was made of one finding or question, over all stories.
struct IdScore
{
    bool isQuestion = false;
    std::vector<std::string> saidRightly = {}; ///< Stories that expect it and were told it wherever they do.
    std::vector<std::string> missed = {};      ///< Stories that expect it and were not.
    std::vector<std::string> keptSilent = {};  ///< Stories that rule it out and did not hear it there.
    std::vector<std::string> spoken = {};      ///< Stories that rule it out and heard it there.
    std::vector<Alarm> falseAlarms = {};       ///< Cautions, stops and questions that are not true.
};

struct Confusion
{
    std::map<std::string, IdScore> byId;
    int stories = 0;
    int sets = 0;
    int untrue = 0; ///< Cautions and stops that are not true, counted at every set.
    int setsWithUntrue = 0;
    int untrueQuestions = 0; ///< Questions that are not right to ask.
};

/// Judges the stories as written, those that are awaited left out. The error is that of a replay.
[[nodiscard]] Result<Confusion> confusionOf(const std::vector<StoryCase>& cases);

/// What became of the variants of one story.
struct NoiseScore
{
    std::string story;
    bool isNormal = false;
    int variants = 0;
    int right = 0; ///< Variants in which all that is expected of what is said held.
    int sets = 0;
    int untrue = 0;                          ///< Cautions and stops that are not true.
    std::map<std::string, int> unmet = {};   ///< Variants by the expectation that failed.
    std::map<std::string, int> alarmed = {}; ///< Sets by the caution or stop that is not true.

    [[nodiscard]] double rightPercent() const;
    [[nodiscard]] double untruePer100() const;
};

/// Hears `variants` of a story, seeded by its name and their number. An expectation about a limit is judged only where
/// the digits of the variant stand to the limit as those of the story do: which side they fall on is the noise's.
[[nodiscard]] Result<NoiseScore> noiseOf(const StoryCase& one, int variants);

/// The same of every story that reads gauges and is not awaited, in their order; none without variants. Works on two
/// threads.
[[nodiscard]] Result<std::vector<NoiseScore>> noiseOfAll(const std::vector<StoryCase>& cases, int variants);

/// How an expectation reads in a list: "00:20:00 finding no-flow".
[[nodiscard]] std::string textOf(const story::Expectation& expected);

} // namespace loopside::evaluation
