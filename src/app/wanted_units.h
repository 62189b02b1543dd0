// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// Quantities in the units that who holds the tablet wants. What was typed always stands first, digits and unit as
// typed; what is wanted stands behind it.

#pragma once

#include "app/fields_view.h"
#include "run/catalogue.h"

#include <QString>

#include <vector>

namespace loopside::app {

/// "760 L", or "760 L (201 gal)" where another unit is wanted.
[[nodiscard]] QString asWanted(const run::TypedVolume& volume, const run::PersonRecord& wants);
/// "170 kPa", or "170 kPa (24.7 psi)".
[[nodiscard]] QString asWanted(const run::TypedPressure& pressure, const run::PersonRecord& wants);

/// Sets each field that is empty to a unit that is wanted, if it can have one.
void preferUnits(FieldsView& fields, const run::PersonRecord& wants);
void preferUnits(std::vector<FieldsView::Field>& fields, const run::PersonRecord& wants);

} // namespace loopside::app
