// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// Pumping spent oil to waste: how much goes into the container, when to stop, how many containers it takes, what the
// label says and what to look at first. It is another job than filtering: nothing of it counts as turnovers.

#pragma once

#include "base/result.h"
#include "units/quantity.h"

#include <string>
#include <string_view>
#include <vector>

namespace loopside::filtration {

/// What is to be moved, and where to.
struct Transfer
{
    units::Volume oil;       ///< To move, above 0.
    units::Volume container; ///< What it holds to the brim, above 0.
    units::Volume holds;     ///< What is in it already, from 0.
    units::Flow flow;        ///< Above 0.
};

/// What a transfer comes to.
struct TransferPlan
{
    units::Volume free;      ///< In the first container.
    units::Volume usable;    ///< Of that, what may be filled.
    units::Volume first;     ///< What goes into the first container: the oil, or what is usable.
    units::Duration stopAt;  ///< Stop the pump after this at the latest: usable ÷ flow, or oil ÷ flow if that is less.
    units::Fraction fullMax; ///< How full the first container is then.
    units::Volume left;      ///< What does not go into the first container.
    int containers;          ///< All of them, the further ones empty and of the same size.
    units::Volume last;      ///< What goes into the last one.
};

/// Plans a transfer. OutOfRange, naming it, if a volume or the flow cannot be, if the container holds more than it can,
/// or is so full that nothing may be added, or if more than 1000 containers would be needed.
///
/// Source: 90 % of the free volume may be filled, and no container over 95 %: common practice (90 to 95 %), no source.
///   A drum is no pressure vessel and the oil grows 2 to 3 % as it warms.
/// Validity: the flow is the true one. Uncertainty: the time goes with the flow; watch the level, not only the clock.
[[nodiscard]] Result<TransferPlan> planTransfer(const Transfer& transfer);

/// Never any: spent oil that is moved away has not been filtered.
inline constexpr double transferTurnovers = 0.0;

/// What the cart is marked with afterwards, until someone flushed it.
inline constexpr std::string_view markAfterTransfer = "flush before clean use";

/// What the label tells.
struct UsedOil
{
    std::string tank;  ///< Where it came from, empty if not told.
    std::string fluid; ///< Empty if not told.
    units::Volume volume;
};

/// The lines of the container's label, the date left to fill in. What was not told is left to fill in too.
/// Source: 40 CFR 279.22(c)(1): in the US containers are marked with the words "Used Oil". From memory.
[[nodiscard]] std::vector<std::string> usedOilLabel(const UsedOil& oil);

/// What to look at before the pump starts.
struct TransferCaution
{
    std::string_view id;
    std::string_view sentence;
};

/// All of them, in the order in which they are gone through: source, what it is, container, valve, watch, afterwards.
/// Source: common practice; 40 CFR 279.22 for the state of the container.
[[nodiscard]] std::vector<TransferCaution> transferCautions();

} // namespace loopside::filtration
