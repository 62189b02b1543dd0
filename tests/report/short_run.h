// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "ledger/logbook.h"
#include "ledger/memory_journal.h"
#include "ledger/some_setup.h"
#include "report/evidence.h"

#include <catch2/catch.hpp>

#include <utility>

namespace loopside::test {

/// A run that is opened, and of which is said what a test wants, all in one moment.
class ShortRun
{
public:
    explicit ShortRun(const run::Setup& setup = bareSetup())
    {
        REQUIRE(logbook_);
        REQUIRE(logbook_->enrol(hand_.device, ledger::DeviceKey::fromSeed({})));
        run_ = logbook_->newId();
        REQUIRE(logbook_->submit(run::OpenRun{run_, setup}, hand_));
    }

    /// The entry that says `what`.
    Id say(run::Said what)
    {
        const auto said = logbook_->submit(run::Say{run_, std::move(what)}, hand_);
        REQUIRE(said);
        return said->front().header.id;
    }

    [[nodiscard]] report::Evidence evidence() const
    {
        auto evidence = report::evidenceOf([&](const auto& take) { return ledger::readAll(journal_, take); }, run_);
        REQUIRE(evidence);
        return *std::move(evidence);
    }

private:
    class StillClock final : public Clock
    {
    public:
        Stamp now() override { return {1'752'300'900'000, 0, 0, {}}; }
    };

    ledger::MemoryJournal journal_;
    StillClock clock_;
    SeededRandom random_{1};
    Result<ledger::Logbook> logbook_ = ledger::Logbook::open(journal_, clock_, random_);
    ledger::Hand hand_{.device = {.bytes = {1}}, .person = {.bytes = {2}}};
    Id run_;
};

} // namespace loopside::test
