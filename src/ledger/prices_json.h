// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// The one JSON shape of prices: of a site file, and beside a record.

#pragma once

#include "ledger/json.h"
#include "run/cost.h"

namespace loopside::ledger {

/// `currency`, and `element`, `oil_per_litre`, `hour` as far as they are known. Refused is a price below 0.
[[nodiscard]] run::Prices readPrices(const JsonReader& object);

} // namespace loopside::ledger
