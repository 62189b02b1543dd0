// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "store/carve.h"

#include "base/id.h"
#include "store/files.h"
#include "store/raw_database.h"
#include "store/temp_folder.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <set>

using namespace loopside;
using namespace loopside::test;

namespace {

/// A journal with entries of all lengths in its file and in its log.
struct Files
{
    std::string database;
    std::string log;
    std::size_t entries = 0;

    Files()
    {
        const TempFolder folder;
        const std::string path = folder.file("journal.db");
        const auto journal = openedJournal(path);
        Recorder recorder(1);
        std::vector<ledger::Entry> all = recorder.open();
        for (const std::size_t size : {0, 1, 90, 130, 700, 3500, 4040, 4100, 9000, 30, 20'000, 44}) {
            all.push_back(
                recorder.notes({std::string(size, ',')}).front()); // a comma is the sign that ids are found by
        }
        REQUIRE(journal->append(all));
        RawDatabase(path).run("PRAGMA wal_checkpoint(TRUNCATE)");
        const auto more = recorder.notes({"a", std::string(5000, 'b'), "c"});
        REQUIRE(journal->append(more));
        database = contentOf(path);
        log = contentOf(path + "-wal");
        entries = all.size() + more.size();
    }
};

using Found = std::vector<ledger::Entry>;

template<class Carve>
Found foundBy(Carve carve, const Files& files)
{
    Found found;
    carve(files.database, files.log, [&](ledger::Entry entry) { found.push_back(std::move(entry)); });
    return found;
}

std::size_t differentIn(const Found& found)
{
    std::set<Id> ids;
    for (const ledger::Entry& entry : found) {
        ids.insert(entry.header.id);
    }
    return ids.size();
}

/// Turns bits, writes what it likes over some bytes, moves some, or cuts.
void spoil(std::string& bytes, SeededRandom& random)
{
    const std::size_t at = random.next() % bytes.size();
    const std::size_t length = std::min<std::size_t>(bytes.size() - at, 1 + random.next() % 60);
    switch (random.next() % 5) {
    case 0:
        bytes[at] = static_cast<char>(bytes[at] ^ (1 << (random.next() % 8)));
        break;
    case 1:
        std::fill_n(bytes.begin() + static_cast<std::ptrdiff_t>(at), length, static_cast<char>(random.next()));
        break;
    case 2:
        bytes.erase(at, length);
        break;
    case 3:
        bytes.insert(at, length, static_cast<char>(random.next()));
        break;
    default:
        bytes.resize(std::max<std::size_t>(at, 1));
    }
}

} // namespace

TEST_CASE("every entry of a sound journal is found, in its file and in its log")
{
    const Files files;
    const Found found = foundBy(store::carveEntries, files);
    CHECK(differentIn(found) == files.entries);
    CHECK(found == foundBy(store::carveEntriesSlowly, files));
}

TEST_CASE("where an entry can begin the search finds what a look at every byte finds, however the files are spoilt")
{
    const Files sound;
    const auto seed = static_cast<std::uint64_t>(GENERATE(range(1, 121)));
    SeededRandom random(seed);
    Files files = sound;
    for (std::uint64_t harm = 1 + random.next() % 12; harm > 0; --harm) {
        spoil(random.next() % 2 == 0 ? files.database : files.log, random);
    }
    CAPTURE(seed, files.database.size(), files.log.size());
    CHECK(foundBy(store::carveEntries, files) == foundBy(store::carveEntriesSlowly, files));
}
