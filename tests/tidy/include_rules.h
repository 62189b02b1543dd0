// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "tidy/finding.h"
#include "tidy/layers.h"

namespace loopside::tidy {

/// Includes of a file under src/ that point upward or sideways, or that do not name their module.
[[nodiscard]] Findings checkLayers(const SourceFile& file, const Layers& layers);

/// Includes of outside libraries in modules of src/ that may not use them, and of files, threads and the clock in the
/// plain core.
[[nodiscard]] Findings checkOutsideIncludes(const SourceFile& file);

} // namespace loopside::tidy
