// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// Numbers as a source prints them: `8.5`, `6.30901964e-05`, `-50`.

#pragma once

#include <string>

namespace loopside::published {

/// The number; throws if `text` is not one.
[[nodiscard]] double numberIn(const std::string& text);

/// Half of the last digit printed: what rounding for print may have taken away.
[[nodiscard]] double halfDigitOf(const std::string& text);

/// `number` with one digit more than `text` shows, and an exponent if that has one. The digit more is far from what
/// machines and compilers can differ by.
[[nodiscard]] std::string printedLike(double number, const std::string& text);

/// `number` with as few digits, up to six, as it takes.
[[nodiscard]] std::string shortest(double number);

} // namespace loopside::published
