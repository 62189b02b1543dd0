// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "ledger/chain.h"

#include "base/text.h"
#include "ledger/memory_journal.h"
#include "ledger/recorder.h"
#include "ledger/verify.h"

#include <catch2/catch.hpp>

using namespace loopside;
using namespace loopside::ledger;
using loopside::test::allOf;
using loopside::test::inOrder;
using loopside::test::Recorder;

TEST_CASE("a chain's first entry says in one fixed form whose it is")
{
    ChainOpening opening;
    opening.device = idFromText("00000000-0000-4000-8000-0000000000d1").value();
    opening.publicKey.fill(0xAB);
    const std::string key = "abababababababababababababababababababababababababababababababab";

    SECTION("a chain without a parent")
    {
        CHECK(bodyOf(opening)
              == "{\"device\":\"00000000-0000-4000-8000-0000000000d1\",\"public_key\":\"" + key
                  + "\",\"parent_chain\":null,\"parent_hash\":null}");
    }
    SECTION("a chain that goes on from another")
    {
        opening.parent = ParentChain{idFromText("00000000-0000-4000-8000-0000000000c1").value(), {}};
        opening.parent->last.fill(0x0F);
        CHECK(bodyOf(opening)
              == "{\"device\":\"00000000-0000-4000-8000-0000000000d1\",\"public_key\":\"" + key
                  + "\",\"parent_chain\":\"00000000-0000-4000-8000-0000000000c1\",\"parent_hash\":\""
                  + "0f0f0f0f0f0f0f0f0f0f0f0f0f0f0f0f0f0f0f0f0f0f0f0f0f0f0f0f0f0f0f0f\"}");
    }
    const Result<ChainOpening> read = chainOpeningFrom(bodyOf(opening));
    REQUIRE(read);
    CHECK(*read == opening);
}

TEST_CASE("an opening cut short or with any sign changed to another case is refused")
{
    ChainOpening opening;
    opening.publicKey.fill(0xAB);
    opening.parent = ParentChain{};
    const std::string body = bodyOf(opening);
    for (std::size_t length = 0; length < body.size(); ++length) {
        CAPTURE(length);
        CHECK_FALSE(chainOpeningFrom(std::string_view(body).substr(0, length)));
        std::string changed = body;
        changed[length] = static_cast<char>(changed[length] ^ 0x20);
        CHECK_FALSE(chainOpeningFrom(changed));
    }
    CHECK_FALSE(chainOpeningFrom(body + " "));
}

TEST_CASE("a sealer gives each draft its place, its link and its signature")
{
    Recorder recorder(1);
    std::vector<Entry> entries = recorder.open();
    for (const Entry& entry : recorder.notes({"a", "b"})) {
        entries.push_back(entry);
    }
    REQUIRE(entries.size() == 3);
    CHECK(entries[0].kind == "chain-opened");
    CHECK(entries[0].previous == Hash{});
    for (std::size_t i = 0; i < entries.size(); ++i) {
        CAPTURE(i);
        CHECK(entries[i].header.sequence == i + 1);
        CHECK(entries[i].hash == hashOf(entries[i]));
        CHECK(isSignedBy(entries[i], Recorder::keyOf(1).publicKey()));
        if (i > 0) {
            CHECK(entries[i].previous == entries[i - 1].hash);
            CHECK(entries[i].header.clock > entries[i - 1].header.clock);
            CHECK(entries[i].header.id > entries[i - 1].header.id);
        }
    }
    CHECK(entries[2].body == "b");
    CHECK(entries[2].header.observed == run::Observed{60'000, "said"});
}

TEST_CASE("entries that were not accepted leave the sealer where it stood")
{
    Recorder recorder(1);
    MemoryJournal journal;
    REQUIRE(journal.append(recorder.open()));

    const std::vector<Entry> lost = recorder.sealedNotes({"the disk was full"});
    const std::vector<Entry> kept = recorder.sealedNotes({"the disk had room"});
    CHECK(lost[0].header.sequence == kept[0].header.sequence);
    CHECK(lost[0].previous == kept[0].previous);
    REQUIRE(journal.append(kept));
    recorder.sealer().accept(kept);
    REQUIRE(journal.append(recorder.notes({"and went on"})));
    CHECK(verifyAll(journal).empty());
}

TEST_CASE("a chain goes on from its head, after all it had, with its own key alone")
{
    Recorder recorder(1);
    MemoryJournal journal;
    REQUIRE(journal.append(recorder.chainOf(3)));
    const auto head = journal.head(recorder.device());
    REQUIRE((head && head->has_value()));

    SECTION("its own key")
    {
        Result<Sealer> sealer = Sealer::continueChain(**head, Recorder::keyOf(1));
        REQUIRE(sealer);
        SeededRandom random(99);
        IdMaker ids(random);
        const Draft draft{"note-made", "after a start", {}, {}};
        const Stamp longAgo{1000, 0, 0, {}};
        const std::vector<Entry> entries = sealer->seal(std::span(&draft, 1), longAgo, {}, ids);
        CHECK(entries[0].header.clock == (*head)->clock + 1);
        REQUIRE(journal.append(entries));
        CHECK(verifyAll(journal).empty());
    }
    SECTION("another key")
    {
        const Result<Sealer> sealer = Sealer::continueChain(**head, Recorder::keyOf(2));
        REQUIRE_FALSE(sealer);
        CHECK(sealer.error().code == Errc::Conflict);
    }
}

TEST_CASE("a sealer's entries come after what it heard from elsewhere, also between sealing and accepting")
{
    Recorder recorder(1);
    const std::vector<Entry> first = recorder.open();
    const std::uint64_t ahead = first[0].header.clock + (std::uint64_t{3'600'000} << 16U);
    const std::vector<Entry> sealed = recorder.sealedNotes({"a"});
    recorder.sealer().heard(ahead);
    recorder.sealer().accept(sealed);
    CHECK(recorder.notes({"b"})[0].header.clock == ahead + 1);
}
