// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// Where a tank stands, as somebody wrote it: read, never rewritten, and what is odd about it.

#pragma once

#include "base/result.h"
#include "run/catalogue.h"
#include "run/right_tank.h"

#include <optional>
#include <string_view>
#include <vector>

namespace loopside::run {

enum class Axis
{
    Latitude,
    Longitude
};

/// A latitude or longitude as it was understood.
struct Coordinate
{
    double degrees = 0.0;  ///< North and east are positive.
    double half_deg = 0.0; ///< Half of the last digit that was written: it cannot be known finer.
};

/// Reads degrees with a fraction, degrees and minutes, or degrees, minutes and seconds: "48.2082", "-16.3738",
/// "48° 12.492' N", "N 48 12 29.5", "16:22:25 E". Only the last number has a fraction, with point or comma. The
/// direction is N or S, E or W, or a sign in front; without one it is north or east. Source: ISO 6709 (sign, order,
/// letters), from memory; the marks are common practice.
///
/// Errors, each with its sentence for people: Malformed (no such number, a letter of the other axis, two directions, an
/// O, which is east in German and west in Spanish), OutOfRange (60 minutes or seconds, beyond 90° or 180°).
[[nodiscard]] Result<Coordinate> coordinateIn(std::string_view text, Axis axis);

/// Where `tank` stands by its record, as fine as it was written: none where latitude or longitude is not known or is
/// no coordinate.
[[nodiscard]] std::optional<Fix> placeOf(const TankRecord& tank);

/// Written coarser than this, a place tells no tank from the next (our choice: a fix outdoors is good to some 10 m).
inline constexpr double coarsePlace_m = 25.0;
/// Farther than this from every other tank of its site, a sign or two numbers may have been exchanged (our choice).
inline constexpr double farPlace_m = 20'000.0;
/// Nearer than this, two tanks stand at one place: one may have been copied (our choice).
inline constexpr double samePlace_m = 0.5;

/// What is odd in the place of `tank`, for which a person is asked: half of it, 0° 0', written too coarsely, at the
/// place of another tank, far from all `others`, not where runs at it were (`learned`). Nothing of it is refused.
[[nodiscard]] std::vector<Message> oddInPlace(const TankRecord& tank, const std::vector<TankRecord>& others,
                                              const std::optional<Fix>& learned = {});

} // namespace loopside::run
