// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// What a forecast is made from: the readings of a loading that goes on, and loadings that are over.
//
// Loads are in the caller's unit, the same for all: litres filtered, grams caught, seconds at a steady flow. What a
// forecast says of loads is in that unit too.

#pragma once

#include "units/quantity.h"

#include <vector>

namespace loopside::forecast {

/// How near a past loading stands to the one that goes on; the nearest come first.
enum class Kinship
{
    SameTank, ///< The same element type on the same tank.
    SameType, ///< The same element type elsewhere: other dirt, so another life; the shape holds.
    SameKind, ///< Another type of the same kind: both life and shape are a hint.
};

/// A corrected drop at a load.
struct CurvePoint
{
    double load;
    units::Pressure drop;
};

/// A loading that is over.
struct PastLoading
{
    Kinship kinship = Kinship::SameTank;
    std::vector<CurvePoint> curve;     ///< In any order. Points beyond the end are left out.
    double endLoad = 0.0;              ///< Where it reached `limit`, or was cut short.
    units::Pressure limit;             ///< The corrected drop that was its limit.
    bool isCutShort = false;           ///< Ended below its limit: its life is known only to be longer.
    units::Pressure readingError = {}; ///< Of the drops, expanded (k = 2); 0 where unknown: taken as 4 % of the limit.
    bool isUsed = false;               ///< The elements had caught something at load 0: no shape is learned from it.
};

/// A reading of the loading that goes on.
struct Reading
{
    double load;                  ///< From 0 at the clean element, never falling from one reading to the next.
    units::Pressure drop;         ///< Corrected to the element's reference conditions.
    units::Pressure readingError; ///< Expanded (k = 2), fresh with each reading, above 0.
    double trust = 1.0;           ///< Above 0 to 1; below 1 for what was entered late or is doubted.
    bool isNewElement = false;    ///< The first reading of new elements: what came before is not of this loading.
};

} // namespace loopside::forecast
