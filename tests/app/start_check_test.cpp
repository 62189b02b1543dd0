// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "app/start_check.h"

#include "app_bench.h"
#include "ledger/recorder.h"
#include "store/files.h"
#include "store/lost_in_index.h"
#include "store/temp_folder.h"

#include <catch2/catch.hpp>

#include <thread>

using namespace loopside;
using namespace loopside::test;

namespace {

QString toldOf(const std::string& journal)
{
    AppBench bench;
    const auto opened = store::SqliteJournal::open(journal, {.structureMaxBytes = 0});
    REQUIRE(opened);
    app::StartCheck check(bench.tablet(), **opened);
    check.begin(journal);
    for (int i = 0; check.isBusy() && i < 10'000; ++i) {
        std::this_thread::sleep_for(std::chrono::milliseconds(1));
        bench.pass(1);
    }
    REQUIRE_FALSE(check.isBusy());
    return bench.tablet().trouble();
}

} // namespace

TEST_CASE("damage that is found behind the start is told, with what to do, and a sound file without a word")
{
    const TempFolder folder;
    const std::string path = folder.file("journal.sqlite");
    makeJournal(path, Recorder(1).chainOf(20));
    CHECK(toldOf(path).isEmpty());

    loseInIndex(path);
    const QString told = toldOf(path);
    CHECK(told.contains(QStringLiteral("has damage")));
    CHECK(told.contains(QStringLiteral("Restore from backups")));
}
