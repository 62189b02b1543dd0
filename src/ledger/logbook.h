// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// The one way round: a command is decided, the events are sealed into entries, the journal commits them, and only then
// do they change the state. Screens, command line, stories, practice and tests all walk it. Nothing else changes the
// state.

#pragma once

#include "base/clock.h"
#include "ledger/at_hand.h"
#include "ledger/fold.h"
#include "ledger/read_all.h"
#include "ledger/sealer.h"
#include "run/decide.h"

#include <map>
#include <vector>

namespace loopside::ledger {

/// Who acts, and on which device.
struct Hand
{
    Id device;
    Id person;
};

/// How much of a journal is folded. At hand: closed runs but the last ones are put away (run/put_away.h), so that time
/// to open and memory hang on how many runs there were and no more on their readings. Open first: the same, but runs
/// that are over come in with `Logbook::takeEarlier`, so that the open ones can be shown before.
enum class Reach
{
    Whole,
    AtHand,
    OpenFirst
};

/// Not thread-safe; the owner serialises calls. Journal, clock and random source outlive it.
class Logbook
{
public:
    /// Opens what `journal` holds and folds it. Corrupt if an entry's body does not fit its kind. Entries of kinds that
    /// this version does not know are kept and counted.
    [[nodiscard]] static Result<Logbook> open(Journal& journal, Clock& clock, RandomSource& random,
                                              Reach reach = Reach::Whole);

    /// Lets `device` write: goes on with its chain, or opens one, behind the old one where that is over. Conflict if
    /// the key is not that of a chain to go on with.
    [[nodiscard]] Done enrol(const Id& device, DeviceKey key);

    /// Decides `command`, commits what follows and applies it. On failure nothing was written and nothing changed.
    /// `hand.device` must be enrolled.
    [[nodiscard]] Result<std::vector<Committed>> submit(const run::Command& command, const Hand& hand,
                                                        const run::Observed& observed = {});

    /// Says in the name of `hand` that `entries`, whose clocks ran ahead, count by their clocks (settled.h). The order
    /// of folding is another one from then on: `refold`.
    [[nodiscard]] Done settle(const std::vector<Id>& entries, const Hand& hand);

    /// Folds the runs that are over too, where that was left for later; every command does it first. What is known
    /// already stays where it is in memory. On failure nothing changed.
    [[nodiscard]] Done takeEarlier();
    /// Whether runs that are over may be missing still.
    [[nodiscard]] bool isEarlierLeft() const { return isEarlierLeft_; }

    /// Folds anew what the journal gives now: more than what was written here came into it, or in another order. On
    /// failure nothing changed.
    [[nodiscard]] Done refold() { return reach_ == Reach::Whole ? foldWhole() : foldAtHand(); }

    /// Reads what is put away of `run` from the journal; others are as they were. Telling something of a run takes it
    /// out by itself.
    [[nodiscard]] Done takeOut(const Id& run);

    /// A new id, for a run to be opened.
    [[nodiscard]] Id newId();

    [[nodiscard]] const run::State& state() const { return state_; }
    [[nodiscard]] Clock& clock() const { return *clock_; }
    [[nodiscard]] std::size_t unknownEntries() const { return unknown_; }

private:
    Logbook(Journal& journal, Clock& clock, RandomSource& random);

    [[nodiscard]] Done foldWhole();
    [[nodiscard]] Done foldAtHand();
    [[nodiscard]] Done foldOpen();
    void begin(Folded folded);
    void noteAtHand(const Committed& committed);
    void keepAtHand(const Id& closedRun);
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
    Reach reach_ = Reach::Whole;
    bool isEarlierLeft_ = false;
    RunsAtHand atHand_ = {}; ///< Without meaning where the reach is the whole.
};

} // namespace loopside::ledger
