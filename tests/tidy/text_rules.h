// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "tidy/finding.h"

namespace loopside::tidy {

/// Source, build, QML, SQL and shell files without the two SPDX lines at their top.
[[nodiscard]] Findings checkLicence(const SourceFile& file);

/// CSV files in assets/ and tests/ that do not say at their top where the numbers come from.
[[nodiscard]] Findings checkDataSource(const SourceFile& file);

/// Promises that the product does not make, in whatever people or programs read of it.
[[nodiscard]] Findings checkWords(const SourceFile& file);

/// Paths that exist on one machine only, in whatever is shipped or built.
[[nodiscard]] Findings checkMachinePaths(const SourceFile& file);

/// Names of tests with a semicolon: CTest splits them there, and each half finds no test.
[[nodiscard]] Findings checkTestNames(const SourceFile& file);

} // namespace loopside::tidy
