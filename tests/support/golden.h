// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include <string>
#include <vector>

namespace loopside::test {

/// How `actual` differs from the recording at `path`, as the lines to take away (-) and to add (+) with their numbers;
/// empty if it does not. The actual lines are then written beside the test program, as `name`.actual.txt. With
/// GOLDEN=update in the environment the recording is rewritten instead.
[[nodiscard]] std::string goldenDifference(const std::string& path, const std::vector<std::string>& actual);

} // namespace loopside::test
