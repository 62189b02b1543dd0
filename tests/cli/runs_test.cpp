// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// Whose runs are, by the program itself: two journals in files, and bundles between them.

#include "cli/program.h"
#include "hub/hub_program.h"
#include "ledger/logbook.h"
#include "ledger/recorder.h"
#include "ledger/some_setup.h"
#include "run/run_code.h"
#include "store/key_file.h"
#include "store/sqlite_journal.h"
#include "store/temp_folder.h"

#include <catch2/catch.hpp>

#include <csignal>
#include <filesystem>

using namespace loopside;
using namespace loopside::test;
using Json = nlohmann::json;

namespace {

class MinuteClock final : public Clock
{
public:
    Stamp now() override
    {
        stamp.wallMs += 60'000;
        stamp.monoNs += 60'000'000'000U;
        return stamp;
    }

    Stamp stamp = {1'752'300'900'000, 0, 0, Recorder::idOf(0xB0, 1)};
};

/// The folder of a tablet.
class Tablet
{
public:
    Tablet(const TempFolder& folder, const std::string& name) : data{folder.file(name)}, bundle_{data + ".bundle"}
    {
        std::filesystem::create_directory(data);
    }

    /// Opens a run there, filters for `minutes` and closes it if that is wanted; the run's code.
    [[nodiscard]] std::string run(int minutes, bool isClosed = false, const std::string& tank = "PH-3") const
    {
        const auto journal = store::SqliteJournal::open(data + "/journal.sqlite");
        REQUIRE(journal);
        MinuteClock clock;
        SeededRandom random(std::hash<std::string>{}(data + tank));
        auto logbook = ledger::Logbook::open(**journal, clock, random);
        auto key = store::loadOrCreateKey(data + "/device.key");
        REQUIRE((logbook && key));
        const ledger::Hand hand{store::deviceOf(*key), Id{.bytes = {2}}};
        REQUIRE(logbook->enrol(hand.device, *std::move(key)));
        const Id id = logbook->newId();
        run::Setup setup = bareSetup();
        setup.tank.name = tank;
        setup.cart.name = "Grey cart";
        REQUIRE(logbook->submit(run::OpenRun{id, setup}, hand));
        REQUIRE(logbook->submit(run::Say{id, run::ModeChanged{run::Mode::Filtering, std::nullopt}}, hand));
        for (int i = 0; i < minutes; ++i) {
            REQUIRE(logbook->submit(run::Say{id, run::Noted{"still there"}}, hand));
        }
        if (isClosed) {
            REQUIRE(logbook->submit(run::CloseRun{id, run::Ending::StoppedEarly, "over"}, hand));
        }
        return run::codeOf(id);
    }

    void give(const Tablet& to) const
    {
        REQUIRE(
            runProgram({"bundle", "export", data + "/journal.sqlite", "--to", bundle_, "--key", data + "/device.key"})
                .exitCode
            == 0);
        REQUIRE(runProgram({"bundle", "import", bundle_, "--journal", to.data + "/journal.sqlite"}).exitCode == 0);
    }

    /// What a verb of the family `runs` says.
    [[nodiscard]] Ran runs(std::vector<std::string> words) const
    {
        words.insert(words.begin(), "runs");
        words.insert(words.end(), {"--data", data, "--json"});
        return runProgram(words);
    }

    [[nodiscard]] Ran says(std::vector<std::string> words) const
    {
        words.insert(words.end(), {"--person", "03000000-0000-0000-0000-000000000000"});
        return runs(std::move(words));
    }

    [[nodiscard]] Json listed(const std::string& code) const
    {
        const Ran ran = runs({"list"});
        REQUIRE(ran.exitCode == 0);
        for (const std::string& line : linesOf(ran.out)) {
            if (Json run = Json::parse(line); run["code"] == code) {
                return run;
            }
        }
        FAIL("no run " << code << " is listed");
        return {};
    }

    /// Hands its journal over and takes in what matters here; with a code it enrols first.
    void handOver(const std::vector<std::string>& enrolling = {}) const
    {
        std::vector<std::string> words = {"handover", data + "/journal.sqlite", "--json"};
        words.insert(words.end(), enrolling.begin(), enrolling.end());
        const Ran ran = runProgram(words);
        CAPTURE(ran.out, ran.err);
        REQUIRE(ran.exitCode == 0);
    }

    [[nodiscard]] std::size_t entries() const
    {
        return linesOf(runProgram({"record", data + "/journal.sqlite"}).out).size();
    }

    /// It refuses what is said in a sentence that has `why`, and nothing is written.
    void refuses(const std::vector<std::string>& words, const std::string& why) const
    {
        CAPTURE(words);
        const std::size_t before = entries();
        const Ran ran = says(words);
        CHECK(ran.exitCode == 1);
        CHECK_THAT(ran.err, Catch::Contains(why));
        CHECK(entries() == before);
    }

    std::string data;

private:
    std::string bundle_;
};

} // namespace

TEST_CASE(
    "a run whose entries came in a bundle is taken over by its code, and the first tablet hears of it the same way")
{
    const TempFolder folder;
    const Tablet one(folder, "one");
    const Tablet two(folder, "two");
    const std::string code = one.run(10);
    static_cast<void>(two.run(1, true, "PH-9"));
    two.refuses({"take-over", code, "--valve", "filtering"}, "no run with the code " + code);
    one.give(two);
    CHECK(two.listed(code)["is_here"] == false);
    const Ran taken = two.says({"take-over", code, "--valve", "filtering"});
    CHECK(taken.exitCode == 0);
    CHECK(Json::parse(taken.out)["is_here"] == true);
    CHECK(two.listed(code)["person"] == "03000000-0000-0000-0000-000000000000");
    CHECK(runProgram({"verify", two.data + "/journal.sqlite"}).exitCode == 0);
    CHECK(one.listed(code)["is_here"] == true); // it does not know yet
    two.give(one);
    CHECK(one.listed(code)["is_here"] == false);
    CHECK(one.listed(code)["tablet"] == two.listed(code)["tablet"]);
    one.refuses({"hand-on", code, "--to", "0000"}, "another tablet goes on with the run");
}

TEST_CASE("a wrong code, the tablet's own run, a closed one and a valve that nobody can have read are refused")
{
    const TempFolder folder;
    const Tablet one(folder, "one");
    const Tablet two(folder, "two");
    const std::string own = two.run(2);
    const std::string closed = one.run(2, true, "PH-4");
    one.give(two);
    two.refuses({"take-over", "7K3M9", "--valve", "filtering"}, "six signs");
    two.refuses({"take-over", "7K3M9U", "--valve", "filtering"}, "a sign that stands in no code");
    two.refuses({"take-over", own, "--valve", "filtering"}, "goes on with the run " + own + " already");
    two.refuses({"take-over", closed, "--valve", "filtering"}, "is closed and counts no more turnovers");
    two.refuses({"take-over", own, "--valve", "open"}, "--valve");
    two.refuses({"hand-on", closed, "--to", "0000"}, "is closed");
    two.refuses({"hand-on", own, "--to", "zzzz"}, "begins the id of 0 tablets");
    two.refuses({"link", own, own, "--one"}, "tell the code of another one");
    two.refuses({"link", own, closed, "--one"}, "another tank or cart");
}

TEST_CASE("a run is handed to a tablet that is known, and stays here until it is taken on")
{
    const TempFolder folder;
    const Tablet one(folder, "one");
    const Tablet two(folder, "two");
    const std::string code = one.run(5);
    static_cast<void>(two.run(1, false, "PH-9"));
    two.give(one);
    const std::string device = toText(store::deviceOf(store::loadOrCreateKey(two.data + "/device.key").value()));
    const Ran handed = one.says({"hand-on", code, "--to", device.substr(0, 6)});
    CHECK(handed.exitCode == 0);
    CHECK(Json::parse(handed.out)["offered_to"] == device);
    CHECK(one.listed(code)["is_here"] == true);
}

TEST_CASE("two journals of one cleaning are asked about, and as one count no time twice, whichever takes in the other")
{
    const TempFolder folder;
    const Tablet one(folder, "one");
    const Tablet two(folder, "two");
    const std::string a = one.run(20);
    const std::string b = two.run(20);
    one.give(two);
    CHECK(two.listed(a)["maybe_one_with"] == Json::array({b}));
    CHECK(two.listed(a)["together"].is_null());
    CHECK(two.says({"link", a, b, "--one"}).exitCode == 0);
    two.give(one);
    const Json here = one.listed(a);
    CHECK(here["one_with"] == Json::array({b}));
    CHECK(here["maybe_one_with"] == Json::array());
    CHECK(here["together"]["best"] == two.listed(b)["together"]["best"]);
    const double together = here["together"]["best"];
    const double alone = here["turnovers"]["best"];
    CHECK(alone > 0.5);
    CHECK(together >= alone - 1e-9);
    CHECK(together < 1.5 * alone);
    CHECK(one.says({"link", b, a, "--two"}).exitCode == 0);
    CHECK(one.listed(a)["together"].is_null());
}

TEST_CASE("a handover asks the hub for the runs of other tablets that may be one with a run here")
{
    HubProgram hub;
    hub.start();
    const TempFolder folder;
    const Tablet one(folder, "one");
    const Tablet two(folder, "two");
    const Tablet three(folder, "three");
    const std::string a = one.run(20);
    const std::string b = two.run(20);
    const std::string elsewhere = three.run(20, false, "PH-9");
    for (const Tablet* tablet : {&one, &three, &two}) {
        tablet->handOver({"--enrol", hub.address(), "--code", hub.code(), "--name", "a tablet"});
    }
    CHECK(two.listed(a)["maybe_one_with"] == Json::array({b}));
    CHECK(two.listed(a)["turnovers"]["best"] > 0.5);                 // all of it came
    CHECK_THAT(two.runs({"list"}).out, !Catch::Contains(elsewhere)); // no cleaning of the same oil
    one.handOver();
    CHECK(one.listed(b)["maybe_one_with"] == Json::array({a}));
    CHECK(hub.end(SIGTERM) == 0);
}
