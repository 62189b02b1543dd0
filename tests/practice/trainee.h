// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "ledger/logbook.h"
#include "ledger/memory_journal.h"
#include "practice/debrief.h"
#include "run/standing.h"

#include <memory>

namespace loopside::test {

/// Somebody at the simulated cart with a logbook: reads what the dials show to the nearest division, says it, and hears
/// what Loopside finds. Time is the cart's.
class Trainee
{
public:
    Trainee(int number, std::uint64_t seed);
    Trainee(const Trainee&) = delete;
    Trainee& operator=(const Trainee&) = delete;

    void pass(double minutes);
    void say(const run::Said& said);
    void mode(run::Mode mode) { say(run::ModeChanged{mode}); }
    void look(std::string_view spot) { say(run::CheckAnswered{std::string(practice::lookCheck), std::string(spot)}); }
    void think(const practice::Opinion& opinion);
    void read();
    /// Until the next reading is due; 15 min where none is.
    void waitToRead();
    /// All elements, with the pump stopped, then on and a first set.
    void change(int stage);
    void sample() { say(run::SampleDrawn{"S", 3}); }

    /// Does what a good technician does, knowing what is hidden only once it can be noticed.
    void doItWell();
    /// Starts, reads once, lets it run for the time of the target, stops.
    void doNothing();
    /// Reads on as planned to the target as Loopside counts it, whatever is said, and changes nothing.
    void onlyRead();

    [[nodiscard]] const practice::Exercise& exercise() const { return exercise_; }
    [[nodiscard]] const run::RunState& run() const;
    [[nodiscard]] practice::Debrief debrief() const { return practice::debriefOf(exercise_); }
    [[nodiscard]] bool hasHeard(std::string_view finding) const;

private:
    struct CartClock final : Clock
    {
        Stamp now() override;
        std::int64_t ms = 0;
    };

    void submit(const run::Command& command);
    void answerFault();
    void answerLimits();
    [[nodiscard]] bool isAtTarget() const;
    [[nodiscard]] bool wants(practice::Goal goal) const;

    practice::Exercise exercise_;
    CartClock clock_ = {};
    SeededRandom random_{5};
    ledger::MemoryJournal journal_ = {};
    std::unique_ptr<ledger::Logbook> logbook_;
    ledger::Hand hand_ = {};
    Id run_ = {};
    bool hasAnswered_ = false;
};

} // namespace loopside::test
