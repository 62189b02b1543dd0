// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "tidy/tree.h"

#include <catch2/catch.hpp>
#include <unistd.h>

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <string>

using namespace loopside;
using namespace loopside::tidy;

namespace fs = std::filesystem;

namespace {

/// A project of its own in the test's folder, with its files.
class SmallProject
{
public:
    // Named for the process: CTest runs these cases side by side.
    SmallProject() : root_{fs::current_path() / ("tidy_small_project_" + std::to_string(::getpid()))}
    {
        fs::remove_all(root_);
    }
    ~SmallProject()
    {
        std::error_code ignored;
        fs::remove_all(root_, ignored);
    }
    SmallProject(const SmallProject&) = delete;
    SmallProject& operator=(const SmallProject&) = delete;

    SmallProject& with(const std::string& path, const std::string& text)
    {
        fs::create_directories((root_ / path).parent_path());
        std::ofstream(root_ / path) << text;
        return *this;
    }
    [[nodiscard]] const fs::path& root() const { return root_; }

private:
    fs::path root_;
};

bool has(const Findings& findings, std::string_view path, std::string_view words)
{
    return std::ranges::any_of(findings, [&](const Finding& finding) {
        return finding.path == path && finding.rule.find(words) != std::string::npos;
    });
}

} // namespace

TEST_CASE("every rule is asked about a tree, and what is built or binary is left out")
{
    SmallProject project;
    project.with("src/oil/CMakeLists.txt", "oil.cpp\n")
        .with("src/oil/oil.cpp", "#include \"app/view.h\"\n#include <sqlite3.h>\n// is safe, from /home/ann\n")
        .with("src/oil/oil.h", "Done close();\n")
        .with("qml/Main.qml", "color: \"red\"\nonX: console.log(1)\n")
        .with("assets/x.csv", "1,2\n")
        .with("assets/sound.wav", "is safe")
        .with("build/dev/src/gen.cpp", "is safe")
        .with("README.md", "Loopside\n");
    const auto files = readTree(project.root());
    REQUIRE(files);
    CHECK(files->size() == 6);
    CHECK(files->front().path == "README.md");

    const Findings findings = checkTree(*files, Layers::parse("oil:\n").value());
    CHECK(has(findings, "src/oil/oil.cpp", "includes point down"));
    CHECK(has(findings, "src/oil/oil.cpp", "may not include SQLite"));
    CHECK(has(findings, "src/oil/oil.cpp", "promises"));
    CHECK(has(findings, "src/oil/oil.cpp", "path of one machine"));
    CHECK(has(findings, "src/oil/oil.cpp", "SPDX"));
    CHECK(has(findings, "src/oil/oil.h", "[[nodiscard]]"));
    CHECK(has(findings, "src/oil/oil.h", "named in a CMakeLists.txt"));
    CHECK(has(findings, "qml/Main.qml", "colours"));
    CHECK(has(findings, "qml/Main.qml", "console"));
    CHECK(has(findings, "assets/x.csv", "where its numbers come from"));
}

TEST_CASE("a folder that is no project is refused rather than found in order")
{
    SmallProject project;
    project.with("notes/README.md", "nothing\n");
    const auto files = readTree(project.root());
    REQUIRE_FALSE(files);
    CHECK(files.error().code == Errc::NotFound);
}
