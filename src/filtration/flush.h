// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// What a cart carries from one oil into the next, and how flushing thins it.
//
//   residual after k batches = (left / (left + batch))^k
//
// left: old oil that stays in the cart after draining; batch: flushing oil that is pumped in, mixed with it and drained
// down to the same left-over, k times.
// Source: mass balance of complete mixing.
// Validity: every batch mixes fully with what is left and as much stays behind each time. Pockets that are not swept
//   hold more: elements and dead ends are the usual ones, which is why new elements go with a change of fluid.
// Uncertainty: not included; the left-over is rarely known better than a third, and a batch too many is cheap.

#pragma once

#include "base/result.h"
#include "units/quantity.h"

namespace loopside::filtration {

/// How much of a tank's oil would be the cart's last one: hold-up ÷ tank volume. May be above 1.
/// OutOfRange, naming it, if the hold-up is negative or the tank's volume not above 0.
[[nodiscard]] Result<units::Fraction> carryOver(units::Volume holdUp, units::Volume tank);

/// The part of what stands in the cart that is still the old oil after `batches`, which may be 0: then all of it.
/// OutOfRange, naming it, if the left-over or the batch is not above 0, or `batches` is negative.
[[nodiscard]] Result<units::Fraction> residualAfter(units::Volume left, units::Volume batch, int batches);

/// Flushes of one size.
struct Flush
{
    units::Volume batch;
    int batches;
    units::Volume total;      ///< Flushing oil that is needed, and to be got rid of.
    units::Fraction residual; ///< As of `residualAfter`.
};

/// The fewest batches after which no more than `wanted` is left. OutOfRange, naming it, if `wanted` is not above 0 (no
/// number of flushes comes to nothing) or not below 1, if more than 1000 batches would be needed, and as of
/// `residualAfter`.
[[nodiscard]] Result<Flush> flushTo(units::Fraction wanted, units::Volume left, units::Volume batch);

/// The best use of `total` flushing oil if a batch must be at least `batchMin` (what the pump can draw and the housings
/// need to be full): as many equal batches as that allows. Many small flushes thin more than one large one, down to
/// exp(−total / left), which no split passes.
/// OutOfRange, naming it, if a volume is not above 0, `total` is below `batchMin`, or the batches would be over 1000.
[[nodiscard]] Result<Flush> bestFlush(units::Volume total, units::Volume left, units::Volume batchMin);

} // namespace loopside::filtration
