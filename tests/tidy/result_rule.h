// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "tidy/finding.h"

namespace loopside::tidy {

/// Functions declared in a header that return `Result` or `Done` and are not `[[nodiscard]]`: the compiler says nothing
/// when their error is overlooked, since the class itself is not marked.
[[nodiscard]] Findings checkResultsAreKept(const SourceFile& file);

} // namespace loopside::tidy
