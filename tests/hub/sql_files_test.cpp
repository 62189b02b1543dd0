// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// The files of attachments in both databases of a hub.

#include "hub/sql_files.h"

#include "hub/some_hub.h"
#include "ledger/attached.h"

using namespace loopside;
using namespace loopside::test;
using hub::SqlFiles;
using sync::FileList;
using sync::FilePlace;

namespace {

FilePlace placeOf(const ledger::Entry& entry)
{
    return {entry.chain, entry.header.sequence};
}

/// A tablet that added two pictures.
struct Tablet
{
    Recorder recorder{1};
    std::vector<ledger::Entry> chain = recorder.chainOf(1);
    std::string first = fileOf(std::string("one\0\xFF picture", 12));
    std::string second = fileOf("another");
    ledger::Entry firstAdded = sealedBy(recorder, added(first));
    ledger::Entry secondAdded = sealedBy(recorder, added(second));
};

void put(sync::Shelf& shelf, const std::vector<ledger::Entry>& entries)
{
    std::vector<sync::Held> held;
    for (const ledger::Entry& entry : entries) {
        held.push_back({entry});
    }
    REQUIRE(shelf.put(held, {}));
}

} // namespace

TEMPLATE_TEST_CASE("a hub wants the files that its entries name, keeps each once and gives it back", "", HubOnDisk,
                   HubInPostgres)
{
    TestType where;
    Tablet tablet;
    SqlFiles files(where.sql(), where.site());
    const FilePlace first = placeOf(tablet.firstAdded);
    const FileList all = {placeOf(tablet.chain.back()), first, placeOf(tablet.secondAdded)};
    CHECK(files.wanted(all)->empty()); // no entry is here
    CHECK(files.keep(first, tablet.first).error().code == Errc::NotFound);
    put(where.shelf(), {tablet.chain[0], tablet.chain[1], tablet.firstAdded, tablet.secondAdded});
    CHECK(files.wanted(all).value() == FileList{first, placeOf(tablet.secondAdded)});
    CHECK(files.keep(first, tablet.second).error().code == Errc::Corrupt);
    CHECK(files.keep(placeOf(tablet.chain.back()), tablet.first).error().code == Errc::Conflict);
    CHECK_FALSE(files.of(tablet.firstAdded.header.id).value());
    CHECK_FALSE(files.has(tablet.firstAdded.header.id).value());
    REQUIRE(files.keep(first, tablet.first));
    CHECK(files.has(tablet.firstAdded.header.id).value());
    REQUIRE(files.keep(first, tablet.first)); // said again
    where.reopen();
    SqlFiles again(where.sql(), where.site());
    CHECK(again.of(tablet.firstAdded.header.id).value() == tablet.first);
    CHECK(again.wanted(all).value() == FileList{placeOf(tablet.secondAdded)});
    CHECK(SqlFiles(where.sql(), freshId()).wanted(all)->empty()); // of another site
}

TEMPLATE_TEST_CASE("a file that is withdrawn is gone for good, whether it came before that or comes later", "",
                   HubOnDisk, HubInPostgres)
{
    TestType where;
    Tablet tablet;
    SqlFiles files(where.sql(), where.site());
    put(where.shelf(), {tablet.chain[0], tablet.chain[1], tablet.firstAdded, tablet.secondAdded});
    REQUIRE(files.keep(placeOf(tablet.firstAdded), tablet.first));
    put(where.shelf(),
        {sealedBy(tablet.recorder, withdrawn(tablet.firstAdded.header.id)),
         sealedBy(tablet.recorder, withdrawn(tablet.secondAdded.header.id))});
    CHECK_FALSE(files.of(tablet.firstAdded.header.id).value());
    CHECK_FALSE(files.has(tablet.firstAdded.header.id).value());
    const FileList both = {placeOf(tablet.firstAdded), placeOf(tablet.secondAdded)};
    CHECK(files.wanted(both)->empty());
    REQUIRE(files.keep(both[0], tablet.first));
    REQUIRE(files.keep(both[1], tablet.second)); // taken, and let go
    CHECK_FALSE(files.of(tablet.firstAdded.header.id).value());
    CHECK_FALSE(files.of(tablet.secondAdded.header.id).value());
    int found = 0;
    REQUIRE(files.each([&](const Id&, const std::string&) -> Done {
        ++found;
        return {};
    }));
    CHECK(found == 0);
}

TEST_CASE("a hub that was laid out before it kept files keeps them now")
{
    HubOnDisk where;
    REQUIRE(where.sql().run("DROP TABLE files"));
    REQUIRE(where.sql().run("UPDATE hub_layout SET version = 1"));
    where.reopen();
    CHECK(where.sql().run("SELECT version FROM hub_layout")->front().number(0) == 2);
    CHECK(SqlFiles(where.sql(), where.site()).wanted({})->empty());
    CHECK(where.sql().run("SELECT entry_id FROM files"));
}
