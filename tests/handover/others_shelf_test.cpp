// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// What every shelf keeps to: tests/contract/shelf_contract_test.cpp.

#include "handover/others_shelf.h"

#include "ledger/recorder.h"
#include "store/raw_database.h"
#include "store/sqlite_journal.h"
#include "store/temp_folder.h"

#include <catch2/catch.hpp>

using namespace loopside;
using namespace loopside::test;
using handover::KeptProgress;
using handover::OthersShelf;

namespace {

const Id someSite = Recorder::idOf(0x51, 1);

class Place
{
public:
    Place() { reopen(); }

    void reopen(const Id& site = someSite)
    {
        shelf.reset();
        journal.reset();
        journal = *store::SqliteJournal::open(path());
        shelf = *OthersShelf::open(path(), site);
    }
    [[nodiscard]] std::string path() const { return folder.file("journal.db"); }

    TempFolder folder;
    std::unique_ptr<store::SqliteJournal> journal;
    std::unique_ptr<OthersShelf> shelf;
};

KeptProgress someProgress()
{
    KeptProgress kept;
    kept.progress.log = Recorder::idOf(0x10, 1);
    kept.reachedAtMs = 1'751'958'400'000;
    for (const std::uint8_t number : {std::uint8_t{1}, std::uint8_t{2}}) {
        sync::Mark mark{someSite,
                        kept.progress.log,
                        Recorder::idOf(0xD0, number),
                        Recorder::keyOf(number).publicKey(),
                        Recorder::idOf(0xC0, number),
                        40U + number};
        mark.hash.fill(number);
        mark.isAside = number == 2;
        mark.atMs = 1'751'958'400'001;
        kept.progress.receipts.emplace(mark.chain, signedBy(Recorder::keyOf(99), mark));
    }
    kept.progress.places = {{sync::Topic::catalogue(), 12}, {sync::Topic::tank("PH-3 \"new\""), 0}};
    return kept;
}

} // namespace

TEST_CASE("progress with a hub is kept with the entries that it speaks of")
{
    Place place;
    CHECK(place.shelf->progress().value() == KeptProgress());
    const auto entries = Recorder(2).chainOf(2);
    const std::vector<sync::Held> held = {{entries[1]}, {entries[2], true}};
    REQUIRE(place.shelf->keep(held, someProgress()));
    place.reopen();
    CHECK(place.shelf->progress().value() == someProgress());
    CHECK(place.shelf->all().value() == held);

    KeptProgress less; // a hub that begins anew
    less.progress.log = Recorder::idOf(0x10, 2);
    REQUIRE(place.shelf->keep({}, less));
    place.reopen();
    CHECK(place.shelf->progress().value() == less);
    CHECK(place.shelf->all().value() == held);
}

TEST_CASE("progress that cannot be kept takes its entries with it")
{
    Place place;
    RawDatabase(place.path()).run("CREATE TRIGGER no BEFORE INSERT ON hub_places BEGIN SELECT RAISE(ABORT, 'no'); END");
    const auto entries = Recorder(2).chainOf(1);
    const std::vector<sync::Held> held = {{entries[1]}};
    CHECK_FALSE(place.shelf->keep(held, someProgress()));
    CHECK(place.shelf->all().value().empty());
    CHECK(place.shelf->progress().value() == KeptProgress());
    CHECK(place.shelf->put(held, {}).value() == std::vector{sync::Put::Created}); // the shelf is as it was
}

TEST_CASE("sites are kept apart")
{
    Place place;
    const auto entries = Recorder(2).chainOf(1);
    const std::vector<sync::Held> held = {{entries[0]}, {entries[1]}};
    REQUIRE(place.shelf->keep(held, someProgress()));
    place.reopen(Recorder::idOf(0x51, 2));
    CHECK(place.shelf->all().value().empty());
    CHECK(place.shelf->tips().value().empty());
    CHECK(place.shelf->progress().value() == KeptProgress());
    place.reopen();
    CHECK(place.shelf->all().value() == held);
}

TEST_CASE("entries of others leave the journal's own as they are, and are never changed themselves")
{
    Place place;
    const auto own = Recorder(1).chainOf(3);
    REQUIRE(place.journal->append(own));
    const auto entries = Recorder(2).chainOf(1);
    const std::vector<sync::Held> held = {{entries[1]}};
    REQUIRE(place.shelf->put(held, {}));
    CHECK(allOf(*place.journal) == inOrder(own));
    CHECK(place.journal->checkStructure());
    RawDatabase raw(place.path());
    CHECK_FALSE(raw.canRun("UPDATE other_entries SET is_ahead = 1"));
    CHECK_FALSE(raw.canRun("DELETE FROM other_entries"));
    place.reopen();
    CHECK(place.shelf->all().value() == held);
}
