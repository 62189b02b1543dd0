// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// The older cleanliness classes, still written in machine papers: NAS 1638 from counts in bands of size, and SAE AS4059
// from counts at and above a size. Each class has twice the particles of the one below.
//
// Source: the tables in assets/reference (nas1638.csv, as4059_cumulative.csv), which name theirs. Columns B to F of
//   AS4059 are the sums of the bands of NAS 1638 from that size up, which shows misprints in either.
// Validity: particles per 100 mL, by microscope (5 … 100 µm) or by a counter calibrated to ISO 11171 (6 … 70 µm(c)).
// Uncertainty: as of cleanliness_code.h; a class is one doubling wide.

#pragma once

#include "base/result.h"

#include <array>
#include <compare>
#include <optional>
#include <span>
#include <string>

namespace loopside::oil {

/// A class, in the order 000, 00, 0, 1 … 12, >12.
class ParticleClass
{
public:
    static constexpr int aboveTable = 13;

    /// `rank` of the class: −2 for 000, −1 for 00, 0 to 12 for itself, 13 for >12.
    explicit ParticleClass(int rank);

    [[nodiscard]] int rank() const { return rank_; }
    [[nodiscard]] std::string toText() const; ///< "000", "00", "0" … "12", ">12".

    friend auto operator<=>(ParticleClass, ParticleClass) = default;

private:
    int rank_;
};

/// A class of NAS 1638.
struct Nas1638
{
    std::array<ParticleClass, 5> bands; ///< 5–15, 15–25, 25–50, 50–100 and over 100 µm.
    ParticleClass whole;                ///< The worst of them. Best is 00.
};

/// The class of the particles in each of the five bands of size, per 100 mL.
/// Malformed unless there are five; OutOfRange, naming the band, for a count below 0 or one that is no number.
[[nodiscard]] Result<Nas1638> nas1638(std::span<const double> bandsPer100Ml);

/// Classes of SAE AS4059 table 2, for the sizes A to F: 4, 6, 14, 21, 38 and 70 µm(c).
struct As4059
{
    std::array<std::optional<ParticleClass>, 6> sizes; ///< None where not counted.
    ParticleClass whole;                               ///< The worst of them. Best is 000.

    [[nodiscard]] std::string toText() const; ///< Such as "6B/6C/7D/6E/6F".
};

/// The classes of the particles at and above each size, per 100 mL, none where not counted.
/// Malformed unless there are six places; Unavailable if nothing is counted; OutOfRange, naming the size, for a count
/// below 0 or one that is no number; Conflict if a count is above that of a smaller size.
[[nodiscard]] Result<As4059> as4059(std::span<const std::optional<double>> countsPer100Ml);

/// Two sizes at which the same dust gives the same count: of the older calibration (ISO 4402) and of the one since 1999
/// (ISO 11171).
struct SizePair
{
    double acftdUm;
    double iso11171Umc;
};

/// The pairs from 1 to 40 µm, smallest first. From memory: for a hint, never for a verdict.
[[nodiscard]] std::span<const SizePair> sizePairs();

} // namespace loopside::oil
