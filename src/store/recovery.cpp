// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "store/recovery.h"

#include "ledger/verify.h"
#include "store/aside_file.h"
#include "store/backup.h"
#include "store/carve.h"
#include "store/database.h"
#include "store/durable_file.h"
#include "store/end_witness.h"
#include "store/gathered.h"
#include "store/instance_lock.h"
#include "store/log_scan.h"
#include "store/mapped_file.h"

#include <algorithm>
#include <filesystem>
#include <functional>
#include <limits>
#include <numeric>
#include <set>
#include <system_error>
#include <utility>

namespace loopside::store {

namespace {

using ledger::Fault;
using ledger::Loss;
using ledger::Position;
using ledger::Verifier;

const std::string keptEnding = ".damaged";
const std::string unfinishedEnding = ".restored";
const std::string tornCounter = "torn writes dropped";
const std::string cursorCounter = "signatures checked up to";
const std::string doubtCounter = "damage found behind a start";

/// Whether a database or the log of one has the name `path`.
bool isDatabaseThere(const std::string& path)
{
    return isThere(path).value_or(false) || isThere(path + "-wal").value_or(false);
}

std::string keptName(const std::string& path, std::size_t number)
{
    return path + keptEnding + "." + std::to_string(number);
}

/// The names under which damaged files were kept, oldest first.
std::vector<std::string> keptFiles(const std::string& path)
{
    std::vector<std::string> names;
    while (isDatabaseThere(keptName(path, names.size() + 1))) {
        names.push_back(keptName(path, names.size() + 1));
    }
    return names;
}

/// The file itself is opened past SQLite only where the log cannot do without it: nobody in this program may have it
/// open then.
Result<LogScan> scan(const std::string& path)
{
    const auto log = MappedFile::open(path + "-wal");
    if (!log) {
        return fail(log.error());
    }
    if (!isHeadless(log->bytes())) {
        return scanLog(log->bytes(), {});
    }
    const auto database = MappedFile::open(path);
    return database ? Result<LogScan>(scanLog(log->bytes(), database->bytes())) : fail(database.error());
}

/// The same beside others: a log to which somebody may be writing is not looked at, and is none.
LogScan scanIfAlone(const std::string& path)
{
    std::error_code none;
    if (std::filesystem::file_size(path + "-wal", none) == 0 || none) {
        return {};
    }
    const auto lock = InstanceLock::take(path, 0);
    return lock ? scan(path).value_or(LogScan{}) : LogScan{};
}

const std::string logDamage = "its log is spoilt in the middle";

/// Gives the entries that stand whole in the journal `path` and its log to `take`.
Done carve(const std::string& path, const std::function<void(const ledger::Entry&)>& take)
{
    const auto database = MappedFile::open(path);
    const auto log = MappedFile::open(path + "-wal");
    if (!database || !log) {
        return fail(database ? log.error() : database.error());
    }
    carveEntries(database->bytes(), log->bytes(), take);
    return {};
}

/// The entries that were chosen, found again in the places where they are.
class Chosen
{
public:
    explicit Chosen(const std::vector<Gathered::Found>& entries) : entries_{entries}, isGiven_(entries.size(), false)
    {
        byHash_.resize(entries.size());
        std::iota(byHash_.begin(), byHash_.end(), std::size_t{0});
        std::ranges::sort(byHash_, {}, [&](std::size_t index) { return entries_[index].hash; });
    }

    /// Gives each to `put` once.
    [[nodiscard]] Done give(const std::vector<std::string>& places, const PutEntry& put)
    {
        Done done;
        std::size_t left = entries_.size();
        for (std::size_t i = 0; done && left > 0 && i < places.size(); ++i) {
            static_cast<void>(carve(places[i], [&](const ledger::Entry& entry) {
                const std::optional<std::size_t> index = done ? indexOf(entry) : std::nullopt;
                if (index && !isGiven_[*index]) {
                    isGiven_[*index] = true;
                    --left;
                    done = put({*index + 1, entry});
                }
            }));
        }
        if (done && left > 0) {
            return fail(Errc::Io, "entries that were found could not be read a second time: nothing was changed");
        }
        return done;
    }

private:
    [[nodiscard]] std::optional<std::size_t> indexOf(const ledger::Entry& entry) const
    {
        const auto found = std::ranges::lower_bound(byHash_, entry.hash, {},
                                                    [&](std::size_t index) { return entries_[index].hash; });
        const bool isIt = found != byHash_.end() && entries_[*found].hash == entry.hash
            && entries_[*found].signature == entry.signature;
        return isIt ? std::optional(*found) : std::nullopt;
    }

    const std::vector<Gathered::Found>& entries_;
    std::vector<std::size_t> byHash_;
    std::vector<bool> isGiven_;
};

std::vector<std::string> sentencesOf(const std::vector<Fault>& faults)
{
    std::vector<std::string> sentences;
    for (const Fault& fault : faults) {
        sentences.push_back(fault.sentence);
    }
    return sentences;
}

/// Why `journal`, which opened well, cannot be all: its witness names an entry that it does not have, or a backup does.
Result<std::string> missingEnd(const SqliteJournal& journal, const std::optional<JournalEnd>& end,
                               const std::vector<Backup>& backups)
{
    const Result<Position> last = journal.last();
    const auto named = end && end->position > 0 ? journal.read(end->position - 1, 1) : std::vector<ledger::Stored>();
    if (!last || !named) {
        return fail(!last ? last.error() : named.error());
    }
    const std::string shown = "it ends at entry " + std::to_string(*last) + ", but ";
    if (end && (named->empty() || named->front().entry.hash != end->hash)) {
        return shown + "entry " + std::to_string(end->position) + " had been logged, and is not there";
    }
    for (const Backup& backup : backups) {
        const auto isOurs = backup.last > *last ? isOfSameLife(journal, backup.path) : Result<bool>(false);
        if (!isOurs) {
            return fail(isOurs.error());
        }
        if (*isOurs) {
            return shown + "the backup of " + backup.at + " holds " + std::to_string(backup.last);
        }
    }
    return std::string();
}

/// What a start finds in the entries, and keeps how far it looked: as `limits` say, or as far as a look behind an
/// earlier start that found damage.
Result<std::vector<std::string>> checkEntries(SqliteJournal& journal, const StartLimits& limits)
{
    const Result<std::int64_t> doubt = journal.counter(doubtCounter);
    const bool isInDoubt = doubt && *doubt != 0;
    const Done structure = isInDoubt && !journal.isStructureSeen() ? journal.checkStructure() : Done();
    const auto checked = structure.and_then([&] { return checkPiece(journal, isInDoubt ? behindStart : limits); });
    if (!doubt || !checked) {
        return fail(doubt ? checked.error() : doubt.error());
    }
    const Done noted = checked->faults.empty() ? noteChecked(journal, *checked) : Done();
    return noted ? Result<std::vector<std::string>>(checked->faults) : fail(noted.error());
}

/// What speaks against `path` as it stands, or the journal.
struct Looked
{
    std::string damage;
    std::unique_ptr<SqliteJournal> journal;
    std::int64_t tornWrites = 0;
};

Result<Looked> damageAs(const Error& error)
{
    return error.code == Errc::Corrupt ? Result<Looked>(Looked{error.sentence, nullptr, 0}) : fail(error);
}

Result<Looked> look(const std::string& path, const std::vector<Backup>& backups, const StartLimits& limits)
{
    const Result<bool> there = isThere(path);
    if (!there) {
        return fail(there.error());
    }
    const std::optional<JournalEnd> end = writtenEnd(path);
    if (!*there && (!backups.empty() || !keptFiles(path).empty() || isDatabaseThere(path) || end)) {
        return Looked{"its file is gone", nullptr, 0};
    }
    const Result<LogScan> scanned = scan(path);
    if (scanned && scanned->isDamaged) {
        return Looked{logDamage, nullptr, 0};
    }
    SqliteJournal::Options options;
    options.structureMaxBytes = limits.structureMaxBytes;
    auto journal = SqliteJournal::open(path, options); // says why a file cannot be read better than `scan` does
    if (!journal) {
        return damageAs(journal.error());
    }
    (*journal)->leaveAsItIs();
    const auto found = checkEntries(**journal, limits);
    const auto lack = missingEnd(**journal, end, backups);
    if (!found || !lack) {
        return damageAs(found ? lack.error() : found.error());
    }
    const std::int64_t torn = scanned && scanned->isTorn ? 1 : 0;
    return Looked{found->empty() ? *lack : found->front(), std::move(*journal), torn};
}

Done countTorn(SqliteJournal& journal, std::int64_t torn)
{
    if (torn == 0) {
        return {};
    }
    return journal.counter(tornCounter).and_then([&](std::int64_t before) {
        return journal.setCounter(tornCounter, before + torn);
    });
}

/// Puts a new journal in the place of `path`, whose files are kept under `aside` and come back if that fails.
Done replace(const std::string& path, const std::string& aside, const GiveEntries& give)
{
    const std::string fresh = path + unfinishedEnding;
    removeDatabase(fresh); // left by a recovery that was cut off
    if (const Done made = SqliteJournal::make(fresh, give); !made) {
        return made;
    }
    Done moved = moveDatabase(path, aside); // a log alone too: it would be taken for the new journal's
    if (moved) {
        moved = putInPlace(fresh, path);
        if (!moved) {
            static_cast<void>(moveDatabase(aside, path)); // if this fails too, the next start finds it where it is
        }
    }
    if (!moved) {
        removeDatabase(fresh);
    }
    return moved;
}

/// How many entries are gone behind the last of `settled`, where `end` was the last one once and `gaps` are known.
std::uint64_t missingBehind(const Gathered::Settled& settled, const std::optional<JournalEnd>& end, std::uint64_t gaps)
{
    const bool isThere = !end
        || std::ranges::any_of(settled.entries, [&](const Gathered::Found& found) { return found.hash == end->hash; });
    const std::uint64_t known = settled.entries.size() + gaps;
    return isThere ? 0 : std::max<std::uint64_t>(end->position, known + 1) - known;
}

} // namespace

std::uint64_t Recovered::missing() const
{
    std::uint64_t missing = endMissing;
    for (const Loss& loss : losses) {
        missing += loss.entries();
    }
    return missing;
}

Message Opened::notice() const
{
    if (recovered) {
        return {"store-recovered",
                {{"reason", recovered->why},
                 {"path", recovered->keptAs.empty() ? "–" : recovered->keptAs},
                 {"entries", std::to_string(recovered->entries)},
                 {"backups", std::to_string(recovered->fromBackups)},
                 {"missing", std::to_string(recovered->missing())}}};
    }
    return tornWrites > 0 ? Message{"store-torn", {}} : Message{};
}

Result<std::int64_t> tornWritesOf(const SqliteJournal& journal)
{
    return journal.counter(tornCounter);
}

Result<std::vector<Loss>> lossesOf(const SqliteJournal& journal)
{
    return journal.restores().transform([](const std::vector<Restore>& restores) {
        std::vector<Loss> losses;
        for (const Restore& restore : restores) {
            losses.insert(losses.end(), restore.losses.begin(), restore.losses.end());
        }
        return losses;
    });
}

Result<PieceChecked> checkPiece(const SqliteJournal& journal, const StartLimits& limits)
{
    const Result<Position> last = journal.last();
    const auto losses = lossesOf(journal);
    const Result<std::int64_t> cursor = journal.counter(cursorCounter);
    if (!last || !losses || !cursor) {
        return fail(!last ? last.error() : !losses ? losses.error() : cursor.error());
    }
    const auto checked = [&](Verifier::Signatures signatures, Position after, std::size_t limit) {
        return journal.openings(after).transform([&](const std::vector<ledger::Entry>& openings) {
            Verifier verifier(signatures);
            verifier.forgive(*losses);
            if (after > 0) {
                verifier.beginBehind(after, openings);
            }
            return sentencesOf(verifyPiece(std::move(verifier), journal, after, limit));
        });
    };
    const Position from = *last - std::min<Position>(*last, limits.hashes);
    const Position next = static_cast<Position>(*cursor) >= *last ? 0 : static_cast<Position>(*cursor);
    auto faults = checked(Verifier::Signatures::PassedOver, from, limits.hashes);
    if (faults && faults->empty()) {
        faults = checked(Verifier::Signatures::Checked, next, limits.signatures);
    }
    return std::move(faults).transform([&](std::vector<std::string> found) {
        return PieceChecked{std::move(found),
                            static_cast<std::int64_t>(std::min<Position>(*last, next + limits.signatures))};
    });
}

Result<PieceChecked> checkBehindStart(const std::string& path, bool isStructureSeen)
{
    const auto journal = SqliteJournal::openToRead(path, {.structureMaxBytes = 0});
    const Done structure = journal ? isStructureSeen ? Done() : (*journal)->checkStructure() : fail(journal.error());
    if (!structure && structure.error().code == Errc::Corrupt) {
        return PieceChecked{{structure.error().sentence}, 0};
    }
    return structure.and_then([&] { return checkPiece(**journal, behindStart); });
}

Done noteChecked(SqliteJournal& journal, const PieceChecked& checked)
{
    const auto keep = [&](const std::string& name, std::int64_t value) {
        return journal.counter(name).and_then(
            [&](std::int64_t before) { return before == value ? Done() : journal.setCounter(name, value); });
    };
    if (!checked.faults.empty()) {
        return keep(doubtCounter, 1);
    }
    return keep(cursorCounter, checked.signaturesUpTo).and_then([&] { return keep(doubtCounter, 0); });
}

Result<Recovered> recover(const std::string& path, const std::vector<std::string>& sources, std::int64_t wallMs,
                          const std::string& why)
{
    const Result<bool> there = isThere(path);
    if (!there) {
        return fail(there.error());
    }
    std::vector<std::string> places = {path};
    const std::vector<std::string> keptBefore = keptFiles(path);
    places.insert(places.end(), sources.begin(), sources.end());
    places.insert(places.end(), keptBefore.begin(), keptBefore.end());
    Gathered gathered;
    for (std::size_t i = 0; i < places.size(); ++i) {
        // A place that cannot be read is passed over: what it alone has shows as missing.
        static_cast<void>(carve(places[i], [&](const ledger::Entry& entry) { gathered.add(entry, i); }));
    }
    const Gathered::Settled settled = std::move(gathered).settle();
    if (settled.entries.empty()) {
        return fail(Errc::Corrupt,
                    "not one entry can be read in " + path
                        + " or in a backup: it is left as it is; name a folder of backups, or a copy",
                    {"store-not-a-journal", {{"path", path}}});
    }
    const std::string aside = keptName(path, keptBefore.size() + 1);
    Recovered recovered{why, *there ? aside : std::string(), settled.entries.size(), 0, {}, settled.losses, 0};
    recovered.endMissing = missingBehind(settled, writtenEnd(path), recovered.missing());
    if (recovered.endMissing > 0) {
        recovered.why += "; " + std::to_string(recovered.endMissing) + " entries at its end are gone";
    }
    const Restore restore{wallMs, 0, recovered.why, settled.losses};
    const auto give = [&](const PutEntry& put) {
        return Chosen(settled.entries).give(places, put).transform([&] { return restore; });
    };
    if (const Done replaced = replace(path, aside, give); !replaced) {
        return fail(replaced.error());
    }
    EndWitness(path).write({settled.entries.size(), settled.entries.back().hash});
    std::set<std::string> used;
    for (const Gathered::Found& found : settled.entries) {
        if (found.source > 0) {
            ++recovered.fromBackups;
            used.insert(places[found.source]);
        }
    }
    recovered.backups.assign(used.begin(), used.end());
    return recovered;
}

Result<Seen> openToLook(const std::string& path, const std::string& backups)
{
    const auto known = backups.empty() ? Result<std::vector<Backup>>(std::vector<Backup>()) : backupsIn(backups);
    const std::optional<JournalEnd> end = writtenEnd(path); // before the journal: it must not know more than that
    const LogScan log = scanIfAlone(path);
    auto journal = known ? SqliteJournal::openToRead(path) : fail(known.error());
    const auto lack = journal ? missingEnd(**journal, end, *known) : fail(journal.error());
    if (!lack) {
        return fail(lack.error());
    }
    return Seen{*std::move(journal), log.isDamaged ? logDamage : *lack, log.isTorn};
}

Result<std::unique_ptr<SqliteJournal>> openWhole(const std::string& path, const std::string& backups)
{
    auto seen = openToLook(path, backups);
    if (!seen || !seen->damage.empty()) {
        return fail(seen ? damageOf(path, seen->damage) : seen.error());
    }
    return std::move(seen->journal);
}

Result<Opened> openOrRecover(const std::string& path, const std::string& backups, std::int64_t wallMs,
                             const StartLimits& limits)
{
    const auto known = backups.empty() ? Result<std::vector<Backup>>(std::vector<Backup>()) : backupsIn(backups);
    if (!known) {
        return fail(known.error());
    }
    Result<Looked> looked = look(path, *known, limits);
    if (!looked) {
        return fail(looked.error());
    }
    if (looked->damage.empty()) {
        removeDatabase(path + unfinishedEnding); // second name of this one, where the power went before it was taken
        looked->journal->leaveAsItIs(false);
        if (const Done counted = countTorn(*looked->journal, looked->tornWrites); !counted) {
            return fail(counted.error());
        }
        return Opened{std::move(looked->journal), looked->tornWrites, std::nullopt};
    }
    looked->journal.reset();
    std::vector<std::string> sources;
    for (const Backup& backup : *known) {
        sources.push_back(backup.path);
    }
    Result<Recovered> recovered = recover(path, sources, wallMs, looked->damage);
    if (!recovered) {
        return fail(recovered.error());
    }
    auto journal = SqliteJournal::open(path);
    if (!journal) {
        return fail(journal.error());
    }
    if (!backups.empty()) { // a disk that says no costs nothing: it is still there
        static_cast<void>(AsideFile(path).takeFrom(AsideFile::inBackups(backups)));
    }
    return Opened{std::move(*journal), 0, std::move(*recovered)};
}

} // namespace loopside::store
