// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "base/result.h"

#include <array>
#include <compare>
#include <cstdint>
#include <string>
#include <string_view>

namespace loopside {

/// A 128-bit identifier; all zero means "none".
struct Id
{
    std::array<std::uint8_t, 16> bytes = {};

    [[nodiscard]] bool isNone() const { return *this == Id{}; }
    friend auto operator<=>(const Id&, const Id&) = default;
};

/// `id` in the usual form, 8-4-4-4-12 lower-case hexadecimal digits.
[[nodiscard]] std::string toText(const Id& id);

/// Reads the form that `toText` writes; upper case is taken too. Malformed otherwise.
[[nodiscard]] Result<Id> idFromText(std::string_view text);

/// The door to randomness.
class RandomSource
{
public:
    virtual ~RandomSource() = default;
    [[nodiscard]] virtual std::uint64_t next() = 0;
};

/// Randomness that is the same for the same seed (SplitMix64); for stories, tests and practice, never for keys.
class SeededRandom final : public RandomSource
{
public:
    explicit SeededRandom(std::uint64_t seed) : state_{seed} {}
    [[nodiscard]] std::uint64_t next() override;

private:
    std::uint64_t state_;
};

/// Makes UUIDs of version 7 that strictly increase, also within one millisecond and when the wall clock falls back.
///
/// Source: RFC 9562, section 5.7 and method 1 of section 6.2 (a counter of 12 bits in rand_a); from memory.
class IdMaker
{
public:
    explicit IdMaker(RandomSource& random) : random_{random} {}

    /// The next id for the moment `wallMs` (UTC, milliseconds since 1970).
    [[nodiscard]] Id next(std::int64_t wallMs);

private:
    RandomSource& random_;
    std::int64_t lastMs_ = 0;
    std::uint16_t counter_ = 0;
};

} // namespace loopside
