// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// Series of readings in a file of comma-separated values (format: schema/README.md).
//
// The header names the columns, in any order; columns that nobody asks for are passed over. A fault costs the rest of
// its run, never another run.

#pragma once

#include "base/result.h"

#include <optional>
#include <string>
#include <vector>

namespace loopside::cli {

/// One line: drop and limit in the caller's unit, flow in any.
struct SeriesReading
{
    double seconds = 0.0; ///< From 0 at the clean element, never falling within a run.
    double drop = 0.0;
    std::optional<double> flow = {}; ///< Nothing where the file has no such column.
};

/// The readings of one run up to its first fault.
struct SeriesRun
{
    std::string name;
    std::vector<SeriesReading> readings;
    std::optional<double> limit = {};        ///< Of a history: above 0.
    std::optional<double> limitSeconds = {}; ///< Of a history: when the limit was reached; nothing: cut short before.
    bool hasFault = false;
};

struct SeriesFile
{
    std::vector<SeriesRun> runs;     ///< In the order of the file.
    std::vector<std::string> faults; ///< One a run at most; each names file, line and column.
};

enum class SeriesKind
{
    Readings, ///< run, t_s, dp and perhaps flow.
    History,  ///< The same, and limit, t_limit_s.
};

/// Reads a file of at most 64 MB. Io if it cannot be read; Malformed, naming file, line and column, if it is too long,
/// no text, without readings or without a header that names every column.
[[nodiscard]] Result<SeriesFile> readSeries(const std::string& path, SeriesKind kind);

/// The same of the `text` of the file `path`.
[[nodiscard]] Result<SeriesFile> seriesFrom(const std::string& path, std::string text, SeriesKind kind);

} // namespace loopside::cli
