// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// How the particle count of a tank falls while a cart filters it, for planning and for when to draw the next bottle.
//
//   C(n) = F + (C₀ − F)·e^(−k·n)        k = (1 − 1/β)·mixing        F = R/(Q·k)
//
// n: turnovers through the filters; C: particles per mL of one size and larger; F: the floor that comes from what gets
// in, R particles a minute at a flow Q; β: of all stages together, their product.
// Source: mass balance of a mixed tank, V·dC/dt = R − Q·k·C; the same equation as dilution ventilation (MMWR 43, RR-13,
//   1994, table S3-1). β as of ISO 16889. The mixing factor is judgement, see tank.h.
// Validity: steady flow and ingress, bypass valves shut, k from 0 to 1. The product of β is an upper bound: what passes
//   one stage is harder for the next. A tank that stood still is layered: its first count may rise when it is stirred.
// Uncertainty: k is rarely known better than a quarter. It schedules samples and proves nothing: only a count tells how
//   the oil is. Turnovers are turnovers, not cleanliness.

#pragma once

#include "base/result.h"
#include "oil/cleanliness_code.h"
#include "units/quantity.h"

#include <array>
#include <optional>
#include <span>
#include <string>

namespace loopside::filtration {

/// One of something for each size of ISO 4406: 4, 6 and 14 µm(c).
template<class T>
using PerSize = std::array<T, 3>;

/// What the model knows of a tank on a cart, at one size.
struct MixedTank
{
    double captureTimesMixing; ///< k, from 0 to 1.
    double floorPerMl = 0.0;   ///< F, from 0: the count that is not passed, however long.
};

/// k for stages in series and a mixing factor. No stage at all captures nothing: 0.
/// OutOfRange, naming it, if a β is not 1 or more or the mixing factor not above 0 to 1.
[[nodiscard]] Result<double> captureTimesMixing(std::span<const double> betas, double mixing);

/// The floor F from what gets in. OutOfRange, naming it, if the ingress is negative, the flow not above 0, or `k` not
/// above 0 to 1.
[[nodiscard]] Result<double> floorFromIngress(double particlesPerMinute, units::Flow flow, double captureTimesMixing);

/// The count after so many turnovers. OutOfRange, naming it, if a count or the turnovers are negative or not finite, or
/// k is not from 0 to 1.
[[nodiscard]] Result<double> countAfter(double startPerMl, double turnovers, const MixedTank& tank);

/// The turnovers from one count to another; 0 if the start is at the target or below.
/// Unavailable, with the reason in the sentence, if the target is never reached: it is at the floor or below, or
/// nothing is captured. OutOfRange as of `countAfter`, and if the target is not above 0.
[[nodiscard]] Result<double> turnoversBetween(double startPerMl, double targetPerMl, const MixedTank& tank);

/// How many scale numbers of ISO 4406 the count falls, at a factor of two a number and no floor: n·k/ln 2.
[[nodiscard]] double codesDown(double turnovers, double captureTimesMixing);

/// The share of the oil (0 to 1) that has never been through the cart after so many turnovers of a perfectly mixed
/// tank: e^(−n). `turnovers` from 0.
[[nodiscard]] double neverPassed(double turnovers);

/// One size on its way to a target.
struct SizeToTarget
{
    std::optional<double> turnovers; ///< None if it is never reached or cannot be told.
    std::string why;                 ///< Then the reason.
};

/// A code on its way to a target.
struct WayToCode
{
    PerSize<std::optional<SizeToTarget>> sizes; ///< None where the target asks nothing.
    std::optional<double> turnovers;            ///< Of the slowest size; none if any has none.
    std::optional<std::size_t> slowest;         ///< Place of the size that decides; also where it is never reached.
    std::string why;                            ///< Why there are no turnovers.
};

/// The turnovers until each size is at the upper limit of its scale number in `to` (the true limits of the table, not
/// factors of two), from the counts at the start; none where nobody counted.
/// Unavailable if `to` asks for no size; OutOfRange as of `turnoversBetween`.
[[nodiscard]] Result<WayToCode> turnoversToCode(const PerSize<std::optional<double>>& startPerMl,
                                                const oil::CleanlinessCode& to, const PerSize<MixedTank>& tank);

/// The same from a code, each size at the upper limit of its number: the longest way.
[[nodiscard]] Result<WayToCode> turnoversToCode(const oil::CleanlinessCode& from, const oil::CleanlinessCode& to,
                                                const PerSize<MixedTank>& tank);

/// Two codes between which the model expects one.
struct CodeRange
{
    oil::CleanlinessCode from; ///< Every size began just above the lower limit of its number.
    oil::CleanlinessCode to;   ///< Every size began at the upper limit; above the table stays above it.
};

/// The code after so many turnovers. What was not or could not be counted stays so. A size is never told lower than a
/// larger one, for the larger particles are among those counted there. OutOfRange as of `countAfter`.
[[nodiscard]] Result<CodeRange> codeAfter(const oil::CleanlinessCode& start, double turnovers,
                                          const PerSize<MixedTank>& tank);

} // namespace loopside::filtration
