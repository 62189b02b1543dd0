// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// The sentences in which numbers that cannot be are refused, so that they sound alike.

#pragma once

#include "base/result.h"

#include <string_view>

namespace loopside::filtration {

/// Whether `number` is above zero and finite; OutOfRange naming `what` otherwise. `unit` stands behind the number in
/// the sentence and may be empty.
[[nodiscard]] Done checkAboveZero(double number, std::string_view what, std::string_view unit);

/// Whether `number` is zero or more and finite; OutOfRange as of `checkAboveZero` otherwise.
[[nodiscard]] Done checkZeroOrMore(double number, std::string_view what, std::string_view unit);

} // namespace loopside::filtration
