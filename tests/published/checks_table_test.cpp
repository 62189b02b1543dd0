// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// Makes every published check and holds the table of them, CHECKS.md, to what was found.

#include "published/checks_table.h"

#include "published/topics.h"
#include "support/golden.h"

#include <catch2/catch.hpp>

#include <array>
#include <map>

using namespace loopside::published;

namespace {

struct Topic
{
    const char* title;
    void (*make)(Checks&);
};

constexpr std::array topics = {
    Topic{"Units", unitChecks},
    Topic{"Viscosity grades", gradeChecks},
    Topic{"Viscosity and temperature", viscosityChecks},
    Topic{"Viscosity index", viscosityIndexChecks},
    Topic{"Saybolt seconds", sayboltChecks},
    Topic{"Density", densityChecks},
    Topic{"Water in oil", waterChecks},
    Topic{"Cleanliness codes", cleanlinessChecks},
    Topic{"Elements", elementChecks},
    Topic{"Gauges and their errors", gaugeChecks},
    Topic{"Clean pressure drop", cleanDropChecks},
    Topic{"Turnovers and clean-up", turnoverChecks},
    Topic{"Hoses and suction", pipeChecks},
    Topic{"Pump, motor, tank, waste", machineChecks},
    Topic{"Numerical witnesses", numericalChecks},
};

} // namespace

TEST_CASE("every published check is met, and the table tells them")
{
    Checks checks;
    for (const Topic& topic : topics) {
        checks.begin(topic.title);
        topic.make(checks);
    }

    std::set<std::pair<std::string, std::string>> made;
    std::map<std::string, Source> sources;
    for (const Checks::Row& row : checks.rows()) {
        CAPTURE(row.check.quantity, row.check.source.name);
        CHECK(made.emplace(row.check.quantity, row.check.source.name).second);
        const Source& first = sources.emplace(row.check.source.name, row.check.source).first->second;
        CHECK(first.seen == row.check.source.seen);
    }
    CHECK(countedRows(checks).size() >= 80);
    CHECK(countedSources(checks).size() >= 25);

    const std::string file = std::string(LOOPSIDE_SOURCE_DIR) + "/tests/published/CHECKS.md";
    INFO("Not what the checks found; see the top of " << file);
    CHECK(loopside::test::goldenDifference(file, tableOf(checks)) == "");
}
