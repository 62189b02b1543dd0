// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// A story: a recorded or invented run as one JSON file. The grammar is described in schema/README.md; every key of it
// is read here, an unknown key or id is a fault with its place, and nothing of a faulty story is replayed.

#pragma once

#include "base/result.h"
#include "ledger/json.h"
#include "run/event.h"

#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

namespace loopside::story {

/// Something said about an earlier entry of the story, named by its place among the entries.
struct AboutEntry
{
    std::size_t of = 0;
    std::variant<run::QuestionAnswered, run::Amended> what;
};

/// An alert acknowledged or shelved. Without a stage, every standing alert of that id is meant.
struct AlertAnswered
{
    run::AlertShelved what;
    bool isShelved = false;
};

struct Closing
{
    run::Ending ending = run::Ending::StoppedEarly;
    std::string why;
};

using Step = std::variant<run::Said, AboutEntry, AlertAnswered, Closing>;

/// A wall clock as a story states it.
struct WallTime
{
    std::int64_t utcMs = 0;
    int offsetMin = 0;
};

struct StoryEntry
{
    std::string at;          ///< As written, HH:MM:SS.
    run::RunTime seen{0};    ///< `at` since the first entry.
    run::RunTime entered{0}; ///< Later than `seen` where `entered_at` says so.
    std::optional<WallTime> wall = {};
    std::string device; ///< Empty: the tablet that replays.
    std::string person; ///< Empty: as before.
    std::string place;  ///< "entries[3]".
    std::vector<Step> steps = {};
};

/// One line of `expect`.
struct Expectation
{
    std::string place;
    std::optional<run::RunTime> at = {}; ///< None: "end".
    std::string key;                     ///< finding, no_finding, question, …
    std::string id;                      ///< Of a finding, question or alert.
    std::optional<int> stage = {};
    std::string bound = "best"; ///< low, best or high, for turnovers.
    std::optional<std::pair<double, double>> range = {};
    ledger::JsonValue value = {}; ///< As written, for what has neither id nor range.
};

struct Story
{
    run::Setup setup;
    std::vector<StoryEntry> entries;
    std::vector<Expectation> expectations;
};

/// Reads a story, or says in one sentence what is wrong and where.
[[nodiscard]] Result<Story> parseStory(std::string_view text);

/// Reads HH:MM:SS; hours may pass 24.
[[nodiscard]] Result<run::RunTime> timeFrom(std::string_view text);

/// Reads an ISO 8601 moment with its offset from UTC, such as 2026-10-25T01:45:00+01:00 or …Z.
[[nodiscard]] Result<WallTime> wallTimeFrom(std::string_view text);

} // namespace loopside::story
