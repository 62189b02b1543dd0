// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// Jobs that are no runs: a flush of the cart, a transfer to waste.

#include "run/job.h"

#include "run/start.h"
#include "run/walk.h"

#include <catch2/catch.hpp>

using namespace loopside;
using namespace loopside::run;
using namespace loopside::test;

namespace {

FlushOpened flush()
{
    return {.cart = "C1",
            .fromFluid = "ISO VG 220 gear",
            .toFluid = "ISO VG 46 hydraulic",
            .toFamily = "hydraulic",
            .left = litres("1.5"),
            .batch = litres("10"),
            .wanted = typed<units::Fraction>("1 %"),
            .approver = "P. Ortiz"};
}

/// 160 L into a drum of 205 L that holds 60 L (a case of the trade, worked out there by hand).
TransferOpened spentOil()
{
    return {.tank = "SP-4",
            .cart = "C1",
            .fluid = "ISO VG 220 gear",
            .family = "gear",
            .container = "drum 7",
            .capacity = litres("205"),
            .holds = litres("60"),
            .planned = litres("160"),
            .flow = typed<units::Flow>("19 L/min"),
            .valve = Mode::Bypassing,
            .stream = "used oil",
            .confirmed = "SP-4"};
}

std::string refusalOf(const Walk& walk, const Command& command)
{
    const auto decided = walk.attempt(5, command);
    return decided ? "" : decided.error().say.id;
}

std::string refusalOf(const JobOpened& what)
{
    return refusalOf(Walk(), OpenJob{Walk::idOfJob(1), what});
}

JobStanding standingOf(const Walk& walk, std::uint8_t job, int minute)
{
    return jobStanding(walk.job(job), std::chrono::minutes(minute));
}

} // namespace

TEST_CASE("a flush counts its batches until it is closed, and then takes no more")
{
    Walk walk = Walk().openJobAt(1, 1, flush()).sayOfJobAt(2, 1, FlushBatch{litres("10")});
    walk.sayOfJobAt(3, 1, FlushBatch{litres("12.5")});
    CHECK(walk.job(1).isOpen());
    CHECK(walk.job(1).batches() == std::vector<TypedVolume>{litres("10"), litres("12.5")});
    walk.sayOfJobAt(4, 1, FlushClosed{true, "drained"});
    CHECK(walk.job(1).closedAt == std::chrono::minutes(3));
    CHECK(refusalOf(walk, SayOfJob{Walk::idOfJob(1), FlushBatch{litres("10")}}) == "refused.job-closed");
    CHECK(refusalOf(walk, SayOfJob{Walk::idOfJob(1), FlushClosed{}}) == "refused.job-closed");
}

TEST_CASE("what has no place in a job is refused")
{
    const Walk walk = Walk().openJobAt(1, 1, flush()).openJobAt(1, 2, spentOil());
    CHECK(refusalOf(walk, SayOfJob{Walk::idOfJob(3), FlushClosed{}}) == "refused.no-such-job");
    CHECK(refusalOf(walk, SayOfJob{Walk::idOfJob(1), TransferStopped{}}) == "refused.job-kind");
    CHECK(refusalOf(walk, SayOfJob{Walk::idOfJob(2), FlushBatch{litres("10")}}) == "refused.job-kind");
    CHECK(refusalOf(walk, OpenJob{Walk::idOfJob(1), flush()}) == "refused.job-open-already");
    CHECK(refusalOf(walk, OpenJob{walk.id(), flush()}) == "refused.job-open-already");
    CHECK(refusalOf(walk, OpenRun{Walk::idOfJob(1), ordinary()}) == "refused.open-already");
    CHECK(refusalOf(walk, Say{Walk::idOfJob(1), Noted{"n"}}) == "refused.no-such-run");
}

TEST_CASE("volumes that cannot be are refused, each by its name")
{
    const auto flushWith = [](auto change) {
        FlushOpened odd = flush();
        change(odd);
        return refusalOf(odd);
    };
    const auto transferWith = [](auto change) {
        TransferOpened odd = spentOil();
        change(odd);
        return refusalOf(odd);
    };
    CHECK(refusalOf(flush()).empty());
    CHECK(flushWith([](FlushOpened& odd) { odd.left = litres("0"); }) == "refused.flush-left");
    CHECK(flushWith([](FlushOpened& odd) { odd.batch = litres("-1"); }) == "refused.flush-batch");
    CHECK(flushWith([](FlushOpened& odd) { odd.wanted = typed<units::Fraction>("101 %"); }) == "refused.flush-wanted");
    CHECK(flushWith([](FlushOpened& odd) { odd.cart.clear(); }) == "refused.job-cart");
    CHECK(refusalOf(spentOil()).empty());
    CHECK(transferWith([](TransferOpened& odd) { odd.capacity = litres("0"); }) == "refused.container-capacity");
    CHECK(transferWith([](TransferOpened& odd) { odd.holds = litres("-1"); }) == "refused.container-holds");
    CHECK(transferWith([](TransferOpened& odd) { odd.holds = litres("205.1"); }) == "refused.container-holds-more");
    CHECK(transferWith([](TransferOpened& odd) { odd.holds = litres("0"); }).empty());
    CHECK(transferWith([](TransferOpened& odd) { odd.planned = litres("0"); }) == "refused.transfer-volume");
    CHECK(transferWith([](TransferOpened& odd) { odd.flow = typed<units::Flow>("0 L/min"); }) == "refused.job-flow");

    const Walk walk = Walk().openJobAt(1, 1, flush()).openJobAt(1, 2, spentOil());
    CHECK(refusalOf(walk, SayOfJob{Walk::idOfJob(1), FlushBatch{litres("0")}}) == "refused.flush-batch");
    CHECK(refusalOf(walk, SayOfJob{Walk::idOfJob(2), TransferStopped{litres("-1"), {}}}) == "refused.transfer-moved");
    CHECK(refusalOf(walk, SayOfJob{Walk::idOfJob(2), TransferStopped{litres("0"), "did not draw"}}).empty());
}

TEST_CASE("what is left of the old oil falls with each batch")
{
    // 1.5 L left, batches of 10 L: 13 %, 1.7 %, 0.22 % (mixing balance (1.5 / 11.5)^k, computed by hand)
    Walk walk = Walk().openJobAt(1, 1, flush());
    const auto residual = [&] { return standingOf(walk, 1, 10).flush->residual->in(units::percent); };
    CHECK(residual() == 100.0);
    walk.sayOfJobAt(2, 1, FlushBatch{litres("10")});
    CHECK_THAT(residual(), Catch::WithinAbs(13.04, 0.01));
    walk.sayOfJobAt(3, 1, FlushBatch{litres("10")});
    CHECK_THAT(residual(), Catch::WithinAbs(1.70, 0.01));
    CHECK(standingOf(walk, 1, 10).flush->isThinEnough == false);
    walk.sayOfJobAt(4, 1, FlushBatch{litres("10")});
    CHECK_THAT(residual(), Catch::WithinAbs(0.222, 0.001));
    const JobStanding standing = standingOf(walk, 1, 10);
    CHECK(standing.flush->isThinEnough == true);
    CHECK(standing.flush->batches == 3);
    CHECK_THAT(standing.flush->flushed.in(units::litre), Catch::WithinAbs(30.0, 1e-9));
    CHECK_FALSE(standing.transfer.has_value());
}

TEST_CASE("batches of different size thin as each would by itself")
{
    // 1.5 / 11.5 · 1.5 / 6.5 = 0.0301, computed by hand
    const Walk walk = Walk()
                          .openJobAt(1, 1, flush())
                          .sayOfJobAt(2, 1, FlushBatch{litres("10")})
                          .sayOfJobAt(3, 1, FlushBatch{litres("5")});
    CHECK_THAT(standingOf(walk, 1, 10).flush->residual->in(units::one), Catch::WithinAbs(0.0301, 0.0001));
}

TEST_CASE("a transfer says what the drum takes, and when to stop the pump")
{
    // free 145 L, 90 % of it 130.5 L, at 19 L/min 6.868 min; 29.5 L need another drum (worked out by hand)
    Walk walk = Walk().openJobAt(1, 1, spentOil());
    const JobStanding standing = standingOf(walk, 1, 6);
    REQUIRE(standing.transfer.has_value());
    CHECK_THAT(standing.transfer->free->in(units::litre), Catch::WithinAbs(145.0, 1e-9));
    CHECK_THAT(standing.transfer->usable->in(units::litre), Catch::WithinAbs(130.5, 1e-9));
    CHECK_THAT(standing.transfer->rest->in(units::litre), Catch::WithinAbs(29.5, 1e-9));
    CHECK_THAT(static_cast<double>(standing.transfer->stopAt->count()), Catch::WithinAbs(412'105.0, 1.0));
    CHECK_FALSE(standing.transfer->isStopOverdue);
    CHECK(standingOf(walk, 1, 7).transfer->isStopOverdue);
    walk.sayOfJobAt(7.5, 1, TransferStopped{litres("130"), {}});
    CHECK_FALSE(standingOf(walk, 1, 8).transfer->isStopOverdue);
    CHECK_FALSE(standingOf(walk, 1, 8).isOpen);
}

TEST_CASE("a transfer told three minutes late stops three minutes sooner")
{
    const Walk walk = Walk().openJobAt(10, 1, spentOil(), 3);
    CHECK(walk.job(1).begun() == std::chrono::minutes(-3));
    CHECK_THAT(static_cast<double>(standingOf(walk, 1, 0).transfer->stopAt->count()),
               Catch::WithinAbs(412'105.0 - 180'000.0, 1.0));
}

TEST_CASE("without the level of the drum or the flow nothing is guessed")
{
    TransferOpened blind = spentOil();
    blind.holds.reset();
    const Walk unknownLevel = Walk().openJobAt(1, 1, blind);
    CHECK_FALSE(standingOf(unknownLevel, 1, 1).transfer->usable.has_value());
    CHECK_FALSE(standingOf(unknownLevel, 1, 1).transfer->stopAt.has_value());
    CHECK_FALSE(standingOf(unknownLevel, 1, 1).transfer->why.empty());

    TransferOpened slow = spentOil();
    slow.flow.reset();
    const Walk unknownFlow = Walk().openJobAt(1, 1, slow);
    CHECK(standingOf(unknownFlow, 1, 1).transfer->usable.has_value());
    CHECK_FALSE(standingOf(unknownFlow, 1, 1).transfer->stopAt.has_value());

    TransferOpened full = spentOil();
    full.holds = litres("205");
    const Walk noRoom = Walk().openJobAt(1, 1, full);
    CHECK_FALSE(standingOf(noRoom, 1, 1).transfer->usable.has_value());
    CHECK_FALSE(standingOf(noRoom, 1, 1).transfer->why.empty());
}

TEST_CASE("time says nothing about jobs, and jobs change nothing about a run")
{
    const Walk alone = Walk().filteringAt(0).readingAt(2, "20 14 4");
    Walk beside = Walk().filteringAt(0).openJobAt(1, 1, spentOil()).readingAt(2, "20 14 4");
    CHECK(beside.run().facts.size() == alone.run().facts.size());
    CHECK(beside.standingAt(4).credit.turnovers == alone.standingAt(4).credit.turnovers);
    CHECK(beside.standingAt(4).due == alone.standingAt(4).due);
    CHECK(Walk().openJobAt(1, 1, spentOil()).tickAt(60).decided().empty()); // its stop was due long before
}

TEST_CASE("what comes from elsewhere and fits no job changes nothing")
{
    const Walk walk = Walk().openJobAt(1, 1, flush()).openJobAt(1, 2, spentOil());
    const std::string before = printed(walk.state());
    Header header = walk.entries().back().header;
    header.id = {{9}};
    for (const Id& run : {Id{{7}}, walk.id(), Walk::idOfJob(2)}) {
        header.run = run;
        CHECK(printed(apply(walk.state(), header, FlushBatch{litres("10")})) == before);
    }
    header.run = Walk::idOfJob(1);
    CHECK(printed(apply(walk.state(), header, flush())) == before);
    CHECK(printed(apply(walk.state(), header, TransferStopped{})) == before);
    CHECK(printed(apply(walk.state(), header, Noted{"n"})) == before);
}

TEST_CASE("what comes from elsewhere after the close is kept and counts nothing")
{
    const Walk walk =
        Walk().openJobAt(1, 1, flush()).sayOfJobAt(2, 1, FlushBatch{litres("10")}).sayOfJobAt(4, 1, FlushClosed{});
    Header header = walk.entries().back().header;
    header.entered.monoNs += 60'000'000'000;
    header.id = {{8}};
    State state = apply(walk.state(), header, FlushBatch{litres("10")});
    header.id = {{9}};
    state = apply(std::move(state), header, FlushClosed{});
    const Job& job = *state.jobOf(Walk::idOfJob(1));
    CHECK(job.facts.size() == 4);
    CHECK(job.batches().size() == 1);
    CHECK(job.closedAt == std::chrono::minutes(3));
}

TEST_CASE("every verdict that a start is judged with can be told")
{
    std::vector<std::string_view> judged;
    for (const Verdict verdict : {Verdict::Go, Verdict::GoSlower, Verdict::Warm, Verdict::NoGo, Verdict::CannotTell}) {
        judged.push_back(nameOf(verdict));
    }
    CHECK(judged == std::vector<std::string_view>(startVerdicts.begin(), startVerdicts.end()));
}
