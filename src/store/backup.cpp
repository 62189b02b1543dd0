// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "store/backup.h"

#include "base/text.h"
#include "ledger/verify.h"
#include "store/durable_file.h"

#include <algorithm>
#include <charconv>
#include <chrono>
#include <filesystem>
#include <functional>
#include <limits>
#include <set>

namespace loopside::store {

namespace {

using ledger::Position;
using ledger::Verifier;

constexpr std::string_view nameStart = "journal-";
constexpr std::string_view nameEnd = ".sqlite";
constexpr std::size_t momentSigns = 16; // 20260712T061500Z
constexpr std::size_t positionDigits = 12;

/// The moment as names have it, which sort as the moments do.
std::string momentOf(std::int64_t wallMs)
{
    std::string text = utcText(wallMs);
    std::erase_if(text, [](char sign) { return sign == '-' || sign == ':'; });
    return text;
}

std::string nameOf(const std::string& moment, Position last)
{
    const std::string digits = std::to_string(last);
    return std::string(nameStart) + moment + "-"
        + std::string(positionDigits - std::min(positionDigits, digits.size()), '0') + digits + std::string(nameEnd);
}

std::optional<Backup> backupNamed(const std::filesystem::path& path)
{
    const std::string name = path.filename().string();
    if (!name.starts_with(nameStart) || !name.ends_with(nameEnd)
        || name.size() < nameStart.size() + momentSigns + 2 + nameEnd.size()) {
        return std::nullopt;
    }
    Backup backup{path.string(), name.substr(nameStart.size(), momentSigns), 0};
    const char* begin = name.data() + nameStart.size() + momentSigns + 1;
    const char* end = name.data() + name.size() - nameEnd.size();
    const auto [read, fault] = std::from_chars(begin, end, backup.last);
    return fault == std::errc() && read == end ? std::optional(backup) : std::nullopt;
}

/// Whether the copy holds what the journal held, up to the entry that was its last.
Done checkCopy(const SqliteJournal& journal, const SqliteJournal& copy, Position last)
{
    const auto restores = copy.restores();
    const auto theirs = copy.read(last - 1, 2);
    const auto ours = journal.read(last - 1, 1);
    if (!restores || !theirs || !ours) {
        return fail(!restores ? restores.error() : !theirs ? theirs.error() : ours.error());
    }
    if (*theirs != *ours) {
        return fail(Errc::Corrupt, "the copy does not end as the journal does");
    }
    std::vector<ledger::Loss> losses;
    for (const Restore& restore : *restores) {
        losses.insert(losses.end(), restore.losses.begin(), restore.losses.end());
    }
    Verifier hashes(Verifier::Signatures::PassedOver);
    hashes.forgive(losses);
    auto faults = verifyPiece(std::move(hashes), copy, 0, std::numeric_limits<std::size_t>::max());
    const Position from = last - std::min<Position>(last, signaturesMax);
    const auto openings = copy.openings(from);
    if (!openings) {
        return fail(openings.error());
    }
    if (faults.empty()) {
        Verifier signatures;
        signatures.forgive(losses);
        if (from > 0) {
            signatures.beginBehind(from, *openings);
        }
        faults = verifyPiece(std::move(signatures), copy, from, std::numeric_limits<std::size_t>::max());
    }
    return faults.empty() ? Done() : fail(Errc::Corrupt, "the copy is not sound: " + faults.front().sentence);
}

Result<Position> makeCopy(const SqliteJournal& journal, const std::string& path)
{
    const Done copied = writePrivateFile(path, {}).and_then([&] { return journal.copyTo(path); });
    if (!copied) {
        return fail(copied.error());
    }
    const auto copy = SqliteJournal::open(path); // looks at its structure too
    const auto last = copy ? (*copy)->last() : Result<Position>(fail(copy.error()));
    if (!last || *last == 0) {
        return last;
    }
    const Done checked = checkCopy(journal, **copy, *last);
    return checked ? last : fail(checked.error());
}

/// Whether `journal` holds what the youngest of `backups` does not.
Result<bool> isNews(const SqliteJournal& journal, const std::vector<Backup>& backups)
{
    const Result<Position> last = journal.last();
    if (!last || *last == 0) {
        return last ? Result<bool>(false) : fail(last.error());
    }
    if (backups.empty() || backups.front().last != *last) {
        return true;
    }
    const auto copy = SqliteJournal::openToRead(backups.front().path, {.structureMaxBytes = 0});
    const auto theirs = copy ? (*copy)->restores() : fail(copy.error());
    const auto ours = journal.restores();
    return ours ? Result<bool>(!theirs || *theirs != *ours) : fail(ours.error());
}

/// The number in the digits of `text` at `at`.
int numberIn(const std::string& text, std::size_t at, std::size_t digits)
{
    int number = 0;
    std::from_chars(text.data() + at, text.data() + at + digits, number);
    return number;
}

/// The moment a second after `moment`, which is one as names have it; the same if it is none of a calendar.
std::string nextMoment(const std::string& moment)
{
    using namespace std::chrono;
    const year_month_day day(year(numberIn(moment, 0, 4)), month(static_cast<unsigned>(numberIn(moment, 4, 2))),
                             std::chrono::day(static_cast<unsigned>(numberIn(moment, 6, 2))));
    if (!day.ok()) {
        return moment;
    }
    const auto next = sys_days(day) + hours(numberIn(moment, 9, 2)) + minutes(numberIn(moment, 11, 2))
        + seconds(numberIn(moment, 13, 2) + 1);
    return momentOf(duration_cast<milliseconds>(next.time_since_epoch()).count());
}

} // namespace

Result<std::vector<Backup>> backupsIn(const std::string& folder)
{
    std::vector<Backup> backups;
    std::error_code cause;
    for (std::filesystem::directory_iterator file(folder, cause), end; !cause && file != end; file.increment(cause)) {
        if (const std::optional<Backup> backup = backupNamed(file->path())) {
            backups.push_back(*backup);
        }
    }
    if (cause && cause != std::errc::no_such_file_or_directory) {
        return fail(Errc::Io, "the folder of backups " + folder + " cannot be read: " + cause.message());
    }
    std::ranges::sort(backups, std::greater(), [](const Backup& backup) { return std::pair(backup.at, backup.last); });
    return backups;
}

std::string backupFolderOf(const std::string& path)
{
    const std::filesystem::path journal(path);
    return journal.filename() == "journal.sqlite" ? (journal.parent_path() / "backups").string() : std::string();
}

Result<bool> isOfSameLife(const SqliteJournal& journal, const std::string& path)
{
    const auto restores = journal.restores();
    const auto first = journal.read(0, 1);
    if (!restores || !first) {
        return fail(restores ? first.error() : restores.error());
    }
    const auto backup = SqliteJournal::openToRead(path, {.structureMaxBytes = 0});
    const auto theirs = backup ? (*backup)->restores() : fail(backup.error());
    const auto theirFirst = theirs ? (*backup)->read(0, 1) : fail(theirs.error());
    if (!theirFirst) {
        return restores->empty();
    }
    const bool beginsAlike = first->empty() || *first == *theirFirst;
    return beginsAlike && theirs->size() >= restores->size()
        && std::equal(restores->begin(), restores->end(), theirs->begin());
}

std::vector<Backup> kept(const std::vector<Backup>& backups)
{
    constexpr std::size_t youngest = 8;
    constexpr std::size_t days = 7;
    const auto most = std::ranges::max_element(backups, {}, &Backup::last);
    std::set<std::string> daysSeen;
    std::vector<Backup> stay;
    for (std::size_t i = 0; i < backups.size(); ++i) {
        const bool isLastOfDay = daysSeen.size() < days && daysSeen.insert(backups[i].at.substr(0, 8)).second;
        if (i < youngest || isLastOfDay || &backups[i] == &*most) {
            stay.push_back(backups[i]);
        }
    }
    return stay;
}

Result<std::optional<Backup>> backUp(const SqliteJournal& journal, const std::string& folder, std::int64_t wallMs)
{
    std::error_code cause;
    if (std::filesystem::create_directories(folder, cause)) {
        std::filesystem::permissions(folder, std::filesystem::perms::owner_all, cause);
    }
    const auto before = cause
        ? fail(Errc::Io, "the folder of backups " + folder + " cannot be made: " + cause.message())
        : backupsIn(folder);
    if (!before) {
        return fail(before.error());
    }
    const Result<bool> news = isNews(journal, *before);
    if (!news || !*news) {
        return news ? Result<std::optional<Backup>>(std::nullopt) : fail(news.error());
    }
    const std::string unfinished = folder + "/unfinished";
    removeDatabase(unfinished); // left by a backup that was cut off
    const Result<Position> last = makeCopy(journal, unfinished);
    if (!last) {
        removeDatabase(unfinished);
        return fail(last.error());
    }
    std::string moment = momentOf(wallMs);
    if (!before->empty() && moment <= before->front().at) {
        moment = nextMoment(before->front().at); // the wall clock was set back, or it is the same second
    }
    const Backup made{folder + "/" + nameOf(moment, *last), moment, *last};
    if (const Done placed = putInPlace(unfinished, made.path); !placed) {
        removeDatabase(unfinished);
        return fail(placed.error());
    }
    auto backups = *before;
    backups.insert(backups.begin(), made);
    const std::vector<Backup> stay = kept(backups);
    for (const Backup& backup : backups) {
        if (std::ranges::find(stay, backup) == stay.end()) {
            removeDatabase(backup.path);
        }
    }
    return made;
}

} // namespace loopside::store
