// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "run/alert.h"

#include <cstdint>
#include <vector>

namespace loopside::app {

/// What an alert sounds like: samples of one channel, full scale ±32767, and whether they go round until they are
/// stopped.
struct AlertTone
{
    std::vector<std::int16_t> samples;
    bool repeats = false;
};

/// The sound of a priority: high, three fast bursts; medium, two slow ones of half the height; low, one short burst of
/// half of that again, once. High and medium end with a rest and go round.
///
/// Bursts of 550 Hz with its first four harmonics (to 2750 Hz): low enough to pass ear defenders, wide enough that one
/// machine does not mask all of it. Every burst fades in and out. The figures are ours; that urgency is told by more
/// and faster bursts, and that a tone should have several harmonics, is common practice for alarms, from memory.
///
/// `samplesPerSecond`: 8000 or more.
[[nodiscard]] AlertTone alertTone(run::Priority priority, int samplesPerSecond);

} // namespace loopside::app
