// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "app/battery.h"

#include <charconv>
#include <filesystem>
#include <fstream>

namespace loopside::app {

namespace {

std::string lineIn(const std::filesystem::path& path)
{
    std::ifstream file(path);
    std::string line;
    std::getline(file, line);
    return line;
}

std::optional<Battery> batteryAt(const std::filesystem::path& supply)
{
    // A mouse or a pen has a battery too; it says that it is one of a device.
    if (lineIn(supply / "type") != "Battery" || lineIn(supply / "scope") == "Device") {
        return std::nullopt;
    }
    const std::string digits = lineIn(supply / "capacity");
    Battery battery;
    const auto [end, fault] = std::from_chars(digits.data(), digits.data() + digits.size(), battery.percent);
    if (fault != std::errc() || battery.percent < 0 || battery.percent > 100) {
        return std::nullopt;
    }
    const std::string status = lineIn(supply / "status");
    battery.isCharging = status == "Charging" || status == "Full" || status == "Not charging";
    return battery;
}

} // namespace

std::optional<Battery> batteryIn(const std::string& folder)
{
    std::optional<Battery> least;
    std::error_code fault;
    for (std::filesystem::directory_iterator supply(folder, fault), end; !fault && supply != end;
         supply.increment(fault)) {
        const auto battery = batteryAt(supply->path());
        if (battery && (!least || battery->percent < least->percent)) {
            least = battery;
        }
    }
    return least;
}

} // namespace loopside::app
