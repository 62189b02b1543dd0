// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// Labels to stick on what work with a cart leaves behind: bottles, used elements, containers of used oil.

#pragma once

#include "report/entry_text.h"
#include "run/state.h"

#include <string>
#include <vector>

namespace loopside::report {

struct Label
{
    std::string title;              ///< What it is stuck on: "Oil sample".
    std::string name;               ///< In large letters: the bottle, the stage, "USED OIL".
    std::vector<std::string> lines; ///< Where it is from, when and by whom.
    std::string code; ///< For a scanner: the bottle as it was named, else run or job and what it is of it.
    bool isPractice = false;

    friend bool operator==(const Label&, const Label&) = default;
};

/// Of each bottle that was drawn in `run` and each element that was taken out, in the order of the record; then, where
/// elements were, of the container for the oil that their housings held. What was struck has none.
[[nodiscard]] std::vector<Label> labelsOf(const words::Words& words, const run::RunState& run, const NameOf& nameOf);

/// Of the container that `job` filled, its volume left to fill in where none was told; none for another job.
///
/// Source of the words on it in English: 40 CFR 279.22(c)(1), "Used Oil"; from memory. Site procedure and local law
/// say what else stands on a container.
[[nodiscard]] std::vector<Label> labelsOf(const words::Words& words, const run::Job& job, const NameOf& nameOf);

} // namespace loopside::report
