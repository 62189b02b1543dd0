// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// What every journal keeps to, run against each that there is.

#ifdef LOOPSIDE_PLANTED
#include "contract/planted_journal.h"
#endif
#include "ledger/memory_journal.h"
#include "ledger/recorder.h"
#include "ledger/verify.h"
#include "store/sqlite_journal.h"
#include "store/temp_folder.h"

#include <catch2/catch.hpp>

#include <limits>

using namespace loopside;
using namespace loopside::ledger;
using loopside::test::allOf;
using loopside::test::inOrder;
using loopside::test::Recorder;

namespace {

#ifdef LOOPSIDE_PLANTED
using JournalInMemory = loopside::test::PlantedJournal;
#else
using JournalInMemory = MemoryJournal;
#endif

class InMemory
{
public:
    [[nodiscard]] Journal& journal() { return journal_; }
    void reopen() {} // it lasts as long as the program, which a start of the program would end

private:
    JournalInMemory journal_;
};

class OnDisk
{
public:
    OnDisk() { reopen(); }
    [[nodiscard]] Journal& journal() { return *journal_; }
    void reopen()
    {
        journal_.reset();
        auto opened = store::SqliteJournal::open(folder_.file("journal.db"));
        REQUIRE(opened);
        journal_ = std::move(*opened);
    }

private:
    test::TempFolder folder_;
    std::unique_ptr<Journal> journal_;
};

/// An entry with its hash and signature made good after a change.
Entry resealed(Entry entry)
{
    entry.hash = hashOf(entry);
    entry.signature = signatureOf(entry, Recorder::keyOf(1));
    return entry;
}

Errc refusalOf(Journal& journal, const std::vector<Entry>& entries)
{
    const Result<Position> appended = journal.append(entries);
    REQUIRE_FALSE(appended);
    INFO(appended.error().sentence);
    CHECK_FALSE(appended.error().sentence.empty());
    return appended.error().code;
}

} // namespace

TEMPLATE_TEST_CASE("an empty journal has no entry and no head", "", InMemory, OnDisk)
{
    TestType where;
    CHECK(allOf(where.journal()).empty());
    const auto head = where.journal().head(Recorder(1).device());
    REQUIRE(head);
    CHECK_FALSE(head->has_value());
    CHECK(where.journal().append({}).value() == 0);
}

TEMPLATE_TEST_CASE("entries come back byte for byte, in order, without gaps, also after a start", "", InMemory, OnDisk)
{
    TestType where;
    Recorder recorder(1);
    std::string allBytes;
    for (int i = 0; i < 256; ++i) {
        allBytes += static_cast<char>(i);
    }
    std::vector<Entry> entries = recorder.open();
    for (const std::string& body :
         {std::string(), std::string("\0", 1), std::string("a\0b", 3), std::string("\xFF\xC3\x28"), allBytes,
          std::string(100'000, 'x'), std::string("{\"text\":\"35 °C\"}")}) {
        entries.push_back(recorder.notes({body}).front());
    }
    CHECK(where.journal().append(std::span(entries).first(3)).value() == 3);
    CHECK(where.journal().append(std::span(entries).subspan(3)).value() == entries.size());
    CHECK(where.journal().append({}).value() == entries.size());
    CHECK(allOf(where.journal()) == inOrder(entries));
    where.reopen();
    CHECK(allOf(where.journal()) == inOrder(entries));
}

TEMPLATE_TEST_CASE("every field of an envelope comes back at the ends of its range", "", InMemory, OnDisk)
{
    TestType where;
    std::vector<Entry> entries = Recorder(1).chainOf(1);
    Entry& entry = entries[1];
    const bool high = GENERATE(true, false);
    const auto i64 = high ? std::numeric_limits<std::int64_t>::max() : std::numeric_limits<std::int64_t>::min();
    entry.header.entered = {i64, high ? std::numeric_limits<int>::max() : std::numeric_limits<int>::min(),
                            high ? std::numeric_limits<std::uint64_t>::max() : 0, Id{}};
    entry.header.clock = high ? std::numeric_limits<std::uint64_t>::max() : entry.header.clock;
    entry.header.observed = {i64, high ? std::string(textBytesMax, '\xFF') : std::string()};
    entry.header.run = {};
    entry.header.person = {};
    entry.kind = high ? std::string("a\0b", 3) : std::string();
    entry = resealed(entry);
    REQUIRE(where.journal().append(entries));
    where.reopen();
    CHECK(allOf(where.journal()) == inOrder(entries));
}

TEMPLATE_TEST_CASE("reading begins behind a position and stops at a limit", "", InMemory, OnDisk)
{
    TestType where;
    const std::vector<Entry> entries = Recorder(1).chainOf(9);
    REQUIRE(where.journal().append(entries));
    const auto positions = [&](Position after, std::size_t limit) {
        std::vector<Position> found;
        const auto read = where.journal().read(after, limit);
        REQUIRE(read);
        for (const Stored& stored : *read) {
            CHECK(stored.entry == entries[stored.position - 1]);
            found.push_back(stored.position);
        }
        return found;
    };
    CHECK(positions(0, 3) == std::vector<Position>{1, 2, 3});
    CHECK(positions(8, 5) == std::vector<Position>{9, 10});
    CHECK(positions(10, 5).empty());
    CHECK(positions(0, 0).empty());
    CHECK(positions(std::numeric_limits<Position>::max(), std::numeric_limits<std::size_t>::max()).empty());
    CHECK(positions(7, std::numeric_limits<std::size_t>::max()) == std::vector<Position>{8, 9, 10});
}

TEMPLATE_TEST_CASE("a batch with one bad member is refused whole", "", InMemory, OnDisk)
{
    TestType where;
    Recorder recorder(1);
    std::vector<Entry> before = recorder.open();
    REQUIRE(where.journal().append(before));
    const std::vector<Entry> good = recorder.notes({"a", "b", "c"});
    const std::size_t bad = GENERATE(std::size_t{0}, std::size_t{1}, std::size_t{2});

    std::vector<Entry> batch = good;
    batch[bad].previous[0] ^= 1U;
    batch[bad] = resealed(batch[bad]);
    CAPTURE(bad);
    CHECK(refusalOf(where.journal(), batch) == Errc::Conflict);
    CHECK(allOf(where.journal()) == inOrder(before));

    CHECK(where.journal().append(good).value() == 4);
    before.insert(before.end(), good.begin(), good.end());
    where.reopen();
    CHECK(allOf(where.journal()) == inOrder(before));
}

TEMPLATE_TEST_CASE("an entry that does not follow is refused and changes nothing", "", InMemory, OnDisk)
{
    TestType where;
    Recorder recorder(1);
    const std::vector<Entry> there = recorder.chainOf(2);
    REQUIRE(where.journal().append(there));
    Entry next = recorder.sealedNotes({"next"}).front();

    SECTION("the same entry again")
    {
        CHECK(refusalOf(where.journal(), {there[1]}) == Errc::Conflict);
        CHECK(refusalOf(where.journal(), {there[2]}) == Errc::Conflict);
        CHECK(refusalOf(where.journal(), {there[0]}) == Errc::Conflict);
    }
    SECTION("another entry in a place that is taken")
    {
        Entry other = there[2];
        other.header.id = next.header.id;
        other.body = "other";
        CHECK(refusalOf(where.journal(), {resealed(other)}) == Errc::Conflict);
    }
    SECTION("a place is left out")
    {
        next.header.sequence += 1;
        CHECK(refusalOf(where.journal(), {resealed(next)}) == Errc::Conflict);
    }
    SECTION("another entry is named as the one before")
    {
        next.previous = there[1].hash;
        CHECK(refusalOf(where.journal(), {resealed(next)}) == Errc::Conflict);
    }
    SECTION("its hybrid clock stands still")
    {
        next.header.clock = there[2].header.clock;
        CHECK(refusalOf(where.journal(), {resealed(next)}) == Errc::Conflict);
    }
    SECTION("another device made it")
    {
        next.header.device = Recorder(2).device();
        CHECK(refusalOf(where.journal(), {resealed(next)}) == Errc::Conflict);
    }
    SECTION("its id is taken")
    {
        next.header.id = there[1].header.id;
        CHECK(refusalOf(where.journal(), {resealed(next)}) == Errc::Conflict);
    }
    SECTION("its bytes do not have the hash that it states")
    {
        next.body = "altered";
        CHECK(refusalOf(where.journal(), {next}) == Errc::Corrupt);
    }
    SECTION("its format is of a newer version")
    {
        next.format = 2;
        CHECK(refusalOf(where.journal(), {resealed(next)}) == Errc::Incompatible);
    }
    SECTION("it is too long")
    {
        next.body = std::string(bodyBytesMax + 1, 'x');
        CHECK(refusalOf(where.journal(), {resealed(next)}) == Errc::OutOfRange);
    }
    CHECK(allOf(where.journal()) == inOrder(there));
    REQUIRE(where.journal().append(recorder.notes({"the chain goes on"})));
    CHECK(verifyAll(where.journal()).empty());
}

TEMPLATE_TEST_CASE("a chain begins with its opening or not at all", "", InMemory, OnDisk)
{
    TestType where;
    Recorder recorder(1);
    Entry opening = recorder.open().front();
    const Entry second = recorder.notes({"a"}).front();

    SECTION("a later entry comes first")
    {
        CHECK(refusalOf(where.journal(), {second}) == Errc::Conflict);
    }
    SECTION("the first entry is of another kind")
    {
        opening.kind = "note-made";
        CHECK(refusalOf(where.journal(), {resealed(opening)}) == Errc::Conflict);
    }
    SECTION("the opening has another form")
    {
        opening.body += " ";
        CHECK(refusalOf(where.journal(), {resealed(opening)}) == Errc::Malformed);
    }
    SECTION("the opening names another device")
    {
        opening.header.device = Recorder(2).device();
        CHECK(refusalOf(where.journal(), {resealed(opening)}) == Errc::Conflict);
    }
    SECTION("the opening names an entry before it")
    {
        opening.previous[5] = 1;
        CHECK(refusalOf(where.journal(), {resealed(opening)}) == Errc::Conflict);
    }
    CHECK(allOf(where.journal()).empty());
}

TEMPLATE_TEST_CASE("each device's head is the last entry of the chain that it opened last", "", InMemory, OnDisk)
{
    TestType where;
    Recorder one(1);
    Recorder two(2);
    const std::vector<Entry> chain = one.chainOf(2);
    REQUIRE(where.journal().append(chain));
    REQUIRE(where.journal().append(two.open()));
    where.reopen();
    const auto headOf = [&](const Id& device) {
        const auto head = where.journal().head(device);
        REQUIRE((head && head->has_value()));
        return **head;
    };
    CHECK(headOf(one.device())
          == ChainHead{one.device(), chain[2].chain, 3, chain[2].hash, chain[2].header.clock,
                       Recorder::keyOf(1).publicKey()});
    CHECK(headOf(two.device()).sequence == 1);

    SECTION("after a restore too")
    {
        Sealer restored = Sealer::startChain(one.device(), Recorder::idOf(0xC0, 77), Recorder::keyOf(3),
                                             ParentChain{chain[1].chain, chain[1].hash});
        SeededRandom random(5);
        IdMaker ids(random);
        const Draft draft = restored.chainOpened();
        REQUIRE(where.journal().append(restored.seal(std::span(&draft, 1), {}, {}, ids)));
        where.reopen();
        CHECK(headOf(one.device()).chain == Recorder::idOf(0xC0, 77));
        CHECK(headOf(one.device()).sequence == 1);
        CHECK(headOf(one.device()).publicKey == Recorder::keyOf(3).publicKey());
        CHECK(verifyAll(where.journal()).empty());
    }
}

TEMPLATE_TEST_CASE("a chain goes on after a start", "", InMemory, OnDisk)
{
    TestType where;
    Recorder recorder(1);
    REQUIRE(where.journal().append(recorder.open()));
    SeededRandom random(5);
    IdMaker ids(random);
    for (int start = 0; start < 3; ++start) {
        where.reopen();
        const auto head = where.journal().head(recorder.device());
        REQUIRE((head && head->has_value()));
        Result<Sealer> sealer = Sealer::continueChain(**head, Recorder::keyOf(1));
        REQUIRE(sealer);
        const std::vector<Draft> drafts(2, Draft{"note-made", "start " + std::to_string(start), {}, {}, {}});
        const std::vector<Entry> entries = sealer->seal(drafts, {1000, 0, 0, {}}, {}, ids);
        REQUIRE(where.journal().append(entries));
    }
    CHECK(allOf(where.journal()).size() == 7);
    CHECK(verifyAll(where.journal()).empty());
}
