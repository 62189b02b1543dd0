// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "base/id.h"
#include "base/result.h"
#include "run/state.h"

#include <string>
#include <string_view>
#include <vector>

namespace loopside::run {

/// The six signs that a run shows, to be copied onto a tag or paper and to be found by on another tablet.
///
/// Digits and capital letters without I, L, O and U, which are misread: 32 signs, 30 bits, from the end of the run's
/// id. Two runs may have one code: of 10 000 runs some 1 in 100 000 codes that are looked up would find a second one.
[[nodiscard]] std::string codeOf(const Id& run);

/// A code as somebody typed it: small letters, blanks and dashes are fine, O is 0, I and L are 1. Malformed, with what
/// is wrong in the sentence, for anything else.
[[nodiscard]] Result<std::string> codeFrom(std::string_view typed);

/// The runs in `state` that show `code`.
[[nodiscard]] std::vector<Id> runsWithCode(const State& state, const std::string& code);

} // namespace loopside::run
