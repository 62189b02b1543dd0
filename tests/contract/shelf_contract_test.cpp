// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// Insert or compare: what every shelf keeps to that holds chains whole, run against each that there is.

#ifdef LOOPSIDE_PLANTED
#include "contract/planted_shelf.h"
#endif
#include "handover/others_shelf.h"
#include "hub/some_hub.h"
#include "ledger/memory_journal.h"
#include "ledger/recorder.h"
#include "store/aside_file.h"
#include "store/sqlite_journal.h"
#include "store/temp_folder.h"
#include "sync/journal_shelf.h"
#include "sync/memory_hub.h"
#include "sync/memory_shelf.h"

#include <catch2/catch.hpp>

using namespace loopside;
using namespace loopside::sync;
using ledger::Entry;
using loopside::test::HubInPostgres;
using loopside::test::HubOnDisk;
using loopside::test::Recorder;

namespace {

#ifdef LOOPSIDE_PLANTED
class ShelfInMemory
{
public:
    [[nodiscard]] Shelf& shelf() { return shelf_; }
    void reopen() {}

private:
    test::PlantedShelf shelf_;
};
#else
class ShelfInMemory
{
public:
    [[nodiscard]] Shelf& shelf() { return shelf_; }
    void reopen() {}

private:
    MemoryShelf shelf_{MemoryShelf::Keeps::Chains};
};
#endif

class HubInMemory
{
public:
    [[nodiscard]] Shelf& shelf() { return hub_; }
    void reopen() {}

private:
    MemoryHub hub_;
};

class JournalInMemory
{
public:
    JournalInMemory() { reopen(); }
    [[nodiscard]] Shelf& shelf() { return *shelf_; }
    void reopen()
    {
        if (!shelf_) { // what it kept aside goes with the program
            shelf_ = *JournalShelf::open(journal_, [](const Entry&) -> Done { return {}; });
        }
    }

private:
    ledger::MemoryJournal journal_;
    std::unique_ptr<JournalShelf> shelf_;
};

class JournalOnDisk
{
public:
    JournalOnDisk() { reopen(); }
    [[nodiscard]] Shelf& shelf() { return *shelf_; }
    void reopen()
    {
        shelf_.reset();
        journal_.reset();
        journal_ = *store::SqliteJournal::open(folder_.file("journal.db"));
        shelf_ = *JournalShelf::open(
            *journal_, [this](const Entry& entry) { return aside_.keep(entry); }, aside_.all().value());
    }

private:
    test::TempFolder folder_;
    store::AsideFile aside_{folder_.file("journal.db")};
    std::unique_ptr<store::SqliteJournal> journal_;
    std::unique_ptr<JournalShelf> shelf_;
};

class SinglyInMemory
{
public:
    [[nodiscard]] Shelf& shelf() { return shelf_; }
    void reopen() {}

private:
    MemoryShelf shelf_{MemoryShelf::Keeps::Singly};
};

class SinglyOnDisk
{
public:
    SinglyOnDisk() { reopen(); }
    [[nodiscard]] Shelf& shelf() { return *shelf_; }
    void reopen()
    {
        shelf_.reset();
        journal_.reset();
        journal_ = *store::SqliteJournal::open(folder_.file("journal.db"));
        shelf_ = *handover::OthersShelf::open(folder_.file("journal.db"), Recorder::idOf(0x51, 1));
    }

private:
    test::TempFolder folder_;
    std::unique_ptr<store::SqliteJournal> journal_;
    std::unique_ptr<handover::OthersShelf> shelf_;
};

std::vector<Put> put(Shelf& shelf, const std::vector<Entry>& entries)
{
    std::vector<Held> held;
    for (const Entry& entry : entries) {
        held.push_back({entry});
    }
    const auto outcomes = shelf.put(held, {});
    REQUIRE(outcomes);
    return *outcomes;
}

std::vector<Entry> entriesOf(const Shelf& shelf, const Id& chain)
{
    std::vector<Entry> entries;
    const auto there = shelf.behind(chain, 0, 1000);
    for (const Held& held : *there) {
        entries.push_back(held.entry);
    }
    return entries;
}

} // namespace

TEMPLATE_TEST_CASE("a shelf creates, finds the same, and says where it stands", "", ShelfInMemory, HubInMemory,
                   JournalInMemory, JournalOnDisk, HubOnDisk, HubInPostgres)
{
    TestType where;
    Shelf& shelf = where.shelf();
    const auto entries = Recorder(1).chainOf(4);
    const auto others = Recorder(2).chainOf(1);
    CHECK(put(shelf, {}).empty());
    CHECK(put(shelf, {entries[0], entries[1], others[0]}) == std::vector(3, Put::Created));
    CHECK(put(shelf, {entries[1], entries[2], entries[2], entries[3], entries[0]})
          == std::vector{Put::Same, Put::Created, Put::Same, Put::Created, Put::Same});
    CHECK(put(shelf, {entries[4], others[1]}) == std::vector(2, Put::Created));
    where.reopen();
    Shelf& again = where.shelf();
    CHECK(entriesOf(again, entries[0].chain) == entries);
    CHECK(again.at(entries[0].chain, 3).value()->entry == entries[2]);
    CHECK_FALSE(again.at(entries[0].chain, 6).value());
    CHECK_FALSE(again.at(Recorder::idOf(0xC0, 9), 1).value());
    CHECK(again.behind(entries[0].chain, 2, 2).value().size() == 2);
    CHECK(again.tips().value()
          == std::vector<Tip>{{entries[0].header.device, entries[0].chain, 5, entries[4].hash},
                              {others[0].header.device, others[0].chain, 2, others[1].hash}});
    CHECK(put(again, entries) == std::vector(5, Put::Same));
}

TEMPLATE_TEST_CASE("a shelf puts nothing behind a gap", "", ShelfInMemory, HubInMemory, JournalInMemory, JournalOnDisk,
                   HubOnDisk, HubInPostgres)
{
    TestType where;
    const auto entries = Recorder(1).chainOf(4);
    CHECK(put(where.shelf(), {entries[1]}) == std::vector{Put::Gap}); // without its opening
    CHECK(put(where.shelf(), {entries[0], entries[3], entries[4], entries[1]})
          == std::vector{Put::Created, Put::Gap, Put::Gap, Put::Created});
    CHECK(entriesOf(where.shelf(), entries[0].chain) == std::vector{entries[0], entries[1]});
    CHECK(where.shelf().asides(entries[0].chain).value().empty());
}

TEMPLATE_TEST_CASE("of two entries for one place the first stays and the other is kept aside, with all behind it", "",
                   ShelfInMemory, HubInMemory, JournalInMemory, JournalOnDisk, HubOnDisk, HubInPostgres)
{
    TestType where;
    Recorder recorder(1);
    auto entries = recorder.chainOf(1);
    const Entry one = recorder.sealedNotes({"one"}).front();
    const auto branch = recorder.notes({"the other", "goes on", "and on"});
    CHECK(put(where.shelf(), {entries[0], entries[1], one}) == std::vector(3, Put::Created));
    CHECK(put(where.shelf(), {branch[0]}) == std::vector{Put::Conflict});
    CHECK(put(where.shelf(), {branch[2]}) == std::vector{Put::Gap}); // what it goes on from is not here
    CHECK(put(where.shelf(), {branch[1], branch[2]}) == std::vector(2, Put::Conflict)); // free places, another branch
    entries.push_back(one);
    where.reopen();
    CHECK(entriesOf(where.shelf(), one.chain) == entries);
    CHECK(where.shelf().asides(one.chain).value() == branch);
    CHECK(put(where.shelf(), branch) == std::vector(3, Put::Conflict)); // kept once
    CHECK(where.shelf().asides(one.chain).value() == branch);
}

TEMPLATE_TEST_CASE("a shelf that holds singly takes what comes, in its place, and compares", "", SinglyInMemory,
                   SinglyOnDisk)
{
    TestType where;
    Recorder recorder(1);
    const auto entries = recorder.chainOf(4);
    CHECK(put(where.shelf(), {}).empty());
    CHECK(put(where.shelf(), {entries[3], entries[1]}) == std::vector(2, Put::Created));
    CHECK(put(where.shelf(), {entries[3], entries[2]}) == std::vector{Put::Same, Put::Created});
    Entry other = entries[2];
    other.body = "other";
    other.hash = hashOf(other);
    Entry behind = entries[4]; // goes on from what is kept aside, in a free place
    behind.previous = other.hash;
    behind.hash = hashOf(behind);
    CHECK(put(where.shelf(), {other, behind}) == std::vector(2, Put::Conflict));
    where.reopen();
    Shelf& again = where.shelf();
    CHECK(again.at(entries[2].chain, 3).value()->entry == entries[2]);
    CHECK_FALSE(again.at(entries[2].chain, 1).value());
    CHECK(entriesOf(again, entries[0].chain) == std::vector{entries[1], entries[2], entries[3]});
    CHECK(again.behind(entries[0].chain, 2, 1).value().size() == 1);
    CHECK(again.asides(entries[2].chain).value() == std::vector{other, behind});
    CHECK(put(again, {other}) == std::vector{Put::Conflict}); // kept once
    CHECK(again.asides(entries[2].chain).value().size() == 2);
    CHECK(again.tips().value() == std::vector<Tip>{{entries[3].header.device, entries[3].chain, 4, entries[3].hash}});
}

TEMPLATE_TEST_CASE("a shelf that holds singly takes nothing that does not fit what stands beside its place", "",
                   SinglyInMemory, SinglyOnDisk)
{
    TestType where;
    const auto entries = Recorder(1).chainOf(4);
    Entry stranger = entries[2];
    stranger.header.device = Recorder::idOf(0xD0, 7);
    stranger.hash = hashOf(stranger);
    Entry early = entries[3];
    early.header.clock = entries[1].header.clock; // no later than one that stands before it
    early.hash = hashOf(early);
    CHECK(put(where.shelf(), {entries[1], stranger, early}) == std::vector{Put::Created, Put::Conflict, Put::Conflict});
    std::vector<Held> ahead = {{entries[4], true}};
    REQUIRE(where.shelf().put(ahead, {}));
    where.reopen();
    CHECK(where.shelf().at(entries[4].chain, 5).value() == ahead.front());
}
