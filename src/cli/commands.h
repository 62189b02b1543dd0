// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// What `loopside-cli` does, a function per verb. Each writes its answer to `out` and returns, or says why not in one
// sentence.

#pragma once

#include "base/result.h"

#include <ostream>
#include <string>

namespace loopside::cli {

struct ReplayOptions
{
    std::string story;
    std::string journal; ///< Path of a journal to write to; empty: in memory.
    std::string language = "en";
    bool json = false;
    bool check = false; ///< Also hold the story against its `expect`.
};

/// Replays a story file and tells what the technician is told after each entry.
[[nodiscard]] Done replay(const ReplayOptions& options, std::ostream& out);

/// What a story's set-up comes to before the start, at the first oil temperature that the story knows.
[[nodiscard]] Done plan(const std::string& story, bool json, std::ostream& out);

struct ViscosityOptions
{
    std::string grade;
    std::string viscosityIndex;
    std::string at;
    bool json = false;
};

/// Viscosity of a grade with its viscosity index at a temperature.
[[nodiscard]] Done viscosity(const ViscosityOptions& options, std::ostream& out);

/// Lists the entries of a journal, oldest first.
[[nodiscard]] Done record(const std::string& journal, bool json, std::ostream& out);

/// Checks every hash, link and signature of a journal and folds it. Fails if anything is wrong, after listing it.
[[nodiscard]] Done verify(const std::string& journal, bool json, std::ostream& out);

} // namespace loopside::cli
