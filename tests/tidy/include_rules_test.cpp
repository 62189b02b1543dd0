// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "tidy/include_rules.h"

#include <catch2/catch.hpp>

using namespace loopside;
using namespace loopside::tidy;

namespace {

Layers houseLayers()
{
    return Layers::parse("base:\nunits: base\noil: units\nledger: oil\nstore: ledger\nstory: ledger\napp: store\n")
        .value();
}

} // namespace

TEST_CASE("layers reach through what they depend on, and not up or sideways")
{
    const Layers layers = houseLayers();
    CHECK(layers.mayUse("oil", "base"));
    CHECK(layers.mayUse("oil", "oil"));
    CHECK_FALSE(layers.mayUse("units", "oil"));
    CHECK_FALSE(layers.mayUse("store", "story"));
}

TEST_CASE("a layer that depends on one not below it is refused")
{
    const auto [text, code] = GENERATE(table<const char*, Errc>({
        {"base: units\nunits:\n", Errc::Conflict},
        {"base: base\n", Errc::Conflict},
        {"base\n", Errc::Malformed},
        {": base\n", Errc::Malformed},
    }));
    const auto layers = Layers::parse(text);
    REQUIRE_FALSE(layers);
    CHECK(layers.error().code == code);
}

TEST_CASE("an include up or sideways is found with its line")
{
    const SourceFile file{"src/store/journal.h",
                          "// two lines\n\n#include \"ledger/entry.h\"\n#include \"story/story.h\"\n"};
    const Findings findings = checkLayers(file, houseLayers());
    REQUIRE(findings.size() == 1);
    CHECK(findings[0].line == 4);
    CHECK(toText(findings[0])
              .starts_with("src/store/journal.h:4: includes point down the layers; store does not depend "
                           "on story. Way out: "));
    CHECK(checkLayers({"src/base/id.h", "  #  include \"units/quantity.h\"\n"}, houseLayers()).size() == 1);
}

TEST_CASE("an include within the project that is not written with its module in quotes is found")
{
    CHECK(checkLayers({"src/oil/code.cpp", "#include \"code.h\"\n"}, houseLayers()).size() == 1);
    CHECK(checkLayers({"src/oil/code.cpp", "#include <units/typed.h>\n"}, houseLayers()).size() == 1);
    CHECK(checkLayers({"src/oil/code.cpp", "#include <app/view.h>\n"}, houseLayers()).size() == 2);
}

TEST_CASE("a module that no build statement names is found")
{
    CHECK(checkLayers({"src/util/misc.h", "#pragma once\n"}, houseLayers()).size() == 1);
}

TEST_CASE("includes that point down are let through, as are comments, generated files and tests")
{
    const Layers layers = houseLayers();
    CHECK(checkLayers({"src/oil/code.cpp", "#include \"oil/code.h\"\n#include \"base/text.h\"\n"}, layers).empty());
    CHECK(checkLayers({"src/oil/code.cpp", "// #include \"app/view.h\"\n/*\n#include \"app/view.h\"\n*/\n"}, layers)
              .empty());
    CHECK(checkLayers({"src/oil/code.cpp", "#include \"embedded/d2270.h\"\n#include <span>\n"}, layers).empty());
    CHECK(checkLayers({"src/app/main.cpp", "#include \"main.moc\"\n"}, layers).empty());
    CHECK(checkLayers({"tests/oil/code_test.cpp", "#include \"app/view.h\"\n"}, layers).empty());
}

TEST_CASE("an outside library outside its module is found")
{
    const auto [path, include] = GENERATE(table<const char*, const char*>({
        {"src/story/story.cpp", "#include <sqlite3.h>"},
        {"src/store/journal.cpp", "#include <sodium.h>"},
        {"src/run/state.cpp", "#include <nlohmann/json.hpp>"},
        {"src/store/journal.cpp", "#include <nlohmann/json_fwd.hpp>"},
        {"src/units/typed.cpp", "#include <tl/expected.hpp>"},
        {"src/run/state.h", "#include <QString>"},
        {"src/cli/main.cpp", "#include <QtCore/QString>"},
        {"src/hub/routes.cpp", "#include <qqml.h>"},
        {"src/run/state.cpp", "#include <fstream>"},
        {"src/words/catalogue.cpp", "#include <filesystem>"},
        {"src/base/id.cpp", "#include <sys/random.h>"},
    }));
    CAPTURE(path, include);
    const Findings findings = checkOutsideIncludes({path, include});
    REQUIRE(findings.size() == 1);
    CHECK(findings[0].rule.find("may not include") != std::string::npos);
}

TEST_CASE("an outside library in its module is let through")
{
    const auto [path, include] = GENERATE(table<const char*, const char*>({
        {"src/store/journal.cpp", "#include <sqlite3.h>"},
        {"src/ledger/sign.cpp", "#include <sodium.h>"},
        {"src/words/catalogue.cpp", "#include <nlohmann/json.hpp>"},
        {"src/cli/main.cpp", "#include <nlohmann/json.hpp>\n#include <fstream>"},
        {"src/base/result.h", "#include <tl/expected.hpp>"},
        {"src/app/view.h", "#include <QString>"},
        {"src/run/queue.cpp", "#include <queue>\n#include \"run/Queue.h\"\n#include <Quaternion/none.h>"},
        {"tests/store/journal_test.cpp", "#include <sqlite3.h>\n#include <QString>"},
    }));
    CAPTURE(path, include);
    const Findings findings = checkOutsideIncludes({path, include});
    CHECK(findings.size() == (std::string(include).find("Quaternion") == std::string::npos ? 0 : 1));
}
