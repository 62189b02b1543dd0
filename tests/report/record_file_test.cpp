// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// An auditor has nothing but the file. Whatever was altered in it is found.

#include "report/record_file.h"

#include "report/told_story.h"

using Catch::Contains;
using namespace loopside;
using namespace loopside::report;
using namespace loopside::test;

namespace {

constexpr const char* program = "0.1.0";

RecordChecked checkedAgain(const RecordFile& file)
{
    const auto read = recordFileFrom(jsonOf(file));
    REQUIRE(read);
    return checkRecord(*read, program);
}

std::string replaced(std::string text, const std::string& what, const std::string& with)
{
    const std::size_t at = text.find(what);
    REQUIRE(at != std::string::npos);
    return text.replace(at, what.size(), with);
}

std::string allOf(const std::vector<std::string>& lines)
{
    std::string text;
    for (const std::string& line : lines) {
        text += line + "\n";
    }
    return text;
}

} // namespace

TEST_CASE("a record file comes back as it was and is found whole")
{
    const RecordFile file = fileOfStory(awkwardRun, "de");
    const auto read = recordFileFrom(jsonOf(file));
    REQUIRE(read);
    CHECK(read->record == file.record);
    CHECK(read->evidence.entries == file.evidence.entries);
    const RecordChecked checked = checkRecord(*read, program);
    CHECK(allOf(checked.faults).empty());
    CHECK(checked.entries == file.evidence.entries.size());
    CHECK(checked.digest == file.record.digest);
}

TEST_CASE("a digit that is altered in an entry is found")
{
    const std::string json = replaced(jsonOf(fileOfStory(awkwardRun)), R"(\"56\")", R"(\"36\")");
    const auto read = recordFileFrom(json);
    REQUIRE(read);
    CHECK_THAT(allOf(checkRecord(*read, program).faults), Contains("was changed"));
}

TEST_CASE("a digit that is altered in a table alone is found, and where")
{
    RecordFile file = fileOfStory(awkwardRun);
    for (Table& table : file.record.tables) {
        if (table.id == "samples") {
            table.rows[1].cells[5] = "16/14/11";
        }
    }
    const auto faults = checkedAgain(file).faults;
    REQUIRE(faults.size() == 1);
    CHECK_THAT(faults.front(), Contains("Bottles") && !Contains("Readings"));
}

TEST_CASE("a verdict that is altered is found")
{
    RecordFile file = fileOfStory(awkwardRun);
    file.record.verdict = "Met: bottle A2 has 16/14/11, target 17/15/12.";
    CHECK(checkedAgain(file).faults.size() == 1);
}

TEST_CASE("an entry that is taken out is found by the digest, and by its neighbour's place in the chain")
{
    RecordFile file = fileOfStory(awkwardRun);
    file.evidence.entries.erase(file.evidence.entries.begin() + 10);
    const RecordChecked checked = checkedAgain(file);
    CHECK_THAT(allOf(checked.faults), Contains("digest"));
    CHECK_THAT(allOf(checked.notes), Contains("stand 1 that are not in this file"));
}

TEST_CASE("two entries that changed places are found")
{
    RecordFile file = fileOfStory(awkwardRun);
    std::swap(file.evidence.entries[4], file.evidence.entries[5]);
    CHECK_THAT(allOf(checkedAgain(file).faults), Contains("digest"));
}

TEST_CASE("an entry that is forged and hashed anew is found by its signature")
{
    RecordFile file = fileOfStory(awkwardRun);
    for (ledger::Entry& entry : file.evidence.entries) {
        if (entry.body.find("18/16/13") != std::string::npos) {
            entry.body = replaced(entry.body, "18/16/13", "15/13/10");
            entry.hash = ledger::hashOf(entry);
        }
    }
    file.record = recordOf(file.evidence, file.telling).value();
    CHECK_THAT(allOf(checkedAgain(file).faults), Contains("is not signed by the key of its chain"));
}

TEST_CASE("without the entry that states the key nothing counts as signed")
{
    RecordFile file = fileOfStory(awkwardRun);
    file.evidence.openings.clear();
    CHECK_THAT(allOf(checkedAgain(file).faults), Contains("no signature of it can be checked"));
}

TEST_CASE("tables of another version are told as such, and are no less a fault")
{
    RecordFile file = fileOfStory(awkwardRun);
    file.record.verdict += " ";
    file.program = "0.0.9";
    CHECK_THAT(allOf(checkedAgain(file).faults), Contains("version 0.0.9"));
}

TEST_CASE("the seal of a printed record fits its own file and no other")
{
    const RecordFile file = fileOfStory(awkwardRun);
    const RecordFile other = fileOfStory(lateResults);
    CHECK(matchesSeal(file, sealOf(file.record)));
    CHECK(matchesSeal(file, " " + sealOf(file.record) + "\n"));
    CHECK(matchesSeal(file, sealOf(other.record)).error().code == Errc::Conflict);
    CHECK(matchesSeal(file, "https://example.org").error().code == Errc::NotFound);
}

TEST_CASE("a record file of a newer layout is told as such, and rubbish is refused")
{
    const std::string json = jsonOf(fileOfStory(awkwardRun));
    CHECK(recordFileFrom(replaced(json, "\"loopside_record\": 1", "\"loopside_record\": 2")).error().code
          == Errc::Incompatible);
    CHECK(recordFileFrom("{}").error().code == Errc::Malformed);
    CHECK(recordFileFrom(json.substr(0, json.size() / 2)).error().code == Errc::Malformed);
}

TEST_CASE("a run that is not in the journal is told")
{
    ledger::MemoryJournal journal;
    const ledger::EntryReader read = [&](const auto& take) { return ledger::readAll(journal, take); };
    CHECK(evidenceOf(read, Id{.bytes = {1}}).error().code == Errc::NotFound);
}
