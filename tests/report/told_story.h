// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "ledger/memory_journal.h"
#include "report/record_file.h"
#include "story/replay.h"

#include <catch2/catch.hpp>

#include <fstream>
#include <iterator>
#include <string>

namespace loopside::test {

inline std::string contentOf(const std::string& path)
{
    std::ifstream file(path, std::ios::binary);
    return {std::istreambuf_iterator<char>(file), std::istreambuf_iterator<char>()};
}

/// The run of a story, as a journal holds it. `path` from the folder of the sources.
inline report::Evidence evidenceOfStory(const std::string& path)
{
    const std::string text = contentOf(std::string(LOOPSIDE_SOURCE_DIR) + "/" + path);
    const auto story = story::parseStory(text);
    REQUIRE(story);
    ledger::MemoryJournal journal;
    REQUIRE(story::replay(*story, story::saltOf(text), journal, {}));
    Id run;
    const ledger::EntryReader read = [&](const auto& take) { return ledger::readAll(journal, take); };
    REQUIRE(read([&](const ledger::Stored& stored) -> Done {
        run = run.isNone() ? stored.entry.header.run : run;
        return {};
    }));
    const auto evidence = report::evidenceOf(read, run);
    REQUIRE(evidence);
    return *evidence;
}

inline constexpr const char* awkwardRun = "tests/report/data/awkward.json";
inline constexpr const char* lateResults = "tests/stories/f21_lab_says_no.json";

/// A record file of a story, told in `language`.
inline report::RecordFile fileOfStory(const std::string& path, const std::string& language = "en")
{
    report::RecordFile file{"0.1.0", {.language = language}, {}, evidenceOfStory(path)};
    const auto record = report::recordOf(file.evidence, file.telling);
    REQUIRE(record);
    file.record = *record;
    return file;
}

/// All cells of a row, one behind the other.
inline std::string lineOf(const report::Row& row)
{
    std::string line;
    for (const std::string& cell : row.cells) {
        line += (line.empty() ? "" : " | ") + cell;
    }
    return line;
}

/// All rows of a table as lines.
inline std::string linesOf(const report::Table& table)
{
    std::string lines;
    for (const report::Row& row : table.rows) {
        lines += lineOf(row) + "\n";
    }
    return lines;
}

} // namespace loopside::test
