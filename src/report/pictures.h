// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// What a record shows of the pictures of its run: the entries tell only the hashes of their files.

#pragma once

#include "report/entry_text.h"
#include "run/state.h"

#include <string>
#include <vector>

namespace loopside::report {

struct PictureTold
{
    std::string hash;    ///< The name of its file.
    std::string caption; ///< When and by whom it was kept, what was written to it, how its file begins.
};

/// Photos and drawings of `run` in the order in which they were kept; none that was withdrawn.
[[nodiscard]] std::vector<PictureTold> picturesOf(const words::Words& words, const run::RunState& run,
                                                  const NameOf& nameOf);

} // namespace loopside::report
