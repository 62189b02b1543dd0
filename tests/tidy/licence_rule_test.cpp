// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "tidy/licence_rule.h"

#include <catch2/catch.hpp>

using namespace loopside::tidy;

namespace {

const std::string line = "SPDX-License-Identifier: ";
const SourceFile text{"LICENSES/MIT.txt", "Permission is hereby granted"};

} // namespace

TEST_CASE("a file has its licence in its head, or is named, also by a star")
{
    const std::string dep5 = "Files: data/* a.md\n b.md\nCopyright: us\nLicense: MIT\n";
    CHECK(checkLicencesAreStated(
              {text, {"x.cpp", "// " + line + "MIT\n"}, {"data/deep/one.csv", "1"}, {"a.md", ""}, {"b.md", ""}}, dep5)
              .empty());
}

TEST_CASE("a file without a licence, a name of nothing and a licence without its text are found")
{
    const auto unstated = checkLicencesAreStated({text, {"database/one.csv", "1"}, {"data/two.csv", "2"}},
                                                 "Files: data/*\nLicense: MIT\n");
    REQUIRE(unstated.size() == 1);
    CHECK(unstated[0].path == "database/one.csv");
    const auto stale = checkLicencesAreStated({text}, "Files: gone/*\nLicense: MIT\n");
    REQUIRE(stale.size() == 1);
    CHECK(stale[0].path == ".reuse/dep5");
    const auto missing = checkLicencesAreStated({text, {"x.cpp", "// " + line + "ISC\n"}}, "");
    REQUIRE(missing.size() == 1);
    CHECK(missing[0].path == "LICENSES");
}
