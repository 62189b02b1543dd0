// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "ledger/read_all.h"

#include "ledger/logbook.h"
#include "ledger/memory_journal.h"
#include "ledger/recorder.h"

#include <catch2/catch.hpp>

using namespace loopside;
using namespace loopside::ledger;
using namespace loopside::test;

namespace {

/// A journal with damage behind its third entry: it gives what stands before and is Corrupt from there on.
class TornJournal final : public Journal
{
public:
    Result<Position> append(std::span<const Entry>) override { return fail(Errc::Io, "torn"); }
    Result<std::vector<Stored>> read(Position after, std::size_t limit) const override
    {
        auto entries = inOrder(Recorder(1).chainOf(2));
        if (after >= entries.size()) {
            return fail(Errc::Corrupt, "page 7 is torn");
        }
        entries.erase(entries.begin(), entries.begin() + static_cast<std::ptrdiff_t>(after));
        entries.resize(std::min(entries.size(), limit));
        return entries;
    }
    Result<std::optional<ChainHead>> head(const Id&) const override { return std::nullopt; }
};

class StillClock final : public Clock
{
public:
    Stamp now() override { return {}; }
};

} // namespace

TEST_CASE("damage in the middle of a journal is told and never taken for its end")
{
    const TornJournal journal;
    int taken = 0;
    const auto count = [&](const Stored&) { return ++taken, Done{}; };
    const Done all = readAll(journal, count);
    REQUIRE_FALSE(all);
    CHECK(all.error().code == Errc::Corrupt);
    CHECK(taken == 3);
    const Done lasting = readLasting(journal, count);
    REQUIRE_FALSE(lasting);
    CHECK(lasting.error().code == Errc::Corrupt);
    CHECK_FALSE(journal.last());
    CHECK_FALSE(journal.latestClock());
}

TEST_CASE("no logbook opens over damage, however little of the journal it reads")
{
    const auto reach = GENERATE(Reach::Whole, Reach::AtHand);
    TornJournal journal;
    StillClock clock;
    SeededRandom random(1);
    const auto opened = Logbook::open(journal, clock, random, reach);
    REQUIRE_FALSE(opened);
    CHECK(opened.error().code == Errc::Corrupt);
}

TEST_CASE("a journal is read to its end, whatever its length is beside the pieces that it is read in")
{
    const auto length = GENERATE(0, 1, 999, 1000, 1001);
    Recorder recorder(1);
    MemoryJournal journal;
    if (length > 0) {
        REQUIRE(journal.append(recorder.chainOf(length - 1)));
    }
    int taken = 0;
    REQUIRE(readAll(journal, [&](const Stored&) { return ++taken, Done{}; }));
    CHECK(taken == length);
    CHECK(journal.last().value() == static_cast<Position>(length));
}
