// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// The program beside a tablet that works: neither takes from the other.

#include "cli/program.h"
#include "store/files.h"
#include "store/temp_folder.h"

#include <catch2/catch.hpp>

using namespace loopside::test;

TEST_CASE("a journal that another program looked at still keeps what is logged, also after a backup")
{
    const TempFolder folder;
    const std::string path = folder.file("journal.db");
    Recorder recorder(1);
    const auto tablet = openedJournal(path);
    REQUIRE(tablet->append(recorder.chainOf(2)));
    // A backup opens the journal in the same program and closes it. Had it opened and closed the file past SQLite too,
    // the system would have taken the tablet's lock away, and the next program that closes would remove its log.
    openedJournal(path).reset();
    REQUIRE(runProgram({"verify", path}).exitCode == 0);
    REQUIRE(tablet->append(recorder.notes({"after the look"})));
    CHECK_THAT(runProgram({"record", path}).out, Catch::Contains("after the look"));

    // As a kill leaves it, before the tablet could bring its log into the file.
    const std::string left = folder.file("left.db");
    write(left, contentOf(path));
    write(left + "-wal", contentOf(path + "-wal"));
    CHECK(openedJournal(left)->last().value() == 4);
}
