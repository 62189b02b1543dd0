// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "run/place_typed.h"

#include <catch2/catch.hpp>

#include <cmath>

using namespace loopside;
using namespace loopside::run;

namespace {

/// 48° 12' 29.52" N, 16° 22' 25.68" E are 48.2082 and 16.3738: 12/60 + 29.52/3600 = 0.2082, 22/60 + 25.68/3600 =
/// 0.3738.
constexpr double north_deg = 48.2082;
constexpr double east_deg = 16.3738;

TankRecord tankAt(const char* name, const char* latitude, const char* longitude)
{
    TankRecord tank{.name = name, .volume = TypedVolume::parse("400 L").value(), .fluid = {}};
    tank.latitude = latitude;
    tank.longitude = longitude;
    return tank;
}

std::vector<std::string> idsOf(const std::vector<Message>& messages)
{
    std::vector<std::string> ids;
    for (const Message& message : messages) {
        ids.push_back(message.id);
    }
    return ids;
}

using Ids = std::vector<std::string>;

} // namespace

TEST_CASE("a latitude is read as people write it")
{
    const auto [text, degrees] = GENERATE(table<const char*, double>({{"48.2082", north_deg},
                                                                      {"+48.2082", north_deg},
                                                                      {"48,2082 N", north_deg},
                                                                      {"N48.2082", north_deg},
                                                                      {"48° 12' 29.52\" N", north_deg},
                                                                      {"48°12′29.52″N", north_deg},
                                                                      {"48º 12’ 29,52'' n", north_deg},
                                                                      {"48 12 29.52 N", north_deg},
                                                                      {"48:12:29.52", north_deg},
                                                                      {"48-12-29.52 N", north_deg},
                                                                      {"48 12.492 N", north_deg},
                                                                      {"S 48 12 29.52", -north_deg},
                                                                      {"−48.2082", -north_deg},
                                                                      {"-48 12 29.52", -north_deg},
                                                                      {"48.2082000000000", north_deg},
                                                                      {"90", 90.0},
                                                                      {"0", 0.0}}));
    CAPTURE(text);
    const auto read = coordinateIn(text, Axis::Latitude);
    REQUIRE(read.has_value());
    CHECK_THAT(read->degrees, Catch::WithinAbs(degrees, 1e-9)); // sums of three quotients; 0.1 mm
}

TEST_CASE("what can be no latitude is told why not")
{
    const auto [text, id] = GENERATE(table<const char*, const char*>({{"", "place.unreadable"},
                                                                      {"N", "place.unreadable"},
                                                                      {"here", "place.unreadable"},
                                                                      {"48.2.1", "place.unreadable"},
                                                                      {"48.5 12 N", "place.unreadable"},
                                                                      {"48 12 29 5 N", "place.unreadable"},
                                                                      {"48' 12 N", "place.unreadable"},
                                                                      {"48N12", "place.unreadable"},
                                                                      {"4%", "place.unreadable"},
                                                                      {"48 60 N", "place.sixty"},
                                                                      {"48 12 60 N", "place.sixty"},
                                                                      {"90 0 1 N", "place.beyond"},
                                                                      {"91", "place.beyond"},
                                                                      {"16.3738 E", "place.other-axis"},
                                                                      {"48 N S", "place.two-directions"},
                                                                      {"-48 S", "place.two-directions"},
                                                                      {"48 O", "place.east-or-west"}}));
    CAPTURE(text);
    const auto read = coordinateIn(text, Axis::Latitude);
    REQUIRE_FALSE(read.has_value());
    CHECK(read.error().say.id == id);
}

TEST_CASE("a longitude goes to 180 degrees, east or west")
{
    CHECK_THAT(coordinateIn("16 22 25.68 E", Axis::Longitude)->degrees, Catch::WithinAbs(east_deg, 1e-9));
    CHECK(coordinateIn("180 W", Axis::Longitude)->degrees == -180.0);
    CHECK(coordinateIn("180.0001", Axis::Longitude).error().say.id == "place.beyond");
    CHECK(coordinateIn("48 N", Axis::Longitude).error().say.id == "place.other-axis");
}

TEST_CASE("a place is as fine as the last digit that was written")
{
    // Half of the last digit each way: 0.00005° of a meridian is 5.56 m; of a parallel at 60° half as much.
    const auto decimal = placeOf(tankAt("A", "60.0000", "10.0000"));
    REQUIRE(decimal.has_value());
    CHECK_THAT(*decimal->accuracy_m, Catch::WithinAbs(std::hypot(5.56, 2.78), 0.01));
    const auto seconds = placeOf(tankAt("A", "0 0 30 N", "10 0 0 E"));
    CHECK_THAT(*seconds->accuracy_m, Catch::WithinAbs(std::hypot(15.44, 15.44), 0.01)); // 0.5" each
    CHECK_FALSE(placeOf(tankAt("A", "60", "")).has_value());
    CHECK_FALSE(placeOf(tankAt("A", "", "")).has_value());
}

TEST_CASE("what is odd in a place is asked about, and no more")
{
    const std::vector<TankRecord> others = {tankAt("Press", "48.2082", "16.3738"), tankAt("Mill", "", "")};
    const auto odd = [&](const char* latitude, const char* longitude) {
        return idsOf(oddInPlace(tankAt("New", latitude, longitude), others));
    };
    CHECK(odd("48.2083", "16.3739") == Ids{});
    CHECK(odd("", "") == Ids{});
    CHECK(odd("48.2082", "") == Ids{"place.half"});
    CHECK(odd("48.2082", "16.3738") == Ids{"place.same"});
    CHECK(odd("16.3738", "48.2082") == Ids{"place.far"});
    CHECK(odd("48.2082", "-16.3738") == Ids{"place.far"});
    CHECK(odd("48.208", "16.374") == Ids{"place.coarse"});
    CHECK(odd("0.0000", "0.0000") == Ids{"place.zero", "place.far"});
    CHECK(idsOf(oddInPlace(others[0], others)) == Ids{}); // of itself it is no copy
}

TEST_CASE("a place that runs there do not bear out is asked about")
{
    const TankRecord tank = tankAt("Press", "48.2082", "16.3738");
    const double north40_m = 40.0 / 111'195.0;
    CHECK(idsOf(oddInPlace(tank, {}, Fix{{north_deg + north40_m, east_deg}, 10.0})) == Ids{"place.runs"});
    CHECK(idsOf(oddInPlace(tank, {}, Fix{{north_deg + north40_m, east_deg}, 40.0})) == Ids{});
}

TEST_CASE("a tank with a place that cannot be is refused with its reason")
{
    const auto fault = faultIn(tankAt("Press", "48.2082", "200"));
    REQUIRE(fault.has_value());
    CHECK(fault->place == "tank.longitude");
    CHECK_FALSE(faultIn(tankAt("Press", "48.2082", "")).has_value());
}
