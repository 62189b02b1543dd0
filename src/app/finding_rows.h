// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "app/row_model.h"
#include "run/standing.h"
#include "words/words.h"

#include <optional>
#include <vector>

namespace loopside::app {

/// The most that are shown at once; they are ranked.
inline constexpr std::size_t findingsShown = 3;

/// The findings to show, the gravest first: before all that hold now, the stop-now that was seen at the last set and
/// that stopping the pump has ended, so that its reasons can still be read.
[[nodiscard]] std::vector<const run::Finding*> findingsToShow(const run::RunState& run, const run::Standing& standing);

/// The names of what `findingRows` holds, for a RowModel: level (note, caution, stop), text, act, hazard, because,
/// ruledOut, confirm (several lines each), ahead (what is expected of its stage, or of the one that is first),
/// canBeSo (somebody who looked may say that it is so, which takes from the turnovers), isSo (somebody did), asksBypass
/// (what to do names the bypass mode, and the cart filters). What is not there is empty.
[[nodiscard]] QList<QByteArray> findingRoles();

/// `findingsToShow`, each with all that stands behind it.
[[nodiscard]] QList<RowModel::Row> findingRows(const words::Words& words, const run::RunState& run,
                                               const run::Standing& standing);

/// What somebody says who looked and found it so; of the last set that was judged. Nothing where it makes no
/// difference.
[[nodiscard]] std::optional<run::QuestionAnswered> thatItIsSo(const run::Standing& standing,
                                                              const run::Finding& finding);

} // namespace loopside::app
