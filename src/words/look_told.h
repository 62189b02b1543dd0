// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "run/right_tank.h"
#include "words/words.h"

#include <string>

namespace loopside::words {

/// "Tag read: BM-GB-107. That is Debarker gearbox, not Winder gearbox.", and why it was gone on with.
[[nodiscard]] std::string lookLine(const Words& words, const run::TankLook& look);

/// How well it is known that the tank is the right one, in a sentence.
[[nodiscard]] std::string knownText(const Words& words, run::TankKnown known);

} // namespace loopside::words
