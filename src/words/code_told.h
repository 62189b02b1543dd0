// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "run/code_ahead.h"
#include "words/words.h"

#include <string>

namespace loopside::words {

/// One line beside the turnovers: the code that is likely now with its range, and the time to the target, that it is
/// likely reached, or that more hours hardly bring anything. Empty where no code can be told. The whole of it in
/// sentences: run::tellCodeAhead.
[[nodiscard]] std::string codeBrief(const Words& words, const run::CodeAhead& ahead, const run::RunState& run);

} // namespace loopside::words
