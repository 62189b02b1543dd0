// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// What is computed once and then kept as a fact is kept in six digits: they say more than any gauge, and keep entries
// short.

#pragma once

#include "filtration/clean_up_learned.h"

#include <cmath>

namespace loopside::run {

[[nodiscard]] inline double sixDigits(double number)
{
    if (number == 0.0 || !std::isfinite(number)) {
        return number;
    }
    const double scale = std::pow(10.0, 5.0 - std::floor(std::log10(std::abs(number))));
    return std::round(number * scale) / scale;
}

[[nodiscard]] inline filtration::Band sixDigits(const filtration::Band& band)
{
    return {sixDigits(band.low), sixDigits(band.best), sixDigits(band.high)};
}

} // namespace loopside::run
