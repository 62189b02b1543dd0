// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "ledger/verify.h"

#include "ledger/memory_journal.h"
#include "ledger/recorder.h"

#include <catch2/catch.hpp>

#include <functional>

using namespace loopside;
using namespace loopside::ledger;
using loopside::test::inOrder;
using loopside::test::Recorder;

namespace {

std::vector<Fault> faultsOf(const std::vector<Stored>& stored)
{
    Verifier verifier;
    for (const Stored& each : stored) {
        verifier.take(each);
    }
    return verifier.faults();
}

/// Adds `original` with each byte of one field turned in turn.
template<class Bytes>
void turnBytes(std::vector<Entry>& turned, const Entry& original, const std::function<Bytes&(Entry&)>& field)
{
    const std::size_t size = [&] {
        Entry entry = original;
        return field(entry).size();
    }();
    for (std::size_t i = 0; i < size; ++i) {
        turned.push_back(original);
        auto& byte = field(turned.back())[i];
        byte = static_cast<std::decay_t<decltype(byte)>>(byte ^ 0x01);
    }
}

template<class Number>
void turnNumber(std::vector<Entry>& turned, const Entry& original, const std::function<Number&(Entry&)>& field)
{
    for (std::size_t i = 0; i < sizeof(Number); ++i) {
        turned.push_back(original);
        Number& number = field(turned.back());
        number = static_cast<Number>(static_cast<std::uint64_t>(number) ^ (std::uint64_t{1} << (8 * i)));
    }
}

/// `original` with one byte turned, once for every byte that it has.
std::vector<Entry> everyByteTurned(const Entry& original)
{
    using Bytes16 = std::array<std::uint8_t, 16>;
    std::vector<Entry> turned;
    turnNumber<std::uint16_t>(turned, original, [](Entry& e) -> auto& { return e.format; });
    turnBytes<Bytes16>(turned, original, [](Entry& e) -> auto& { return e.header.id.bytes; });
    turnBytes<Bytes16>(turned, original, [](Entry& e) -> auto& { return e.header.device.bytes; });
    turnBytes<Bytes16>(turned, original, [](Entry& e) -> auto& { return e.chain.bytes; });
    turnNumber<std::uint64_t>(turned, original, [](Entry& e) -> auto& { return e.header.sequence; });
    turnNumber<std::uint64_t>(turned, original, [](Entry& e) -> auto& { return e.header.clock; });
    turnBytes<Bytes16>(turned, original, [](Entry& e) -> auto& { return e.header.run.bytes; });
    turnBytes<Bytes16>(turned, original, [](Entry& e) -> auto& { return e.header.person.bytes; });
    turnNumber<std::int64_t>(turned, original, [](Entry& e) -> auto& { return e.header.entered.wallMs; });
    turnNumber<int>(turned, original, [](Entry& e) -> auto& { return e.header.entered.offsetMin; });
    turnNumber<std::uint64_t>(turned, original, [](Entry& e) -> auto& { return e.header.entered.monoNs; });
    turnBytes<Bytes16>(turned, original, [](Entry& e) -> auto& { return e.header.entered.boot.bytes; });
    turnNumber<std::int64_t>(turned, original, [](Entry& e) -> auto& { return e.header.observed.agoMs; });
    turnBytes<std::string>(turned, original, [](Entry& e) -> auto& { return e.header.observed.how; });
    turnBytes<std::string>(turned, original, [](Entry& e) -> auto& { return e.kind; });
    turnBytes<std::string>(turned, original, [](Entry& e) -> auto& { return e.body; });
    turnBytes<Hash>(turned, original, [](Entry& e) -> auto& { return e.previous; });
    turnBytes<Hash>(turned, original, [](Entry& e) -> auto& { return e.hash; });
    turnBytes<Signature>(turned, original, [](Entry& e) -> auto& { return e.signature; });
    return turned;
}

} // namespace

TEST_CASE("a journal of two untouched chains has no fault")
{
    Recorder one(1);
    Recorder two(2);
    MemoryJournal journal;
    REQUIRE(journal.append(one.open()));
    REQUIRE(journal.append(two.open()));
    REQUIRE(journal.append(one.notes({"a", "b"})));
    REQUIRE(journal.append(two.notes({"c"})));
    CHECK(verifyAll(journal).empty());
}

TEST_CASE("any byte of an entry that was turned is found where it stands")
{
    const std::vector<Stored> sound = inOrder(Recorder(1).chainOf(3));
    const auto at = GENERATE(std::size_t{0}, std::size_t{2}, std::size_t{3});
    const std::vector<Entry> turned = everyByteTurned(sound[at].entry);
    // 174 bytes stand before the texts (schema/README.md, section 1); hash and signature come on top.
    const std::size_t texts = sound[at].entry.header.observed.how.size() + sound[at].entry.kind.size()
        + sound[at].entry.body.size();
    REQUIRE(turned.size() == 174 + texts + 32 + 64);
    for (std::size_t i = 0; i < turned.size(); ++i) {
        std::vector<Stored> stored = sound;
        stored[at].entry = turned[i];
        const std::vector<Fault> faults = faultsOf(stored);
        CAPTURE(at, i);
        REQUIRE_FALSE(faults.empty());
        REQUIRE(faults.front().position == at + 1);
    }
}

TEST_CASE("a removed entry is missed by the one behind it")
{
    std::vector<Stored> stored = inOrder(Recorder(1).chainOf(3));

    SECTION("and leaves a gap in the positions")
    {
        stored.erase(stored.begin() + 2);
        const std::vector<Fault> faults = faultsOf(stored);
        REQUIRE(faults.size() == 2);
        CHECK(faults[0].position == 4);
        CHECK_THAT(faults[0].sentence, Catch::Contains("position 3 was due"));
        CHECK_THAT(faults[1].sentence, Catch::Contains("entry 4") && Catch::Contains("follows entry 2"));
    }
    SECTION("and is missed though the positions were counted anew")
    {
        stored.erase(stored.begin() + 2);
        stored[2].position = 3;
        const std::vector<Fault> faults = faultsOf(stored);
        REQUIRE(faults.size() == 1);
        CHECK(faults[0].position == 3);
    }
    SECTION("the first one too: without it no signature can be checked")
    {
        stored.erase(stored.begin());
        const std::vector<Fault> faults = faultsOf(stored);
        REQUIRE(faults.size() == 2);
        CHECK_THAT(faults[1].sentence, Catch::Contains("comes without the entry that opens its chain"));
    }
}

TEST_CASE("two entries that changed places are found")
{
    std::vector<Stored> stored = inOrder(Recorder(1).chainOf(4));
    std::swap(stored[2].entry, stored[3].entry);
    const std::vector<Fault> faults = faultsOf(stored);
    REQUIRE_FALSE(faults.empty());
    CHECK(faults.front().position == 3);
}

TEST_CASE("an entry rewritten with its hash but without the key fails on its signature and its link")
{
    std::vector<Stored> stored = inOrder(Recorder(1).chainOf(3));
    stored[2].entry.body = "note 2, prettier";
    stored[2].entry.hash = hashOf(stored[2].entry);

    SECTION("signature kept") {}
    SECTION("signed by another key")
    {
        stored[2].entry.signature = signatureOf(stored[2].entry, Recorder::keyOf(9));
    }
    const std::vector<Fault> faults = faultsOf(stored);
    REQUIRE(faults.size() == 2);
    CHECK(faults[0].position == 3);
    CHECK_THAT(faults[0].sentence, Catch::Contains("not signed by the key of its chain"));
    CHECK(faults[1].position == 4);
    CHECK_THAT(faults[1].sentence, Catch::Contains("made to follow another entry"));
}

TEST_CASE("a chain rewritten from an entry on by a holder of the wrong key is found at every entry of it")
{
    const std::vector<Entry> sound = Recorder(1).chainOf(4);
    std::vector<Entry> forged(sound.begin(), sound.begin() + 2);
    for (std::size_t i = 2; i < sound.size(); ++i) {
        Entry entry = sound[i];
        entry.body = "forged";
        entry.previous = forged.back().hash;
        entry.hash = hashOf(entry);
        entry.signature = signatureOf(entry, Recorder::keyOf(9));
        forged.push_back(entry);
    }
    const std::vector<Fault> faults = faultsOf(inOrder(forged));
    REQUIRE(faults.size() == 3);
    CHECK(faults[0].position == 3);
    CHECK(faults[2].position == 5);
}

TEST_CASE("a journal that cannot be read to its end says so as its last fault")
{
    class TornJournal final : public Journal
    {
    public:
        Result<Position> append(std::span<const Entry>) override { return Position{0}; }
        Result<std::vector<Stored>> read(Position after, std::size_t) const override
        {
            if (after > 0) {
                return fail(Errc::Corrupt, "page 7 is torn");
            }
            return inOrder(Recorder(1).chainOf(1));
        }
        Result<std::optional<ChainHead>> head(const Id&) const override { return std::nullopt; }
    };
    const std::vector<Fault> faults = verifyAll(TornJournal());
    REQUIRE(faults.size() == 1);
    CHECK(faults[0].position == 3);
    CHECK_THAT(faults[0].sentence, Catch::Contains("page 7 is torn"));
}

namespace {

/// The entries of a device whose first chain, an opening and three notes, is over, and whose second goes on from it.
struct TwoChains
{
    explicit TwoChains(const Id& owner = Recorder(1).device())
    {
        SeededRandom random(5);
        IdMaker ids(random);
        const ParentChain parent{first.front().chain, first.back().hash};
        Sealer next = Sealer::startChain(owner, Recorder::idOf(0xC0, 9), Recorder::keyOf(3), parent);
        next.heard(first.back().header.clock);
        const std::vector<Draft> opening = {next.chainOpened()};
        second = next.seal(opening, first.back().header.entered, Recorder::idOf(0xE0, 1), ids);
    }

    [[nodiscard]] std::vector<Fault> faults(const std::vector<Loss>& losses = {}) const
    {
        MemoryJournal journal;
        REQUIRE(journal.append(first));
        REQUIRE(journal.append(second));
        return verifyAll(journal, losses);
    }

    Recorder recorder{1};
    std::vector<Entry> first = recorder.chainOf(3);
    std::vector<Entry> second;
};

} // namespace

TEST_CASE("a chain that goes on from another is held against the entry that it names there")
{
    TwoChains chains;
    CHECK(chains.faults().empty());
    const Id parent = chains.first.front().chain;

    SECTION("the end of the other was cut off")
    {
        chains.first.pop_back();
        const auto faults = chains.faults();
        REQUIRE(faults.size() == 1);
        CHECK(faults[0].position == 4);
        CHECK_THAT(faults[0].sentence,
                   Catch::Contains("goes on from chain " + toText(parent)) && Catch::Contains("is not there"));
        CHECK(chains.faults({{parent, 3, 5}}).empty()); // told as a loss
        CHECK(chains.faults({{parent, 2, 4}}).size() == 1);
    }
    SECTION("all of the other was cut off")
    {
        chains.first.clear();
        CHECK(chains.faults().size() == 1);
        CHECK(chains.faults({{parent, 0, 2}}).empty());
    }
    SECTION("the other goes on behind the entry that it names: a copy was used")
    {
        const auto more = chains.recorder.notes({"by the other copy"});
        chains.first.insert(chains.first.end(), more.begin(), more.end());
        CHECK(chains.faults().empty());
    }
    SECTION("the entry that it names came later, from elsewhere")
    {
        chains.first.insert(chains.first.end() - 1, chains.second.begin(), chains.second.end());
        chains.second.clear();
        CHECK(chains.faults().empty());
    }
    SECTION("the other is of another device")
    {
        CHECK(TwoChains(Recorder(2).device()).faults().size() == 1);
    }
}
