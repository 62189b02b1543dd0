// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "sync/tablet_side.h"

#include "ledger/memory_journal.h"
#include "sync/handmade.h"
#include "sync/journal_shelf.h"

using namespace loopside;
using namespace loopside::sync;
using namespace loopside::test;

namespace {

/// A tablet with what outlives its program.
struct Tablet
{
    Recorder recorder;
    ledger::MemoryJournal journal = {};
    std::unique_ptr<JournalShelf> own = {};
    MemoryShelf foreign{MemoryShelf::Keeps::Singly};
    std::unique_ptr<TabletSide> side = {};

    explicit Tablet(std::uint8_t number, int notes = 3) : recorder{number}
    {
        REQUIRE(journal.append(recorder.chainOf(notes)));
        start({});
    }

    void start(const Progress& progress)
    {
        side.reset();
        own = *JournalShelf::open(journal, [](const ledger::Entry&) -> Done { return {}; });
        side = std::make_unique<TabletSide>(someSite(), recorder.device(), *own, std::vector<ledger::Loss>(),
                                            std::set<Topic>{Topic::catalogue()}, progress);
    }

    void write(const std::string& kind, const std::string& body)
    {
        const auto entries = recorder.seal({{kind, body, Recorder::idOf(0xA0, 1), {}, {}}});
        recorder.sealer().accept(entries);
        REQUIRE(journal.append(entries));
        REQUIRE(own->refresh());
    }

    Heard hear(const sync::Message& message)
    {
        const auto heard = side->hear(message);
        REQUIRE(heard);
        REQUIRE(foreign.put(heard->entries, {}));
        side->accept(*heard);
        return *heard;
    }

    /// Until nothing is left to say; how many messages that took.
    int talkTo(Hub& hub, std::int64_t nowMs = aboutNowMs)
    {
        side->beginRound();
        for (int said = 0; said < 100; ++said) {
            const auto message = side->say();
            REQUIRE(message);
            if (!*message) {
                return said;
            }
            const auto answer = hub.side.hear(**message, nowMs);
            REQUIRE(answer);
            hear(*answer);
        }
        FAIL("a round does not end");
        return 0;
    }

    /// It refuses `message` with `code`, in a sentence that has `words`, and stands where it stood.
    void refuses(const sync::Message& message, Errc code, const std::string& words)
    {
        const Progress before = side->progress();
        const auto heard = side->hear(message);
        REQUIRE_FALSE(heard);
        CHECK(heard.error().code == code);
        CHECK_THAT(heard.error().sentence, Catch::Contains(words));
        CHECK(side->progress() == before);
    }
};

} // namespace

TEST_CASE("a tablet hands over what it wrote, keeps the receipt, and hears what others wrote")
{
    Hub hub;
    Tablet one(1);
    Tablet two(2);
    one.write("tank-put", "a tank");
    CHECK(one.talkTo(hub) == 3); // the greeting, the entries, the question
    CHECK(one.side->progress().receipts.begin()->second.mark.sequence == 5);
    two.talkTo(hub);
    const auto heard = two.foreign.at(one.recorder.sealer().chain(), 5).value();
    REQUIRE(heard);
    CHECK(heard->entry.body == "a tank");
    CHECK(two.foreign.tips().value().size() == 1); // its notes of a run do not interest
    CHECK(one.talkTo(hub) == 2);                   // nothing new: the greeting and the question
}

TEST_CASE("a tablet says the same until it is answered, and after a start goes on from its receipt")
{
    Hub hub;
    Tablet tablet(1, 600);
    const auto first = tablet.side->say().value();
    CHECK(tablet.side->say().value() == first);
    tablet.talkTo(hub);
    CHECK(hub.count() == 601);
    tablet.write("noted", "one more");
    tablet.start(tablet.side->progress());
    tablet.hear(*hub.side.hear(**tablet.side->say(), aboutNowMs));
    const auto said = std::get<HandOver>((*tablet.side->say())->said);
    CHECK(said.entries.size() == 1);
}

TEST_CASE("batches are bounded in entries and in bytes")
{
    Hub hub;
    Tablet tablet(1, 0);
    const std::size_t bodyBytes = GENERATE(std::size_t{10}, std::size_t{50'000}, ledger::bodyBytesMax);
    for (int i = 0; i < 300 && (bodyBytes == 10 || i < 12); ++i) {
        tablet.write("noted", std::string(bodyBytes, 'x'));
    }
    tablet.hear(*hub.side.hear(**tablet.side->say(), aboutNowMs));
    const auto message = **tablet.side->say();
    const std::size_t entries = std::get<HandOver>(message.said).entries.size();
    CHECK(entries == (bodyBytes == 10 ? entriesMost : bodyBytes == 50'000 ? 6 : 1));
    CHECK(bytesOf(message).size() < messageBytesMax);
    tablet.talkTo(hub);
    CHECK(hub.count() == tablet.recorder.sealer().sequence());
}

TEST_CASE("a hub that comes back from an older copy is handed everything again")
{
    Hub hub;
    Tablet tablet(1);
    tablet.talkTo(hub);
    const SignedMark old = tablet.side->progress().receipts.begin()->second;
    const Id log = GENERATE(Recorder::idOf(0x10, 2), Recorder::idOf(0x10, 1)); // the second one says so to nobody
    Hub restored(log);
    const auto all = restored.take({ledger::Stored(allOf(tablet.journal)[0]).entry}, aboutNowMs + 1);
    CHECK(all.marks.size() == 1);
    tablet.talkTo(restored, aboutNowMs + 2);
    CHECK(restored.count() == 4);
    CHECK(tablet.side->progress().receipts.begin()->second.mark.sequence == old.mark.sequence);
    CHECK(tablet.side->progress().log == log);
}

TEST_CASE("a tablet that was put back to an older copy is told, and gets back what it lost")
{
    Hub hub;
    Tablet tablet(1, 5);
    tablet.talkTo(hub);
    const auto before = allOf(tablet.journal);
    tablet.side.reset();
    tablet.own.reset();
    tablet.journal = {};
    REQUIRE(tablet.journal.append(std::vector{before[0].entry, before[1].entry}));
    tablet.start({});
    const Heard heard = tablet.hear(*hub.side.hear(**tablet.side->say(), aboutNowMs));
    CHECK(heard.forked == std::set<Id>{before[0].entry.chain});
    tablet.talkTo(hub);
    for (std::size_t i = 2; i < before.size(); ++i) {
        const auto there = tablet.foreign.at(before[i].entry.chain, i + 1).value();
        REQUIRE(there);
        CHECK(there->entry == before[i].entry);
    }
    CHECK(hub.count() == 6);
}

TEST_CASE("a tablet hands over what a bundle brought it of another, of which the hub may know more")
{
    Hub hub;
    Tablet writer(1, 9);
    Tablet bringer(2, 1);
    const auto all = allOf(writer.journal);
    REQUIRE(bringer.journal.append(std::vector{all[0].entry, all[1].entry, all[2].entry}));
    REQUIRE(bringer.own->refresh());
    bringer.talkTo(hub);
    CHECK(hub.count() == 5);
    writer.talkTo(hub);
    CHECK(hub.count() == 12);
    bringer.side->beginRound();
    const Heard heard = bringer.hear(*hub.side.hear(**bringer.side->say(), aboutNowMs));
    CHECK(heard.forked.empty());
    CHECK(bringer.talkTo(hub) == 2); // nothing is handed over twice, and nothing of the writer's is asked for
}

TEST_CASE("a tablet fills the gap of a hub that was told as lost, once it has what was lost")
{
    Hub hub;
    const int notes = GENERATE(8, 700);
    Tablet tablet(1, notes);
    const auto all = allOf(tablet.journal);
    HandOver damaged{tablet.recorder.device(), {}, {{all[0].entry.chain, 2, all.size()}}};
    damaged.entries = {all[0].entry, all[1].entry, all.back().entry};
    REQUIRE(hub.hear(damaged));
    CHECK(hub.count() == 3);
    for (int round = 0; round < 4; ++round) {
        tablet.talkTo(hub);
    }
    CHECK(hub.count() == all.size());
    CHECK(tablet.talkTo(hub) == 2);
}

TEST_CASE("a tablet believes no mark but its hub's")
{
    Hub hub;
    Tablet tablet(1);
    Marks marks = hub.take({allOf(tablet.journal)[0].entry});
    const sync::Message good{someSite().id, marks};
    CHECK(tablet.side->hear(good));
    Mark& mark = marks.marks.front().mark;
    SECTION("forged by another key")
    {
        marks.marks.front() = signedBy(Recorder::keyOf(3), mark);
        tablet.refuses({someSite().id, marks}, Errc::Corrupt, "not signed by the hub of this site");
    }
    SECTION("a higher sequence written in")
    {
        mark.sequence = 4;
        tablet.refuses({someSite().id, marks}, Errc::Corrupt, "not signed by the hub of this site");
    }
    SECTION("of another record of the hub, shown as of this one")
    {
        marks.log = Recorder::idOf(0x10, 7);
        tablet.refuses({someSite().id, marks}, Errc::Conflict, "of another record of the hub");
    }
    SECTION("of another site with the same key")
    {
        Mark other = mark;
        other.site = Recorder::idOf(0x51, 2);
        marks.marks.front() = signedBy(Recorder::keyOf(hubNumber), other);
        tablet.refuses({someSite().id, marks}, Errc::Conflict, "of another site");
    }
    SECTION("in a message of another site")
    {
        tablet.refuses({Recorder::idOf(0x51, 2), marks}, Errc::Conflict, "this tablet belongs to the site");
    }
    SECTION("what only a tablet says")
    {
        tablet.refuses({someSite().id, Ask{}}, Errc::Malformed, "what a tablet says");
    }
}

TEST_CASE("a tablet takes no page that was touched, and no entry that the hub does not vouch for")
{
    Hub hub;
    Tablet writer(1);
    writer.write("tank-put", "a tank");
    writer.write("cart-put", "a cart");
    writer.talkTo(hub);
    Tablet tablet(2);
    Page page = hub.page(tablet.recorder.device(), {{Topic::catalogue(), 0}});
    CHECK(tablet.side->hear({someSite().id, page}));
    const auto sign = [&](std::uint8_t key) {
        page.signature = Recorder::keyOf(key).sign(signedBytes(someSite().id, page));
    };
    SECTION("an entry left out on the way")
    {
        page.entries.pop_back();
        tablet.refuses({someSite().id, page}, Errc::Corrupt, "a page is not signed");
    }
    SECTION("said to have more than it has")
    {
        page.sections.front().upTo = 1;
        tablet.refuses({someSite().id, page}, Errc::Corrupt, "a page is not signed");
    }
    SECTION("the mark of a clock ahead taken away or put on")
    {
        page.entries.front().isAhead = true;
        tablet.refuses({someSite().id, page}, Errc::Corrupt, "a page is not signed");
    }
    SECTION("signed by another")
    {
        sign(3);
        tablet.refuses({someSite().id, page}, Errc::Corrupt, "a page is not signed");
    }
    SECTION("an entry by another key, though the hub passes it on")
    {
        page.entries.front().entry = resealed(page.entries.front().entry, 3);
        sign(hubNumber);
        tablet.refuses({someSite().id, page}, Errc::Corrupt, "is not signed by the device");
    }
    SECTION("an entry that was changed, though the hub passes it on")
    {
        page.entries.front().entry.body += " ";
        sign(hubNumber);
        tablet.refuses({someSite().id, page}, Errc::Corrupt, "was changed");
    }
    SECTION("an entry beyond the mark")
    {
        Mark mark = page.marks.front().mark;
        mark.sequence = 5;
        mark.hash = page.entries.front().entry.hash;
        page.marks.front() = signedBy(Recorder::keyOf(hubNumber), mark);
        tablet.refuses({someSite().id, page}, Errc::Conflict, "is not what the site hub's mark says");
    }
    SECTION("without a mark")
    {
        page.marks.clear();
        tablet.refuses({someSite().id, page}, Errc::Conflict, "without the hub's mark");
    }
    SECTION("with a mark of an entry that is kept aside")
    {
        Mark mark = page.marks.front().mark;
        mark.isAside = true;
        page.marks.front() = signedBy(Recorder::keyOf(hubNumber), mark);
        tablet.refuses({someSite().id, page}, Errc::Conflict, "is not of the chain");
    }
}

TEST_CASE("a page that comes late, again or for another question moves no place forward")
{
    Hub hub;
    Tablet writer(1);
    writer.write("tank-put", "a tank");
    writer.write("cart-put", "a cart");
    writer.talkTo(hub);
    Tablet tablet(2);
    const sync::Message behindFirst{someSite().id, hub.page(tablet.recorder.device(), {{Topic::catalogue(), 1}})};
    tablet.hear(behindFirst); // was asked before a restore
    CHECK(tablet.side->progress().places.at(Topic::catalogue()) == 0);
    const sync::Message all{someSite().id, hub.page(tablet.recorder.device(), {{Topic::catalogue(), 0}})};
    tablet.hear(all);
    CHECK(tablet.side->progress().places.at(Topic::catalogue()) == 2);
    const Progress after = tablet.side->progress();
    tablet.hear(all);
    tablet.hear(behindFirst);
    CHECK(tablet.side->progress() == after);
    CHECK(tablet.foreign.behind(writer.recorder.sealer().chain(), 0, 10).value().size() == 2);
}

TEST_CASE("a refusal is told and changes nothing")
{
    Tablet tablet(1);
    const Heard heard = tablet.hear(refusalOf(someSite().id, {Errc::Incompatible, "update first"}));
    REQUIRE(heard.refusal);
    CHECK(heard.refusal->sentence == "update first");
    CHECK(tablet.side->progress() == Progress{});
    CHECK(tablet.side->say().value().has_value());
}

TEST_CASE("a chain that the hub cannot take waits for the next round and holds up no other")
{
    Hub hub;
    Tablet tablet(1, 1);
    const Id chain = tablet.recorder.sealer().chain();
    tablet.hear({someSite().id, Marks{Recorder::idOf(0x10, 1), {}, {}, {chain}, {}, {chain}}});
    const auto next = tablet.side->say().value();
    REQUIRE(next);
    CHECK(std::holds_alternative<Ask>(next->said));
    tablet.talkTo(hub);
    CHECK(hub.count() == 2);
}
