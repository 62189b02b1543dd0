// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "run/question.h"

#include <string_view>
#include <vector>

namespace loopside::app {

/// What the key below a question says. "mend": yes, and amend the set as the question proposes; "again": strike the
/// set, to be read and entered anew. Anything else is the answer itself.
inline constexpr std::string_view sayMend = "mend";
inline constexpr std::string_view sayAgain = "again";
inline constexpr std::string_view sayPart = "part"; ///< Asks for how many minutes before it answers.

/// A key below a question.
struct QuestionKey
{
    std::string_view label; ///< Id of its words, which take the values of the question.
    std::string_view say;
};

/// The keys that answer `question`, the likeliest first, at most three.
[[nodiscard]] std::vector<QuestionKey> keysFor(const run::Question& question);

} // namespace loopside::app
