// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "base/result.h"
#include "tidy/finding.h"
#include "tidy/layers.h"

#include <filesystem>

namespace loopside::tidy {

/// Every text file of the project at `root` that a rule may look at, in the order of their paths.
/// Build folders are left out. Io if a file cannot be read, NotFound if there is no src folder at `root`.
[[nodiscard]] Result<std::vector<SourceFile>> readTree(const std::filesystem::path& root);

/// What all rules have to say about `files`.
[[nodiscard]] Findings checkTree(const std::vector<SourceFile>& files, const Layers& layers);

} // namespace loopside::tidy
