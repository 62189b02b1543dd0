// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// A tablet that opens only what is at hand knows of old runs what it needs, and all of it once somebody asks.

#include "ledger/at_hand.h"

#include "ledger/body.h"
#include "ledger/fold_check.h"
#include "ledger/kinds.h"
#include "ledger/logbook.h"
#include "ledger/memory_journal.h"
#include "ledger/recorder.h"
#include "ledger/some_setup.h"
#include "run/put_away.h"
#include "run/standing.h"

#include <catch2/catch.hpp>

#include <set>

using namespace loopside;
using namespace loopside::ledger;
using namespace loopside::test;

namespace {

class SteppedClock final : public Clock
{
public:
    Stamp now() override
    {
        stamp.wallMs += 60'000;
        stamp.monoNs += 60'000'000'000U;
        return stamp;
    }

    Stamp stamp = {1'751'958'400'000, 120, 5'000'000'000, Recorder::idOf(0xB0, 1)};
};

constexpr int runsThere = 40;
constexpr int readingsEach = 5;
constexpr int putAwayThere = runsThere - static_cast<int>(run::closedRunsAtHand);

/// A journal of runs that are over, one after the other on two carts, and one that is open since before all of them.
class Years
{
public:
    Years()
    {
        Logbook logbook = Logbook::open(journal, clock, random).value();
        REQUIRE(logbook.enrol(hand.device, Recorder::keyOf(1)).has_value());
        forgotten = open(logbook, "Cart Z");
        tell(logbook, run::Say{forgotten, reading("20")});
        for (int i = 0; i < runsThere; ++i) {
            runs.push_back(open(logbook, i % 2 == 0 ? "Cart A" : "Cart B"));
            for (int k = 0; k < readingsEach; ++k) {
                tell(logbook, run::Say{runs.back(), reading(std::to_string(30 + k))});
            }
            tell(logbook, run::Say{runs.back(), run::Noted{"note of run " + std::to_string(i)}});
            tell(logbook, run::Say{runs.back(), run::ElementsChanged{1, 2, "P10"}});
            tell(logbook, run::CloseRun{runs.back(), run::Ending::StoppedEarly, "shift over"});
        }
    }

    [[nodiscard]] Logbook open(Reach reach)
    {
        Logbook logbook = Logbook::open(journal, clock, random, reach).value();
        REQUIRE(logbook.enrol(hand.device, Recorder::keyOf(1)).has_value());
        return logbook;
    }

    std::vector<Committed> tell(Logbook& logbook, const run::Command& command)
    {
        auto committed = logbook.submit(command, hand);
        if (!committed) {
            FAIL(committed.error().sentence);
        }
        return *std::move(committed);
    }

    static run::ReadingLogged reading(const std::string& g1)
    {
        run::ReadingLogged set;
        for (const std::string& gauge : {g1, std::string("10"), std::string("5")}) {
            set.gauges.emplace_back(run::GaugeTyped{number(gauge), std::nullopt});
        }
        return set;
    }

    MemoryJournal journal;
    SteppedClock clock;
    SeededRandom random{7};
    Hand hand{Recorder::idOf(0xD0, 1), Recorder::idOf(0xE0, 1)};
    Id forgotten;
    std::vector<Id> runs;

private:
    Id open(Logbook& logbook, const char* cart)
    {
        const Id run = logbook.newId();
        run::Setup setup = bareSetup();
        setup.cart.name = cart;
        setup.tank.name = "Tank 1";
        setup.tank.fluid.grade = "ISO VG 46";
        setup.stages[0].elements = 2;
        setup.stages[0].type = "P10";
        tell(logbook, run::OpenRun{run, setup});
        tell(logbook, run::Say{run, run::ModeChanged{run::Mode::Filtering}});
        return run;
    }
};

/// What may be told of a run that is put away: no times.
std::string lastingText(run::RunState run)
{
    run::putAway(run);
    std::string text = run.setup.tank.name + run.setup.cart.name + std::string(run::nameOf(run.phase));
    for (const run::Fact& fact : run.facts) {
        text += "\n" + toText(fact.header.id) + " " + std::string(kindOf(fact.original)) + bodyOf(fact.original)
            + bodyOf(fact.effective) + (fact.struck ? " struck" : "") + std::to_string(fact.amendedBy.size());
    }
    text += "\n" + (run.closed ? bodyOf(*run.closed) : std::string());
    for (const auto& used : run.used) {
        text += bodyOf(used);
    }
    for (const auto& taught : run.taught) {
        text += bodyOf(taught);
    }
    return text;
}

std::string wholeText(const run::RunState& run)
{
    std::string text = lastingText(run);
    for (const run::Fact& fact : run.facts) {
        text += "\n" + toText(fact.header.id) + " " + std::to_string(fact.entered.count()) + " "
            + std::to_string(fact.seen.count()) + bodyOf(fact.effective);
    }
    return text + std::to_string(run.closedAt.count()) + std::to_string(run.alerts.size());
}

void checkSame(const run::State& atHand, const run::State& whole)
{
    REQUIRE(atHand.runs.size() == whole.runs.size());
    for (const auto& [id, run] : atHand.runs) {
        const run::RunState& same = whole.runs.at(id);
        CHECK(lastingText(run) == lastingText(same));
        if (!run.isPutAway) {
            CHECK(wholeText(run) == wholeText(same));
        }
    }
    CHECK(atHand.stock == whole.stock);
    CHECK(atHand.stockMoves.size() == whole.stockMoves.size());
    REQUIRE(atHand.carts.size() == whole.carts.size());
    for (const auto& [name, cart] : atHand.carts) {
        CHECK(cart.lastFluid == whole.carts.at(name).lastFluid);
        CHECK(cart.flushBeforeCleanUse.has_value() == whole.carts.at(name).flushBeforeCleanUse.has_value());
    }
}

int putAwayIn(const run::State& state)
{
    return static_cast<int>(std::ranges::count_if(state.runs, [](const auto& run) { return run.second.isPutAway; }));
}

} // namespace

TEST_CASE("what is at hand is what a whole fold knows, without the moments of old runs")
{
    Years years;
    const Logbook atHand = years.open(Reach::AtHand);
    CHECK(putAwayIn(atHand.state()) == putAwayThere);
    CHECK_FALSE(atHand.state().runs.at(years.forgotten).isPutAway); // open, however old
    CHECK_FALSE(atHand.state().runs.at(years.runs.back()).isPutAway);
    CHECK(atHand.state().runs.at(years.runs.front()).isPutAway);
    for (const run::Fact& fact : atHand.state().runs.at(years.runs.front()).facts) {
        CHECK_FALSE(run::isOfMoment(fact.original));
    }
    const Logbook whole = years.open(Reach::Whole);
    CHECK(putAwayIn(whole.state()) == 0);
    checkSame(atHand.state(), whole.state());
}

TEST_CASE("open runs are known first, and stay where they are when those that are over come in")
{
    Years years;
    Logbook logbook = years.open(Reach::OpenFirst);
    const Logbook whole = years.open(Reach::Whole);
    REQUIRE(logbook.state().runs.size() == 1);
    const run::RunState* open = logbook.state().runOf(years.forgotten);
    REQUIRE(open != nullptr);
    CHECK(wholeText(*open) == wholeText(*whole.state().runOf(years.forgotten)));
    CHECK(logbook.isEarlierLeft());

    REQUIRE(logbook.takeEarlier().has_value());
    CHECK_FALSE(logbook.isEarlierLeft());
    CHECK(logbook.state().runOf(years.forgotten) == open);
    CHECK(putAwayIn(logbook.state()) == putAwayThere);
    checkSame(logbook.state(), whole.state());
}

TEST_CASE("a command waits for the runs that are over")
{
    Years years;
    Logbook logbook = years.open(Reach::OpenFirst);
    years.tell(logbook, run::Say{years.forgotten, run::Noted{"first thing in the shift"}});
    CHECK_FALSE(logbook.isEarlierLeft());
    checkSame(logbook.state(), years.open(Reach::Whole).state());
    years.tell(logbook, run::Say{years.runs.front(), run::Noted{"of an old one"}});
    checkSame(logbook.state(), years.open(Reach::Whole).state());
}

TEST_CASE("a fold anew knows the runs that are over, known before or not")
{
    Years years;
    Logbook logbook = years.open(Reach::OpenFirst);
    REQUIRE(logbook.refold().has_value());
    CHECK_FALSE(logbook.isEarlierLeft());
    checkSame(logbook.state(), years.open(Reach::Whole).state());
}

TEST_CASE("a run that is taken out is the whole run again")
{
    Years years;
    Logbook atHand = years.open(Reach::AtHand);
    const Logbook whole = years.open(Reach::Whole);
    const Id old = years.runs.front();
    REQUIRE(atHand.takeOut(old).has_value());
    CHECK_FALSE(atHand.state().runs.at(old).isPutAway);
    CHECK(wholeText(atHand.state().runs.at(old)) == wholeText(whole.state().runs.at(old)));
    CHECK(putAwayIn(atHand.state()) == putAwayThere); // another one made room
    CHECK(atHand.takeOut(years.forgotten).has_value());
    CHECK(atHand.takeOut(Id{}).has_value());
    checkSame(atHand.state(), whole.state());
}

TEST_CASE("an old run takes an amendment and a result as if it had never been put away")
{
    Years years;
    Logbook atHand = years.open(Reach::AtHand);
    const Id old = years.runs[1];
    const Id reading = [&] {
        const Logbook whole = years.open(Reach::Whole);
        for (const run::Fact& fact : whole.state().runs.at(old).facts) {
            if (std::holds_alternative<run::ReadingLogged>(fact.original)) {
                return fact.header.id;
            }
        }
        return Id{};
    }();
    years.tell(atHand, run::Say{old, run::ResultEntered{"S-1", "18/16/13", {}, {}, {}}});
    years.tell(atHand, run::Say{old, run::Amended{.of = reading, .struck = true, .why = "logged twice"}});
    CHECK(atHand.state().runs.at(old).factOf(reading)->struck);
    checkSame(atHand.state(), years.open(Reach::Whole).state());
    checkSame(years.open(Reach::AtHand).state(), years.open(Reach::Whole).state());
}

TEST_CASE("runs that end one after the other are put away while the logbook is open")
{
    const auto reach = GENERATE(Reach::AtHand, Reach::OpenFirst);
    Years years;
    Logbook atHand = years.open(reach);
    years.tell(atHand, run::CloseRun{years.forgotten, run::Ending::StoppedEarly, "found at last"});
    CHECK(putAwayIn(atHand.state()) == putAwayThere + 1);
    CHECK_FALSE(atHand.state().runs.at(years.forgotten).isPutAway);
    checkSame(atHand.state(), years.open(Reach::Whole).state());
    Logbook whole = years.open(Reach::Whole);
    years.tell(whole, run::Say{years.forgotten, run::Noted{"later"}});
    CHECK(putAwayIn(whole.state()) == 0); // who opened all keeps all
}

TEST_CASE("the next entry folds behind all that are there, read or not")
{
    Years years;
    Logbook atHand = years.open(Reach::AtHand);
    const std::uint64_t latest = allOf(years.journal).back().entry.header.clock;
    const auto committed = years.tell(atHand, run::Say{years.forgotten, run::Noted{"now"}});
    CHECK(committed.front().header.clock > latest);
    CHECK(years.journal.latestClock().value() == allOf(years.journal).back().entry.header.clock);
    CHECK(years.journal.last().value() == allOf(years.journal).size());
}

TEST_CASE("what is of a moment is named alike by event and by kind")
{
    Years years;
    std::set<std::string> moments;
    for (const Stored& stored : allOf(years.journal)) {
        if (const auto event = eventFrom(stored.entry.kind, stored.entry.body)) {
            INFO(stored.entry.kind);
            CHECK(run::isOfMoment(*event) == isKindOfMoment(stored.entry.kind));
        }
    }
    const std::vector<run::Event> others = {
        run::SignsSeen{{"foam"}},  run::QuestionAnswered{"unwatched-gap", {}, "yes", {}},
        run::AlertAcknowledged{},  run::AlertShelved{},
        run::AlertServiced{},      run::AlertRaised{},
        run::AlertCleared{},       run::CheckAnswered{"area", "yes"},
        run::StartTold{},          run::ClockJumped{},
        run::LoadingLearned{},     run::StockMoved{},
        run::SampleDrawn{},        run::Kept{},
        run::TabletRestarted{},    run::TabletSlept{},
        run::ClockOffsetChanged{}, run::AttachmentAdded{},
        run::AttachmentWithdrawn{}};
    for (const run::Event& event : others) {
        INFO(kindOf(event));
        CHECK(run::isOfMoment(event) == isKindOfMoment(kindOf(event)));
    }
}

namespace {

/// Reads what is lasting through an index that lost an entry.
class Forgetful final : public Journal
{
public:
    Forgetful(Journal& journal, std::string_view kind) : journal_{journal}, kind_{kind} {}

    Result<Position> append(std::span<const Entry> entries) override { return journal_.append(entries); }
    Result<std::vector<Stored>> read(Position after, std::size_t limit) const override
    {
        return journal_.read(after, limit);
    }
    Result<std::optional<ChainHead>> head(const Id& device) const override { return journal_.head(device); }
    Result<std::vector<Stored>> readLasting(Position after, std::size_t limit) const override
    {
        return journal_.readLasting(after, limit).transform([&](std::vector<Stored> stored) {
            std::erase_if(stored, [&](const Stored& each) {
                return each.entry.kind == kind_ && (forgotten_ == 0 || forgotten_ == each.position)
                    && (forgotten_ = each.position) > 0;
            });
            return stored;
        });
    }

private:
    Journal& journal_;
    std::string_view kind_;
    mutable Position forgotten_ = 0; ///< The first of the kind.
};

} // namespace

TEST_CASE("the whole check holds few runs whole at a time, however many there are")
{
    Years years;
    const FoldChecked checked = checkFold(years.journal);
    CHECK(checked.faults.empty());
    REQUIRE(checked.isWhole);
    const std::size_t open = 1;
    // What a tablet shows whole, and of the fresh fold the open run and the one that is looked at.
    CHECK(checked.runsWhole <= open + run::closedRunsAtHand + open + 1);
    CHECK(checked.runsWhole > run::closedRunsAtHand);
    CHECK(checked.state.runs.size() == runsThere + 1);
    CHECK(putAwayIn(checked.state) == runsThere + 1);
}

TEST_CASE("run by run each is told whole and once, with few held at a time")
{
    Years years;
    const Logbook whole = years.open(Reach::Whole);
    std::vector<Id> told;
    const auto folded = foldByRun(years.journal, [&](run::RunState& run) {
        told.push_back(run.id);
        CHECK_FALSE(run.isPutAway);
        CHECK(wholeText(run) == wholeText(whole.state().runs.at(run.id)));
        return Done();
    });
    REQUIRE(folded);
    std::vector<Id> ended = {years.forgotten}; // which ends with its only reading, before the others begin
    ended.insert(ended.end(), years.runs.begin(), years.runs.end());
    CHECK(told == ended);
    CHECK(folded->runsWhole == 1);
    CHECK(putAwayIn(folded->state) == runsThere + 1);
    const auto refused = foldByRun(years.journal, [](run::RunState&) -> Done { return fail(Errc::Io, "full"); });
    REQUIRE_FALSE(refused);
    CHECK(refused.error().sentence == "full");
}

TEST_CASE("what a journal would say with more entries is what it says once it has them")
{
    Years years;
    SeededRandom random(9);
    IdMaker ids(random);
    Sealer other = Sealer::startChain(Recorder::idOf(0xD0, 2), Recorder::idOf(0xC0, 2), Recorder::keyOf(2));
    // Of the first run and of the middle of the time, so that they are folded before others that are there.
    const Stamp then = allOf(years.journal)[allOf(years.journal).size() / 2].entry.header.entered;
    run::ElementsChanged change{1, 2, "P20"};
    const auto more = other.seal(
        std::vector<Draft>{other.chainOpened(),
                           {"elements-changed", bodyOf(run::Event(change)), years.runs.front(), {}, {}}},
        then, Recorder::idOf(0xE0, 2), ids);
    const auto before = foldedWith(years.journal, {more.size(), [&](std::size_t i) { return Result<Entry>(more[i]); }});
    REQUIRE(before);
    CHECK(putAwayIn(*before) == runsThere + 1);
    CHECK(differences(years.open(Reach::Whole).state(), *before).size() == 1); // the run
    REQUIRE(years.journal.append(more));
    CHECK(differences(years.open(Reach::Whole).state(), *before).empty());
}

TEST_CASE("the whole check compares also where entries do not stand in the order of folding")
{
    Years years;
    const std::vector<Stored> all = allOf(years.journal);
    // What another device said of the first run, taken in last.
    SeededRandom random(9);
    IdMaker ids(random);
    Sealer other = Sealer::startChain(Recorder::idOf(0xD0, 2), Recorder::idOf(0xC0, 2), Recorder::keyOf(2));
    const std::vector<Draft> drafts = {
        other.chainOpened(), {"noted", bodyOf(run::Event(run::Noted{"by another"})), years.runs.front(), {}, {}}};
    const Stamp then = all[all.size() / 2].entry.header.entered;
    REQUIRE(years.journal.append(other.seal(drafts, then, Recorder::idOf(0xE0, 2), ids)));
    const FoldChecked checked = checkFold(years.journal);
    CHECK(checked.faults.empty());
    CHECK(checked.isWhole);
    CHECK(checked.runsWhole < runsThere);
    Forgetful wrong(years.journal, "elements-changed");
    CHECK_FALSE(checkFold(wrong).faults.empty());
}

TEST_CASE("what a tablet shows is what the entries say, and an entry that its index lost is found")
{
    Years years;
    Logbook whole = years.open(Reach::Whole);
    years.tell(whole, run::MoveStock{"P10", 8, "delivery"});
    run::TankRecord tank = bareSetup().tank;
    tank.name = "a tank";
    years.tell(whole, run::PutRecord{run::TankPut{tank, "plate"}});
    Logbook shown = years.open(Reach::AtHand);
    REQUIRE(putAwayIn(shown.state()) == putAwayThere);
    CHECK(checkFold(years.journal).faults.empty());

    const auto [kind, name] = GENERATE(table<std::string, std::string>({{"run-closed", "run "},
                                                                        {"elements-changed", "run "},
                                                                        {"stock-moved", "stock of P10"},
                                                                        {"tank-put", "the catalogue"}}));
    Forgetful journal(years.journal, kind);
    const auto found = checkFold(journal).faults;
    INFO(kind);
    REQUIRE_FALSE(found.empty());
    CHECK(std::ranges::any_of(found, [&](const std::string& each) { return each.starts_with(name); }));
}
