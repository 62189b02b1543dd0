// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "ledger/journal.h"
#include "run/state.h"

#include <string>
#include <vector>

namespace loopside::ledger {

/// What `shown`, the state that a tablet works with, has otherwise than `whole`, everything folded afresh: a sentence
/// for each run, job, cart, element type and list that differs, with its name. Of a run that is put away
/// (run/put_away.h) what stays of it is compared.
[[nodiscard]] std::vector<std::string> differences(const run::State& whole, const run::State& shown);

/// Everything that `journal` says, and `more` behind it. Corrupt if an entry's body does not fit its kind.
[[nodiscard]] Result<run::State> foldedOf(const Journal& journal, const std::vector<Entry>& more = {});

/// Folds `journal` as a tablet does at its start and says what differs from `whole`, everything that it says; or why it
/// cannot be folded. Writes nothing.
[[nodiscard]] std::vector<std::string> foldFaults(Journal& journal, const Result<run::State>& whole);

} // namespace loopside::ledger
