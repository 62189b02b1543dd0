// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "store/crash_rounds.h"

#include "ledger/verify.h"
#include "store/faulty_disk.h"
#include "store/files.h"
#include "store/recovery.h"
#include "store/temp_folder.h"

#include <catch2/catch.hpp>
#include <sqlite3.h>

#include <algorithm>
#include <array>
#include <optional>

namespace loopside::test {

namespace {

using ledger::Entry;

constexpr std::array allCuts = {PowerCut::DropsAll,  PowerCut::KeepsAll, PowerCut::KeepsFirst,
                                PowerCut::KeepsSome, PowerCut::Tears,    PowerCut::Garbles};

/// Batches of which some fill a page, some overflow, and which together outgrow the log of SQLite once.
std::vector<std::vector<Entry>> makeBatches(Recorder& recorder)
{
    std::vector<std::vector<Entry>> batches;
    for (const std::size_t size : {10, 3000, 1'000'000, 200, 1'000'000, 1'000'000, 1'000'000, 1'000'000, 40, 7000, 5}) {
        batches.push_back(recorder.notes({"a", std::string(size, 'b')}));
    }
    return batches;
}

struct Acknowledged
{
    std::vector<Entry> entries;
    std::vector<Entry> attempted; ///< The batch that was under way.
};

/// Appends until the disk goes away, from the `n`th call on. False when the disk outlasted all batches.
bool appendUntil(FaultyDisk& disk, const std::string& path, int n, const std::vector<std::vector<Entry>>& batches,
                 Acknowledged& acknowledged)
{
    auto journal = openedJournal(path);
    disk.failFrom(n, SQLITE_IOERR_WRITE);
    for (const std::vector<Entry>& batch : batches) {
        acknowledged.attempted = batch;
        if (!journal->append(batch)) {
            return true;
        }
        acknowledged.entries.insert(acknowledged.entries.end(), batch.begin(), batch.end());
        acknowledged.attempted.clear();
    }
    return false;
}

/// What is wrong with the journal that a power cut left; nothing if it is as it must be.
std::optional<std::string> faultIn(const std::string& path, const Acknowledged& acknowledged, CrashReport& report)
{
    const auto opened = store::openOrRecover(path, "", 0);
    if (!opened) {
        return opened.error().sentence;
    }
    if (opened->recovered) {
        return std::to_string(acknowledged.entries.size())
            + " entries were acknowledged, and this is called damage: " + opened->recovered->why;
    }
    report.torn += opened->tornWrites > 0 ? 1 : 0;
    const auto stored = allOf(*opened->journal);
    std::vector<Entry> whole = acknowledged.entries;
    whole.insert(whole.end(), acknowledged.attempted.begin(), acknowledged.attempted.end());
    if (stored == inOrder(acknowledged.entries) || stored == inOrder(whole)) {
        return std::nullopt;
    }
    return std::to_string(acknowledged.entries.size()) + " entries were acknowledged, " + std::to_string(stored.size())
        + " are there";
}

} // namespace

CrashReport crashAtEvery(std::size_t step, CutAt at, std::uint64_t seed, bool isDiskLying)
{
    SeededRandom random(seed);
    Recorder recorder(1);
    const std::vector<Entry> opening = recorder.open();
    const std::vector<std::vector<Entry>> batches = makeBatches(recorder);
    CrashReport report;
    bool isCut = true;
    for (std::size_t n = 1; isCut && report.firstFault.empty(); n += step) {
        const TempFolder folder;
        const std::string path = folder.file("journal.db");
        makeJournal(path, opening);
        std::vector<std::pair<std::string, std::string>> left;
        std::string end;
        Acknowledged acknowledged{opening, {}};
        {
            FaultyDisk disk;
            disk.keep(path);
            if (at == CutAt::Syncs) {
                disk.countSyncsAlone();
            }
            if (isDiskLying) {
                disk.lieAboutSyncs();
            }
            isCut = appendUntil(disk, path, static_cast<int>(n), batches, acknowledged);
            end = contentOf(path + ".end");
            for (const PowerCut cut : allCuts) {
                left.emplace_back(disk.afterCut(path, cut, random), disk.afterCut(path + "-wal", cut, random));
            }
        }
        for (std::size_t i = 0; i < left.size() && report.firstFault.empty(); ++i) {
            const TempFolder afterwards;
            write(afterwards.file("journal.db"), left[i].first);
            write(afterwards.file("journal.db-wal"), left[i].second);
            write(afterwards.file("journal.db.end"), end);
            ++report.cuts;
            if (const auto fault = faultIn(afterwards.file("journal.db"), acknowledged, report)) {
                report.firstFault = "seed " + std::to_string(seed) + ", call " + std::to_string(n) + ", cut "
                    + std::to_string(i) + ": " + *fault;
            }
        }
    }
    return report;
}

} // namespace loopside::test
