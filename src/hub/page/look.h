// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// What the views of the site page are made of: the hub's entries, folded, as one person looks at them at one moment.

#pragma once

#include "ledger/verify.h"
#include "report/entry_text.h"
#include "run/standing.h"
#include "site/site.h"
#include "words/words.h"

#include <functional>
#include <map>
#include <memory>
#include <mutex>
#include <optional>
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

/// What the hub knows: its entries folded whole, and the site that they make. Stays as it is once it was made; where
/// entries come in, another one takes its place.
struct Known
{
    run::State state;
    site::Site site;                       ///< With the records of the journal (site::withRecords).
    ledger::Position last = 0;             ///< Of the hub's record.
    std::optional<Verified> verified = {}; ///< None: nobody looked yet.
    Id device = {};                        ///< The hub's own.
};

/// Whether the file that an entry adds was handed over.
using HasFile = std::function<bool(const Id& entry)>;

/// How the runs of one `Known` stand, each computed anew after a quarter of a minute at the earliest: the forecast
/// takes long. May be used by several threads at once.
class Standings
{
public:
    explicit Standings(std::shared_ptr<const Known> known) : known_{std::move(known)} {}

    [[nodiscard]] const std::shared_ptr<const Known>& known() const { return known_; }

    /// How `run`, one of what is known, stands at `now`.
    [[nodiscard]] std::shared_ptr<const run::Standing> of(const run::RunState& run, const Stamp& now);

private:
    struct Kept
    {
        std::int64_t atMs = 0; ///< UTC.
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

    [[nodiscard]] const run::State& state() const { return known_.state; }
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
