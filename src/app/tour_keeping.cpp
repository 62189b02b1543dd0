// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// What is kept of the record: a small journal of its own, which was put together anew once and lacks an entry.

#include "app/keeper.h"
#include "app/tour.h"
#include "ledger/body.h"
#include "ledger/read_all.h"
#include "ledger/sealer.h"
#include "store/sqlite_journal.h"

#include <QTemporaryDir>

#include <chrono>
#include <thread>

namespace loopside::app {

namespace {

Done makeRestored(const std::string& path, const Stamp& now)
{
    SeededRandom random(9);
    IdMaker ids(random);
    const Id chain{{9}};
    const auto sealer = ledger::Sealer::startChain({{9}}, chain, ledger::DeviceKey::fromSeed({9}));
    std::vector<ledger::Draft> drafts = {sealer.chainOpened()};
    for (const int percent : {130, 160, 200}) {
        run::PersonPut put;
        put.person.id = {{3}};
        put.person.textPercent = percent;
        drafts.push_back({"person-put", ledger::bodyOf(run::Event(put))});
    }
    auto entries = sealer.seal(drafts, now, {{3}}, ids);
    entries.erase(entries.begin() + 2);
    return store::SqliteJournal::make(path, entries,
                                      {now.wallMs, 0, "its log is spoilt in the middle", {{chain, 2, 4}}});
}

/// A journal on disk with all that is in `from`.
Done makeCopy(const std::string& path, const ledger::Journal& from)
{
    return store::SqliteJournal::make(path, [&](const store::PutEntry& put) {
        return ledger::readAll(from, put).transform([] { return store::Restore{}; });
    });
}

} // namespace

bool Tour::keeping()
{
    const QTemporaryDir folder;
    const std::string path = folder.path().toStdString() + "/journal.sqlite";
    auto journal = makeRestored(path, stage_.tablet.now()).and_then([&] { return store::SqliteJournal::open(path); });
    if (!journal) {
        return complainOf(QString::fromStdString(journal.error().sentence));
    }
    Keeper keeper(stage_.tablet, **journal, path, folder.path().toStdString() + "/backups",
                  folder.path().toStdString() + "/records");
    KeepingView* keeping = stage_.view.keeping();
    const auto finish = [&] {
        while (keeping->isBusy()) {
            std::this_thread::sleep_for(std::chrono::milliseconds(2));
            stage_.tablet.tick();
        }
    };
    keeping->setKeeper(&keeper);
    stage_.view.showKeeping();
    isFine_ = picture(QStringLiteral("00-keeping-new")) && isFine_;
    keeping->backUp();
    keeping->askRestore();
    isFine_ = picture(QStringLiteral("00-keeping-busy")) && isFine_;
    finish();
    keeping->check();
    finish();
    isFine_ = picture(QStringLiteral("00-keeping-checked")) && isFine_;
    keeping->askRestore();
    isFine_ = picture(QStringLiteral("00-keeping-restore")) && isFine_;
    keeping->turnRead();
    isFine_ = picture(QStringLiteral("00-keeping-restore-read")) && isFine_;
    const bool isRead = keeping->isRead();
    keeping->back();
    keeping->setKeeper(nullptr);
    stage_.view.showShift();
    return isRead;
}

/// The run that was signed, with the keys to its record, and the record when it is written.
bool Tour::record()
{
    const QTemporaryDir folder;
    const std::string path = folder.path().toStdString() + "/journal.sqlite";
    if (const Done made = makeCopy(path, stage_.tablet.journal()); !made) {
        return complainOf(QString::fromStdString(made.error().sentence));
    }
    RecordOut records(stage_.tablet, path, folder.path().toStdString() + "/records");
    CloseOutView* closeOut = stage_.view.closeOut();
    closeOut->setRecords(&records);
    closeOut->lookAt([] { return QStringList{QStringLiteral("/media/STICK")}; });
    bool isFine = picture(QStringLiteral("10-signed"));
    closeOut->press(closeOut->keys()->rows().first()[1].toString());
    while (records.isBusy()) {
        std::this_thread::sleep_for(std::chrono::milliseconds(2));
        stage_.tablet.tick();
    }
    isFine = picture(QStringLiteral("10-record")) && isFine;
    closeOut->setRecords(nullptr);
    closeOut->lookAt(mountedMedia);
    return isFine;
}

} // namespace loopside::app
