// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include <optional>
#include <string>

namespace loopside::app {

struct Battery
{
    int percent = 0;
    bool isCharging = false; ///< Or full: the tablet hangs on its cable.

    /// Whether a handover that is begun now may not come to its end before the tablet goes off.
    [[nodiscard]] bool isLow() const { return percent <= lowPercent && !isCharging; }

    static constexpr int lowPercent = 15;
};

/// The battery of this device, as Linux tells it in `folder` (Documentation/ABI/testing/sysfs-class-power of the
/// kernel; from memory); the one with the least charge where there are several, nothing where there is none.
[[nodiscard]] std::optional<Battery> batteryIn(const std::string& folder = "/sys/class/power_supply");

} // namespace loopside::app
