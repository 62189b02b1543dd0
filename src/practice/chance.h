// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// Chance that is the same on every machine: a fixed generator and distributions by inverse transform. The standard
// library's own distributions differ between libraries, those of Boost.Random between versions.

#pragma once

#include "base/id.h"

#include <cstddef>
#include <cstdint>

namespace loopside::practice {

/// One stream of chance. Streams of another `purpose` are unrelated, so that a draw added to one leaves the others as
/// they were.
class Chance
{
public:
    explicit Chance(std::uint64_t seed, std::uint64_t purpose = 0);

    /// From 0 to 1, both excluded.
    [[nodiscard]] double share();

    /// Uniform from `low` to `high`.
    [[nodiscard]] double between(double low, double high);

    /// Uniform in the logarithm. Both ends above 0.
    [[nodiscard]] double logBetween(double low, double high);

    /// Normal, mean 0, standard deviation 1.
    [[nodiscard]] double normal();

    /// Exponential with this mean.
    [[nodiscard]] double waiting(double mean);

    /// True with this probability.
    [[nodiscard]] bool happens(double probability) { return share() < probability; }

    /// One of the places 0 … `count` − 1, all alike. `count` above 0.
    [[nodiscard]] std::size_t oneOf(std::size_t count);

private:
    SeededRandom random_;
};

} // namespace loopside::practice
