// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "judged_stories.h"

#include <string>

namespace loopside::test {

/// Every story of the tree with the truths of the tree; one that cannot be read fails the test.
[[nodiscard]] const std::vector<evaluation::StoryCase>& casesAtHand();

/// The one whose name begins with `name`; a test that names none fails.
[[nodiscard]] const evaluation::StoryCase& caseOf(const std::string& name);

} // namespace loopside::test
