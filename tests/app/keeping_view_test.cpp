// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "app/keeping_view.h"

#include "app/keeper.h"
#include "app_bench.h"
#include "ledger/recorder.h"
#include "store/files.h"
#include "store/raw_database.h"
#include "store/temp_folder.h"

#include <catch2/catch.hpp>

#include <thread>

using namespace loopside;
using namespace loopside::test;

namespace {

/// A tablet whose record stands in a file of its own.
struct KeptBench : AppBench
{
    KeptBench()
    {
        makeJournal(path, recorder.chainOf(300));
        journal = openedJournal(path);
        keeper = std::make_unique<app::Keeper>(tablet(), *journal, path, folder.file("backups"),
                                               folder.file("records"));
        view().setKeeper(keeper.get());
    }
    ~KeptBench() override { view().setKeeper(nullptr); }
    KeptBench(const KeptBench&) = delete;
    KeptBench& operator=(const KeptBench&) = delete;

    [[nodiscard]] app::KeepingView& view() const { return *app()->keeping(); }

    void finish()
    {
        for (int i = 0; view().isBusy() && i < 20'000; ++i) {
            std::this_thread::sleep_for(std::chrono::milliseconds(1));
            pass(1);
        }
        REQUIRE_FALSE(view().isBusy());
    }

    [[nodiscard]] static QString textOf(app::RowModel& rows)
    {
        QString text;
        for (const auto& row : rows.rows()) {
            text += row[0].toString() + QStringLiteral(": ") + row[1].toString() + QLatin1Char('\n');
        }
        return text;
    }

    [[nodiscard]] QString answers() const { return textOf(*view().answers()); }

    TempFolder folder;
    std::string path = folder.file("journal.sqlite");
    Recorder recorder{1};
    std::unique_ptr<store::SqliteJournal> journal;
    std::unique_ptr<app::Keeper> keeper;
};

} // namespace

TEST_CASE("the record tells when it was backed up last, how much is in it and where")
{
    KeptBench bench;
    bench.view().open();
    CHECK(KeptBench::textOf(*bench.view().facts()).contains(text("Last backup: none yet")));
    bench.view().backUp();
    CHECK(bench.answers().contains(text("A backup is being made")));
    CHECK_FALSE(bench.view().canBackUp());
    bench.finish();
    CHECK(bench.answers().contains(text("Entries in it: 301")));
    const QString facts = KeptBench::textOf(*bench.view().facts());
    CHECK(facts.contains(text("Last backup: 2026-"))); // of the bench's clock
    CHECK(facts.contains(text("Entries in it: 301")));
    CHECK(facts.contains(text("Backups kept: 1")));
    CHECK(facts.contains(QString::fromStdString(bench.folder.file("backups"))));
    bench.view().backUp();
    bench.finish();
    CHECK(bench.answers().contains(text("The last backup has everything")));
}

TEST_CASE("the whole record is checked beside the work, and the answer is told in sentences")
{
    KeptBench bench;
    bench.view().check();
    CHECK(bench.answers().contains(text("is being checked")));
    CHECK_FALSE(bench.view().canCheck());
    CHECK(bench.tablet().submit(run::Tick{})); // the tablet goes on working
    bench.finish();
    CHECK(bench.view().canCheck());
    CHECK(bench.answers().startsWith(text("note: Checked")));
    CHECK(bench.answers().contains(text("Entries: 301. Every hash, link and signature holds")));

    RawDatabase(bench.path).runPastTriggers("UPDATE entries SET body = X'00' WHERE position BETWEEN 101 AND 107");
    bench.view().check();
    bench.finish();
    CHECK(bench.answers().startsWith(text("caution: Checked")));
    CHECK(bench.answers().contains(text("Faults found: 7")));
    CHECK(bench.answers().contains(text("position 101 ")));
    CHECK_FALSE(bench.answers().contains(text("position 106 ")));
    CHECK(bench.answers().contains(text("Further faults: 2")));
}

TEST_CASE("a restore has a second step, which one slip does not pass")
{
    KeptBench bench;
    int wanted = 0;
    QObject::connect(&bench.view(), &app::KeepingView::restoreWanted, [&] { ++wanted; });
    bench.view().restore();
    bench.view().turnRead();
    bench.view().restore();
    CHECK(wanted == 0);
    bench.view().askRestore();
    REQUIRE(bench.view().isAsking());
    CHECK(bench.view().points()->rowCount() == 5);
    CHECK(bench.view().points()->rows()[0][1].toString().contains(text("the backups (0)")));
    bench.view().restore();
    CHECK(wanted == 0);
    bench.view().turnRead();
    bench.view().turnRead();
    bench.view().restore();
    CHECK(wanted == 0);
    bench.view().turnRead();
    bench.view().restore();
    CHECK(wanted == 1);
    CHECK_FALSE(bench.view().isAsking());
    bench.app()->showKeeping();
    bench.view().askRestore();
    CHECK_FALSE(bench.view().isRead()); // each time anew
    bench.view().turnRead();
    bench.app()->showShift();
    CHECK_FALSE(bench.view().isAsking());
}

TEST_CASE("while a backup or a check is under way a restore is refused in words")
{
    KeptBench bench;
    int wanted = 0;
    QObject::connect(&bench.view(), &app::KeepingView::restoreWanted, [&] { ++wanted; });
    const bool isCheck = GENERATE(true, false);
    isCheck ? bench.view().check() : bench.view().backUp();
    bench.view().askRestore();
    CHECK_FALSE(bench.view().isAsking());
    CHECK(bench.answers().contains(text("Not now: a backup or a check is under way")));
    bench.finish();
    CHECK_FALSE(bench.answers().contains(text("Not now")));

    bench.view().askRestore();
    bench.view().turnRead();
    isCheck ? bench.keeper->check.begin() : bench.keeper->backups.begin(); // as after an hour
    bench.view().restore();
    CHECK(wanted == 0);
    CHECK_FALSE(bench.view().isAsking());
    CHECK(bench.answers().contains(text("Not now")));
    bench.finish();
}

TEST_CASE("a disk that says no is told, and nothing is changed")
{
    KeptBench bench;
    write(bench.folder.file("backups"), "a file where a folder should be");
    bench.view().backUp();
    bench.finish();
    CHECK(bench.answers().contains(text("No backup of the journal could be made")));
    bench.view().setKeeper(nullptr);
    bench.keeper.reset();
    bench.journal.reset();
    const std::string before = contentOf(bench.path);
    const Message told = app::restoreRecord(bench.tablet().words(), bench.path, bench.folder.file("backups"), 0);
    CHECK(bench.tablet().say(told).contains(text("was not restored and is as it was")));
    CHECK(contentOf(bench.path) == before);
}

TEST_CASE("what earlier restores said is told again, with what is missing")
{
    KeptBench bench;
    CHECK(KeptBench::textOf(*bench.view().past()).contains(text("never put together anew")));
    bench.view().setKeeper(nullptr);
    bench.keeper.reset();
    bench.journal.reset();
    const Message told = app::restoreRecord(bench.tablet().words(), bench.path, bench.folder.file("backups"),
                                            1'783'857'600'000);
    CHECK(bench.tablet().say(told).contains(text("put together anew: 301 entries, 0 of them only in backups; 0 are")));
    bench.journal = openedJournal(bench.path);
    bench.keeper = std::make_unique<app::Keeper>(bench.tablet(), *bench.journal, bench.path,
                                                 bench.folder.file("backups"), bench.folder.file("records"));
    bench.view().setKeeper(bench.keeper.get());
    const QString past = KeptBench::textOf(*bench.view().past());
    CHECK(past.contains(text("note: 2026-07-12")));
    CHECK(past.contains(text("up to entry 301. Why: restored by a person")));
    REQUIRE(bench.tablet().speak("de"));
    bench.view().setKeeper(nullptr);
    bench.view().setKeeper(bench.keeper.get());
    CHECK(KeptBench::textOf(*bench.view().past()).contains(text("von Hand wiederhergestellt")));
}

TEST_CASE("where nobody keeps the record, as in an exercise, nothing can be done with it")
{
    AppBench bench;
    app::KeepingView& view = *bench.app()->keeping();
    bench.app()->showKeeping();
    CHECK(view.facts()->rowCount() == 0);
    CHECK(KeptBench::textOf(*view.answers()).contains(text("not the record of the tablet")));
    view.backUp();
    view.check();
    view.askRestore();
    CHECK_FALSE(view.isBusy());
    CHECK_FALSE(view.isAsking());
    CHECK_FALSE(view.canBackUp());
}
