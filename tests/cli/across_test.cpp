// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// The history of a tank and the stock over all runs of a journal, by the program itself.

#include "cli/program.h"
#include "ledger/logbook.h"
#include "run/stock.h"
#include "store/sqlite_journal.h"
#include "store/temp_folder.h"
#include "story/story.h"

#include <catch2/catch.hpp>

#include <fstream>
#include <iterator>

using namespace loopside;
using namespace loopside::test;
using Catch::Contains;
using Json = nlohmann::json;

namespace {

/// A minute goes by at each look.
class SteadyClock final : public Clock
{
public:
    Stamp now() override
    {
        constexpr std::int64_t minuteMs = 60'000;
        ++minutes_;
        return {.wallMs = 1'760'000'000'000 + minutes_ * minuteMs,
                .monoNs = static_cast<std::uint64_t>(minutes_ * minuteMs) * 1'000'000U};
    }

private:
    std::int64_t minutes_ = 0;
};

/// A journal with one closed run of f04's set-up: a bottle before and one after, a changeover, a count of the stock,
/// and a job planned next.
struct Kept
{
    explicit Kept(const std::string& path)
    {
        std::ifstream file(std::string(LOOPSIDE_SOURCE_DIR) + "/tests/stories/f04_hungry_stage.json", std::ios::binary);
        const auto story = story::parseStory(std::string(std::istreambuf_iterator<char>(file), {}));
        REQUIRE(story);
        run::Setup setup = story->setup;
        setup.stages[1].type = "G3";
        tank = setup.tank.name;
        cart = setup.cart.name;
        const auto journal = store::SqliteJournal::open(path);
        REQUIRE(journal);
        SteadyClock clock;
        SeededRandom random(1);
        auto logbook = ledger::Logbook::open(**journal, clock, random);
        REQUIRE(logbook);
        const ledger::Hand hand{.device = {.bytes = {1}}, .person = {.bytes = {2}}};
        REQUIRE(logbook->enrol(hand.device, ledger::DeviceKey::fromSeed({})));
        const auto submit = [&](const run::Command& command) { REQUIRE(logbook->submit(command, hand)); };
        const Id run = logbook->newId();
        const auto say = [&](run::Said what) { submit(run::Say{run, std::move(what)}); };
        submit(run::PutRecord{run::TankPut{setup.tank, {}}});
        submit(run::PutRecord{run::CartPut{setup.cart, setup.stages}});
        submit(run::MoveStock{"G3", 6, std::string(run::stockCounted)});
        submit(run::OpenRun{run, setup});
        say(run::SampleDrawn{"B", 1});
        say(run::ModeChanged{run::Mode::Filtering});
        for (int i = 0; i < 60; ++i) {
            submit(run::Tick{});
        }
        say(run::SampleDrawn{"A", 1});
        say(run::ModeChanged{run::Mode::Stopped});
        say(run::ElementsChanged{2, 2, {}});
        say(run::ResultEntered{.sample = "B", .code = "20/18/15", .water = "120 ppm", .viscosity = {}});
        say(run::ResultEntered{.sample = "A", .code = "18/16/13", .water = "90 ppm", .viscosity = {}});
        submit(run::CloseRun{run, run::Ending::StoppedEarly, "shift over"});
        run::JobRecord job{.order = "WO-7", .tank = tank, .cart = cart};
        job.turnovers = Decimal::parse("7").value();
        submit(run::PutRecord{run::JobPut{job}});
    }

    std::string tank;
    std::string cart;
};

} // namespace

TEST_CASE("the history of a tank is told in words, in three languages")
{
    const TempFolder folder;
    const Kept kept(folder.file("a.db"));
    const Ran told = runProgram({"tank", folder.file("a.db"), "--tank", kept.tank});
    CHECK(told.exitCode == 0);
    CHECK_THAT(told.out,
               Contains(kept.tank) && Contains("in 1 runs") && Contains("18/16/13 (2025-10-09), 20/18/15 (2025-10-09)")
                   && Contains("90 ppm") && Contains("120 ppm") && Contains("runs behind it:") && Contains("WO-7")
                   && Contains("cannot tell yet"));
    CHECK_THAT(runProgram({"tank", folder.file("a.db"), "--language", "de"}).out,
               Contains("Mischung, gelernt") && Contains("2 Elemente eingesetzt"));
    CHECK_THAT(runProgram({"tank", folder.file("a.db"), "--language", "es"}).out, Contains("Lo próximo previsto"));
}

TEST_CASE("the same as JSON, a line for each tank and cart")
{
    const TempFolder folder;
    const Kept kept(folder.file("a.db"));
    const auto lines = linesOf(runProgram({"tank", folder.file("a.db"), "--json"}).out);
    REQUIRE(lines.size() == 2);
    const Json tank = Json::parse(lines[0]);
    CHECK(tank["tank"] == kept.tank);
    CHECK(tank["runs"] == 1);
    CHECK(tank["codes"].size() == 2);
    CHECK(tank["waters"][0]["water"] == "90 ppm");
    CHECK(tank["planned"][0]["job"] == "WO-7");
    CHECK(tank["planned"][0]["turnovers"] == 7.0);
    const Json& mixing = tank["learned"]["mixing"];
    CHECK(mixing["capture_times_mixing"]["low"] < mixing["capture_times_mixing"]["high"]);
    const Json cart = Json::parse(lines[1]);
    CHECK(cart["cart"] == kept.cart);
    CHECK(cart["elements"] == 2);
}

TEST_CASE("a tank that is not there and a journal that is not there are refused")
{
    const TempFolder folder;
    const Kept kept(folder.file("a.db"));
    const Ran ran = runProgram({"tank", folder.file("a.db"), "--tank", "another"});
    CHECK(ran.exitCode == 1);
    CHECK_THAT(ran.err, Contains("\"another\""));
    CHECK(runProgram({"tank", folder.file("none.db")}).exitCode == 1);
    CHECK(runProgram({"stock", folder.file("none.db")}).exitCode == 1);
    CHECK(runProgram({"stock"}).exitCode == 2);
}

TEST_CASE("the stock tells what is there, what was used and what a planned job takes")
{
    const TempFolder folder;
    const Kept kept(folder.file("a.db"));
    const Json stock = answerOf("stock", {folder.file("a.db")});
    CHECK(stock["type"] == "G3");
    CHECK(stock["elements"] == 4);
    CHECK(stock["used"] == 2);
    CHECK(stock["changes"] == 1);
    CHECK(stock["next_30_days"]["low"] <= stock["next_30_days"]["high"]);
    REQUIRE(stock["jobs"].size() == 1);
    CHECK(stock["jobs"][0]["why"] == "no-life");
    CHECK(stock["planned_is_all"] == false);
    const Ran told = runProgram({"stock", folder.file("a.db")});
    CHECK_THAT(told.out,
               Contains("G3") && Contains("4 elements") && Contains("2 in 1 changes") && Contains("WO-7")
                   && Contains("no such element reached its limit yet"));
}
