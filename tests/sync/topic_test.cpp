// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "sync/topic.h"

#include "ledger/body.h"
#include "ledger/handed.h"
#include "ledger/some_setup.h"
#include "run/run_code.h"

#include <catch2/catch.hpp>

#include <algorithm>

using namespace loopside;
using namespace loopside::sync;

namespace {

ledger::Entry entryOf(const run::Event& event, std::uint64_t sequence, const Id& run)
{
    ledger::Entry entry;
    entry.header.device.bytes[0] = 1;
    entry.chain.bytes[0] = 2;
    entry.header.sequence = sequence;
    entry.header.run = run;
    entry.kind = ledger::kindOf(event);
    entry.body = ledger::bodyOf(event);
    return entry;
}

run::Setup setupOn(const std::string& tank)
{
    run::Setup setup = test::bareSetup();
    setup.tank.name = tank;
    return setup;
}

std::vector<std::uint64_t> listed(const TopicIndex& index, const Topic& topic)
{
    std::vector<std::uint64_t> sequences;
    std::ranges::transform(index.of(topic), std::back_inserter(sequences), &Ref::sequence);
    return sequences;
}

const Id runId = Id{.bytes = {7}};

} // namespace

TEST_CASE("records, lessons, runs and tanks have their topics")
{
    TopicIndex index;
    index.add(entryOf(run::TankPut{setupOn("A").tank}, 1, {}));
    index.add(entryOf(run::RunOpened{setupOn("A"), {}}, 2, runId));
    index.add(entryOf(run::ModeChanged{run::Mode::Filtering}, 3, runId));
    index.add(entryOf(run::Noted{"a moment"}, 4, runId));
    index.add(entryOf(run::LoadingLearned{}, 5, runId));
    index.add(entryOf(run::StockMoved{"F-10", 2, "received"}, 6, {}));
    CHECK(listed(index, Topic::catalogue()) == std::vector<std::uint64_t>{1, 6});
    CHECK(listed(index, Topic::learned()) == std::vector<std::uint64_t>{5});
    CHECK(listed(index, Topic::run(runId)) == std::vector<std::uint64_t>{2, 3, 4, 5});
    CHECK(listed(index, Topic::tank("A")) == std::vector<std::uint64_t>{2, 3, 5}); // no moments
    CHECK(listed(index, Topic::device(Id{.bytes = {1}})).size() == 6);
    CHECK(listed(index, Topic::tank("B")).empty());
}

TEST_CASE("a run that was moved stands in the history of both tanks, in the new one from its opening on")
{
    TopicIndex index;
    index.add(entryOf(run::RunOpened{setupOn("A"), {}}, 1, runId));
    index.add(entryOf(run::ModeChanged{run::Mode::Filtering}, 2, runId));
    index.add(entryOf(run::RunMoved{setupOn("B").tank, "wrong tag"}, 3, runId));
    index.add(entryOf(run::ModeChanged{run::Mode::Stopped}, 4, runId));
    CHECK(listed(index, Topic::tank("A")) == std::vector<std::uint64_t>{1, 2, 3, 4});
    CHECK(listed(index, Topic::tank("B")) == std::vector<std::uint64_t>{1, 2, 3, 4});
}

TEST_CASE("what comes before the opening of its run is listed once that is there")
{
    TopicIndex index;
    index.add(entryOf(run::ModeChanged{run::Mode::Filtering}, 2, runId));
    CHECK(listed(index, Topic::tank("A")).empty());
    index.add(entryOf(run::RunOpened{setupOn("A"), {}}, 1, runId));
    CHECK(listed(index, Topic::tank("A")) == std::vector<std::uint64_t>{2, 1});
}

TEST_CASE("a run that is handed to a tablet is listed for it from the beginning, and for whoever has its code")
{
    TopicIndex index;
    index.add(entryOf(run::RunOpened{setupOn("A"), {}}, 1, runId));
    index.add(entryOf(run::Noted{"a moment"}, 2, runId));
    CHECK(listed(index, Topic::handedTo(Id{.bytes = {9}})).empty());
    index.add(entryOf(ledger::handoverTo(Id{.bytes = {9}}), 3, runId));
    index.add(entryOf(run::Noted{"another"}, 4, runId));
    CHECK(listed(index, Topic::handedTo(Id{.bytes = {9}})) == std::vector<std::uint64_t>{1, 2, 3, 4});
    CHECK(listed(index, Topic::code(run::codeOf(runId))) == std::vector<std::uint64_t>{1, 2, 3, 4});
    CHECK(listed(index, Topic::handedTo(Id{.bytes = {8}})).empty());
}

TEST_CASE("a body that cannot be read, and a tank with an endless name, have no tank's topic")
{
    TopicIndex index;
    ledger::Entry odd = entryOf(run::RunOpened{setupOn("A"), {}}, 1, runId);
    odd.body = "{";
    index.add(odd);
    index.add(entryOf(run::RunMoved{setupOn(std::string(600, 'x')).tank, "a test"}, 2, runId));
    CHECK(listed(index, Topic::run(runId)).size() == 2);
    CHECK(listed(index, Topic::tank("A")).empty());
    CHECK(listed(index, Topic::tank(std::string(600, 'x'))).empty());
}
