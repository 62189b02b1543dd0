// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// Sends a story down the same road as touches: each entry becomes commands, time passes between them, and after each
// the teller hears how the run stands. The same story tells the same, byte for byte, on any machine.

#pragma once

#include "ledger/logbook.h"
#include "run/standing.h"
#include "story/story.h"

#include <functional>
#include <map>
#include <vector>

namespace loopside::story {

/// What a teller hears after an entry, or when time alone raised an alert.
struct Told
{
    const StoryEntry* entry = nullptr;        ///< Null where time alone spoke.
    const run::AlertRaised* raised = nullptr; ///< The alert that time alone raised.
    const run::RunState& run;
    const run::Standing& standing;
    std::vector<ledger::Committed> committed = {}; ///< What this entry put into the journal.
    const std::map<Id, std::string>& timeOf;       ///< The story time of every entry so far, by the id in the journal.

    /// The set of gauges that this entry logged, if it did.
    [[nodiscard]] const run::Moment* reading() const;
};

using Teller = std::function<Done(const Told&)>;

/// Replays `story` into `journal` as one run and tells after every entry; nothing is told, and it is quicker, where
/// `tell` is empty. `salt` makes the ids differ between stories.
/// Stops at the first refusal, with the place in the story; what was committed before stays.
[[nodiscard]] Done replay(const Story& story, std::uint64_t salt, ledger::Journal& journal, const Teller& tell);

/// A number that depends on every byte of `text` (FNV-1a); for salts, not for secrets.
[[nodiscard]] std::uint64_t saltOf(std::string_view text);

} // namespace loopside::story
