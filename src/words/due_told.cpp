// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "words/due_told.h"

#include "words/digits.h"

namespace loopside::words {

std::string lateText(const Words& words, std::chrono::minutes late)
{
    if (late < std::chrono::hours(2)) {
        return words.say({"app.chip.due", {{"minutes", std::to_string(late.count())}}});
    }
    std::string hours = std::to_string(late / std::chrono::hours(1));
    if (late < std::chrono::hours(10)) {
        hours += ":" + twoDigits(static_cast<int>((late % std::chrono::hours(1)).count()));
    }
    return words.say({"app.chip.hours", {{"hours", hours}}});
}

std::string dueText(const Words& words, std::chrono::minutes left)
{
    return left.count() < 0 ? words.say({"app.chip.overdue", {{"time", lateText(words, -left)}}})
                            : words.say({"app.chip.due", {{"minutes", std::to_string(left.count())}}});
}

} // namespace loopside::words
