// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include <cstddef>

namespace loopside::test {

/// Turns one bit in every `step`th byte of a journal's file, one at a time, and checks that it is noticed (at opening,
/// at reading, by the Verifier) unless every entry and the head are what they were.
void checkDamage(std::size_t step);

} // namespace loopside::test
