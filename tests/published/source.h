// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// What the published checks are held against. One source has one entry and one name, wherever it is used.

#pragma once

#include <string_view>

namespace loopside::published {

/// How we know what a source says.
enum class Provenance
{
    Read,             ///< Read in the source itself, or run, if it is a program.
    ReadAtSecondHand, ///< Read where somebody else quotes, copies or explains it.
    FromMemory,       ///< Remembered, not looked up: does not count.
    ComputedHere,     ///< Computed outside this program from its own formulas: does not count.
    NumericalWitness, ///< Another library's solver, on our own formulas: does not count.
};

/// A publication or program.
struct Source
{
    std::string_view name;
    Provenance provenance;
    std::string_view seen; ///< What of it, and where, was read.
};

/// Whether agreement with a source of this kind is agreement with somebody else.
[[nodiscard]] constexpr bool isOutside(Provenance provenance)
{
    return provenance == Provenance::Read || provenance == Provenance::ReadAtSecondHand;
}

} // namespace loopside::published
