// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "store/outcome_rounds.h"

#include "ledger/verify.h"
#include "store/backup.h"
#include "store/files.h"
#include "store/raw_database.h"
#include "store/recovery.h"
#include "store/temp_folder.h"

#include <algorithm>
#include <array>
#include <filesystem>

namespace loopside::test {

namespace {

using ledger::Entry;

constexpr std::size_t backupLacks = 40; // an hour of sets

void appendEach(store::SqliteJournal& journal, std::span<const Entry> entries)
{
    for (const Entry& entry : entries) {
        REQUIRE(journal.append(std::span(&entry, 1)));
    }
}

/// Removes what the last one left, too: the files that were kept.
void clear(const TempFolder& folder)
{
    for (const auto& left : std::filesystem::directory_iterator(folder.path())) {
        std::filesystem::remove_all(left.path());
    }
}

} // namespace

std::string nameOf(Outcome outcome)
{
    constexpr std::array<const char*, 7> names = {
        "whole", "torn write told", "end gone", "recovered whole", "recovered, gaps told", "refused", "WRONG"};
    return names.at(static_cast<std::size_t>(outcome));
}

Sample::Sample(int count, bool hasBackup, std::size_t inLog)
    : entries_{Recorder(1).chainOf(count - 1)}, place_{std::make_shared<TempFolder>()}
{
    const TempFolder folder;
    const std::string path = folder.file("journal.db");
    REQUIRE(entries_.size() > std::max(inLog, backupLacks));
    const std::size_t inFile = entries_.size() - inLog;
    const auto journal = openedJournal(path);
    appendEach(*journal, std::span(entries_).first(inFile));
    RawDatabase(path).run("PRAGMA wal_checkpoint(TRUNCATE)");
    appendEach(*journal, std::span(entries_).subspan(inFile));
    file_ = contentOf(path);
    log_ = contentOf(path + "-wal");
    end_ = contentOf(path + ".end");
    REQUIRE(ledger::verifyAll(*journal).empty());
    if (hasBackup) {
        backups_ = std::make_shared<TempFolder>();
        const TempFolder older;
        makeJournal(older.file("journal.db"), {entries_.begin(), entries_.end() - backupLacks});
        REQUIRE(store::backUp(*openedJournal(older.file("journal.db")), backups_->path().string(), 0));
    }
}

Sample Sample::withoutWitness() const
{
    Sample blind = *this;
    blind.end_.clear();
    return blind;
}

std::size_t Sample::bytes(Harm harm) const
{
    return harm == Harm::FileCut || harm == Harm::FileTurned ? file_.size() : log_.size();
}

Outcome Sample::outcomeOf(Harm harm, std::size_t at) const
{
    std::string file = file_;
    std::string log = log_;
    std::string& spoilt = harm == Harm::FileCut || harm == Harm::FileTurned ? file : log;
    if (harm == Harm::FileCut || harm == Harm::LogCut) {
        spoilt.resize(at);
    } else {
        spoilt[at] = static_cast<char>(spoilt[at] ^ (1 << (at % 8)));
    }
    clear(*place_);
    const std::string path = place_->file("journal.db");
    write(path, file);
    write(path + "-wal", log);
    write(path + ".end", end_);
    return judge(path, file, log.size());
}

Outcome Sample::judge(const std::string& path, const std::string& file, std::size_t logBytes) const
{
    const auto opened = store::openOrRecover(path, backups_ ? backups_->path().string() : "", 0);
    if (!opened) {
        return contentOf(path) == file ? Outcome::Refused : Outcome::Wrong;
    }
    // An entry that is the same bit for bit has the hash and the signature that it had: what is left to look at is
    // which ones are there, in what order, and that the gaps between them are the ones told.
    const Compared found = compared(allOf(*opened->journal), entries_);
    const auto losses = store::lossesOf(*opened->journal);
    if (!found.isSound || !losses || *losses != found.gaps) {
        return Outcome::Wrong;
    }
    if (opened->recovered) {
        const bool isKept = contentOf(opened->recovered->keptAs) == file;
        return !isKept || opened->recovered->missing() != found.missing ? Outcome::Wrong
            : found.missing == 0                                        ? Outcome::RecoveredWhole
                                                                        : Outcome::RecoveredLoss;
    }
    if (found.missing == 0) {
        return Outcome::Whole;
    }
    if (opened->tornWrites == 1) {
        return Outcome::TornTold;
    }
    return logBytes < log_.size() ? Outcome::EndGone : Outcome::Wrong;
}

Compared compared(const std::vector<ledger::Stored>& stored, const std::vector<Entry>& entries)
{
    Compared result;
    std::size_t next = 0;
    ledger::Position position = 0;
    for (const ledger::Stored& each : stored) {
        const std::size_t before = next;
        while (next < entries.size() && entries[next] != each.entry) {
            ++next;
        }
        if (next == entries.size() || each.position != ++position) {
            return {false, entries.size(), {}};
        }
        if (next > before) {
            result.gaps.push_back({each.entry.chain, before, next + 1});
        }
        ++next;
    }
    result.missing = entries.size() - stored.size();
    return result;
}

OutcomeTable outcomesOf(const Sample& sample, Harm harm, std::size_t step, std::size_t first)
{
    OutcomeTable table;
    for (std::size_t at = first; at < sample.bytes(harm); at += step) {
        const Outcome outcome = sample.outcomeOf(harm, at);
        if (outcome == Outcome::Wrong) {
            CAPTURE(static_cast<int>(harm), at);
            CHECK(outcome != Outcome::Wrong);
        }
        ++table[outcome];
    }
    return table;
}

} // namespace loopside::test
