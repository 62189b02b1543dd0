// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "filtration/suits.h"
#include "run/catalogue.h"

#include <optional>
#include <vector>

namespace loopside::run {

/// Stage order, ratings, media, the cart's last fluid against the tank's, water against capacity: what of `setup` suits
/// and what does not, in that order. `setup` must have no fault.
[[nodiscard]] std::vector<filtration::Suit> suitsOf(const Setup& setup);

/// The tank's water against what the fitted elements hold; nothing if the water is not known.
[[nodiscard]] std::optional<filtration::WaterBalance> waterBalanceOf(const Setup& setup);

} // namespace loopside::run
