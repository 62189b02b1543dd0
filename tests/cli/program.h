// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "support/lines.h"

#include <nlohmann/json.hpp>

#include <string>
#include <vector>

namespace loopside::test {

/// What the real program did with its arguments.
struct Ran
{
    int exitCode = -1; ///< −1 if it did not end by itself.
    std::string out;
    std::string err;
};

/// Runs loopside-cli with `arguments` to its end.
[[nodiscard]] Ran runProgram(const std::vector<std::string>& arguments);

/// The one JSON object that `verb` prints with `options`; anything but exit 0 fails the test.
[[nodiscard]] nlohmann::json answerOf(const std::string& verb, std::vector<std::string> options);

/// `text` cut at its line breaks, without an empty last one.
} // namespace loopside::test
