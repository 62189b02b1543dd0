// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "sync/hub_side.h"

#include "sync/handmade.h"

using namespace loopside;
using namespace loopside::sync;
using namespace loopside::test;

namespace {

HandOver handOver(std::vector<ledger::Entry> entries)
{
    HandOver said{Recorder::idOf(0xD0, 1)};
    said.entries = std::move(entries);
    return said;
}

/// The hub refuses `said` with `code`, in a sentence that has `words`, and holds what it held.
void refuses(Hub& hub, const sync::Message& said, Errc code, const std::string& words)
{
    const std::size_t before = hub.count();
    const auto answer = hub.side.hear(said, aboutNowMs);
    REQUIRE_FALSE(answer);
    CHECK(answer.error().code == code);
    CHECK_THAT(answer.error().sentence, Catch::Contains(words));
    CHECK(hub.count() == before);
}

} // namespace

TEST_CASE("what a hub takes in it marks, signed, and holds byte for byte")
{
    Hub hub;
    const auto entries = Recorder(1).chainOf(3);
    const Marks marks = hub.take(entries);
    REQUIRE(marks.marks.size() == 1);
    const SignedMark& mark = marks.marks.front();
    CHECK(isSignedBy(mark, someSite().hub));
    CHECK(mark.mark.sequence == 4);
    CHECK(mark.mark.hash == entries.back().hash);
    CHECK(mark.mark.device == entries.back().header.device);
    CHECK(mark.mark.key == Recorder::keyOf(1).publicKey());
    CHECK(mark.mark.atMs == aboutNowMs);
    CHECK(hub.store.at(entries[2].chain, 3).value()->entry == entries[2]);
}

TEST_CASE("a mark that was touched is not believed, whichever of its parts it was")
{
    Hub hub;
    const SignedMark good = hub.take(Recorder(1).chainOf(1)).marks.front();
    const auto touched = [&](auto change) {
        SignedMark mark = good;
        change(mark);
        return isSignedBy(mark, someSite().hub);
    };
    CHECK(touched([](SignedMark&) {}));
    CHECK_FALSE(touched([](SignedMark& mark) { mark.mark.site.bytes[1] ^= 1U; }));
    CHECK_FALSE(touched([](SignedMark& mark) { mark.mark.log.bytes[1] ^= 1U; }));
    CHECK_FALSE(touched([](SignedMark& mark) { mark.mark.device.bytes[1] ^= 1U; }));
    CHECK_FALSE(touched([](SignedMark& mark) { mark.mark.key[1] ^= 1U; }));
    CHECK_FALSE(touched([](SignedMark& mark) { mark.mark.chain.bytes[1] ^= 1U; }));
    CHECK_FALSE(touched([](SignedMark& mark) { ++mark.mark.sequence; }));
    CHECK_FALSE(touched([](SignedMark& mark) { mark.mark.hash[1] ^= 1U; }));
    CHECK_FALSE(touched([](SignedMark& mark) { mark.mark.isAside = true; }));
    CHECK_FALSE(touched([](SignedMark& mark) { ++mark.mark.atMs; }));
    CHECK_FALSE(touched([](SignedMark& mark) { mark.signature[1] ^= 1U; }));
}

TEST_CASE("the same again, late and out of order changes nothing at a hub")
{
    Hub hub;
    const auto entries = Recorder(1).chainOf(5);
    hub.take({entries[0], entries[1], entries[2]});
    const Marks late = hub.take({entries[4], entries[5]}); // the one before is still under way
    CHECK(late.marks.empty());
    CHECK(late.gaps == std::vector<Id>{entries[0].chain});
    CHECK(hub.count() == 3);
    hub.take({entries[1], entries[2], entries[3]});
    const Marks again = hub.take({entries[0], entries[1]}); // comes once more
    CHECK(again.marks.front().mark.sequence == 2);
    CHECK(hub.count() == 4);
    CHECK(hub.take({entries[4], entries[5]}).marks.front().mark.sequence == 6);
    CHECK(hub.count() == 6);
}

TEST_CASE("two entries for one place are both kept, and said")
{
    Hub hub;
    Recorder recorder(1);
    const auto entries = recorder.chainOf(2);
    const auto one = recorder.sealedNotes({"one"}).front();
    const auto other = recorder.notes({"the other"}).front(); // a copy of the tablet wrote it
    const auto behindOther = recorder.notes({"goes on", "and on"});
    hub.take(entries);
    hub.take({one});
    const Marks marks = hub.take({other, behindOther.front()});
    REQUIRE(marks.clashes.size() == 2);
    CHECK(marks.clashes.front() == Clash{other.chain, 4, other.hash});
    CHECK(marks.marks.front().mark.isAside);
    CHECK(marks.marks.front().mark.hash == behindOther.front().hash);
    CHECK(hub.take({behindOther[1]}).marks.front().mark.isAside); // though its place is free
    CHECK(hub.store.at(one.chain, 4).value()->entry == one);
    CHECK(hub.store.asides(one.chain).value() == std::vector<ledger::Entry>{other, behindOther[0], behindOther[1]});
}

TEST_CASE("a hub takes no entry that its device did not write")
{
    Hub hub;
    const auto entries = Recorder(1).chainOf(2);
    hub.take({entries[0]});
    ledger::Entry entry = entries[1];
    SECTION("its signature is another's")
    {
        refuses(hub, {someSite().id, handOver({resealed(entry, 2)})}, Errc::Corrupt, "is not signed by the device");
    }
    SECTION("it has no signature")
    {
        entry.signature = {};
        refuses(hub, {someSite().id, handOver({entry})}, Errc::Corrupt, "is not signed by the device");
    }
    SECTION("its body was changed")
    {
        entry.body += " ";
        refuses(hub, {someSite().id, handOver({entry})}, Errc::Corrupt, "was changed");
    }
    SECTION("its layout is a newer one")
    {
        entry.format = 2;
        refuses(hub, {someSite().id, handOver({resealed(entry, 1)})}, Errc::Incompatible, "newer version");
    }
    SECTION("it is too long")
    {
        entry.body = std::string(ledger::bodyBytesMax + 1, 'x');
        refuses(hub, {someSite().id, handOver({resealed(entry, 1)})}, Errc::OutOfRange, "longer than an entry may be");
    }
    SECTION("it has no place")
    {
        entry.header.sequence = 0;
        refuses(hub, {someSite().id, handOver({resealed(entry, 1)})}, Errc::OutOfRange, "no place in its chain");
    }
    SECTION("one of many is not right: none of them is taken")
    {
        refuses(hub, {someSite().id, handOver({entry, resealed(entries[2], 2)})}, Errc::Corrupt, "entry 3 of chain");
    }
}

TEST_CASE("a hub takes no chain that is not opened by its device and key")
{
    Hub hub;
    ledger::Entry opening = Recorder(1).open().front();
    SECTION("it opens for another device")
    {
        opening.body = Recorder(2).open().front().body;
    }
    SECTION("it opens with another key")
    {
        opening.body = bodyOf(ledger::ChainOpening{Recorder(1).device(), Recorder::keyOf(3).publicKey()});
    }
    SECTION("it is of another kind")
    {
        opening.kind = "noted";
    }
    refuses(hub, {someSite().id, handOver({resealed(opening, 1)})}, Errc::Conflict, "open");
}

TEST_CASE("a device writes into no other device's chain")
{
    Hub hub;
    Recorder recorder(1);
    const auto entries = recorder.chainOf(1);
    hub.take(entries);
    ledger::Entry forged = recorder.sealedNotes({"by another"}).front();
    forged.header.device = Recorder(2).device();
    const Marks marks = hub.take({resealed(forged, 2)});
    CHECK(marks.clashes.size() == 1);
    CHECK_FALSE(hub.store.at(forged.chain, 3).value());
    CHECK(hub.take(recorder.notes({"by itself"})).marks.front().mark.sequence == 3);
}

TEST_CASE("a message of another site, of a device that is not enrolled, or too long is refused")
{
    Hub hub;
    const auto entries = Recorder(1).chainOf(1);
    refuses(hub, {Recorder::idOf(0x51, 2), handOver(entries)}, Errc::Conflict, "for the site 51000000");
    refuses(hub, {someSite().id, handOver(Recorder(17).chainOf(1))}, Errc::Conflict, "is not enrolled at this site");
    refuses(hub, {someSite().id, handOver(std::vector(entriesMost + 1, entries[0]))}, Errc::OutOfRange,
            "at most 256 entries, not 257");
    HandOver many{Recorder(1).device(), std::vector<Id>(listedMost + 1)};
    refuses(hub, {someSite().id, many}, Errc::OutOfRange, "at most 512 chains");
    Ask asked{Recorder(1).device(), std::vector<Place>(listedMost + 1)};
    refuses(hub, {someSite().id, asked}, Errc::OutOfRange, "at most 512 places");
    refuses(hub, {someSite().id, Marks{}}, Errc::Malformed, "what a hub says");
}

TEST_CASE("a gap that was told as lost is passed over, and filled by what turns up later")
{
    Hub hub;
    const auto entries = Recorder(1).chainOf(5);
    hub.take({entries[0], entries[1]});
    HandOver said = handOver({entries[4], entries[5]});
    said.losses = {{entries[0].chain, 2, 5}};
    const auto answer = hub.hear(said);
    REQUIRE(answer);
    CHECK(std::get<Marks>(answer->said).marks.front().mark.sequence == 6);
    CHECK(hub.count() == 4);
    CHECK(hub.store.gapsOf(entries[0].chain).value() == said.losses);
    CHECK(hub.take({entries[2], entries[3]}).marks.front().mark.sequence == 4);
    CHECK(hub.count() == 6);
    CHECK(hub.store.gapsOf(entries[0].chain).value().empty());
}

TEST_CASE("an entry whose clock is over an hour ahead of the hub is stored and marked")
{
    Hub hub;
    const auto entries = Recorder(1).chainOf(1);
    const auto clockMs = static_cast<std::int64_t>(entries[1].header.clock >> 16U);
    const std::int64_t behindMs = GENERATE(3'599'999, 3'600'000, 3'600'001, 86'400'000);
    CAPTURE(behindMs);
    hub.take(entries, clockMs - behindMs);
    CHECK(hub.store.at(entries[1].chain, 2).value()->isAhead == (behindMs > 3'600'000));
    const Page page = hub.page(Recorder(2).device(), {{Topic::device(Recorder(1).device()), 0}});
    REQUIRE(page.entries.size() == 2);
    CHECK(page.entries[1].isAhead == (behindMs > 3'600'000));
}

TEST_CASE("a page has at most so many entries and bytes, and the next one goes on from there")
{
    Hub hub;
    Recorder recorder(1);
    std::vector<ledger::Entry> entries = recorder.open();
    const std::size_t bodyBytes = GENERATE(std::size_t{1}, std::size_t{40'000}, std::size_t{900'000});
    const std::size_t count = bodyBytes == 1 ? 600 : 12;
    hub.take(entries);
    for (std::size_t i = 0; i < count; ++i) {
        entries.push_back(recorder.notes({std::string(bodyBytes, 'x')}).front());
        hub.take({entries.back()});
    }
    std::vector<ledger::Entry> heard;
    std::uint64_t after = 0;
    int pages = 0;
    do {
        const Page page = hub.page(Recorder(2).device(), {{Topic::device(recorder.device()), after}});
        REQUIRE(page.sections.front().upTo > after);
        CHECK(page.entries.size() <= entriesMost);
        CHECK(bytesOf(sync::Message{someSite().id, page}).size() < (bodyBytes == 1 ? 400'000 : batchBytes + 1'000'000));
        std::ranges::transform(page.entries, std::back_inserter(heard), &Held::entry);
        after = page.sections.front().upTo;
        ++pages;
    } while (after < entries.size());
    CHECK(heard == entries);
    CHECK(pages >= 2);
}
