// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "ledger/logbook.h"

#include "ledger/body.h"
#include "ledger/memory_journal.h"
#include "ledger/recorder.h"
#include "ledger/some_setup.h"
#include "ledger/verify.h"
#include "run/standing.h"

#include <catch2/catch.hpp>

using namespace loopside;
using namespace loopside::ledger;
using namespace loopside::test;

namespace {

/// A journal whose disk can be made to fail.
class FailingJournal final : public Journal
{
public:
    [[nodiscard]] Result<Position> append(std::span<const Entry> entries) override
    {
        if (fails) {
            return fail(Errc::Io, "the disk is full");
        }
        return memory.append(entries);
    }
    [[nodiscard]] Result<std::vector<Stored>> read(Position after, std::size_t limit) const override
    {
        return memory.read(after, limit);
    }
    [[nodiscard]] Result<std::optional<ChainHead>> head(const Id& device) const override { return memory.head(device); }

    bool fails = false;
    MemoryJournal memory;
};

class StandingClock final : public Clock
{
public:
    Stamp now() override { return stamp; }

    void pass(int minutes)
    {
        stamp.wallMs += minutes * 60'000;
        stamp.monoNs += static_cast<std::uint64_t>(minutes) * 60'000'000'000U;
    }

    Stamp stamp = {1'751'958'400'000, 120, 5'000'000'000, Recorder::idOf(0xB0, 1)};
};

run::ReadingLogged set(std::string_view g1, std::string_view g2, std::string_view g3)
{
    run::ReadingLogged reading;
    for (const std::string_view gauge : {g1, g2, g3}) {
        reading.gauges.push_back(run::GaugeTyped{number(gauge), std::nullopt});
    }
    return reading;
}

/// One logbook with one run in which it is filtering.
class Desk
{
public:
    Desk() : logbook{Logbook::open(journal, clock, random).value()}
    {
        REQUIRE(logbook.enrol(hand.device, Recorder::keyOf(1)).has_value());
        run = logbook.newId();
        submit(run::OpenRun{run, bareSetup()});
        submit(run::Say{run, run::ModeChanged{run::Mode::Filtering}});
    }

    std::vector<Committed> submit(const run::Command& command)
    {
        auto committed = logbook.submit(command, hand);
        if (!committed) {
            FAIL(committed.error().sentence);
        }
        return *std::move(committed);
    }

    [[nodiscard]] double best() const
    {
        const run::RunState& state = *logbook.state().runOf(run);
        return run::standingOf(state, state.facts.back().entered).credit.turnovers.best;
    }

    FailingJournal journal;
    StandingClock clock;
    SeededRandom random{7};
    Hand hand{Recorder::idOf(0xD0, 1), Recorder::idOf(0xE0, 1)};
    Logbook logbook;
    Id run;
};

std::vector<std::string> kindsIn(const Journal& journal)
{
    std::vector<std::string> kinds;
    for (const Stored& stored : allOf(journal)) {
        kinds.push_back(stored.entry.kind);
    }
    return kinds;
}

} // namespace

TEST_CASE("what is submitted stands in the journal, verifies, and is folded")
{
    Desk desk;
    desk.clock.pass(2);
    const auto committed = desk.submit(run::Say{desk.run, set("43", "1", "1")});
    REQUIRE(committed.size() == 1); // the bare set-up has no limits
    CHECK(kindsIn(desk.journal)
          == std::vector<std::string>{"chain-opened", "run-opened", "mode-changed", "reading-logged"});
    CHECK(verifyAll(desk.journal).empty());
    CHECK(allOf(desk.journal).back().entry.header == committed.front().header);
    CHECK(desk.logbook.state().runOf(desk.run)->facts.back().header == committed.front().header);
}

TEST_CASE("a failed append changes nothing, and the same can be said again")
{
    Desk desk;
    desk.clock.pass(2);
    desk.journal.fails = true;
    const auto before = allOf(desk.journal);
    for (int i = 0; i < 3; ++i) {
        const auto failed = desk.logbook.submit(run::Say{desk.run, set("38.0", "1", "1")}, desk.hand);
        REQUIRE_FALSE(failed.has_value());
        CHECK(failed.error().code == Errc::Io);
        CHECK(desk.logbook.state().runOf(desk.run)->facts.size() == 1);
    }
    CHECK(allOf(desk.journal) == before);
    desk.journal.fails = false;
    desk.submit(run::Say{desk.run, set("38.0", "1", "1")});
    CHECK(allOf(desk.journal).size() == before.size() + 1);
    CHECK(verifyAll(desk.journal).empty());
    CHECK(desk.logbook.state().runOf(desk.run)->facts.size() == 2);
}

TEST_CASE("a device whose opening could not be written is not enrolled")
{
    FailingJournal journal;
    StandingClock clock;
    SeededRandom random(7);
    Logbook logbook = Logbook::open(journal, clock, random).value();
    journal.fails = true;
    const Id device = Recorder::idOf(0xD0, 1);
    CHECK_FALSE(logbook.enrol(device, Recorder::keyOf(1)).has_value());
    journal.fails = false;
    REQUIRE(logbook.enrol(device, Recorder::keyOf(1)).has_value());
    CHECK(kindsIn(journal) == std::vector<std::string>{"chain-opened"});
}

TEST_CASE("a refused command leaves no entry")
{
    Desk desk;
    const auto before = allOf(desk.journal);
    const auto refused = desk.logbook.submit(run::Say{desk.run, run::ElementsChanged{3, 2, {}}}, desk.hand);
    REQUIRE_FALSE(refused.has_value());
    CHECK(refused.error().say.id == "refused.stage");
    CHECK(allOf(desk.journal) == before);
}

TEST_CASE("what could not be read back is not written")
{
    Desk desk;
    const auto before = allOf(desk.journal);
    const std::vector<run::Said> unreadable = {
        run::SignsSeen{{"ghosts"}},
        run::Noted{"bytes \xff that are no text"},
        run::ResultEntered{"B2", {}, {number("-1")}, {}, {}},
    };
    for (const run::Said& what : unreadable) {
        const auto refused = desk.logbook.submit(run::Say{desk.run, what}, desk.hand);
        REQUIRE_FALSE(refused.has_value());
        CHECK(refused.error().code == Errc::Malformed);
    }
    CHECK(allOf(desk.journal) == before);
    desk.submit(run::Say{desk.run, run::Noted{"a text"}});
}

TEST_CASE("a logbook opened anew goes on where the last one stood")
{
    Desk desk;
    desk.clock.pass(2);
    desk.submit(run::Say{desk.run, set("38.0", "1", "1")});
    Logbook again = Logbook::open(desk.journal, desk.clock, desk.random).value();
    REQUIRE(again.enrol(desk.hand.device, Recorder::keyOf(1)).has_value());
    const run::RunState* state = again.state().runOf(desk.run);
    REQUIRE(state != nullptr);
    CHECK(state->setup == bareSetup());
    REQUIRE(state->facts.size() == 2);
    CHECK(std::get<run::ReadingLogged>(state->facts.back().original) == set("38.0", "1", "1"));
    desk.clock.pass(3);
    REQUIRE(again.submit(run::Say{desk.run, set("39.0", "1", "1")}, desk.hand).has_value());
    CHECK(verifyAll(desk.journal).empty());
    // 5 min at 19 L/min of 400 L
    CHECK_THAT(run::standingOf(*again.state().runOf(desk.run), std::chrono::minutes(5)).credit.turnovers.best,
               Catch::WithinAbs(0.2375, 1e-9));
}

TEST_CASE("jobs and carts of a logbook opened anew stand where they stood")
{
    Desk desk;
    const Id transfer = desk.logbook.newId();
    const Id flush = desk.logbook.newId();
    desk.submit(run::OpenJob{transfer,
                             run::TransferOpened{.tank = "SP-4",
                                                 .cart = "Grey cart",
                                                 .fluid = "ISO VG 220 gear",
                                                 .capacity = typed<units::Volume>("205 L"),
                                                 .planned = typed<units::Volume>("160 L")}});
    desk.clock.pass(7);
    desk.submit(run::SayOfJob{transfer, run::TransferStopped{typed<units::Volume>("130 L"), {}}});
    desk.submit(run::OpenJob{flush, run::FlushOpened{.cart = "Red cart", .left = typed<units::Volume>("1.5 L")}});
    desk.submit(run::SayOfJob{flush, run::FlushBatch{typed<units::Volume>("10 L")}});

    const Logbook again = Logbook::open(desk.journal, desk.clock, desk.random).value();
    CHECK(verifyAll(desk.journal).empty());
    CHECK(again.unknownEntries() == 0);
    REQUIRE(again.state().jobs.size() == 2);
    CHECK(again.state().jobOf(transfer)->closedAt == std::chrono::minutes(7));
    CHECK(again.state().jobOf(flush)->batches() == desk.logbook.state().jobOf(flush)->batches());
    CHECK(again.state().jobOf(flush)->isOpen());
    CHECK(again.state().cartOf("Grey cart")->lastFluid == "ISO VG 220 gear");
    CHECK(again.state().cartOf("Grey cart")->flushBeforeCleanUse.has_value());
    CHECK(again.state().cartOf("Red cart") == nullptr); // its flush is not closed
    CHECK(again.state().runOf(desk.run)->facts.size() == desk.logbook.state().runOf(desk.run)->facts.size());
}

TEST_CASE("a transfer that an earlier version kept as text is folded as it was")
{
    Desk desk;
    desk.submit(run::Say{desk.run, run::Kept{"transfer", R"({"volume":"160 L"})"}});
    const Logbook again = Logbook::open(desk.journal, desk.clock, desk.random).value();
    CHECK(std::get<run::Kept>(again.state().runOf(desk.run)->facts.back().original).what == "transfer");
}

TEST_CASE("another key does not write into a chain")
{
    Desk desk;
    Logbook again = Logbook::open(desk.journal, desk.clock, desk.random).value();
    const auto enrolled = again.enrol(desk.hand.device, Recorder::keyOf(2));
    REQUIRE_FALSE(enrolled.has_value());
    CHECK(enrolled.error().code == Errc::Conflict);
}

TEST_CASE("a second device folds behind what it found, though its wall clock is behind")
{
    Desk desk;
    desk.clock.pass(10);
    desk.submit(run::Say{desk.run, set("38.0", "1", "1")});
    const Hand other{Recorder::idOf(0xD0, 2), Recorder::idOf(0xE0, 1)};
    desk.clock.stamp.wallMs -= 5 * 60'000;
    desk.clock.stamp.boot = Recorder::idOf(0xB0, 2);
    REQUIRE(desk.logbook.enrol(other.device, Recorder::keyOf(2)).has_value());
    REQUIRE(desk.logbook.submit(run::Say{desk.run, set("39.0", "1", "1")}, other).has_value());

    const Logbook again = Logbook::open(desk.journal, desk.clock, desk.random).value();
    const auto factsOf = [&](const Logbook& logbook) {
        std::vector<Id> ids;
        for (const run::Fact& fact : logbook.state().runOf(desk.run)->facts) {
            ids.push_back(fact.header.id);
        }
        return ids;
    };
    CHECK(factsOf(again) == factsOf(desk.logbook));
}

TEST_CASE("an entry whose body does not fit its kind is damage, one of an unknown kind is counted")
{
    Recorder recorder(1);
    MemoryJournal journal;
    REQUIRE(journal.append(recorder.chainOf(1)).has_value()); // a "note-made", which this version does not know
    StandingClock clock;
    SeededRandom random(7);
    CHECK(Logbook::open(journal, clock, random).value().unknownEntries() == 1);

    auto odd = recorder.seal({{"reading-logged", R"({"gauges":"none"})", Recorder::idOf(0xA0, 1)}});
    REQUIRE(journal.append(odd).has_value());
    const auto opened = Logbook::open(journal, clock, random);
    REQUIRE_FALSE(opened.has_value());
    CHECK(opened.error().code == Errc::Corrupt);
    CHECK_THAT(opened.error().sentence, Catch::Contains("entry 3 ") && Catch::Contains("gauges"));
}

TEST_CASE("a tick without anything to say writes nothing")
{
    Desk desk;
    const auto before = allOf(desk.journal);
    CHECK(desk.submit(run::Tick{}).empty());
    CHECK(allOf(desk.journal) == before);
    desk.clock.pass(4); // due at 2 min, and 2 min
    const auto committed = desk.submit(run::Tick{});
    REQUIRE(committed.size() == 1);
    CHECK(kindOf(committed.front().event) == "alert-raised");
}
