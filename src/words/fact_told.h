// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// What a person said of a run, and what the tablet noted of its clocks, as a line of a list: digits and units as typed.

#pragma once

#include "run/event.h"
#include "words/words.h"

#include <string>
#include <vector>

namespace loopside::words {

/// "G1 38 psi", "G2 5–8 bar" where the needle swings, "G3 –" where it could not be read: one text for each gauge. The
/// unit is the one stated with the set, else the gauge's own.
[[nodiscard]] std::vector<std::string> gaugeTexts(const run::ReadingLogged& reading, const run::CartRecord& cart);

/// Whether `factLine` has words for it: what was read, set, changed, seen, noted, attached and drawn,
/// and what the clocks did.
[[nodiscard]] bool hasFactLine(const run::Event& event);

/// "G1 170 kPa · G2 90 kPa · 30 °C"; "filtering, 24 L/min"; "Stage 1: both elements new". Empty without `hasFactLine`.
[[nodiscard]] std::string factLine(const Words& words, const run::Event& event, const run::CartRecord& cart);

} // namespace loopside::words
