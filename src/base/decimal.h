// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "base/result.h"

#include <compare>
#include <cstdint>
#include <string>
#include <string_view>

namespace loopside {

/// Whether `text` is a number that some read as thousands and some as a fraction: "1,500", but not "0,500" or "2,6".
[[nodiscard]] bool readsInTwoWays(std::string_view text);

/// A number exactly as a person wrote it: digits and a place for the point.
///
/// Gauges are subtracted and compared in these, so that 43 psi − 1 psi is 42 psi and not 41.999…
/// Range: up to 12 digits before and 6 behind the point as typed. Sums may grow to 4 × 10^12, where the program stops.
class Decimal
{
public:
    Decimal() = default;

    /// `mantissa` × 10^−`places`; `places` from 0 to 6, the value at most 4 × 10^12 either way.
    Decimal(std::int64_t mantissa, int places);

    /// Reads digits with an optional sign and one optional point or comma, such as `38`, `-0.5`, `23,5`.
    /// Malformed for anything else and for what reads in two ways, OutOfRange beyond the range.
    [[nodiscard]] static Result<Decimal> parse(std::string_view text);

    /// The decimal nearest to `number` with `places` digits behind the point. `number` and `places` must be in range.
    [[nodiscard]] static Decimal nearest(double number, int places);

    [[nodiscard]] double toDouble() const;
    [[nodiscard]] int places() const { return places_; }

    /// `percent` (0 to 100) hundredths of it, exact as long as 6 places hold it, else rounded there.
    [[nodiscard]] Decimal percent(int percent) const;

    /// With exactly `places()` digits behind the point.
    [[nodiscard]] std::string toText() const;

    friend Decimal operator+(const Decimal& a, const Decimal& b);
    friend Decimal operator-(const Decimal& a, const Decimal& b);

    /// Equal in value: 1.50 equals 1.5.
    friend bool operator==(const Decimal& a, const Decimal& b) { return (a <=> b) == 0; }
    friend std::strong_ordering operator<=>(const Decimal& a, const Decimal& b);

private:
    [[nodiscard]] std::int64_t scaledTo(int places) const;

    std::int64_t mantissa_ = 0;
    int places_ = 0;
};

} // namespace loopside
