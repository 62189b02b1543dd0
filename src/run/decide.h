// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// The one way in: what somebody wants to say or do is decided against the state and becomes events, or is refused with
// a reason. Two inputs only: commands, and the passing of time (`Tick`). Nothing here looks at a clock or makes an id.
//
// What a person saw is never refused: an odd value is recorded and questioned. Refused is what has no place to go: a
// run that is not there, a set with the wrong number of gauges, an alert that does not stand, a second close, oil moved
// in a run that is closed; a note that is longer than one can be; amending an attachment, whose file a withdrawal takes
// for good; and an ending that claims a target which was not met. Of jobs that are no runs also volumes
// that cannot be (job.h), and whatever is said after their close.

#pragma once

#include "run/state.h"

#include <map>
#include <variant>
#include <vector>

namespace loopside::run {

/// Starts a run under a new id.
struct OpenRun
{
    Id run;
    Setup setup;
};

/// Something said about a run.
struct Say
{
    Id run;
    Said what;
};

/// Ends a run by hand, or signs off one that ended by its target.
struct CloseRun
{
    Id run;
    Ending ending;
    std::string why;
};

/// Begins a job that is no run, under a new id. A cart that is marked is not refused: that is a prompt, not a bar.
struct OpenJob
{
    Id job;
    JobOpened what;
};

/// Something said of a job.
struct SayOfJob
{
    Id job;
    JobSaid what;
};

/// Elements came into the stock or left it other than by a changeover. Belongs to no run.
struct MoveStock
{
    std::string type;
    int elements = 0; ///< In is positive.
    std::string why;
};

/// A record of the catalogue is put, new or in place of the one before. Belongs to no run.
struct PutRecord
{
    RecordPut what;
};

/// Records and counts out of one file: all of them are put, each as an event of its own, or none.
struct PutRecords
{
    std::vector<RecordPut> records;
    std::vector<MoveStock> stock = {};
};

/// Time passed. Says nothing of jobs.
struct Tick
{
    std::int64_t sleptMs = 0; ///< How long nobody could be reminded, where that is worth telling; 0: not at all.
};

using CommandKinds = std::variant<OpenRun, Say, CloseRun, OpenJob, SayOfJob, MoveStock, PutRecord, PutRecords, Tick>;

/// What is asked for. A class of its own, as Event is.
struct Command : CommandKinds
{
    using CommandKinds::CommandKinds;
    Command(const Command&);
    Command(Command&&) noexcept;
    Command& operator=(const Command&);
    Command& operator=(Command&&) noexcept;
    ~Command();
};

/// Who asks, when, and under which id the first event will be kept.
struct Context
{
    Id device;
    Id person;
    Id firstEntry;
    Stamp now;
    Observed observed = {};
    std::map<Id, TurnoverBand> together = {}; ///< Of runs that somebody said are one with others (link.h): the union.
};

/// One decided event and the run or job it belongs to.
struct Decided
{
    Id run; ///< None where it belongs to neither.
    Event event;

    friend bool operator==(const Decided&, const Decided&) = default;
};

/// The events that follow from `command`, the alerts it raises or clears last. Nothing changes until they are applied.
[[nodiscard]] Result<std::vector<Decided>> decide(const State& state, const Command& command, const Context& context);

} // namespace loopside::run
