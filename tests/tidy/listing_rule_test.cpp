// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "tidy/listing_rule.h"

#include <catch2/catch.hpp>

using namespace loopside::tidy;

TEST_CASE("a source file that no build file names is found")
{
    const Findings findings = checkFilesAreListed({
        {"src/oil/CMakeLists.txt",
         "project_module(oil\n  SOURCES\n    code.cpp # not grade.cpp\n  HEADERS code.hpp)\n"},
        {"src/oil/code.cpp", ""},
        {"src/oil/code.h", ""},
        {"src/oil/grade.cpp", ""},
        {"tests/oil/code_test.cpp", ""},
        {"qml/run/RunPage.qml", ""},
    });
    REQUIRE(findings.size() == 4);
    CHECK(findings[0].path == "src/oil/code.h");
    CHECK(findings[1].path == "src/oil/grade.cpp");
    CHECK(findings[2].path == "tests/oil/code_test.cpp");
    CHECK(findings[3].path == "qml/run/RunPage.qml");
}

TEST_CASE("a source file that the build file of its folder or of one above names is let through")
{
    CHECK(
        checkFilesAreListed(
            {
                {"src/app/CMakeLists.txt", "project_module(app SOURCES main.cpp run/view.cpp HEADERS \"run/view.h\")"},
                {"src/app/main.cpp", ""},
                {"src/app/run/view.cpp", ""},
                {"src/app/run/view.h", ""},
                {"tests/support/clock.h", ""},
                {"tests/units/CMakeLists.txt", "set(case ${CMAKE_CURRENT_SOURCE_DIR}/cases/mixing.cpp)"},
                {"tests/units/cases/mixing.cpp", ""},
                {"assets/x.cpp", ""},
            })
            .empty());
}

TEST_CASE("a name in a build file of another folder does not count")
{
    CHECK(checkFilesAreListed({{"src/run/CMakeLists.txt", "code.cpp"}, {"src/oil/code.cpp", ""}}).size() == 1);
}
