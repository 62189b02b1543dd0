// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// Runs that go from one tablet to another, and runs that are one: what the kept facts "handover", "adopt" and "link"
// say (schema/README.md, section 5). Facts of another form, as old stories have them, say nothing here.

#pragma once

#include "run/link.h"
#include "run/state.h"

#include <map>
#include <optional>
#include <set>
#include <string>
#include <vector>

namespace loopside::ledger {

/// The fact that a run is handed to `device`; it is that one's once it accepts (`adoption`).
[[nodiscard]] run::Kept handoverTo(const Id& device);

/// The fact that the tablet which writes it goes on with the run. With the run's code, read off its tag or paper,
/// nobody else has to agree: where the other tablet is broken or lost.
[[nodiscard]] run::Kept adoption(const std::string& code = {});

/// The fact that who writes it hands the run to `person`, at the same tablet; it is theirs once they take it
/// (`taking`).
[[nodiscard]] run::Kept handoverToPerson(const Id& person);

/// The fact that who writes it takes the run from `person`, who handed it on at the same tablet.
[[nodiscard]] run::Kept taking(const Id& from);

/// What a person says, in this order, who read the valve as `valve` and takes on a run that stands as `now` by `fact`
/// (`adoption`, `taking`). A valve that is other than logged is logged as from now; the hands are told last, so that
/// nobody has a run of which that was not written.
[[nodiscard]] std::vector<run::Said> takingOn(run::Mode now, run::Mode valve, run::Kept fact);

/// The answer of a person to the proposal that the run is one with `other`.
[[nodiscard]] run::Kept linkAnswer(const Id& other, bool isAccepted);

/// The device to which `kept` hands its run, if it does that.
[[nodiscard]] std::optional<Id> handedTo(const run::Kept& kept);

/// That somebody hands a run on, and nobody took it yet.
struct Offer
{
    Id device = {};      ///< To which tablet; none: at the same one.
    Id person = {};      ///< To whom, at the same tablet; none: to a tablet.
    run::Header by = {}; ///< Of the entry that says so.
};

/// In whose hands a run is.
struct Hands
{
    Id device = {};         ///< The tablet that goes on with it.
    run::Header since = {}; ///< Of the entry by which it came to that tablet and person: see `how`.
    enum class How
    {
        Opened,
        Accepted,
        ByCode,
        Taken
    } how = How::Opened;
    std::optional<Offer> offered = {}; ///< The last one, if nobody took it.
};
[[nodiscard]] Hands handsOf(const run::RunState& run);

/// Whether time that passes says something of `run` at `device`: at the tablet that goes on with it, and where it never
/// went from hand to hand at each that wrote something of it. Another one hears too late what was read.
[[nodiscard]] bool isTimedAt(const run::RunState& run, const Id& device);

/// What a kept fact of these says, for lists and records.
struct HandedTold
{
    enum class What
    {
        ToTablet,
        ToPerson,
        Adopted,
        AdoptedByCode,
        Taken,
        OneWith,
        TwoWith
    } what = What::Adopted;
    Id other = {}; ///< The tablet, person or run that it names; none of an adoption.
};
[[nodiscard]] std::optional<HandedTold> handedTold(const run::Kept& kept);

/// Which tablet goes on with `run`: the one that opened it, until another one took it over. The last one to which it
/// was handed by its holder and that accepted, or that adopted it by its code.
[[nodiscard]] Id holderOf(const run::RunState& run);

/// The pairs of runs of which a person said whether they are one, the lesser id first; the latest answer
/// of a pair, by the order of folding, counts.
struct LinksSaid
{
    std::set<run::RunPair> accepted = {};
    std::set<run::RunPair> declined = {};

    /// All of them: these are proposed no more.
    [[nodiscard]] std::set<run::RunPair> all() const;
};
[[nodiscard]] LinksSaid linksSaid(const run::State& state);

/// The runs of `state` that are one with `run` by accepted links, direct or over others, `run` itself among them.
[[nodiscard]] std::set<Id> linkedWith(const run::State& state, const Id& run);

/// What each run that is not closed comes to at `nowMs` with those that it is one with (run/link.h). None of a run that
/// is one with none, or with one that is put away.
[[nodiscard]] std::map<Id, run::TurnoverBand> turnoversTogether(const run::State& state, std::int64_t nowMs);

} // namespace loopside::ledger
