// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "ledger/logbook.h"
#include "ledger/recorder.h"
#include "ledger/some_setup.h"
#include "ledger/verify.h"
#include "run/standing.h"
#include "store/sqlite_journal.h"
#include "store/temp_folder.h"

#include <catch2/catch.hpp>

using namespace loopside;
using namespace loopside::test;

namespace {

class MinuteClock final : public Clock
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

run::ReadingLogged set(std::string_view g1)
{
    run::ReadingLogged reading;
    for (const std::string_view gauge : {g1, std::string_view("4.0"), std::string_view("1")}) {
        reading.gauges.push_back(run::GaugeTyped{number(gauge), std::nullopt});
    }
    return reading;
}

/// A journal on disk with a logbook over it, as a program has them from its start to its end.
class Sitting
{
public:
    Sitting(const std::string& path, MinuteClock& clock, RandomSource& random)
        : journal{store::SqliteJournal::open(path).value()},
          logbook{ledger::Logbook::open(*journal, clock, random).value()}
    {
        REQUIRE(logbook.enrol(hand.device, Recorder::keyOf(1)).has_value());
    }

    void submit(const run::Command& command)
    {
        const auto committed = logbook.submit(command, hand);
        if (!committed) {
            FAIL(committed.error().sentence);
        }
    }

    const ledger::Hand hand{Recorder::idOf(0xD0, 1), Recorder::idOf(0xE0, 1)};
    std::unique_ptr<store::SqliteJournal> journal;
    ledger::Logbook logbook;
};

} // namespace

TEST_CASE("a run goes on where it stood when the journal is opened again")
{
    const TempFolder folder;
    const std::string path = folder.file("journal.db");
    MinuteClock clock;
    SeededRandom random(1);
    Id id;
    {
        Sitting before(path, clock, random);
        id = before.logbook.newId();
        run::Setup setup = bareSetup();
        setup.stages[0].changeLimit = typed<units::Pressure>("34 psi");
        before.submit(run::OpenRun{id, setup});
        before.submit(run::Say{id, run::ModeChanged{run::Mode::Filtering}});
        clock.pass(2);
        before.submit(run::Say{id, set("38.0")}); // 34.0 psi: at the limit
        before.submit(run::Say{id, run::AlertAcknowledged{run::AlertId::StageAtLimit, 1, "seen"}});
    }
    Sitting after(path, clock, random);
    const run::RunState* state = after.logbook.state().runOf(id);
    REQUIRE(state != nullptr);
    REQUIRE(state->alertOf(run::AlertId::StageAtLimit, 1) != nullptr);
    CHECK(state->alertOf(run::AlertId::StageAtLimit, 1)->state == run::AlertState::Acknowledged);
    clock.pass(3);
    after.submit(run::Say{id, set("20.0")});
    state = after.logbook.state().runOf(id);
    CHECK(state->alertOf(run::AlertId::StageAtLimit, 1) == nullptr);
    const run::Standing standing = run::standingOf(*state, std::chrono::minutes(5));
    CHECK(standing.mode == run::Mode::Filtering);
    CHECK_THAT(standing.credit.turnovers.best, Catch::WithinAbs(5 * 19.0 / 400.0, 1e-9));
    CHECK(ledger::verifyAll(*after.journal).empty());
}
