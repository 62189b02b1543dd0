// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "words/words.h"

#include <chrono>
#include <string>

namespace loopside::words {

/// By how much a reading is late: "4 min", from two hours on "2:10 h", from ten on "14 h".
[[nodiscard]] std::string lateText(const Words& words, std::chrono::minutes late);

/// When a reading is due: "2 min", or "4 min late" where the time is over.
[[nodiscard]] std::string dueText(const Words& words, std::chrono::minutes left);

} // namespace loopside::words
