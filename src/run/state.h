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
    Phase phase = Phase::Open;
    std::optional<RunClosed> closed = {};
    RunTime closedAt{0};

    [[nodiscard]] const Fact* factOf(const Id& entry) const;
    [[nodiscard]] const Alert* alertOf(AlertId alert, std::optional<int> stage) const;
};

/// Everything a device knows, folded. Any number of runs may be open.
struct State
{
    std::map<Id, RunState> runs = {};

    [[nodiscard]] const RunState* runOf(const Id& run) const;
};

/// `state` after `event` happened. Total: an event that fits nothing (an unknown run, an amendment of nothing) is kept
/// by the journal and changes nothing here. Call it in fold order (header.h); an entry that comes late from another
/// device is folded in by folding anew.
[[nodiscard]] State apply(State state, const Header& header, const Event& event);

} // namespace loopside::run
