// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// A run laid out along its own time: the effective facts in the order in which they were seen, each with what the cart
// was doing from there on, and what each set of gauges showed. Everything that is judged is judged from this.

#pragma once

#include "run/drop.h"
#include "run/state.h"

#include <vector>

namespace loopside::run {

/// One thing a person said, and what held from then on.
struct Moment
{
    RunTime at{0};
    const Fact* fact = nullptr;
    Mode mode = Mode::Stopped;               ///< From here on.
    units::Flow flow = {};                   ///< From here on: as stated with this entry, else rated.
    std::optional<RunTime> filteringSince{}; ///< The first start of filtering, if there was one.
    std::optional<RunTime> disturbedAt{};    ///< Last start, valve move or changeover up to here.
    const ReadingLogged* zero = nullptr;     ///< The last set before it with the pump stopped, if there was one.
    const ReadingLogged* reading = nullptr;  ///< Set where this moment is a set of gauges that was not struck.
    std::vector<std::optional<ExactPressure>> raw = {}; ///< ΔP of `reading`, one per stage; `dropsAt` knows the rest.
    std::vector<RunTime> elementsSince = {}; ///< Per stage: when its elements were last changed; 0 if not in this run.
};

/// The moments of `run` up to now, oldest first. Points into `run`.
[[nodiscard]] std::vector<Moment> timelineOf(const RunState& run);

/// What `reading`, a set of gauges in the timeline of `run`, says about each stage, corrected values included.
[[nodiscard]] std::vector<StageDrop> dropsAt(const Moment& reading, const RunState& run);

} // namespace loopside::run
