// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// The oil is ISO VG 46: 46 cSt at 40 °C (ISO 3448). A fifth of it is 9.2 cSt.

#include "run/result_odd.h"

#include "run/walk.h"

#include <catch2/catch.hpp>

using namespace loopside;
using namespace loopside::run;
using namespace loopside::test;

namespace {

std::string oddsOf(const ResultEntered& result)
{
    std::string ids;
    for (const Message& odd : oddIn(result, ordinary().tank.fluid)) {
        ids += (ids.empty() ? "" : " ") + odd.id;
    }
    return ids;
}

} // namespace

TEST_CASE("what laboratories report every day is not asked about")
{
    CHECK(oddsOf({.sample = "A",
                  .code = "21/19/16",
                  .countsPerMl = {number("12500"), number("3200"), number("410")},
                  .water = "240 ppm",
                  .viscosity = "44.1 cSt",
                  .acid = "0.42 mg KOH/g"})
              .empty());
    CHECK(oddsOf({.sample = "A", .code = "24/22/19", .water = "5000 ppm", .viscosity = "55 cSt", .acid = "5 mg KOH/g"})
              .empty());
}

TEST_CASE("what is far from what oil shows is asked about, each by its own sentence")
{
    const auto [result, asked] = GENERATE(table<ResultEntered, std::string>({
        {{.sample = "A", .code = "25/22/19", .water = {}, .viscosity = {}}, "result.odd.dirty"},
        {{.sample = "A", .code = {}, .countsPerMl = {number("200000")}, .water = {}, .viscosity = {}},
         "result.odd.dirty"}, // 160 000 to 320 000 per mL is number 25 (ISO 4406, table 1)
        {{.sample = "A", .code = {}, .water = "0.6 %", .viscosity = {}}, "result.odd.water"},
        {{.sample = "A", .code = {}, .water = {}, .viscosity = "68 cSt"}, "result.odd.viscosity"},
        {{.sample = "A", .code = {}, .water = {}, .viscosity = "36 cSt"}, "result.odd.viscosity"},
        {{.sample = "A", .code = {}, .water = {}, .viscosity = {}, .acid = "12 mg KOH/g"}, "result.odd.acid"},
    }));
    CHECK(oddsOf(result) == asked);
}
