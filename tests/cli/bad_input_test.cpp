// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// Stories that cannot be told: the real program says why in one sentence with the place, ends with 1 and leaves no half
// of a run behind. Each case is two files in tests/story/data/bad: the story and the sentence. A new case is two new
// files.

#include "base/id.h"
#include "cli/program.h"
#include "store/temp_folder.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <iterator>

using namespace loopside;
using namespace loopside::test;

namespace {

std::string textOf(const std::filesystem::path& path)
{
    std::ifstream file(path, std::ios::binary);
    return {std::istreambuf_iterator<char>(file), {}};
}

std::vector<std::filesystem::path> badStories()
{
    std::vector<std::filesystem::path> files;
    for (const auto& file :
         std::filesystem::directory_iterator(std::string(LOOPSIDE_SOURCE_DIR) + "/tests/story/data/bad")) {
        if (file.path().extension() == ".json") {
            files.push_back(file.path());
        }
    }
    std::sort(files.begin(), files.end());
    return files;
}

/// Exit 1, nothing but one sentence on standard error, which names the file and then says `sentence`.
void checkRefused(const Ran& ran, const std::string& path, const std::string& sentence)
{
    CHECK(ran.exitCode == 1);
    CHECK(linesOf(ran.err).size() == 1);
    CHECK_THAT(ran.err, Catch::StartsWith("loopside-cli: " + path));
    CHECK_THAT(ran.err, Catch::Contains(sentence));
}

std::string write(const TempFolder& folder, const std::string& text)
{
    std::ofstream(folder.file("story.json"), std::ios::binary) << text;
    return folder.file("story.json");
}

std::string noise(std::size_t size, std::uint64_t seed)
{
    SeededRandom random(seed);
    std::string text(size, '\0');
    for (char& sign : text) {
        sign = static_cast<char>(random.next());
    }
    return text;
}

} // namespace

TEST_CASE("a bad story is refused in one sentence with its place and leaves no half of a run")
{
    const auto stories = badStories();
    REQUIRE(stories.size() >= 20);
    for (const auto& story : stories) {
        DYNAMIC_SECTION(story.stem().string())
        {
            std::string sentence = textOf(std::filesystem::path(story).replace_extension(".txt"));
            REQUIRE(sentence.size() > 1);
            sentence.pop_back();
            const TempFolder folder;
            const std::string journal = folder.file("journal.db");
            checkRefused(runProgram({"replay", story.string(), "--journal", journal}), story.string(), sentence);
            if (story.stem() == "gauge_above_full_scale") {
                // What a person saw is never refused: the run is kept whole, as typed, and questioned.
                const std::string record = runProgram({"record", journal}).out;
                CHECK_THAT(record,
                           Catch::Contains("[\"220\",\"16\",\"6\"]") && Catch::Contains("[\"21\",\"16\",\"5\"]"));
                CHECK(runProgram({"verify", journal}).exitCode == 0);
            } else {
                CHECK_FALSE(std::filesystem::exists(journal));
            }
        }
    }
}

TEST_CASE("a bad story leaves a journal that was there as it was")
{
    const TempFolder folder;
    const std::string journal = folder.file("journal.db");
    const std::string stories = LOOPSIDE_SOURCE_DIR;
    REQUIRE(runProgram({"replay", stories + "/tests/stories/f04_hungry_stage.json", "--journal", journal}).exitCode
            == 0);
    const Ran before = runProgram({"record", "--json", journal});
    CHECK(runProgram({"replay", stories + "/tests/story/data/bad/acknowledges_nothing.json", "--journal", journal})
              .exitCode
          == 1);
    CHECK(runProgram({"record", "--json", journal}).out == before.out);
    CHECK(runProgram({"verify", journal}).exitCode == 0);
}

TEST_CASE("noise, a folder and a file that is not there are refused too")
{
    const TempFolder folder;
    const std::string random = write(folder, noise(10'000'000, 5));
    checkRefused(runProgram({"replay", random}), random, "this is not text in UTF-8");
    const std::string text = write(folder, std::string(10'000'000, '7'));
    checkRefused(runProgram({"replay", text}), text,
                 "line 1, column 10000000: this is not JSON"); // no number is that long
    const std::string large = write(folder, std::string(20'000'000, ' '));
    checkRefused(runProgram({"replay", large}), large, "larger than 16 MB");
    checkRefused(runProgram({"replay", folder.path().string()}), folder.path().string(), "is a folder, not a file");
    checkRefused(runProgram({"replay", folder.file("none.json")}), folder.file("none.json"), "cannot be opened");
}

TEST_CASE("a file that is no journal is refused and stays as it was")
{
    const TempFolder folder;
    const std::string text = "this is no journal, it is a letter\n";
    const std::string letter = write(folder, text);
    const std::string verb = GENERATE(as<std::string>{}, "verify", "record");
    const Ran ran = runProgram({verb, letter});
    CHECK(ran.exitCode == 1);
    CHECK(linesOf(ran.err).size() == 1);
    CHECK(textOf(letter) == text);
    checkRefused(runProgram({verb, folder.file("none.db")}), folder.file("none.db"), "is not there");
    CHECK_FALSE(std::filesystem::exists(folder.file("none.db")));
}
