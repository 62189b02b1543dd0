// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// The one way round: a command is decided, the events are sealed into entries, the journal commits them, and only then
// do they change the state. Screens, command line, stories, practice and tests all walk it. Nothing else changes the
// state.

#pragma once

#include "base/clock.h"
#include "ledger/journal.h"
#include "ledger/sealer.h"
#include "run/decide.h"

#include <functional>
#include <map>
#include <vector>

namespace loopside::ledger {

/// Who acts, and on which device.
struct Hand
{
    Id device;
    Id person;
};

/// An entry as it was committed, with what it says.
struct Committed
{
    run::Header header;
    run::Event event;
};

/// Not thread-safe; the owner serialises calls. Journal, clock and random source outlive it.
class Logbook
{
public:
    /// Opens what `journal` holds and folds it. Corrupt if an entry's body does not fit its kind. Entries of kinds that
    /// this version does not know are kept and counted.
    [[nodiscard]] static Result<Logbook> open(Journal& journal, Clock& clock, RandomSource& random);

    /// Lets `device` write: goes on with its chain, or opens one, behind the old one where that is over. Conflict if
    /// the key is not that of a chain to go on with.
    [[nodiscard]] Done enrol(const Id& device, DeviceKey key);

    /// Decides `command`, commits what follows and applies it. On failure nothing was written and nothing changed.
    /// `hand.device` must be enrolled.
    [[nodiscard]] Result<std::vector<Committed>> submit(const run::Command& command, const Hand& hand,
                                                        const run::Observed& observed = {});

    /// A new id, for a run to be opened.
    [[nodiscard]] Id newId();

    [[nodiscard]] const run::State& state() const { return state_; }
    [[nodiscard]] Clock& clock() const { return *clock_; }
    [[nodiscard]] std::size_t unknownEntries() const { return unknown_; }

private:
    Logbook(Journal& journal, Clock& clock, RandomSource& random);

    [[nodiscard]] Done fold();
    [[nodiscard]] Done eachEvent(const std::function<void(Committed)>& take);
    [[nodiscard]] Done commit(const std::vector<Entry>& entries, Sealer& sealer);
    void heard(std::uint64_t clock);

    Journal* journal_;
    Clock* clock_;
    IdMaker ids_;
    run::State state_ = {};
    std::map<Id, Sealer> sealers_ = {};
    std::uint64_t latest_ =
        0; ///< The latest hybrid clock value among all entries: what is written next folds behind it.
    std::size_t unknown_ = 0;
};

/// Reads all of `journal`, a piece at a time, and gives each entry to `take` in the order of the journal until it
/// fails.
template<class Take>
[[nodiscard]] Done readAll(const Journal& journal, Take take)
{
    constexpr std::size_t piece = 1000;
    for (Position after = 0;;) {
        const auto entries = journal.read(after, piece);
        if (!entries) {
            return fail(entries.error());
        }
        for (const Stored& stored : *entries) {
            if (auto done = take(stored); !done) {
                return done;
            }
            after = stored.position;
        }
        if (entries->size() < piece) {
            return {};
        }
    }
}

} // namespace loopside::ledger
