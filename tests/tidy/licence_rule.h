// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "tidy/finding.h"

#include <filesystem>

namespace loopside::tidy {

/// Every file of the project at `root` by its path, with its first 2000 signs: also those that are no text. Left out
/// are what git keeps and the folders that .gitignore names.
[[nodiscard]] std::vector<SourceFile> readHeads(const std::filesystem::path& root);

/// Files that neither have an SPDX licence line in their head nor are named by `dep5` (.reuse/dep5, in the format of
/// Debian's copyright files), what `dep5` names and is not there, and licences whose text is not in LICENSES.
[[nodiscard]] Findings checkLicencesAreStated(const std::vector<SourceFile>& heads, std::string_view dep5);

} // namespace loopside::tidy
