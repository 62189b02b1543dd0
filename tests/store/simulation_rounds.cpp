// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "store/simulation_rounds.h"

#include "ledger/fold_check.h"
#include "ledger/logbook.h"
#include "ledger/some_setup.h"
#include "ledger/verify.h"
#include "run/notes.h"
#include "run/standing.h"
#include "store/backup.h"
#include "store/faulty_disk.h"
#include "store/files.h"
#include "store/recovery.h"
#include "store/temp_folder.h"

#include <sqlite3.h>

#include <algorithm>
#include <array>
#include <optional>

namespace loopside::test {

namespace {

constexpr std::int64_t secondMs = 1000;
constexpr std::int64_t minuteMs = 60 * secondMs;
constexpr std::int64_t dayMs = 24 * 60 * minuteMs;

/// What really passes, and what the tablet shows of it.
class WorldClock final : public Clock
{
public:
    Stamp now() override { return stamp_; }

    void pass(std::int64_t ms)
    {
        trueMs += ms;
        stamp_.wallMs += ms;
        stamp_.monoNs += static_cast<std::uint64_t>(ms) * 1'000'000U;
    }

    void setWall(std::int64_t byMs) { stamp_.wallMs += byMs; }
    void setOffset(int minutes) { stamp_.offsetMin = minutes; }

    void startAnew(std::int64_t offMs)
    {
        pass(offMs);
        stamp_.monoNs = 0;
        ++stamp_.boot.bytes[15];
    }

    std::int64_t trueMs = 0;

private:
    Stamp stamp_ = {1'783'857'600'000, 120, 5'000'000'000, Recorder::idOf(0xB0, 1)};
};

/// What really happened to a run.
struct Truth
{
    run::Mode mode = run::Mode::Stopped;
    std::int64_t sinceMs = 0;
    std::int64_t filteredMs = 0;

    [[nodiscard]] std::int64_t filteredAt(std::int64_t nowMs) const
    {
        return filteredMs + (mode == run::Mode::Filtering ? nowMs - sinceMs : 0);
    }
};

class World
{
public:
    World(std::uint64_t seed, Planted planted) : random_{seed}, planted_{planted} {}

    /// What is wrong after a shift and the start behind it; nothing if all is well.
    std::optional<std::string> shift()
    {
        ++report.starts;
        FaultyDisk disk;
        disk.keep(path());
        disk.keep(path() + "-wal");
        if (planted_ == Planted::LyingDisk) {
            disk.lieAboutSyncs();
        }
        auto opened = store::openOrRecover(path(), folder_.file("backups"), clock_.now().wallMs);
        if (!opened) {
            return "the journal does not open: " + opened.error().sentence;
        }
        if (opened->recovered) {
            return "called damage: " + opened->recovered->why;
        }
        auto logbook = ledger::Logbook::open(*opened->journal, clock_, random_, ledger::Reach::AtHand);
        if (!logbook) {
            return "it cannot be folded: " + logbook.error().sentence;
        }
        if (auto fault = faultIn(*opened->journal, *logbook)) {
            return fault;
        }
        if (const Done enrolled = logbook->enrol(hand_.device, Recorder::keyOf(1)); !enrolled) {
            return "the device may not write: " + enrolled.error().sentence;
        }
        noteNew(*opened->journal);
        const std::uint64_t acts = 5 + below(25);
        for (std::uint64_t i = 0; i < acts; ++i) {
            if (auto fault = act(*opened->journal, *logbook, disk)) {
                return fault;
            }
        }
        end(disk, *opened);
        return std::nullopt;
    }

    Simulated report;

private:
    [[nodiscard]] std::string path() const { return folder_.file("journal.db"); }
    std::uint64_t below(std::uint64_t end) { return random_.next() % end; }
    bool happens(std::uint64_t percent) { return below(100) < percent; }

    /// Takes what the journal holds behind the last acknowledged entry as acknowledged.
    void noteNew(const ledger::Journal& journal)
    {
        const auto fresh = journal.read(acknowledged_.size(), 1'000'000).value();
        for (const ledger::Stored& stored : fresh) {
            acknowledged_.push_back(stored.entry);
        }
        report.acknowledged = acknowledged_.size();
    }

    std::optional<std::string> faultIn(const store::SqliteJournal& journal, const ledger::Logbook& shown)
    {
        std::vector<ledger::Entry> wanted = acknowledged_;
        if (planted_ == Planted::ForgottenAct && report.starts == 3) {
            wanted.push_back(Recorder(2).open().front());
        }
        const auto stored = allOf(journal);
        for (std::size_t i = 0; i < wanted.size(); ++i) {
            if (i >= stored.size() || stored[i].entry != wanted[i]) {
                return "entry " + std::to_string(i + 1) + " of " + std::to_string(wanted.size())
                    + " that were acknowledged is not there";
            }
        }
        if (const auto faults = ledger::verifyAll(journal); !faults.empty()) {
            return faults.front().sentence;
        }
        const auto whole = ledger::fold([&](const auto& take) { return ledger::readAll(journal, take); });
        if (!whole) {
            return whole.error().sentence;
        }
        if (const auto different = ledger::differences(whole->state, shown.state()); !different.empty()) {
            return different.front();
        }
        noteNew(journal); // one write may have been under way: all of it is there, or nothing
        return creditFault(whole->state);
    }

    std::optional<std::string> creditFault(const run::State& state)
    {
        for (const auto& [id, run] : state.runs) {
            const run::RunTime now = run.clock.at(clock_.now(), hand_.device);
            const run::Credit credit = run::standingOf(run, now).credit;
            const run::TurnoverBand& band = credit.turnovers;
            constexpr double slack = 1e-9;
            if (band.low > band.best + slack || band.best > band.high + slack) {
                return "the turnovers of a run stand in no order";
            }
            const double minutes = static_cast<double>(truths_[id].filteredAt(clock_.trueMs)) / minuteMs;
            const double really = (run.setup.cart.flow.value() * (minutes * 60.0 * units::second))
                / run.setup.tank.volume.value();
            if (band.low > really + 1e-4) {
                return "the low end says " + std::to_string(band.low) + " turnovers, there were "
                    + std::to_string(really);
            }
        }
        return std::nullopt;
    }

    void disturbClock()
    {
        const std::uint64_t what = below(3);
        ++report.clockFaults;
        if (what == 0) {
            clock_.setWall((static_cast<std::int64_t>(below(240)) - 120) * minuteMs);
        } else if (what == 1) {
            clock_.setOffset(static_cast<int>(below(24)) * 60 - 720);
        } else {
            clock_.setWall((below(2) == 0 ? -1 : 1) * static_cast<std::int64_t>(below(800)) * dayMs);
        }
    }

    std::optional<run::Command> nextCommand(const run::State& state)
    {
        std::vector<Id> open;
        for (const auto& [id, run] : state.runs) {
            if (run.phase != run::Phase::Closed) {
                open.push_back(id);
            }
        }
        if (open.empty() || (open.size() < 3 && happens(10))) {
            return run::OpenRun{{}, fullSetup()};
        }
        const Id run = open[below(open.size())];
        const std::uint64_t what = below(20);
        if (what < 5) {
            constexpr std::array modes = {run::Mode::Stopped, run::Mode::Filtering, run::Mode::Filtering,
                                          run::Mode::Bypassing};
            return run::Say{run, run::ModeChanged{modes.at(below(modes.size())), {}}};
        }
        if (what < 12) {
            run::ReadingLogged set;
            for (std::size_t i = 0; i < state.runs.at(run).setup.cart.gauges.size(); ++i) {
                set.gauges.emplace_back(run::GaugeTyped{Decimal(static_cast<int>(5 + below(30)), 0), std::nullopt});
            }
            return run::Say{run, set};
        }
        if (what == 12) {
            return run::Say{run, run::Noted{std::string(below(run::noteBytesMax), 'n')}};
        }
        if (what == 13) {
            return run::MoveStock{"P10", static_cast<int>(1 + below(9)), "delivery"};
        }
        if (what == 14) {
            return run::CloseRun{run, run::Ending::StoppedEarly, "shift over"};
        }
        return run::Tick{};
    }

    void remember(const run::Command& command)
    {
        if (const auto* say = std::get_if<run::Say>(&command)) {
            if (const auto* changed = std::get_if<run::ModeChanged>(&say->what)) {
                Truth& truth = truths_[say->run];
                truth.filteredMs = truth.filteredAt(clock_.trueMs);
                truth.sinceMs = clock_.trueMs;
                truth.mode = changed->mode;
            }
        }
    }

    std::optional<std::string> act(store::SqliteJournal& journal, ledger::Logbook& logbook, FaultyDisk& disk)
    {
        clock_.pass(static_cast<std::int64_t>(1 + below(happens(10) ? 4000 : 400)) * secondMs);
        if (happens(8)) {
            disturbClock();
        }
        if (happens(5)) {
            static_cast<void>(store::backUp(journal, folder_.file("backups"), clock_.now().wallMs));
        }
        auto command = nextCommand(logbook.state());
        if (auto* open = std::get_if<run::OpenRun>(&*command)) {
            open->run = logbook.newId();
        }
        if (happens(6)) {
            disk.failFrom(static_cast<int>(1 + below(6)), SQLITE_FULL);
        }
        const auto before = logbook.state();
        const auto done = logbook.submit(*command, hand_);
        if (!done && !disk.hasFailed() && done.error().code != Errc::Conflict) {
            return "a command was refused: " + done.error().sentence;
        }
        disk.work();
        if (!done) {
            ++report.refusals;
            // A failed commit may stand or not: the next start tells. The state of the program stays as it was.
            return ledger::differences(before, logbook.state()).empty()
                ? std::nullopt
                : std::optional<std::string>("a refused command changed the state");
        }
        remember(*command);
        noteNew(journal);
        return std::nullopt;
    }

    /// The shift ends: by itself, by a kill, or with the power.
    void end(FaultyDisk& disk, store::Opened& opened)
    {
        const std::uint64_t how = below(3);
        const std::string witness = contentOf(path() + ".end");
        std::optional<std::pair<std::string, std::string>> left;
        if (how == 1) {
            ++report.kills;
            left.emplace(contentOf(path()), contentOf(path() + "-wal"));
        } else if (how == 2) {
            ++report.powerCuts;
            constexpr std::array cuts = {PowerCut::DropsAll,  PowerCut::KeepsAll, PowerCut::KeepsFirst,
                                         PowerCut::KeepsSome, PowerCut::Tears,    PowerCut::Garbles};
            const PowerCut cut = cuts.at(below(cuts.size()));
            left.emplace(disk.afterCut(path(), cut, random_), disk.afterCut(path() + "-wal", cut, random_));
        }
        opened.journal.reset();
        if (left) {
            for (const char* ending : {"", "-wal", "-shm"}) {
                std::filesystem::remove(path() + ending);
            }
            write(path(), left->first);
            write(path() + "-wal", left->second);
            write(path() + ".end", witness);
        }
        if (how == 2 || happens(20)) {
            clock_.startAnew(static_cast<std::int64_t>(below(3600)) * secondMs);
            if (happens(40)) {
                disturbClock();
            }
            clock_.pass(static_cast<std::int64_t>(20 + below(100)) * secondMs);
        }
    }

    TempFolder folder_;
    WorldClock clock_;
    SeededRandom random_;
    Planted planted_;
    ledger::Hand hand_{Recorder::idOf(0xD0, 1), Recorder::idOf(0xE0, 1)};
    std::vector<ledger::Entry> acknowledged_;
    std::map<Id, Truth> truths_;
};

} // namespace

Simulated simulate(std::uint64_t seed, int starts, Planted planted)
{
    World world(seed, planted);
    for (int i = 0; i < starts && world.report.firstFault.empty(); ++i) {
        if (const auto fault = world.shift()) {
            world.report.firstFault = "seed " + std::to_string(seed) + ", start " + std::to_string(i + 1) + ": "
                + *fault;
        }
    }
    return world.report;
}

} // namespace loopside::test
