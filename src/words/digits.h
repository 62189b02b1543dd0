// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include <cstdint>
#include <string>

namespace loopside::words {

/// "07": hours, minutes and seconds as clocks show them. 0 or more; from 100 on all digits.
[[nodiscard]] inline std::string twoDigits(std::int64_t number)
{
    return (number < 10 ? "0" : "") + std::to_string(number);
}

} // namespace loopside::words
