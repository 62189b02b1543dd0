// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "ledger/journal.h"
#include "run/state.h"

#include <functional>
#include <string>
#include <vector>

namespace loopside::ledger {

/// What `shown`, the state that a tablet works with, has otherwise than `whole`, everything folded: a sentence for each
/// run, job, cart, element type and list that differs, with its name. Of a run that is put away (run/put_away.h) in
/// `shown` what stays of it is compared.
[[nodiscard]] std::vector<std::string> differences(const run::State& whole, const run::State& shown);

/// What a fold of everything found.
struct FoldChecked
{
    std::vector<std::string> faults; ///< In sentences.
    run::State state;                ///< Everything that the entries say, each run put away (run/put_away.h).
    bool isWhole = false;            ///< Whether all could be folded; else `state` means nothing.
    std::size_t runsWhole = 0;       ///< How many runs were held whole at a time, at most.
};

/// Folds `journal` as a tablet does at its start, folds everything afresh, and compares: a sentence for each run, job,
/// cart, element type and list that differs, with its name, or why it cannot be folded. Of a run that a tablet puts
/// away what stays of it is compared. A run is let go of behind its last entry, so that memory does not grow with the
/// readings.
[[nodiscard]] FoldChecked checkFold(const Journal& journal);

/// Everything folded, each run put away (run/put_away.h).
struct FoldedByRun
{
    run::State state;
    std::size_t runsWhole = 0; ///< How many runs were held whole at a time, at most.
};

/// Folds everything that `journal` says. Each run is given to `take` behind its last entry and then put away, so that
/// memory does not grow with the readings; in the order in which they end. Corrupt if an entry's body does not fit its
/// kind.
[[nodiscard]] Result<FoldedByRun> foldByRun(const Journal& journal, const std::function<Done(run::RunState&)>& take);

/// Entries that are looked up one at a time, by their number from 0 on.
struct Further
{
    std::size_t count = 0;
    std::function<Result<Entry>(std::size_t number)> at;
};

/// What `journal` would say with `more` behind it, each run put away. Corrupt as `foldByRun`, or what `more` fails
/// with.
[[nodiscard]] Result<run::State> foldedWith(const Journal& journal, const Further& more);

} // namespace loopside::ledger
