// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// What one set of gauges says about each stage: raw ΔP with its two errors, corrected ΔP, loading.

#pragma once

#include "filtration/differential.h"
#include "run/state.h"

#include <optional>
#include <vector>

namespace loopside::run {

/// A pressure as it follows from typed digits: exact, in one unit.
struct ExactPressure
{
    Decimal number;
    const PressureUnit* unit = nullptr;

    [[nodiscard]] units::Pressure value() const { return {number.toDouble(), unit->unit}; }
    [[nodiscard]] std::string toText() const { return number.toText() + " " + std::string(unit->symbol); }
};

/// Whether `drop` is at or above `percent` hundredths of `limit`, compared in the unit and digits as typed.
///
/// 43 psi − 1 psi reaches 42 psi. A limit given in another unit is turned into the unit of the drop and rounded to its
/// digits: with readings on that grid the answer is never "not yet" for a drop at or above the limit.
[[nodiscard]] bool reaches(const ExactPressure& drop, const TypedPressure& limit, int percent = 100);

/// What is known of one stage at one reading. What cannot be computed is missing; nothing is carried over.
struct StageDrop
{
    std::optional<ExactPressure> raw;
    std::optional<units::Pressure> standing; ///< Expanded (k = 2): constant over a run, from the gauges' grades.
    std::optional<units::Pressure> reading;  ///< Expanded (k = 2): fresh each time, from graduation and swing.
    std::optional<units::Pressure>
        corrected;                 ///< As if at the stage's clean_at viscosity, density and flow. Filtering only.
    std::optional<double> loading; ///< Corrected ÷ clean. Filtering only.
};

/// How much worse than its rounding a dial is read (k = 1): a needle taken for one mark higher or lower.
inline constexpr double readerAdds = 3.0;

/// The zero of each gauge: what to take off what it shows, where a pump-off check says so.
using Offsets = std::vector<std::optional<ExactPressure>>;

/// How far `pumpOff` shows gauge `index` (from 0) from the cart's static head; nothing within what somebody misreads of
/// a dial (k = 2, with the swing of its needle), nor where static head or reading is not known.
[[nodiscard]] std::optional<ExactPressure> zeroErrorOf(const ReadingLogged& pumpOff, const CartRecord& cart,
                                                       std::size_t index);

/// The offsets that a pump-off reading shows: each needle against the cart's static head, and only where they differ by
/// more than somebody misreads a dial (k = 2) and by no more than a twentieth of it: beyond that pressure may be
/// trapped, and taking it off would hide a limit. A cart without a known static head has none: cannot tell.
[[nodiscard]] Offsets offsetsFrom(const ReadingLogged& pumpOff, const CartRecord& cart);

/// Which gauges `pumpOff` shows at the cart's static head, or so near to it that the difference is a zero error.
/// None of a cart whose static head is not known.
[[nodiscard]] std::vector<bool> areZerosIn(const ReadingLogged& pumpOff, const CartRecord& cart);

/// The middle of what gauge `index` (from 0) showed, before any offset.
[[nodiscard]] std::optional<ExactPressure> shownBy(const ReadingLogged& reading, const CartRecord& cart,
                                                   std::size_t index);

/// What each gauge of `reading` says with its offset taken off, and its two errors (k = 1) where they are known;
/// nothing where it was not read. `offsets` may be empty.
[[nodiscard]] std::vector<std::optional<filtration::GaugeValue>> gaugeValuesOf(const ReadingLogged& reading,
                                                                               const Offsets& offsets,
                                                                               const CartRecord& cart);

/// Whether no gauge of `reading` could be read.
[[nodiscard]] bool isBlank(const ReadingLogged& reading);

/// The raw ΔP of each stage, as `dropsOf` has it, without all the rest.
[[nodiscard]] std::vector<std::optional<ExactPressure>> rawDropsOf(const ReadingLogged& reading, const Offsets& offsets,
                                                                   const CartRecord& cart);

/// Each stage of `reading`. `offsets` may be empty. Corrected values only if `mode` is filtering.
[[nodiscard]] std::vector<StageDrop> dropsOf(const ReadingLogged& reading, Mode mode, const Offsets& offsets,
                                             const Setup& setup, const std::optional<oil::Fluid>& fluid);

} // namespace loopside::run
