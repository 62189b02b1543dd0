// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "cli/kill_rounds.h"
#include "cli/program.h"
#include "store/files.h"
#include "store/temp_folder.h"

#include <catch2/catch.hpp>

using namespace loopside::test;
using Catch::Contains;

namespace {

/// A journal of so many readings that the program made and ended well, and what it printed of them.
class Logged
{
public:
    explicit Logged(int readings)
    {
        write(folder_.file("story.json"), storyOf(readings));
        const Ran ran = runProgram({"replay", "--json", "--journal", path(), folder_.file("story.json")});
        REQUIRE(ran.exitCode == 0);
        printed_ = acknowledged(ran.out);
        REQUIRE(printed_.size() == static_cast<std::size_t>(readings));
    }

    [[nodiscard]] std::string path() const { return folder_.file("journal.db"); }
    [[nodiscard]] std::vector<int> printed() const { return printed_; }

private:
    TempFolder folder_;
    std::vector<int> printed_;
};

std::string wrongOf(const Logged& logged, const std::vector<int>& acknowledged)
{
    std::size_t kept = 0;
    return wrongWith(logged.path(), acknowledged, kept).value_or("nothing");
}

} // namespace

TEST_CASE("every reading that the program acknowledged is in the journal after a kill, 10 times")
{
    checkProgramKills(10, 250);
}

TEST_CASE("what looks after a kill finds a reading that is lost, altered or invented, and damage")
{
    const Logged logged(12);
    std::vector<int> printed = logged.printed();
    REQUIRE(wrongOf(logged, printed) == "nothing");

    SECTION("lost")
    {
        CHECK(wrongOf(Logged(11), printed) == "12 readings were acknowledged, 11 are there");
    }
    SECTION("altered")
    {
        printed[7] = 99;
        CHECK(wrongOf(logged, printed) == "99 was acknowledged, 8 is there");
    }
    SECTION("more than one that nobody heard of")
    {
        printed.pop_back();
        CHECK(wrongOf(logged, printed) == "nothing");
        printed.pop_back();
        CHECK(wrongOf(logged, printed) == "12 readings are there, of which only 10 were acknowledged");
    }
    SECTION("damage, though no reading is gone")
    {
        std::string file = contentOf(logged.path());
        const std::size_t at = file.rfind("reading-logged");
        REQUIRE(at != std::string::npos);
        file[at] = 'R';
        write(logged.path(), file);
        CHECK_THAT(wrongOf(logged, printed), Contains("there was something to recover"));
    }
}
