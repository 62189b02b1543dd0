// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// What a hub's store does beyond a shelf: the same as the one in memory, on both databases.

#include "hub/some_hub.h"
#include "ledger/body.h"
#include "ledger/handed.h"
#include "ledger/recorder.h"
#include "ledger/some_setup.h"
#include "run/run_code.h"
#include "store/sqlite_journal.h"
#include "sync/memory_hub.h"

#include <algorithm>
#include <limits>

using namespace loopside;
using namespace loopside::test;
using sync::Held;
using sync::HubStore;
using sync::Put;
using sync::Topic;

namespace {

const Id runId = Recorder::idOf(0xA0, 7);

ledger::Draft draftOf(const run::Event& event, const Id& run)
{
    return {std::string(ledger::kindOf(event)), ledger::bodyOf(event), run, {}, {}};
}

run::Setup setupOn(const std::string& tank)
{
    run::Setup setup = bareSetup();
    setup.tank.name = tank;
    return setup;
}

/// A run that is moved and handed over, with records, lessons and moments around it.
std::vector<ledger::Entry> eventfulChain(Recorder& recorder)
{
    std::vector<ledger::Entry> entries = recorder.open();
    for (const ledger::Draft& draft :
         {draftOf(run::TankPut{setupOn("A").tank}, {}), draftOf(run::RunOpened{setupOn("A"), {}}, runId),
          draftOf(run::ModeChanged{run::Mode::Filtering}, runId), draftOf(run::Noted{"a moment"}, runId),
          draftOf(run::RunMoved{setupOn(std::string("B\0'; DROP TABLE entries", 23)).tank, "the oil went there"},
                  runId),
          draftOf(run::LoadingLearned{}, runId), draftOf(ledger::handoverTo(Recorder::idOf(0xD0, 2)), runId),
          draftOf(run::Noted{"after"}, runId), draftOf(run::StockMoved{"F-10", 2, "received"}, {}),
          ledger::Draft{"run-opened", std::string("\xFF\x00 no JSON", 10), runId, {}, {}}}) {
        const auto sealed = recorder.seal({draft});
        recorder.sealer().accept(sealed);
        entries.push_back(sealed.front());
    }
    return entries;
}

/// A chain that went two ways behind its eighth entry, as a tablet's and that of a copy of it.
std::vector<ledger::Entry> forkedChain(std::uint8_t number)
{
    Recorder one(number);
    Recorder copy(number);
    auto entries = one.chainOf(7);
    static_cast<void>(copy.chainOf(7));
    for (int i = 0; i < 8; ++i) {
        const std::string note = std::to_string(i);
        entries.push_back(one.notes({"one " + note}).front());
        entries.push_back(copy.notes({"the other " + note}).front());
    }
    return entries;
}

/// What a message may have of them: a part in its order, backwards, or here and there.
std::vector<ledger::Entry> drawnFrom(const std::vector<ledger::Entry>& entries, RandomSource& random)
{
    std::vector<ledger::Entry> drawn;
    const std::uint64_t way = random.next() % 3;
    const std::size_t from = random.next() % entries.size();
    const std::size_t count = 1 + random.next() % entries.size();
    for (std::size_t i = 0; i < count; ++i) {
        const std::size_t place = way == 2 ? random.next() : from + i;
        drawn.push_back(entries[place % entries.size()]);
    }
    if (way == 1) {
        std::ranges::reverse(drawn);
    }
    return drawn;
}

std::vector<Put> put(sync::Shelf& shelf, const std::vector<ledger::Entry>& entries,
                     const std::vector<ledger::Loss>& losses = {})
{
    std::vector<Held> held;
    for (const auto& entry : entries) {
        held.push_back({entry, entry.header.sequence % 2 == 0});
    }
    const auto outcomes = shelf.put(held, losses);
    INFO((outcomes ? "" : outcomes.error().sentence));
    REQUIRE(outcomes);
    return *outcomes;
}

void checkAlike(const HubStore& a, const HubStore& b, const Topic& topic)
{
    INFO(topic.name);
    CHECK(a.list(topic, 0, 256)->refs == b.list(topic, 0, 256)->refs);
    CHECK(a.list(topic, 2, 1)->refs == b.list(topic, 2, 1)->refs);
    CHECK(a.list(topic, 2, 1)->last == b.list(topic, 2, 1)->last);
}

} // namespace

TEMPLATE_TEST_CASE("a hub in a database lists what one in memory lists", "", HubOnDisk, HubInPostgres)
{
    TestType where;
    sync::MemoryHub memory;
    Recorder recorder(1);
    const auto entries = eventfulChain(recorder);
    const auto others = Recorder(2).chainOf(3);
    const std::vector<ledger::Entry> first(entries.begin(), entries.begin() + 4);
    for (const auto& part : {first, others, entries}) { // in pieces, with repetitions
        CHECK(put(where.shelf(), part) == put(memory, part));
    }
    where.reopen();
    const HubStore& again = where.shelf();
    for (const Topic& topic : {Topic::catalogue(), Topic::learned(), Topic::tank("A"),
                               Topic::tank(std::string("B\0'; DROP TABLE entries", 23)), Topic::tank("none"),
                               Topic::run(runId), Topic::code(run::codeOf(runId)),
                               Topic::handedTo(Recorder::idOf(0xD0, 2)), Topic::device(recorder.device())}) {
        checkAlike(again, memory, topic);
    }
    CHECK(again.list(Topic::tank("A"), 0, 9)->last > 0);
    CHECK(again.list(Topic::handedTo(Recorder::idOf(0xD0, 2)), 0, 9)->last > 0);
    CHECK(again.behind(entries[0].chain, 0, 99).value() == memory.behind(entries[0].chain, 0, 99).value());
    CHECK(again.tipsOf(recorder.device()).value() == memory.tipsOf(recorder.device()).value());
    CHECK(again.tip(entries[0].chain).value() == memory.tip(entries[0].chain).value());
    CHECK_FALSE(again.tip(Recorder::idOf(0xC0, 77)).value());
    CHECK(again.list(Topic::catalogue(), std::numeric_limits<std::uint64_t>::max(), 9)->refs.empty());
}

TEMPLATE_TEST_CASE("gaps that are lost are passed over, kept, and filled when what was lost turns up", "", HubOnDisk,
                   HubInPostgres)
{
    TestType where;
    sync::MemoryHub memory;
    const auto entries = Recorder(1).chainOf(9);
    const Id chain = entries[0].chain;
    const std::vector<ledger::Loss> lost = {{chain, 2, 9}};
    for (HubStore* store : {static_cast<HubStore*>(&where.shelf()), static_cast<HubStore*>(&memory)}) {
        CHECK(put(*store, {entries[0], entries[1], entries[8]}, lost) == std::vector(3, Put::Created));
        CHECK(store->gapsOf(chain).value() == std::vector<ledger::Loss>{{chain, 2, 9}});
        CHECK(put(*store, {entries[4]}) == std::vector{Put::Gap});
        CHECK(put(*store, {entries[7], entries[6], entries[2]}) == std::vector(3, Put::Created));
        CHECK(store->gapsOf(chain).value() == std::vector<ledger::Loss>{{chain, 3, 7}});
        CHECK(put(*store, {entries[5], entries[3], entries[4], entries[9]}) == std::vector(4, Put::Created));
        CHECK(store->gapsOf(chain).value().empty());
        CHECK(store->tip(chain).value()->sequence == 10);
    }
    CHECK(where.shelf().behind(chain, 0, 99).value() == memory.behind(chain, 0, 99).value());
}

TEMPLATE_TEST_CASE("in whatever order and how often entries come, a hub in a database does what one in memory does", "",
                   HubOnDisk, HubInPostgres)
{
    TestType where;
    sync::MemoryHub memory;
    SeededRandom random(1);
    for (std::uint8_t number = 1; number <= 12; ++number) {
        const auto entries = forkedChain(number);
        const Id chain = entries.front().chain;
        for (int message = 0; message < 12; ++message) {
            const auto some = drawnFrom(entries, random);
            std::vector<ledger::Loss> losses;
            if (random.next() % 3 == 0) {
                losses.push_back({chain, random.next() % 10, random.next() % 20});
            }
            CAPTURE(int(number), message);
            CHECK(put(where.shelf(), some, losses) == put(memory, some, losses));
            CHECK(where.shelf().gapsOf(chain).value() == memory.gapsOf(chain).value());
            CHECK(where.shelf().tip(chain).value() == memory.tip(chain).value());
        }
        CHECK(where.shelf().behind(chain, 0, 99).value() == memory.behind(chain, 0, 99).value());
        CHECK(where.shelf().asides(chain).value() == memory.asides(chain).value());
        checkAlike(where.shelf(), memory, Topic::device(entries.front().header.device));
    }
    checkAlike(where.shelf(), memory, Topic::run(runId));
    checkAlike(where.shelf(), memory, Topic::tank("A"));
}

TEMPLATE_TEST_CASE("more entries than are looked up or added at once are put, and found the same", "", HubOnDisk,
                   HubInPostgres)
{
    TestType where;
    const auto entries = Recorder(1).chainOf(1200);
    CHECK(put(where.shelf(), entries) == std::vector(entries.size(), Put::Created));
    CHECK(put(where.shelf(), entries) == std::vector(entries.size(), Put::Same));
    const auto held = where.shelf().behind(entries.front().chain, 0, 2000).value();
    REQUIRE(held.size() == entries.size());
    CHECK(std::ranges::equal(held, entries, {}, &Held::entry));
    CHECK(where.shelf().list(Topic::device(entries.front().header.device), 0, 9)->last == entries.size());
}

TEMPLATE_TEST_CASE("rows are added as they are, all of them or none", "", HubOnDisk, HubInPostgres)
{
    TestType where;
    const auto add = [&](std::int64_t first, std::int64_t second) {
        const std::vector<hub::SqlValue> values = {
            hub::valueOf(where.site()), first,  std::int64_t{-2},  std::string_view("a\0\\N\n\xFF", 6),
            hub::valueOf(where.site()), second, std::int64_t{300}, std::string_view()};
        return hub::inTransaction(where.sql(), where.site(), [&]() -> Done {
            return where.sql().add({"deeds", "site_id, number, done_at, what", 4, values});
        });
    };
    const auto refused = add(1, 1);
    REQUIRE_FALSE(refused);
    CHECK(refused.error().code == Errc::Conflict);
    CHECK(add(2, 3));
    CHECK(hub::inTransaction(where.sql(), where.site(),
                             [&]() -> Done { return where.sql().add({"deeds", "number", 1}); }));
    const auto rows = where.sql().run("SELECT number, done_at, what FROM deeds WHERE site_id = $1 ORDER BY number",
                                      {hub::valueOf(where.site())});
    REQUIRE(rows);
    REQUIRE(rows->size() == 2);
    CHECK(rows->front().number(0) == 2);
    CHECK(rows->front().number(1) == -2);
    CHECK(rows->front().bytes(2) == std::string("a\0\\N\n\xFF", 6));
    CHECK(rows->back().number(1) == 300);
    CHECK(rows->back().bytes(2).empty());
}

TEMPLATE_TEST_CASE("two sites in one database do not see each other", "", HubOnDisk, HubInPostgres)
{
    TestType where;
    hub::SqlHub other(where.sql(), freshId());
    const auto entries = Recorder(1).chainOf(2);
    put(where.shelf(), entries);
    CHECK(other.tips().value().empty());
    CHECK(other.list(Topic::device(entries[0].header.device), 0, 9)->last == 0);
    CHECK(put(other, entries) == std::vector(3, Put::Created));
    CHECK(where.shelf().tips().value().size() == 1);
}

TEMPLATE_TEST_CASE("a put that fails leaves nothing behind", "", HubOnDisk, HubInPostgres)
{
    TestType where;
    auto entries = Recorder(1).chainOf(2);
    auto beyond = entries[2];
    beyond.header.sequence = std::numeric_limits<std::uint64_t>::max();
    const auto refused = where.shelf().put(std::vector<Held>{{entries[0]}, {beyond}}, {});
    REQUIRE_FALSE(refused);
    CHECK(refused.error().code == Errc::OutOfRange);
    CHECK(where.shelf().tips().value().empty());
    // A failure in the middle of a transaction.
    const auto undone = hub::inTransaction(where.sql(), where.site(), [&]() -> Done {
        const auto made = where.sql().run("INSERT INTO sites (site_id, log_id, made_at) VALUES ($1, $2, $3)",
                                          {hub::valueOf(where.site()), hub::valueOf(where.site()), std::int64_t{1}});
        REQUIRE(made);
        return fail(Errc::Io, "on purpose");
    });
    CHECK_FALSE(undone);
    CHECK(where.sql().run("SELECT made_at FROM sites WHERE site_id = $1", {hub::valueOf(where.site())})->empty());
}

TEMPLATE_TEST_CASE("a database lets no entry be changed or removed", "", HubOnDisk, HubInPostgres)
{
    TestType where;
    put(where.shelf(), Recorder(1).chainOf(1));
    for (const std::string_view statement :
         {"UPDATE entries SET clock = 1 WHERE site_id = $1", "DELETE FROM entries WHERE site_id = $1"}) {
        const auto refused = where.sql().run(statement, {hub::valueOf(where.site())});
        REQUIRE_FALSE(refused);
        CHECK(refused.error().code == Errc::Conflict);
    }
}

TEST_CASE("a file that is none of a hub's, or a newer one's, is refused")
{
    TempFolder folder;
    {
        auto database = hub::SqliteSql::open(folder.file("newer.sqlite"));
        REQUIRE(database);
        REQUIRE((*database)->run("UPDATE hub_layout SET version = 99", {}));
    }
    const auto newer = hub::SqliteSql::open(folder.file("newer.sqlite"));
    REQUIRE_FALSE(newer);
    CHECK(newer.error().code == Errc::Incompatible);
    REQUIRE(store::SqliteJournal::open(folder.file("journal.sqlite")));
    const auto journal = hub::SqliteSql::open(folder.file("journal.sqlite"));
    REQUIRE_FALSE(journal);
    CHECK(journal.error().code == Errc::Corrupt);
    REQUIRE(store::SqliteJournal::open(folder.file("journal.sqlite"))); // it was left as it was
}

TEST_CASE("a hub goes on by itself when PostgreSQL is back")
{
    HubInPostgres where;
    auto& server = PostgresServer::running();
    const auto entries = Recorder(1).chainOf(2);
    CHECK(put(where.shelf(), {entries[0]}) == std::vector{Put::Created});
    server.stop();
    for (int i = 0; i < 2; ++i) {
        const auto away = where.shelf().put(std::vector<Held>{{entries[1]}}, {});
        REQUIRE_FALSE(away);
        CHECK(away.error().code == Errc::Unavailable);
        CHECK(away.error().sentence.find("does not answer") != std::string::npos);
        CHECK_FALSE(where.shelf().tips());
    }
    server.start();
    CHECK(put(where.shelf(), entries) == std::vector{Put::Same, Put::Created, Put::Created});
}

TEMPLATE_TEST_CASE("the places of a statement are told by their numbers", "", HubOnDisk, HubInPostgres)
{
    TestType where;
    REQUIRE(where.sql().run("INSERT INTO sites (site_id, log_id, made_at) VALUES ($1, $1, $2)",
                            {hub::valueOf(where.site()), std::int64_t{-5}}));
    const auto rows = where.sql().run("UPDATE sites SET made_at = $2 WHERE site_id = $1 RETURNING made_at",
                                      {hub::valueOf(where.site()), std::int64_t{-7}});
    REQUIRE(rows);
    REQUIRE(rows->size() == 1);
    CHECK(rows->front().number(0) == -7);
}
