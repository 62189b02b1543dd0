// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "run/tank_past.h"
#include "words/words.h"

#include <optional>
#include <string>
#include <vector>

namespace loopside::words {

/// What it is, and what is known of it.
struct LineTold
{
    std::string label;
    std::string text;
};

/// What the runs at a tank teach: how long the next elements of each type are likely to last, how well it mixes, how
/// fast dirt gets in; each as a range, with the number of lives, runs or gaps behind it. `mixing` is the tank's mixing
/// factor as its record has it.
[[nodiscard]] std::vector<LineTold> learnedOfTank(const Words& words, const run::TankPast& past,
                                                  const std::optional<Decimal>& mixing);

} // namespace loopside::words
