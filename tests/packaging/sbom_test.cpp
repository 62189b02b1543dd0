// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// What the packages say that they are made of, held against SPDX 2.3 (clauses 6 to 11) and against what is there.

#include "packaging/shell.h"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include <map>
#include <regex>
#include <set>

using namespace loopside::test;
using nlohmann::json;

namespace {

const std::set<std::string> programs = {"loopside", "loopside-cli", "loopside-hub"};

json partsOf(const std::string& program)
{
    return json::parse(sourceText(LOOPSIDE_DOCUMENTS "/" + program + ".spdx.json"));
}

std::map<std::string, json> packagesOf(const std::string& program)
{
    const json parts = partsOf(program);
    std::map<std::string, json> packages;
    for (const json& package : parts.at("packages")) {
        packages[package.at("name")] = package;
    }
    return packages;
}

/// The names that stand in `relation` to the program.
std::set<std::string> related(const std::string& program, const std::string& relation)
{
    const json parts = partsOf(program);
    std::set<std::string> names;
    for (const json& one : parts.at("relationships")) {
        if (one.at("relationshipType") == relation) {
            const std::string id = one.at(relation.ends_with("_OF") ? "spdxElementId" : "relatedSpdxElement");
            names.insert(id.substr(std::string("SPDXRef-Package-").size()));
        }
    }
    return names;
}

/// The packages of packaging/dependencies of one kind.
std::set<std::string> neededTo(const std::string& kind)
{
    std::set<std::string> names;
    const std::regex line(kind + " +(\\S+) .*");
    for (const std::string& text : linesOf(sourceText("packaging/dependencies"))) {
        std::smatch match;
        if (std::regex_match(text, match, line)) {
            names.insert(match[1]);
        }
    }
    return names;
}

} // namespace

TEST_CASE("the list of parts of each program has what SPDX 2.3 asks for, and names nothing that is not in it")
{
    for (const std::string& program : programs) {
        CAPTURE(program);
        const json parts = partsOf(program);
        CHECK(parts.at("spdxVersion") == "SPDX-2.3");
        CHECK(parts.at("dataLicense") == "CC0-1.0");
        CHECK(std::regex_match(parts.at("creationInfo").at("created").get<std::string>(),
                               std::regex(R"(\d{4}-\d\d-\d\dT\d\d:\d\d:\d\dZ)")));
        CHECK(std::regex_match(parts.at("documentNamespace").get<std::string>(),
                               std::regex("https://[^#]+/" + program + "-" LOOPSIDE_VERSION "-[0-9a-f]{16}")));
        std::set<std::string> ids = {"SPDXRef-DOCUMENT"};
        for (const json& package : parts.at("packages")) {
            const std::string id = package.at("SPDXID");
            CAPTURE(id);
            CHECK(std::regex_match(id, std::regex("SPDXRef-[A-Za-z0-9.-]+")));
            CHECK(ids.insert(id).second);
            CHECK_FALSE(package.at("downloadLocation").get<std::string>().empty());
            CHECK_FALSE(package.at("licenseDeclared").get<std::string>().empty());
        }
        for (const json& one : parts.at("relationships")) {
            CAPTURE(one.dump());
            CHECK(ids.contains(one.at("spdxElementId")));
            CHECK(ids.contains(one.at("relatedSpdxElement")));
        }
    }
}

TEST_CASE("every package that is needed is in the list, with the version that is installed")
{
    const auto packages = packagesOf("loopside");
    const auto run = related("loopside", "RUNTIME_DEPENDENCY_OF");
    CHECK(run == neededTo("run"));
    for (const std::string& name : run) {
        CAPTURE(name);
        const ShellRan asked = runInShell("dpkg-query -W -f '${Version}' " + quotedForShell(name) + " 2>/dev/null");
        if (asked.exitCode == 0 && !asked.said.empty()) {
            CHECK(packages.at(name).at("versionInfo") == asked.said);
        } else {
            CHECK(packages.at(name).at("comment") == "not installed where this list was made");
        }
    }
}

TEST_CASE("each program names the libraries that it loads and those that are in it")
{
    CHECK(related("loopside", "DYNAMIC_LINK").contains("libqt6quick6"));
    CHECK(related("loopside-cli", "DYNAMIC_LINK").contains("libsqlite3-0"));
    CHECK(related("loopside-hub", "DYNAMIC_LINK").contains("libpq5"));
    CHECK_FALSE(related("loopside-hub", "DYNAMIC_LINK").contains("libqt6quick6"));
    CHECK(related("loopside-cli", "STATIC_LINK").contains("libeigen3-dev"));
    CHECK(related("loopside-cli", "STATIC_LINK").contains("libboost1.74-dev")); // libboost-dev has no header
}

TEST_CASE("licences are those of the packages' own copyright files, by SPDX's names")
{
    // Read in /usr/share/doc of Debian 12, "Files: *", by hand.
    const auto [name, licence] = GENERATE(table<std::string, std::string>({
        {"libsodium23", "ISC"},
        {"libssl3", "Apache-2.0"},
        {"libboost1.74-dev", "BSL-1.0"},
        {"libeigen3-dev", "MPL-2.0"},
        {"libqt6core6", "LGPL-3.0-only OR GPL-2.0-only"},
        {"fonts-b612", "OFL-1.1 AND EPL-2.0 AND BSD-3-Clause"},
        {"libsqlite3-0", "NOASSERTION"}, // in the public domain: no licence of SPDX
        {"libc6", "NOASSERTION"},        // a file of prose
        {"loopside", "GPL-3.0-or-later"},
    }));
    CAPTURE(name);
    CHECK(packagesOf("loopside").at(name).at("licenseDeclared") == licence);
}

TEST_CASE("what others wrote and stands in the tree is in the hub's list, as it is")
{
    CHECK(related("loopside-hub", "CONTAINS") == std::set<std::string>{"uPlot"});
    const json plot = packagesOf("loopside-hub").at("uPlot");
    CHECK(plot.at("licenseDeclared") == "MIT");
    const ShellRan hashed = runInShell("cd '" LOOPSIDE_SOURCE_DIR "' && sha256sum "
                                       + plot.at("packageFileName").get<std::string>());
    CHECK(hashed.said.substr(0, 64) == plot.at("checksums").at(0).at("checksumValue"));
    CHECK(related("loopside", "CONTAINS").empty());
}
