// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "oil/grade.h"

#include <catch2/catch.hpp>

using Catch::Contains;
using namespace loopside::oil;

TEST_CASE("a grade is known by every name that people give it")
{
    const std::string name = GENERATE("ISO VG 46", "VG 46", "VG46", "46", "iso vg 46", "ISO VG46", "Vg 46", "  46  ",
                                      "ISO  VG  46");
    CAPTURE(name);
    const auto grade = gradeNamed(name);
    REQUIRE(grade.has_value());
    CHECK(grade->vg == 46);
}

TEST_CASE("grades go from thin to thick without overlap")
{
    for (std::size_t i = 1; i < grades().size(); ++i) {
        CAPTURE(grades()[i].vg);
        CHECK(grades()[i - 1].vg < grades()[i].vg);
        CHECK(grades()[i - 1].max < grades()[i].min);
        CHECK(grades()[i].min < grades()[i].mid);
        CHECK(grades()[i].mid < grades()[i].max);
    }
}

TEST_CASE("what is not a grade is refused with the grades that are")
{
    const std::string name = GENERATE("ISO VG 47", "", "VG", "46 VG", "4 6", "046", "46.0", "SAE 30", "ISO VG -46");
    CAPTURE(name);
    const auto grade = gradeNamed(name);
    REQUIRE_FALSE(grade.has_value());
    CHECK(grade.error().code == loopside::Errc::NotFound);
    CHECK_THAT(grade.error().sentence, Contains("\"" + name + "\""));
    CHECK_THAT(grade.error().sentence, Contains("VG 2, 3, 5, 7, 10,") && Contains("2200, 3200."));
}
