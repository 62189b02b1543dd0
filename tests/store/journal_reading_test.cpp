// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// What is read through an index is what going through all entries finds.

#include "ledger/kinds.h"
#include "store/files.h"
#include "store/raw_database.h"
#include "store/temp_folder.h"

#include <catch2/catch.hpp>

#include <algorithm>

using namespace loopside;
using namespace loopside::ledger;
using namespace loopside::test;

namespace {

/// Two chains, their entries in turn of every kind of a moment, of one that is lasting and of one nobody knows.
std::vector<Entry> mixedEntries()
{
    Recorder first(1);
    Recorder second(2);
    std::vector<Entry> entries = first.open();
    entries.push_back(second.open().front());
    for (int round = 0; round < 3; ++round) {
        std::vector<std::string> kinds(kindsOfMoment.begin(), kindsOfMoment.end());
        kinds.insert(kinds.begin() + round, {"mode-changed", "of-a-later-version"});
        for (const std::string& kind : kinds) {
            Recorder& who = kinds.size() % 2 == 0 ? first : second;
            auto sealed = who.seal({{kind, "{}", {}, {}, {}}});
            who.sealer().accept(sealed);
            entries.push_back(sealed.front());
        }
    }
    entries.push_back(first.notes({"the last of the first chain"}).front());
    return entries;
}

} // namespace

TEST_CASE("lasting entries are found by the index as by going through all")
{
    const TempFolder folder;
    makeJournal(folder.file("journal.db"), mixedEntries());
    const auto journal = openedJournal(folder.file("journal.db"));
    const std::size_t limit = GENERATE(1, 2, 3, 1000);
    for (Position after = 0; after <= journal->last().value(); ++after) {
        const auto indexed = journal->readLasting(after, limit);
        const auto gone = journal->Journal::readLasting(after, limit);
        REQUIRE(indexed);
        REQUIRE(gone);
        CHECK(*indexed == *gone);
        CHECK(journal->listLasting(after, limit).value() == journal->Journal::listLasting(after, limit).value());
        CHECK(std::ranges::none_of(*indexed, [](const Stored& stored) { return isKindOfMoment(stored.entry.kind); }));
    }
    CHECK(journal->readLasting(0, 1000)->size() == 2 + 3 * 2 + 1);
}

TEST_CASE("the latest clock and the last position are those of going through all")
{
    const TempFolder folder;
    const auto journal = openedJournal(folder.file("journal.db"));
    CHECK(journal->latestClock().value() == 0);
    CHECK(journal->last().value() == 0);
    REQUIRE(journal->append(mixedEntries()));
    CHECK(journal->latestClock().value() == journal->Journal::latestClock().value());
    CHECK(journal->last().value() == journal->Journal::last().value());
}
