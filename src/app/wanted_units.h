// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// Quantities in the units that who holds the tablet wants. Where what was typed is the matter (records, facts of a
// set-up), it stands first, digits and unit as typed, and what is wanted behind it; elsewhere units/wanted.h shows what
// is wanted alone.

#pragma once

#include "app/as_shown.h"
#include "app/fields_view.h"
#include "run/catalogue.h"
#include "run/drop.h"
#include "units/wanted.h"

#include <QString>

#include <vector>

namespace loopside::app {

[[nodiscard]] units::Wanted unitsWanted(const run::PersonRecord& wants);

/// A difference of gauges: as exact as they were read, or in the unit that is wanted.
[[nodiscard]] QString shownText(const run::ExactPressure& pressure, const units::Wanted& wanted);
/// The same with no digit finer than what it may be misread by (k = 2): of needles that swing.
[[nodiscard]] QString shownText(const run::ExactPressure& pressure, units::Pressure error, const units::Wanted& wanted);
template<class Q>
[[nodiscard]] QString shownText(const units::Typed<Q>& typed, const units::Wanted& wanted)
{
    return asShown(units::shown(typed, wanted));
}

/// "760 L", or "760 L (201 gal)" where another unit is wanted.
[[nodiscard]] QString asWanted(const run::TypedVolume& volume, const run::PersonRecord& wants);
/// "170 kPa", or "170 kPa (24.7 psi)".
[[nodiscard]] QString asWanted(const run::TypedPressure& pressure, const run::PersonRecord& wants);
/// "20 L/min", or "20 L/min (5.28 gpm)".
[[nodiscard]] QString asWanted(const run::TypedFlow& flow, const run::PersonRecord& wants);

/// Sets each field that is empty to a unit that is wanted, if it can have one.
void preferUnits(FieldsView& fields, const run::PersonRecord& wants);
void preferUnits(std::vector<FieldsView::Field>& fields, const run::PersonRecord& wants);

} // namespace loopside::app
