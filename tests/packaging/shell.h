// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "support/lines.h"

#include <string>
#include <vector>

namespace loopside::test {

/// What a line given to the shell did.
struct ShellRan
{
    int exitCode = -1; ///< −1 if it did not end by itself.
    std::string said;  ///< On standard output and standard error.
};

/// Runs `line` in bash to its end, without a display.
[[nodiscard]] ShellRan runInShell(const std::string& line);

/// `word` so that the shell takes it as it is.
[[nodiscard]] std::string quotedForShell(const std::string& word);

/// The file `path` of the source, or of wherever an absolute path leads; it must be there.
[[nodiscard]] std::string sourceText(const std::string& path);

/// `text` cut at its line breaks, without an empty last one.
} // namespace loopside::test
