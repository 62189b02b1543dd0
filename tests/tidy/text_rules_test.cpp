// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "tidy/text_rules.h"

#include <catch2/catch.hpp>

using namespace loopside::tidy;

namespace {

const std::string licence =
    "// SPDX-FileCopyrightText: The Loopside authors\n// SPDX-License-Identifier: GPL-3.0-or-later\n";

} // namespace

TEST_CASE("a source file without its licence lines is found")
{
    const auto [path, text] = GENERATE_COPY(table<std::string, std::string>({
        {"src/oil/code.h", "#pragma once\n"},
        {"src/oil/CMakeLists.txt", "project_module(oil)\n"},
        {"packaging/cmake/x.cmake", "# SPDX-FileCopyrightText: The Loopside authors\n"},
        {"qml/Main.qml", "\n" + licence},
        {"schema/tablet/0001_journal.sql", "-- journal\n"},
        {"packaging/test", "#!/usr/bin/env bash\nset -e\n"},
    }));
    CAPTURE(path);
    CHECK(checkLicence({path, text}).size() == 1);
}

TEST_CASE("a file with its licence lines is let through, as is one that can hold none")
{
    CHECK(checkLicence({"src/oil/code.h", licence + "#pragma once\n"}).empty());
    CHECK(checkLicence({"packaging/test", "#!/usr/bin/env bash\n" + licence}).empty());
    CHECK(checkLicence({"tests/stories/cold.json", "{}\n"}).empty());
    CHECK(checkLicence({"packaging/notes", "no shell file\n"}).empty());
}

TEST_CASE("a table without its source is found")
{
    CHECK(checkDataSource({"assets/reference/iso3448.csv", "grade,mid\n46,46\n"}).size() == 1);
    CHECK(checkDataSource({"tests/data/oil/x.csv", "# the ready numbers\ngrade,mid\n# Source: too late\n"}).size()
          == 1);
    CHECK(checkDataSource({"assets/reference/iso3448.csv", "# Source:\ngrade,mid\n"}).size() == 1);
}

TEST_CASE("a table with its source is let through, as is one elsewhere")
{
    CHECK(checkDataSource({"assets/reference/iso3448.csv", "# Mid-points.\n# Source: ISO 3448:1992, table 1\ngrade\n"})
              .empty());
    CHECK(checkDataSource({"tests/data/x.csv", "# Grades and limits, read in two public charts 2026-11\ngrade\n"})
              .empty());
    CHECK(checkDataSource({"tests/data/x.csv", "# source: computed by forecast_eval\ngrade\n"}).empty());
    CHECK(checkDataSource({"packaging/x.csv", "grade\n"}).empty());
}

TEST_CASE("a promise of safety or of cleanness is found with its words and its line")
{
    const auto text = GENERATE(as<std::string>(), "It IS SAFE to open.", "Now it's safe.", "safe to start",
                               "The oil is clean.", "Das ist sicher.", "El tanque está limpio.");
    const auto path = GENERATE(as<std::string>(), "src/words/x.cpp", "assets/words/en.json", "README.md",
                               "qml/Main.qml");
    CAPTURE(text, path);
    const Findings findings = checkWords({path, "first\n" + text + "\n"});
    REQUIRE(findings.size() == 1);
    CHECK(findings[0].line == 2);
}

TEST_CASE("words near a promise are let through, and tests may say anything")
{
    CHECK(
        checkWords({"src/run/x.h", "Not thread-safe. A safety valve is cleaned; unsafe today; the code is cleaner.\n"})
            .empty());
    CHECK(checkWords({"tests/words/x_test.cpp", "\"the oil is clean\"\n"}).empty());
}

TEST_CASE("a path of one machine is found")
{
    const auto text = GENERATE(as<std::string>(), "open(\"/home/ann/x.csv\")", "cd /work/main", "/tmp/x", "a (/root/y)",
                               "--out=/Users/ann");
    CAPTURE(text);
    CHECK(checkMachinePaths({"packaging/run", text}).size() == 1);
}

TEST_CASE("other paths are let through")
{
    const auto text = GENERATE(as<std::string>(), "/usr/lib/qt6/bin", "../shared/work/x", "$HOME/work/x", "net/work/x",
                               "\"$root/tmp/x\"", "${TMPDIR}/tmp/x", "a /workshop");
    CAPTURE(text);
    CHECK(checkMachinePaths({"packaging/run", text}).empty());
    CHECK(checkMachinePaths({"tests/tidy/x_test.cpp", "/home/ann"}).empty());
}

TEST_CASE("a semicolon in the name of a test is found, and let through elsewhere")
{
    // Put together, so that this file holds no such name itself.
    const std::string name = std::string("TEST_CASE") + "(\"a run ends; its totals stay\")\n";
    CHECK(checkTestNames({"tests/run/x_test.cpp", "\n" + name}).size() == 1);
    CHECK(checkTestNames({"tests/run/x_test.cpp", "\n" + name}).front().line == 2);
    CHECK(checkTestNames({"src/run/x.cpp", name}).empty());
    CHECK(checkTestNames({"tests/run/x_test.cpp", "TEST_CASE(\"a run ends\")\n{ int i = 0; }\n"}).empty());
}
