// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// Everything that a hub holds, folded, and kept so as more comes in.
//
// What comes behind the last entry of its run is folded onto it. What comes late (another device, an older clock, a
// filled gap) has only its own run folded anew, from that run's entries; stock and catalogue are lists in fold order,
// into which it is put; carts that it may concern are counted anew. So an arriving batch costs what it brings and the
// runs that it changes, however much is held; and the state is at all times that of a fold from nothing (of a run that
// is put away, what stays of it: run/put_away.h).
//
// Runs that are over are put away but for the last ones, so that memory grows with the number of runs and not with
// their readings. `takeOut` reads one again.
//
// What ran ahead and was not settled is folded in front of all others (precedence.h), with its rank there as its
// clock.

#pragma once

#include "ledger/entry.h"
#include "run/put_away.h"
#include "run/state.h"
#include "sync/hub_store.h"

#include <deque>
#include <functional>
#include <map>
#include <memory>
#include <set>

namespace loopside::sync {

/// At which change each run changed last: whoever computed something of a run knows by it whether that still holds. A
/// run that is not in it never changed.
using RunChanges = std::map<Id, std::uint64_t>;

/// Not thread-safe; the owner serialises calls.
class LiveFold
{
public:
    /// `store` outlives it. `closedWhole` runs that are over stay whole; each further one is shown to `beforePutAway`.
    explicit LiveFold(
        const HubStore& store, std::function<void(const run::RunState&)> beforePutAway = [](const run::RunState&) {},
        std::size_t closedWhole = run::closedRunsAtHand);

    /// Takes in what came since; true if there was anything. Corrupt if an entry's body does not fit its kind. On
    /// failure some of it may be in and the rest is taken in by the next call.
    [[nodiscard]] Result<bool> catchUp();

    /// Reads what was put away of `run`; others may be put away for it. Nothing is done where it is whole or unknown.
    [[nodiscard]] Done takeOut(const Id& run);

    /// As of the last `catchUp`; changes with the next one, and so do references into it to what changed.
    [[nodiscard]] const std::shared_ptr<const run::State>& state() const { return shown_; }
    [[nodiscard]] const std::shared_ptr<const RunChanges>& changes() const { return changesShown_; }

    /// How many entries there are, by the last of each chain.
    [[nodiscard]] std::uint64_t entries() const;

    /// The latest value of the hybrid clock, as far as it is in range, among what takes precedence.
    [[nodiscard]] std::uint64_t latestClock() const { return latestClock_; }

private:
    /// How far a chain was taken in.
    struct Followed
    {
        std::uint64_t sequence = 0;
        ledger::Hash hash = {};
        std::vector<ledger::Loss> gaps = {}; ///< Where entries may come in yet.
    };

    /// An entry that ran ahead and was not settled.
    struct Ahead
    {
        run::Header header; ///< With its own clock.
        Id chain = {};
        std::uint64_t rank = 0; ///< From 1; 0: it has none yet.
    };

    [[nodiscard]] bool isOtherRecord(const std::vector<Tip>& tips) const;
    void beginAnew();
    [[nodiscard]] Result<bool> follow(const Tip& tip);
    [[nodiscard]] Result<bool> fillGaps(const Id& chain, Followed& followed);
    [[nodiscard]] Done take(const Held& held);
    [[nodiscard]] Done takeOnto(const run::Header& header, const ledger::Entry& entry);
    void foldIntoRun(const run::Header& header, const run::Event& event);
    [[nodiscard]] Done rankAhead();
    [[nodiscard]] Done foldPending();
    [[nodiscard]] Done foldRun(const Id& run);
    void markCartsOf(const Id& run);
    void recountCarts();
    void changed(const Id& run);
    void keepWhole(const Id& run);

    const HubStore* store_;
    std::function<void(const run::RunState&)> beforePutAway_;
    std::size_t closedWhole_;

    std::shared_ptr<run::State> state_;
    std::shared_ptr<const run::State> shown_;
    std::shared_ptr<RunChanges> changes_;
    std::shared_ptr<const RunChanges> changesShown_;
    std::uint64_t change_ = 0;

    std::map<Id, Followed> chains_;  ///< By chain.
    std::map<Id, run::Header> last_; ///< Of each run and job the last entry that was folded.
    run::Header latest_ = {};        ///< The last of all that were folded.
    std::set<Id> pending_;           ///< Runs and jobs to be folded anew.
    std::set<std::string> cartsToRecount_;
    std::deque<Id> closed_;     ///< Runs that are over and whole, the next to be put away first.
    std::map<Id, Ahead> ahead_; ///< By entry.
    std::set<Id> settled_;      ///< Entries of which a person said that they count by their clocks.
    bool isAheadChanged_ = false;
    std::uint64_t latestClock_ = 0;
};

} // namespace loopside::sync
