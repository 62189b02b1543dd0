// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "ledger/logbook.h"
#include "ledger/memory_journal.h"
#include "ledger/recorder.h"
#include "ledger/some_setup.h"

namespace loopside::test {

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

/// A tablet that writes: the device `number`, which a `Hub` of handmade.h knows.
class Desk
{
public:
    explicit Desk(std::uint8_t number, SteppedClock& clock, ledger::Reach reach = ledger::Reach::Whole)
        : Desk(number, clock, nullptr, reach)
    {
    }

    /// Its logbook reads and writes through `journal`, a journal over this one's, or over its own where there is none.
    Desk(std::uint8_t number, SteppedClock& clock, ledger::Journal* through, ledger::Reach reach)
        : random_{number},
          hand{Recorder::idOf(0xD0, number), Recorder::idOf(0xE0, number)},
          logbook{ledger::Logbook::open(through == nullptr ? journal : *through, clock, random_, reach).value()}
    {
        REQUIRE(logbook.enrol(hand.device, Recorder::keyOf(number)));
    }

    void tell(const run::Command& command)
    {
        const auto committed = logbook.submit(command, hand);
        REQUIRE(committed);
    }

    void putTank(const std::string& name, const std::string& litres)
    {
        run::TankRecord tank = bareSetup().tank;
        tank.name = name;
        tank.volume = typed<units::Volume>(litres + " L");
        tell(run::PutRecord{run::TankPut{tank, {}}});
    }

    [[nodiscard]] Id openRun(const std::string& tank)
    {
        const Id run = logbook.newId();
        run::Setup setup = bareSetup();
        setup.tank.name = tank;
        setup.cart.name = "Cart " + std::to_string(hand.device.bytes[15]);
        tell(run::OpenRun{run, setup});
        return run;
    }

    ledger::MemoryJournal journal;

private:
    SeededRandom random_;

public:
    ledger::Hand hand;
    ledger::Logbook logbook;
};

/// The volume of `tank` as the latest record of it says.
inline std::string volumeOf(const run::State& state, const std::string& tank)
{
    std::string volume;
    for (const auto& record : state.records) {
        if (const auto* put = std::get_if<run::TankPut>(&record.what); put != nullptr && put->tank.name == tank) {
            volume = put->tank.volume.toText();
        }
    }
    return volume;
}

} // namespace loopside::test
