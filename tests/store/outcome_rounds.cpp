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

namespace loopside::test {

namespace {

using ledger::Entry;

constexpr std::size_t inLog = 20;

void appendEach(store::SqliteJournal& journal, std::span<const Entry> entries)
{
    for (const Entry& entry : entries) {
        REQUIRE(journal.append(std::span(&entry, 1)));
    }
}

/// Whether `stored` hangs together but for the gaps that were told. Each entry is one that was written, bit for bit, so
/// its signature holds.
bool linksHold(const std::vector<ledger::Stored>& stored, const std::vector<ledger::Loss>& losses)
{
    ledger::Verifier verifier(ledger::Verifier::Signatures::PassedOver);
    verifier.forgive(losses);
    std::ranges::for_each(stored, [&](const ledger::Stored& each) { verifier.take(each); });
    return verifier.faults().empty();
}

/// How many entries `stored` is missing; nothing if it holds one that was never written or in another order.
std::optional<std::size_t> missingIn(const std::vector<ledger::Stored>& stored, const std::vector<Entry>& entries)
{
    std::size_t next = 0;
    for (const ledger::Stored& each : stored) {
        while (next < entries.size() && entries[next] != each.entry) {
            ++next;
        }
        if (next == entries.size()) {
            return std::nullopt;
        }
        ++next;
    }
    return entries.size() - stored.size();
}

} // namespace

std::string nameOf(Outcome outcome)
{
    constexpr std::array<const char*, 7> names = {
        "whole", "torn write told", "end gone", "recovered whole", "recovered, gaps told", "refused", "WRONG"};
    return names.at(static_cast<std::size_t>(outcome));
}

Sample::Sample(int count, bool hasBackup) : entries_{Recorder(1).chainOf(count - 1)}
{
    const TempFolder folder;
    const std::string path = folder.file("journal.db");
    const std::size_t inFile = entries_.size() - inLog;
    const auto journal = openedJournal(path);
    appendEach(*journal, std::span(entries_).first(inFile));
    RawDatabase(path).run("PRAGMA wal_checkpoint(TRUNCATE)");
    appendEach(*journal, std::span(entries_).subspan(inFile));
    file_ = contentOf(path);
    log_ = contentOf(path + "-wal");
    end_ = contentOf(path + ".end");
    if (hasBackup) {
        backups_ = std::make_shared<TempFolder>();
        // An hour old: it lacks what is in the log and as much again.
        const TempFolder older;
        makeJournal(older.file("journal.db"), {entries_.begin(), entries_.end() - 2 * std::ptrdiff_t{inLog}});
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
    const TempFolder folder;
    const std::string path = folder.file("journal.db");
    write(path, file);
    write(path + "-wal", log);
    write(path + ".end", end_);
    return judge(path, file, log);
}

Outcome Sample::judge(const std::string& path, const std::string& file, const std::string& log) const
{
    const auto opened = store::openOrRecover(path, backups_ ? backups_->path().string() : "", 0);
    if (!opened) {
        return contentOf(path) == file ? Outcome::Refused : Outcome::Wrong;
    }
    const auto stored = allOf(*opened->journal);
    const auto missing = missingIn(stored, entries_);
    const auto losses = store::lossesOf(*opened->journal);
    if (!missing || !losses || !linksHold(stored, *losses)) {
        return Outcome::Wrong;
    }
    if (opened->recovered) {
        const bool isKept = contentOf(opened->recovered->keptAs) == file;
        const std::uint64_t told = opened->recovered->missing();
        return !isKept || told != *missing ? Outcome::Wrong
            : *missing == 0                ? Outcome::RecoveredWhole
                                           : Outcome::RecoveredLoss;
    }
    if (*missing == 0) {
        return Outcome::Whole;
    }
    if (opened->tornWrites == 1) {
        return Outcome::TornTold;
    }
    return log.size() < log_.size() ? Outcome::EndGone : Outcome::Wrong;
}

OutcomeTable outcomesOf(const Sample& sample, Harm harm, std::size_t step)
{
    OutcomeTable table;
    for (std::size_t at = 0; at < sample.bytes(harm); at += step) {
        const Outcome outcome = sample.outcomeOf(harm, at);
        CAPTURE(static_cast<int>(harm), at);
        CHECK(outcome != Outcome::Wrong);
        ++table[outcome];
    }
    return table;
}

} // namespace loopside::test
