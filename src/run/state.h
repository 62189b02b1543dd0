// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// Where everything stands: nothing but a fold of the events. Two devices with the same entries have the same state.

#pragma once

#include "oil/fluid.h"
#include "run/event.h"
#include "run/header.h"
#include "run/run_clock.h"

#include <map>
#include <optional>
#include <vector>

namespace loopside::run {

/// One event of a run with what later amendments made of it.
struct Fact
{
    Header header;
    Event original;
    Event effective;                ///< The original with its amendments, the latest last.
    std::vector<Id> amendedBy = {}; ///< All kept, in fold order.
    bool struck = false;
    RunTime entered{0};
    RunTime seen{0}; ///< When it was observed; equals `entered` unless a person said earlier.
};

/// The states of IEC 62682 that a person meets. An alert that is not in the list of its run is normal.
enum class AlertState
{
    Unacknowledged,
    Acknowledged,
    Returned,
    Shelved,
    OutOfService
};

[[nodiscard]] std::string_view nameOf(AlertState state);

struct Alert
{
    AlertId id;
    std::optional<int> stage;
    AlertState state = AlertState::Unacknowledged;
    RunTime since{0};
    std::optional<RunTime> shelvedUntil = {};
    Id ground = {};
    std::vector<Message::Argument> told = {};
    bool asToldThen = false; ///< Its ground was amended afterwards; the alert stays as it was told.
};

/// Open: it runs. CloseOut: the turnover target is met; the next stop ends it. Closed: totals are fixed.
enum class Phase
{
    Open,
    CloseOut,
    Closed
};

[[nodiscard]] std::string_view nameOf(Phase phase);

struct RunState
{
    Id id = {};
    Setup setup;
    std::optional<oil::Fluid> fluid; ///< None if the oil is not described well enough to know its viscosity.
    Header opened;
    RunClock clock;
    std::vector<Fact> facts = {}; ///< In fold order.
    std::vector<Alert> alerts = {};
    std::vector<LoadingLearned> past = {};   ///< What it may learn from, as known when it was opened.
    PlaceLearned place = {};                 ///< What was known of its tank and its dials then.
    std::vector<LoadingLearned> taught = {}; ///< What its own loadings teach runs that are opened later.
    std::vector<StockMoved> used = {};       ///< What its changeovers took out of the stock, as told.
    std::vector<TankRecord> movedFrom = {};  ///< The tanks that it was written to before, the first first.
    Phase phase = Phase::Open;
    std::optional<RunClosed> closed = {};
    RunTime closedAt{0};
    bool isPutAway = false; ///< Only what stays of it is there: put_away.h.

    [[nodiscard]] const Fact* factOf(const Id& entry) const;
    [[nodiscard]] const Alert* alertOf(AlertId alert, std::optional<int> stage) const;
};

struct JobFact
{
    Header header;
    JobSaid said;
    RunTime seen{0}; ///< Below 0 if it was seen before the job was opened.
};

/// Work with a cart that cleans no oil: a flush of the cart, a transfer to waste. It has an id like a run, in the same
/// place of the header; its time is counted from its opening, which may have been seen earlier.
struct Job
{
    Id id = {};
    JobOpened what;
    Header opened;
    RunClock clock;
    std::vector<JobFact> facts = {}; ///< In fold order.
    std::optional<RunTime> closedAt = {};

    [[nodiscard]] const FlushOpened* flush() const { return std::get_if<FlushOpened>(&what); }
    [[nodiscard]] const TransferOpened* transfer() const { return std::get_if<TransferOpened>(&what); }
    [[nodiscard]] bool isOpen() const { return !closedAt; }
    [[nodiscard]] const std::string& cart() const;

    /// What `opened` observed, on the job's clock: 0 or below.
    [[nodiscard]] RunTime begun() const { return RunTime{-opened.observed.agoMs}; }

    /// The batches of a flush up to its close.
    [[nodiscard]] std::vector<TypedVolume> batches() const;
};

/// That a cart has to be flushed before it may pump oil that is to be kept. A prompt, never a bar.
struct FlushMark
{
    Id by = {}; ///< The run or job in which waste went through it first.
    Stamp since = {};
};

/// What a cart has been through, as far as the journal knows. Struck entries do not count.
struct CartStanding
{
    std::string lastFluid = {};  ///< As text, such as "ISO VG 46 hydraulic"; empty: not known.
    std::string lastFamily = {}; ///< Its kind, such as hydraulic; empty: not known.
    std::optional<FlushMark> flushBeforeCleanUse = {};
    Id lastFlush = {}; ///< The job; what it left behind is judged in job.h.
};

/// What the journal knows of the elements of one type. Below 0 where more were used than anybody told of.
struct StockStanding
{
    int elements = 0;
    bool isCounted = false; ///< A person told of some. Where nobody did, the number says only what was used.
    friend bool operator==(const StockStanding&, const StockStanding&) = default;
};

/// Something told outside of runs and jobs, or of all of them, by whom and when.
template<class What>
struct Entered
{
    Header header;
    What what;
};

/// Everything a device knows, folded. Any number of runs and jobs may be open.
struct State
{
    std::map<Id, RunState> runs = {};
    std::map<Id, Job> jobs = {};
    std::map<std::string, CartStanding> carts = {};   ///< By name; a cart that pumped nothing yet is not there.
    std::map<std::string, StockStanding> stock = {};  ///< By element type.
    std::vector<Entered<StockMoved>> stockMoves = {}; ///< All, in fold order.
    std::vector<Entered<RecordPut>> records = {};     ///< Of the catalogue, in fold order: the later one wins.

    [[nodiscard]] const RunState* runOf(const Id& run) const;
    [[nodiscard]] const Job* jobOf(const Id& job) const;
    [[nodiscard]] const CartStanding* cartOf(const std::string& cart) const;
};

/// A fluid in a few words, such as "ISO VG 46 hydraulic": how `CartStanding` names it.
[[nodiscard]] std::string fluidText(const FluidRecord& fluid);

/// `state` after `event` happened. Total: an event that fits nothing (an unknown run, an amendment of nothing) is kept
/// by the journal and changes nothing here. Call it in fold order (header.h); an entry that comes late from another
/// device is folded in by folding anew.
[[nodiscard]] State apply(State state, const Header& header, const Event& event);

} // namespace loopside::run
