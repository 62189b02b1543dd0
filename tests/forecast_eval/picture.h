// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// Twelve runs drawn: what was forecast at each reading, and how it came.

#pragma once

#include "bench_runs.h"

#include <filesystem>
#include <vector>

namespace loopside::evaluation {

/// Writes an SVG of six runs of `dust` (sparse readings, past: the first split's) and six of `liquid` (past: other
/// concentrations). Over the time of a reading stand the 10–90 % range and the median of the time of the limit, the
/// true time, the line "now", and the readings as parts of the limit. Io if the file cannot be written.
[[nodiscard]] Done drawRuns(const std::filesystem::path& file, const std::vector<BenchRun>& dust,
                            const std::vector<Split>& splits, const std::vector<BenchRun>& liquid);

} // namespace loopside::evaluation
