// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// A tank: what it holds at a level, how the level moves when the cart fills, how well the hoses mix it, and how slowly
// a pump warms it.

#pragma once

#include "base/result.h"
#include "units/quantity.h"
#include "units/temperature.h"

#include <string_view>
#include <variant>

namespace loopside::filtration {

/// Inside dimensions, all above 0.
struct BoxTank
{
    units::Length length;
    units::Length width;
    units::Length height;
};

/// A cylinder that stands on a flat bottom.
struct UprightCylinder
{
    units::Length diameter;
    units::Length height;
};

/// A cylinder that lies level, with flat ends. Dished ends hold more: this says too little for them.
struct LyingCylinder
{
    units::Length diameter;
    units::Length length;
};

using TankShape = std::variant<BoxTank, UprightCylinder, LyingCylinder>;

/// How high the oil can stand: the height, or the diameter of a lying cylinder.
[[nodiscard]] units::Length heightOf(const TankShape& shape);

/// What fills the tank to the brim. OutOfRange, naming it, if a dimension is not above 0.
[[nodiscard]] Result<units::Volume> capacityOf(const TankShape& shape);

/// The oil in the tank when it stands `level` above the bottom. OutOfRange, naming it, if the level is not from 0 to
/// the tank's height, and as of `capacityOf`.
///
/// Source: geometry; for the lying cylinder the segment of a circle, r²/2·(θ − sin θ) with θ = 2·acos(1 − h/r).
/// Validity: nothing stands inside, the tank is level. Uncertainty: not included; near the middle of a lying cylinder
///   1 % of its diameter is 1.3 % of its capacity.
[[nodiscard]] Result<units::Volume> volumeAt(const TankShape& shape, units::Length level);

/// How high `volume` stands: the inverse of `volumeAt`. OutOfRange, naming it, if the volume is not from 0 to the
/// capacity, and as of `capacityOf`.
[[nodiscard]] Result<units::Length> levelFor(const TankShape& shape, units::Volume volume);

/// By how much the level falls when `drawn` leaves the tank, such as the hold-up of a cart that fills; it rises
/// (negative) for oil that comes back. OutOfRange as of `volumeAt` and `levelFor`: more than there is, or than fits.
[[nodiscard]] Result<units::Length> levelFall(const TankShape& shape, units::Length level, units::Volume drawn);

/// The same for a tank of which only the oil's surface is known, `length` by `width`.
/// OutOfRange, naming it, if either is not above 0.
[[nodiscard]] Result<units::Length> levelFall(units::Length length, units::Length width, units::Volume drawn);

/// The room above the oil, and what the oil asks for as it warms.
struct HeadSpace
{
    units::Volume free;         ///< Capacity less the oil.
    units::Volume expansionMin; ///< 2 % of the oil.
    units::Volume expansionMax; ///< 3 % of the oil.

    /// Whether even the larger room for expansion is there.
    [[nodiscard]] bool suffices() const { return free >= expansionMax; }
};

/// The room above `oil` in a tank or drum of `capacity`. OutOfRange, naming it, if the capacity is not above 0 or the
/// oil not from 0 to the capacity.
/// Source: 2 to 3 % for expansion is common practice, no source; mineral oil grows about 0.07 % a degree, from memory,
///   so that is 30 to 40 °C of warming.
[[nodiscard]] Result<HeadSpace> headSpace(units::Volume capacity, units::Volume oil);

/// Where the cart's suction and return stand in the tank.
enum class HosePlacement
{
    OppositeEnds,  ///< And the return below the surface.
    SameSideApart, ///< More than half a tank between them.
    Adjacent,      ///< Side by side, or less than half a tank apart.
    BothAtTop,     ///< Neither reaches down.
    OneBung,       ///< Both through one opening.
    Unknown
};

/// How much of the pumped oil counts as fresh from the tank, and why.
struct Mixing
{
    double factor; ///< Above 0 to 1, where 1 is perfect.
    std::string_view reason;
};

/// The mixing factor of a placement.
///
/// Source: judgement from common practice, no measurement: 0.9 opposite ends, 0.7 same side apart, 0.5 side by side,
///   both at the top or in one bung. 0.7 is also taken where nobody looked, and the reason says so.
/// Uncertainty: a tenth or more either way; counts taken during the run tell better, see clean_up.h.
[[nodiscard]] Mixing mixingOf(HosePlacement placement);

/// How much warmer `oil` gets in an hour if all of the pump's work stays in it: an upper bound, and a small one. A cart
/// cannot warm a cold tank in a useful time. OutOfRange, naming it, if the power is negative or the volume not above 0.
///
/// Source: energy balance with 870 kg/m³ and 1.9 kJ/(kg·K), typical of mineral oil, from memory.
/// Validity: no loss to the surroundings and no warmth of the tank's walls. Uncertainty: about 10 % from the two
/// values.
[[nodiscard]] Result<units::TemperatureDifference> warmingPerHour(units::Power power, units::Volume oil);

/// The least time in which that work warms the oil by `warmer`. OutOfRange, naming it, if the power or the warming is
/// not above 0, and as of `warmingPerHour`.
[[nodiscard]] Result<units::Duration> timeToWarm(units::Power power, units::Volume oil,
                                                 units::TemperatureDifference warmer);

} // namespace loopside::filtration
