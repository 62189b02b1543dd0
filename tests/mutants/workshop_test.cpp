// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "mutants/workshop.h"

#include "store/temp_folder.h"

#include <catch2/catch.hpp>

#include <cstdlib>
#include <filesystem>
#include <fstream>

using namespace loopside::mutants;

namespace {

const std::string half = "int half(int x) { while (x < 0) {} return x / 2; }\n";

/// A project of one file, which is in a library, and one program, which fails unless half of 4 is 2.
class SmallProject
{
public:
    SmallProject()
    {
        const std::string root = folder_.file("");
        std::filesystem::create_directories(root + "src/m");
        std::filesystem::create_directories(root + "build/bin");
        std::filesystem::create_directories(root + "scratch");
        write("src/m/half.cpp", half);
        write("src/m/test.cpp", "int half(int); int main() { return half(4) == 2 ? 0 : 1; }\n");
        write("build/build.ninja",
              "rule compile\n  command = g++ -c $in -o $out\nrule pack\n  command = ar qc $out $in\n"
              "rule link\n  command = : && g++ test.o -o $out half.a && :\n"
              "build test.o: compile ../src/m/test.cpp\nbuild half.o: compile ../src/m/half.cpp\n"
              "build half.a: pack half.o\nbuild bin/test_m: link | test.o half.a\n"
              "build test_m: phony bin/test_m\n");
        write("build/compile_commands.json",
              R"([{"file": ")" + root + R"(src/m/half.cpp", "command": "g++ -o half.o -c )" + root
                  + R"(src/m/half.cpp"}])");
        REQUIRE(std::system(("ninja -C " + build() + " test_m > " + root + "said").c_str()) == 0);
    }

    [[nodiscard]] std::string build() const { return folder_.file("build"); }
    [[nodiscard]] std::string scratch() const { return folder_.file("scratch"); }

private:
    void write(const std::string& path, const std::string& text) { std::ofstream(folder_.file(path)) << text; }

    loopside::test::TempFolder folder_;
};

} // namespace

TEST_CASE("a fault is killed, survives, hangs or does not compile, and the tree stays as it is")
{
    const SmallProject project;
    const auto workshop = Workshop::open(project.build(), {"test_m"}, project.scratch(), 1);
    REQUIRE(workshop.has_value());
    const auto sources = workshop->sourcesOf("m");
    REQUIRE(sources.size() == 1);
    CHECK(sources.front().path == "src/m/half.cpp");
    const auto outcomeOf = [&](const std::string& text) { return workshop->tryOut(sources.front(), text).outcome; };
    CHECK(outcomeOf(half) == Outcome::Survived);
    CHECK(outcomeOf("int half(int x) { return x * 2; }") == Outcome::Killed);
    CHECK(outcomeOf("int half(int x) { while (x > 0) {} return x / 2; }") == Outcome::TimedOut);
    CHECK(outcomeOf("int half(int x) { return y; }") == Outcome::NotCompiled);
    CHECK(workshop->sourcesOf("m").front().text == half);
}

TEST_CASE("a program that the build folder does not know is told")
{
    const SmallProject project;
    const auto workshop = Workshop::open(project.build(), {"test_other"}, project.scratch(), 1);
    REQUIRE_FALSE(workshop.has_value());
    CHECK(workshop.error().sentence == project.build() + " does not tell how test_other is linked.");
}
