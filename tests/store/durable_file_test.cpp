// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "store/durable_file.h"

#include "store/files.h"
#include "store/temp_folder.h"

#include <catch2/catch.hpp>
#include <sys/stat.h>

#include <filesystem>

using namespace loopside;
using namespace loopside::test;
using loopside::store::replacePrivateFile;

TEST_CASE("a file is made, then replaced whole, for its owner alone, and nothing is left beside it")
{
    const TempFolder folder;
    const std::string path = folder.file("site.json");
    REQUIRE(replacePrivateFile(path, "one, and long"));
    CHECK(contentOf(path) == "one, and long");
    REQUIRE(::chmod(path.c_str(), 0644) == 0);
    REQUIRE(replacePrivateFile(path, "two"));
    CHECK(contentOf(path) == "two");
    struct stat status = {};
    REQUIRE(::stat(path.c_str(), &status) == 0);
    CHECK((status.st_mode & 0777U) == 0600);
    CHECK_FALSE(std::filesystem::exists(path + ".new"));
}

TEST_CASE("half a file that a power cut left stands in nobody's way")
{
    const TempFolder folder;
    const std::string path = folder.file("site.json");
    write(path, "one");
    write(path + ".new", "tw");
    REQUIRE(replacePrivateFile(path, "two"));
    CHECK(contentOf(path) == "two");
}

TEST_CASE("what cannot be written leaves the file before, and says why")
{
    const TempFolder folder;
    const std::string path = folder.file("site.json");
    write(path, "one");
    std::filesystem::create_directories(path + ".new/in the way");
    const Done refused = replacePrivateFile(path, "two");
    REQUIRE_FALSE(refused);
    CHECK(refused.error().code == Errc::Io);
    CHECK_FALSE(refused.error().say.id.empty());
    CHECK(contentOf(path) == "one");
    const Done nowhere = replacePrivateFile(folder.file("none/site.json"), "two");
    REQUIRE_FALSE(nowhere);
    CHECK(nowhere.error().say.id == "store-folder-missing");
}
