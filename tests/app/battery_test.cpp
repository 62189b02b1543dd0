// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "app/battery.h"

#include "store/temp_folder.h"

#include <catch2/catch.hpp>

#include <fstream>

using namespace loopside;
using app::batteryIn;

namespace {

class Supplies
{
public:
    void add(const std::string& name, const std::vector<std::pair<std::string, std::string>>& files)
    {
        std::filesystem::create_directory(folder_.path() / name);
        for (const auto& [file, text] : files) {
            std::ofstream(folder_.path() / name / file) << text << '\n';
        }
    }
    [[nodiscard]] std::optional<app::Battery> battery() const { return batteryIn(folder_.path().string()); }

private:
    test::TempFolder folder_;
};

} // namespace

TEST_CASE("the battery is read as the system tells it")
{
    Supplies supplies;
    CHECK_FALSE(supplies.battery());
    CHECK_FALSE(batteryIn("/nowhere/at/all"));
    supplies.add("AC", {{"type", "Mains"}, {"online", "1"}});
    supplies.add("pen", {{"type", "Battery"}, {"scope", "Device"}, {"capacity", "2"}});
    CHECK_FALSE(supplies.battery());
    supplies.add("BAT0", {{"type", "Battery"}, {"capacity", "16"}, {"status", "Discharging"}});
    REQUIRE(supplies.battery());
    CHECK(supplies.battery()->percent == 16);
    CHECK_FALSE(supplies.battery()->isLow());
    supplies.add("BAT0", {{"capacity", "15"}});
    CHECK(supplies.battery()->isLow());
    supplies.add("BAT0", {{"status", "Charging"}});
    CHECK_FALSE(supplies.battery()->isLow());
    supplies.add("BAT1", {{"type", "Battery"}, {"capacity", "7"}, {"status", "Discharging"}});
    CHECK(supplies.battery()->percent == 7);
    for (const std::string wrong : {"", "many", "101", "-1"}) {
        supplies.add("BAT1", {{"capacity", wrong}});
        CHECK(supplies.battery()->percent == 15);
    }
}
