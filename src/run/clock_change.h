// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// What the clocks of a device did since its last entry of a run. It is kept and shown, and changes no duration that the
// monotonic clock counted.

#pragma once

#include "run/state.h"

#include <vector>

namespace loopside::run {

/// The wall clock set by more than this is worth an entry. Our choice: clocks that are kept by a network are put right
/// by seconds.
inline constexpr std::int64_t clockJumpMs = std::int64_t{2} * 60 * 1000;

/// What `run` has not noted yet of the clocks of `device`, which now show `now`: that the device was started anew, that
/// its wall clock was set, that its local time is another. None where the device has no entry in the run: clocks of two
/// devices are not compared.
[[nodiscard]] std::vector<Event> clockChanges(const RunState& run, const Stamp& now, const Id& device);

} // namespace loopside::run
