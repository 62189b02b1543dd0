// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "app/backup_timer.h"

#include "app_bench.h"
#include "ledger/recorder.h"
#include "store/backup.h"
#include "store/files.h"
#include "store/temp_folder.h"

#include <catch2/catch.hpp>

#include <thread>

using namespace loopside;
using namespace loopside::test;

namespace {

/// Lets seconds pass until the backup that is under way is over.
void finish(AppBench& bench, const app::BackupTimer& timer)
{
    for (int i = 0; timer.isBusy() && i < 10'000; ++i) {
        std::this_thread::sleep_for(std::chrono::milliseconds(1));
        bench.pass(1);
    }
    REQUIRE_FALSE(timer.isBusy());
}

} // namespace

TEST_CASE("each hour and after each run a backup is made")
{
    AppBench bench;
    const TempFolder folder;
    const std::string path = folder.file("journal.sqlite");
    Recorder recorder(1);
    makeJournal(path, recorder.chainOf(2));
    const auto backups = [&] { return store::backupsIn(folder.file("backups")).value().size(); };
    app::BackupTimer timer(bench.tablet(), path, folder.file("backups"));
    bench.pass(3500);
    CHECK_FALSE(timer.isBusy());
    bench.pass(200);
    finish(bench, timer);
    CHECK(backups() == 1);
    CHECK(bench.tablet().trouble().isEmpty());

    REQUIRE(openedJournal(path)->append(recorder.notes({"more"})));
    bench.playScene(QStringLiteral("cold-oil"));
    CHECK_FALSE(timer.isBusy());
    REQUIRE(bench.tablet().submit(run::CloseRun{bench.tablet().shown()->id, run::Ending::Abandoned, "to see"}));
    CHECK(timer.isBusy());
    finish(bench, timer);
    CHECK(backups() == 2);
}

TEST_CASE("a backup that cannot be made is told")
{
    AppBench bench;
    const TempFolder folder;
    write(folder.file("journal.sqlite"), "no journal");
    app::BackupTimer timer(bench.tablet(), folder.file("journal.sqlite"), folder.file("backups"));
    timer.begin();
    finish(bench, timer);
    CHECK(bench.tablet().trouble().contains(QStringLiteral("No backup of the journal could be made")));
}
