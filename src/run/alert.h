// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// When an alert is raised and when it returns to normal. The states are those of IEC 62682; apply.cpp walks them.
//
// stage-at-limit       raw ΔP at or above the change limit, at once, whether the set is questioned or not, in any mode.
//                      Returns when a set read while filtering, and not held back by a question, lies below the limit
//                      by the deadband, or when all elements of the stage were changed.
// stage-near-limit     raw ΔP at or above 80 % of the limit. Gives way to stage-at-limit.
// reading-overdue      2 min past the planned time while filtering. Returns when the next reading is planned anew (by a
// good
//                      set, a valve move or a changeover) or when filtering stops.
// target-turnovers-met best turnovers at or above the target. Opens close-out.
//
// stop-now             a finding asks to stop the pump (finding.h). One for each stage and one for the cart; raised
// anew
//                      when another finding takes the place of the one that raised it. Returns with a good set at which
//                      no such finding holds.
//
// An alert out of service is not raised. Those that stop the pump or ask for new elements stay in service.
//
// An alert whose time on the shelf is over is raised again as long as it has not returned. After the close time alone
// raises nothing any more.
//
// Deadband: the reading error of the ΔP (k = 2), at least 2 % of the limit (from memory: usual starting value).

#pragma once

#include "run/standing.h"

#include <optional>
#include <vector>

namespace loopside::run {

enum class Priority
{
    Low,
    Medium,
    High
};

[[nodiscard]] Priority priorityOf(AlertId alert);
[[nodiscard]] std::string_view nameOf(Priority priority);

/// Whether the best value reaches the target in turnovers; never without one.
[[nodiscard]] bool meetsTarget(const TurnoverBand& turnovers, const Target& target);

/// The turnovers that a run's target is held against: its own, or those that it comes to with the runs that it is one
/// with, whichever is more.
[[nodiscard]] TurnoverBand towardsTarget(const TurnoverBand& own, const std::optional<TurnoverBand>& together);

/// The alerts to raise and to clear so that the list of `run` agrees with `standing`, and with what it comes to
/// `together` with the runs that it is one with.
[[nodiscard]] std::vector<Event> alertChanges(const RunState& run, const Standing& standing,
                                              const std::optional<TurnoverBand>& together = {});

/// When time alone may next raise an alert of `run`: ask again then with a tick.
[[nodiscard]] std::optional<RunTime> nextDeadline(const RunState& run, const Standing& standing);

/// Whether a ΔP over the limit comes from cold oil and not from dirt: P(loading < 1.5) ≥ 0.9.
///
/// Normal distribution of the loading: both gauge errors, and 7 % for one degree of error in the oil temperature
/// (common practice: 5 to 10 % of viscosity per °C). False where the loading is not known: cannot tell.
[[nodiscard]] bool isColdNotLoaded(const StageDrop& drop);

} // namespace loopside::run
