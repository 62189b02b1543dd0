// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "store/aside_file.h"

#include "store/crash_disk.h"
#include "store/files.h"
#include "store/temp_folder.h"

using namespace loopside;
using namespace loopside::test;
using store::AsideFile;

TEST_CASE("lines kept aside are carried once, whatever they say, behind those that are there")
{
    const TempFolder folder;
    const AsideFile from(folder.file("a.db"));
    AsideFile to(folder.file("b.db"));
    CHECK(to.takeFrom(from).value() == 0);
    CHECK_FALSE(std::filesystem::exists(to.path()));
    write(from.path(), "one\ntwo\nwithout an end");
    write(to.path(), "three\ntwo");
    CHECK(to.takeFrom(from).value() == 2);
    CHECK(contentOf(to.path()) == "three\ntwo\none\nwithout an end\n");
    CHECK(to.takeFrom(from).value() == 0);
}

TEST_CASE("a disk that fails while lines are carried leaves those that were there")
{
    int failures = 0;
    for (int n = 1; n < 20; ++n) {
        CrashDisk disk(static_cast<std::uint64_t>(n));
        AsideFile from("x/a.db", disk);
        AsideFile to("x/b.db", disk);
        REQUIRE(from.keep(Recorder(1).chainOf(1).back()));
        REQUIRE(to.keep(Recorder(2).chainOf(1).back()));
        disk.failFrom(n);
        const auto taken = to.takeFrom(from);
        disk.work();
        disk.cutPower();
        const auto left = to.all();
        REQUIRE(left);
        CHECK(left->size() >= (taken ? 2 : 1));
        failures += taken ? 0 : 1;
    }
    CHECK(failures > 2);
}
