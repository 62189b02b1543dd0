// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// What the views of the site page are made of: the hub's entries, folded, as one person looks at them at one moment.

#pragma once

#include "ledger/verify.h"
#include "report/entry_text.h"
#include "run/standing.h"
#include "site/site.h"
#include "sync/live_fold.h"
#include "words/words.h"

#include <functional>
#include <map>
#include <memory>
#include <mutex>
#include <optional>
#include <set>
#include <string>
#include <string_view>
#include <vector>

namespace loopside::page {

/// What came of the last look at every hash, link and signature of the hub's record.
struct Verified
{
    ledger::Position upTo = 0; ///< The last entry that was looked at.
    std::int64_t atMs = 0;     ///< When that ended, UTC.
    std::vector<ledger::Fault> faults = {};
};

/// What the hub knows: its entries folded, and the site that they make. Where entries come in, another one takes its
/// place; `state` and `changes` are then gone on with, so the one before is not to be looked at any more. Runs that
/// were over long ago are put away (run/put_away.h) until somebody asks for them.
struct Known
{
    std::shared_ptr<const run::State> state = std::make_shared<const run::State>();
    site::Site site;                       ///< With the records of the journal (site::withRecords).
    ledger::Position last = 0;             ///< Of the hub's record.
    std::optional<Verified> verified = {}; ///< None: nobody looked yet.
    Id device = {};                        ///< The hub's own.
    std::shared_ptr<const sync::RunChanges> changes = std::make_shared<const sync::RunChanges>();
    /// Of the runs that are put away those that somebody signed at their end.
    std::shared_ptr<const std::set<Id>> signedAway = std::make_shared<const std::set<Id>>();
};

/// Whether the file that an entry adds was handed over.
using HasFile = std::function<bool(const Id& entry)>;

/// How the runs of what is known stand. Each is computed anew once the run changed, and while it is open after a
/// quarter of a minute at the earliest: the forecast takes long. May be used by several threads at once.
class Standings
{
public:
    explicit Standings(std::shared_ptr<const Known> known) : known_{std::move(known)} {}

    [[nodiscard]] const std::shared_ptr<const Known>& known() const { return known_; }

    /// Goes on with `known`, which took the place of what was known; what did not change stays as it was computed.
    void goOn(std::shared_ptr<const Known> known);

    /// How `run`, one of what is known, stands at `now`.
    [[nodiscard]] std::shared_ptr<const run::Standing> of(const run::RunState& run, const Stamp& now);

private:
    struct Kept
    {
        std::int64_t atMs = 0;    ///< UTC.
        std::uint64_t change = 0; ///< Of the run, with which it was computed.
        std::shared_ptr<const run::Standing> standing;
    };

    std::shared_ptr<const Known> known_;
    std::mutex mutex_;
    std::map<Id, Kept> kept_;
};

/// What is known as somebody looks at it: in a language, at a moment. Not for several threads; all that it was made of
/// outlives it.
class Look
{
public:
    Look(Standings& standings, const words::Words& words, const Stamp& now)
        : standings_{standings}, known_{*standings.known()}, words_{words}, now_{now}
    {
    }

    [[nodiscard]] const run::State& state() const { return *known_.state; }
    [[nodiscard]] const site::Site& site() const { return known_.site; }
    [[nodiscard]] const Known& known() const { return known_; }
    [[nodiscard]] const words::Words& words() const { return words_; }
    [[nodiscard]] const Stamp& now() const { return now_; }

    [[nodiscard]] std::string say(const Message& message) const { return words_.say(message); }
    [[nodiscard]] std::string say(const std::string& id) const { return words_.say(id); }

    /// How `run` stands now.
    [[nodiscard]] const run::Standing& standing(const run::RunState& run) const;

    /// As the site has it; the first digits of the id where it has no name any more.
    [[nodiscard]] std::string nameOf(const Id& person) const;

private:
    Standings& standings_;
    const Known& known_;
    const words::Words& words_;
    Stamp now_;
    mutable std::map<Id, std::shared_ptr<const run::Standing>> held_; ///< So that all of a view is of one moment.
};

/// "2026-11-27", by the wall clock of the place where the stamp was made.
[[nodiscard]] std::string dayText(const Stamp& stamp);

/// "2026-11-27 14:05", the same way.
[[nodiscard]] std::string dayAndTime(const Stamp& stamp);

/// "1:05" for an hour and five minutes.
[[nodiscard]] std::string hoursText(run::RunTime time);

using report::joined;

} // namespace loopside::page
