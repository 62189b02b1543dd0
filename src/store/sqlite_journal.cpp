// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "store/sqlite_journal.h"

#include "base/require.h"
#include "ledger/hybrid_clock.h"
#include "ledger/kinds.h"
#include "store/database.h"
#include "store/durable_file.h"
#include "store/end_witness.h"
#include "store/entry_columns.h"
#include "store/log_scan.h"
#include "store/mapped_file.h"
#include "store/migrations.h"
#include "store/page_layout.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <filesystem>
#include <functional>
#include <limits>
#include <span>
#include <system_error>
#include <utility>

namespace loopside::store {

using ledger::ChainHead;
using ledger::ChainOpening;
using ledger::ChainTip;
using ledger::Entry;
using ledger::Position;
using ledger::Stored;

namespace {

std::string namesOf(std::span<const std::string_view> kinds)
{
    std::string names;
    for (const std::string_view kind : kinds) {
        names += (names.empty() ? "" : "', '") + std::string(kind);
    }
    return names;
}

/// In the order in which `bindEntry` and `storedFrom` go through them.
const std::string columns = "format, entry_id, device_id, chain_id, sequence, clock, run_id, person_id, entered_at, "
                            "entered_offset_min, mono_ns, boot_id, observed_ago_ms, observed_how, kind, body, "
                            "previous_hash, hash, signature";
const std::string insertSql = "INSERT INTO entries (" + columns + ") VALUES (?,?,?,?,?,?,?,?,?,?,?,?,?,?,?,?,?,?,?)";
/// The same where the position is told.
const std::string putSql = "INSERT INTO entries (" + columns
    + ", position) VALUES (?,?,?,?,?,?,?,?,?,?,?,?,?,?,?,?,?,?,?,?)";
constexpr int positionPlace = 20;
const std::string readSql = "SELECT position, " + columns
    + " FROM entries WHERE position > ? ORDER BY position LIMIT ?";
/// With the words of the index lasting_entries, or SQLite would not use it.
const std::string fromLasting = " FROM entries INDEXED BY lasting_entries WHERE kind NOT IN ('"
    + namesOf(ledger::kindsOfMoment) + "') AND position > ? ORDER BY position LIMIT ?";
const std::string lastingSql = "SELECT position, " + columns + fromLasting;
/// Of what the index holds alone.
const std::string listingSql = "SELECT position, device_id, run_id, kind" + fromLasting;
const std::string tipSql =
    "SELECT device_id, sequence, clock, hash FROM entries WHERE chain_id = ? ORDER BY sequence DESC LIMIT 1";
const std::string openingSql =
    "SELECT chain_id, body, position FROM entries WHERE device_id = ? AND sequence = 1 ORDER BY position DESC LIMIT 1";
const std::string idSql = "SELECT 1 FROM entries WHERE entry_id = ?";
const std::string openingsSql = "SELECT position, " + columns
    + " FROM entries INDEXED BY chain_openings WHERE sequence = 1 AND position <= ? ORDER BY position";
const std::string lastSql = "SELECT ifnull(max(position), 0) FROM entries";

void bindEntry(Statement& insert, const Entry& entry)
{
    const run::Header& header = entry.header;
    int place = 0;
    insert.bind(++place, entry.format);
    insert.bindBytes(++place, header.id.bytes);
    insert.bindBytes(++place, header.device.bytes);
    insert.bindBytes(++place, entry.chain.bytes);
    insert.bind(++place, static_cast<std::int64_t>(header.sequence));
    insert.bind(++place, static_cast<std::int64_t>(header.clock));
    if (header.run.isNone()) {
        insert.bindNothing(++place);
    } else {
        insert.bindBytes(++place, header.run.bytes);
    }
    insert.bindBytes(++place, header.person.bytes);
    insert.bind(++place, header.entered.wallMs);
    insert.bind(++place, header.entered.offsetMin);
    insert.bind(++place, static_cast<std::int64_t>(header.entered.monoNs));
    insert.bindBytes(++place, header.entered.boot.bytes);
    insert.bind(++place, header.observed.agoMs);
    insert.bindText(++place, header.observed.how);
    insert.bindText(++place, entry.kind);
    insert.bindBytes(++place, entry.body);
    insert.bindBytes(++place, entry.previous);
    insert.bindBytes(++place, entry.hash);
    insert.bindBytes(++place, entry.signature);
}

/// Takes a row's columns one after the other and notes if one cannot be what it should.
class Row
{
public:
    explicit Row(const Statement& statement) : statement_{statement} {}

    template<class Number>
    void take(Number& number)
    {
        const std::int64_t value = statement_.number(column_++);
        number = static_cast<Number>(value);
        isSound_ = isSound_ && static_cast<std::int64_t>(number) == value;
    }

    void take(std::string& text) { text = statement_.bytes(column_++); }
    void take(Id& id) { take(id.bytes); }

    template<std::size_t Size>
    void take(std::array<std::uint8_t, Size>& bytes)
    {
        const std::string_view stored = statement_.bytes(column_++);
        isSound_ = isSound_ && stored.size() == Size;
        std::copy_n(stored.begin(), std::min(stored.size(), Size), bytes.begin());
    }

    void takeOrNone(Id& id)
    {
        if (statement_.isNothing(column_)) {
            ++column_;
        } else {
            take(id);
        }
    }

    [[nodiscard]] bool isSound() const { return isSound_; }

private:
    const Statement& statement_;
    int column_ = 0;
    bool isSound_ = true;
};

std::optional<ledger::Listed> listedFrom(const Statement& read)
{
    Row row(read);
    ledger::Listed listed;
    row.take(listed.position);
    row.take(listed.device);
    row.takeOrNone(listed.run);
    row.take(listed.kind);
    return row.isSound() ? std::optional(std::move(listed)) : std::nullopt;
}

std::optional<Stored> storedFrom(const Statement& read)
{
    Row row(read);
    Stored stored;
    row.take(stored.position);
    takeEntry(row, stored.entry);
    return row.isSound() ? std::optional(std::move(stored)) : std::nullopt;
}

Done protect(Database& database)
{
    return database.run("PRAGMA foreign_keys = ON; PRAGMA trusted_schema = OFF; PRAGMA cell_size_check = ON");
}

Done makeSettings(Database& database)
{
    const Result<std::string> mode = database.text("PRAGMA journal_mode = WAL");
    if (!mode) {
        return fail(mode.error());
    }
    if (*mode != "wal") {
        return fail(Errc::Io,
                    database.path() + " stands on a disk that cannot keep a write-ahead log: put it on a local disk");
    }
    return database.run("PRAGMA synchronous = FULL").and_then([&] { return protect(database); });
}

/// Whether the journal `path` has no log, or one without bytes.
bool isLogEmpty(const std::string& path)
{
    std::error_code none;
    const auto bytes = std::filesystem::file_size(path + "-wal", none);
    return none || bytes == 0;
}

/// Makes a journal under another name first, so that `path` is never a half-made one. It has no write-ahead log yet:
/// that would be brought into the file on closing, where nobody hears of a failure.
Done createWith(const std::string& path, int busyTimeoutMs, const std::function<Done(Database&)>& fill)
{
    const std::string unfinished = path + ".new";
    removeDatabase(unfinished);
    if (!isLogEmpty(path)) {
        return fail(Errc::Conflict,
                    path
                        + "-wal is there, the log of a journal whose file is gone: it would be taken for that of a new "
                          "one; loopside-cli restore puts together what it has");
    }
    Done made = writePrivateFile(unfinished, {})
                    .and_then([&] { return Database::open(unfinished, busyTimeoutMs); })
                    .and_then([&](Database database) { return fill(database); })
                    .and_then([&] { return putInPlace(unfinished, path); });
    if (!made) {
        removeDatabase(unfinished);
    }
    return made;
}

Done putLosses(Database& database, std::int64_t restore, const std::vector<ledger::Loss>& losses)
{
    Result<Statement> put = database.prepare(
        "INSERT INTO losses (restore_id, chain_id, after_sequence, before_sequence) VALUES (?, ?, ?, ?)");
    if (!put) {
        return fail(put.error());
    }
    for (const ledger::Loss& loss : losses) {
        const StatementUse use(*put);
        put->bind(1, restore);
        put->bindBytes(2, loss.chain.bytes);
        put->bind(3, static_cast<std::int64_t>(loss.after));
        put->bind(4, static_cast<std::int64_t>(loss.before));
        if (const Result<bool> done = put->step(); !done) {
            return fail(done.error());
        }
    }
    return {};
}

/// How many entries `give` gave, and what it told.
Result<std::pair<std::int64_t, Restore>> putAll(Database& database, const GiveEntries& give)
{
    Result<Statement> put = database.prepare(putSql);
    if (!put) {
        return fail(put.error());
    }
    std::int64_t count = 0;
    return give([&](const Stored& stored) {
               const StatementUse use(*put);
               bindEntry(*put, stored.entry);
               put->bind(positionPlace, static_cast<std::int64_t>(stored.position));
               ++count;
               return put->step().transform([](bool) {});
           })
        .transform([&](Restore restore) { return std::pair(count, std::move(restore)); });
}

Done putRestored(Database& database, const GiveEntries& give)
{
    Result<WriteTransaction> transaction = WriteTransaction::begin(database);
    Result<Statement> note = database.prepare("INSERT INTO restores (restored_at, position, why) VALUES (?, ?, ?)");
    if (!transaction || !note) {
        return fail(transaction ? note.error() : transaction.error());
    }
    const auto given = putAll(database, give);
    const auto last = given ? database.number(lastSql) : fail(given.error());
    if (!last) {
        return fail(last.error());
    }
    const auto& [count, restore] = *given;
    require(count == *last, "entries are given a place each, with no gap between them");
    note->bind(1, restore.atMs);
    note->bind(2, count);
    note->bindText(3, restore.why);
    if (const Result<bool> done = note->step(); !done) {
        return fail(done.error());
    }
    return putLosses(database, database.lastRow(), restore.losses).and_then([&] { return transaction->commit(); });
}

/// A power cut while the log is brought into the file may leave a spoilt first page there: the log still has it.
std::string firstPageInLog(const std::string& path)
{
    const auto log = MappedFile::open(path + "-wal");
    return log ? std::string(committedPage(log->bytes(), 1)) : std::string();
}

/// Looks at the file without SQLite, which would leave its marks on one that is not ours.
/// Source of the places: "Database File Format", section 1.3, of SQLite's documentation; from memory.
Done recognise(const std::string& path)
{
    constexpr std::string_view magic{"SQLite format 3\0", 16};
    constexpr std::size_t applicationIdAt = 68;
    constexpr std::size_t headerBytes = 100;
    std::error_code ignored;
    const auto read = std::filesystem::is_regular_file(path, ignored) ? beginningOf(path, headerBytes)
                                                                      : fail(Errc::Io, path + " is no file");
    if (!read) {
        return fail(Errc::Io, path + " cannot be read: see that it is a file and may be read and written to",
                    {"store-cannot-open", {{"path", path}}});
    }
    const std::string_view bytes = *read;
    const auto isOurs = [&](std::string_view page) {
        return page.size() >= headerBytes && page.starts_with(magic)
            && numberAt(page, applicationIdAt) == journalApplicationId;
    };
    // Beside an empty file SQLite throws a log away.
    if (!isOurs(bytes) && (bytes.empty() || !isOurs(firstPageInLog(path)))) {
        return fail(Errc::Corrupt,
                    path
                        + " is not a journal of Loopside, or its beginning is damaged: it is left as it is; "
                          "move it away or name another file; if it was a journal, loopside-cli restore makes it anew "
                          "from backups",
                    {"store-not-a-journal", {{"path", path}}});
    }
    return {};
}

/// The code of SQLite in a line of its integrity check, which also tells of pages that the disk did not give: that is
/// no damage.
std::optional<int> codeIn(std::string_view line)
{
    constexpr std::string_view before = "error code=";
    const std::size_t at = line.find(before);
    int code = 0;
    const bool isCode = at != std::string_view::npos
        && std::from_chars(line.data() + at + before.size(), line.data() + line.size(), code).ec == std::errc();
    return isCode ? std::optional(code) : std::nullopt;
}

/// 0 where the system does not say.
std::uint64_t sizeOf(const std::string& path)
{
    std::error_code code;
    const auto size = std::filesystem::file_size(path, code);
    return code ? 0 : size;
}

Done checkPages(Database& database)
{
    const Result<std::string> found = database.text("PRAGMA integrity_check(1)");
    if (!found) {
        return fail(found.error());
    }
    if (*found == "ok") {
        return {};
    }
    const std::optional<int> code = codeIn(*found);
    return fail(code ? errorOf(database.path(), *code, *found) : damageOf(database.path(), *found));
}

/// A copy of `database` that nobody else sees, brought up to this version.
Result<Database> copyBroughtUp(Database& database)
{
    Result<Database> copy = Database::openForItself(database.path());
    const Done made = copy ? database.copyInto(*copy).and_then([&] { return migrate(*copy); }) : fail(copy.error());
    return made ? std::move(copy) : fail(made.error());
}

/// What was added by one write that is being made.
struct OneWrite
{
    std::optional<JournalEnd> end = {}; ///< The last entry.
    Done done = {};                     ///< The first failure.
};

} // namespace

struct SqliteJournal::Connection
{
    Database database;
    Statement insert;
    Statement read;
    Statement lasting;
    Statement listing;
    Statement tip;
    Statement opening;
    Statement id;
    EndWitness witness;
    bool isToRead = false; ///< File and log stay as they are.
    bool isStructureSeen = false;
    std::optional<OneWrite> oneWrite = {}; ///< While `inOneWrite` is at work.

    [[nodiscard]] static Result<std::unique_ptr<Connection>> over(Database database);
    [[nodiscard]] Result<std::optional<ChainTip>> tipOf(const Id& chain);
    [[nodiscard]] Result<bool> has(const Id& entry);
    /// What `statement` finds behind `after`, each row taken by `from`.
    template<class Kind>
    [[nodiscard]] Result<std::vector<Kind>> readWith(Statement& statement, Position after, std::size_t limit,
                                                     std::optional<Kind> (*from)(const Statement&));
};

Result<std::unique_ptr<SqliteJournal::Connection>> SqliteJournal::Connection::over(Database database)
{
    std::array<std::string_view, 7> texts = {insertSql, readSql, lastingSql, listingSql, tipSql, openingSql, idSql};
    std::vector<Statement> statements;
    for (const std::string_view sql : texts) {
        Result<Statement> statement = database.prepare(sql);
        if (!statement) {
            return fail(statement.error());
        }
        statements.push_back(std::move(*statement));
    }
    EndWitness witness(database.path());
    return std::make_unique<Connection>(
        Connection{std::move(database), std::move(statements[0]), std::move(statements[1]), std::move(statements[2]),
                   std::move(statements[3]), std::move(statements[4]), std::move(statements[5]),
                   std::move(statements[6]), std::move(witness)});
}

Result<std::optional<ChainTip>> SqliteJournal::Connection::tipOf(const Id& chain)
{
    const StatementUse use(tip);
    tip.bindBytes(1, chain.bytes);
    const Result<bool> found = tip.step();
    if (!found) {
        return fail(found.error());
    }
    if (!*found) {
        return std::nullopt;
    }
    ChainTip last;
    Row row(tip);
    row.take(last.device);
    row.take(last.sequence);
    row.take(last.clock);
    row.take(last.hash);
    if (!row.isSound()) {
        return fail(damageOf(database.path(), "an entry has a part of the wrong size"));
    }
    return last;
}

Result<bool> SqliteJournal::Connection::has(const Id& entry)
{
    const StatementUse use(id);
    id.bindBytes(1, entry.bytes);
    return id.step();
}

SqliteJournal::SqliteJournal(std::unique_ptr<Connection> connection) : connection_{std::move(connection)} {}

SqliteJournal::~SqliteJournal()
{
    // SQLite made a log of its own if there was none: only such a one, without bytes, goes with the last who looks.
    if (connection_->isToRead && isLogEmpty(connection_->database.path())) {
        connection_->database.leaveLog(false);
    }
}

Result<std::unique_ptr<SqliteJournal>> SqliteJournal::open(const std::string& path)
{
    return open(path, Options());
}

Result<std::unique_ptr<SqliteJournal>> SqliteJournal::open(const std::string& path, const Options& options)
{
    const Result<bool> there = isThere(path);
    if (!there) {
        return fail(there.error());
    }
    Done ready = *there ? Done() : createWith(path, options.busyTimeoutMs, migrate);
    ready = ready.and_then([&] { return recognise(path); });
    if (!ready) {
        return fail(ready.error());
    }
    Result<Database> database = Database::open(path, options.busyTimeoutMs);
    if (!database) {
        return fail(database.error());
    }
    database->leaveLog(true);
    const bool isLarger = sizeOf(path) > options.structureMaxBytes;
    ready = refuseNewer(*database)
                .and_then([&] { return checkLayout(*database); })
                .and_then([&] { return isLarger ? Done() : checkPages(*database); })
                .and_then([&] { return makeSettings(*database); })
                .and_then([&] { return migrate(*database); });
    if (!ready) {
        return fail(ready.error());
    }
    auto connection = Connection::over(std::move(*database));
    if (!connection) {
        return fail(connection.error());
    }
    (*connection)->database.leaveLog(false);
    (*connection)->isStructureSeen = !isLarger;
    return std::unique_ptr<SqliteJournal>(new SqliteJournal(std::move(*connection)));
}

Result<std::unique_ptr<SqliteJournal>> SqliteJournal::openToRead(const std::string& path)
{
    return openToRead(path, Options());
}

Result<std::unique_ptr<SqliteJournal>> SqliteJournal::openToRead(const std::string& path, const Options& options)
{
    const Result<bool> there = isThere(path);
    if (!there || !*there) {
        return there ? fail(Errc::NotFound, path + " is not there") : fail(there.error());
    }
    const Done known = recognise(path);
    Result<Database> database = known ? Database::open(path, options.busyTimeoutMs) : fail(known.error());
    if (!database) {
        return fail(database.error());
    }
    database->leaveLog(true);
    const bool isLarger = sizeOf(path) > options.structureMaxBytes;
    const Done sound = refuseNewer(*database).and_then([&] { return checkLayout(*database); }).and_then([&] {
        return isLarger ? Done() : checkPages(*database);
    });
    const Result<bool> old = sound ? isOlder(*database) : fail(sound.error());
    if (!old) {
        return fail(old.error());
    }
    Result<Database> shown = *old ? copyBroughtUp(*database) : std::move(database);
    if (*old && isLogEmpty(path)) {
        database->leaveLog(false);
    }
    const Done ready = shown ? protect(*shown).and_then([&] { return shown->run("PRAGMA query_only = ON"); })
                             : fail(shown.error());
    auto connection = ready ? Connection::over(*std::move(shown)) : fail(ready.error());
    if (!connection) {
        return fail(connection.error());
    }
    (*connection)->isToRead = true;
    (*connection)->isStructureSeen = !isLarger;
    return std::unique_ptr<SqliteJournal>(new SqliteJournal(*std::move(connection)));
}

Done SqliteJournal::make(const std::string& path, const GiveEntries& give)
{
    return createWith(path, 0, [&](Database& database) {
        return migrate(database).and_then([&] { return putRestored(database, give); });
    });
}

Done SqliteJournal::make(const std::string& path, std::span<const Entry> entries, const Restore& restore)
{
    return make(path, [&](const PutEntry& put) -> Result<Restore> {
        Position position = 0;
        for (const Entry& entry : entries) {
            if (const Done done = put({++position, entry}); !done) {
                return fail(done.error());
            }
        }
        return restore;
    });
}

Result<Position> SqliteJournal::append(std::span<const Entry> entries)
{
    if (entries.empty()) {
        return last();
    }
    if (connection_->oneWrite) {
        return addAll(entries);
    }
    Result<Position> added = Position{0};
    const Done written = inOneWrite([&] {
        added = addAll(entries);
        return added.transform([](Position) {});
    });
    return written ? added : fail(written.error());
}

Done SqliteJournal::inOneWrite(const std::function<Done()>& work)
{
    require(!connection_->oneWrite, "one write is made at a time");
    Result<WriteTransaction> transaction = WriteTransaction::begin(connection_->database);
    if (!transaction) {
        return fail(transaction.error());
    }
    connection_->oneWrite.emplace();
    Done done = work();
    const OneWrite write = *std::exchange(connection_->oneWrite, std::nullopt);
    done = done.and_then([&] { return write.done; }).and_then([&] { return transaction->commit(); });
    if (done && write.end) {
        connection_->witness.write(*write.end);
    }
    return done;
}

/// Within the one write that is being made.
Result<Position> SqliteJournal::addAll(std::span<const Entry> entries)
{
    OneWrite& write = *connection_->oneWrite;
    Result<Position> added = Position{0};
    for (std::size_t i = 0; write.done && i < entries.size(); ++i) {
        added = add(entries[i]);
        write.done = added.transform([](Position) {});
    }
    if (!write.done) {
        return fail(write.done.error());
    }
    write.end = {*added, entries.back().hash};
    return added;
}

Result<Position> SqliteJournal::add(const Entry& entry)
{
    const Result<std::optional<ChainTip>> tip = connection_->tipOf(entry.chain);
    if (!tip) {
        return fail(tip.error());
    }
    if (const Done follows = ledger::mayFollow(entry, *tip); !follows) {
        return fail(follows.error());
    }
    const Result<bool> known = connection_->has(entry.header.id);
    if (!known) {
        return fail(known.error());
    }
    if (*known) {
        return fail(Errc::Conflict, "an entry with the id " + toText(entry.header.id) + " is already there");
    }
    Statement& insert = connection_->insert;
    const StatementUse use(insert);
    bindEntry(insert, entry);
    return insert.step().transform([&](bool) { return static_cast<Position>(connection_->database.lastRow()); });
}

template<class Kind>
Result<std::vector<Kind>> SqliteJournal::Connection::readWith(Statement& statement, Position after, std::size_t limit,
                                                              std::optional<Kind> (*from)(const Statement&))
{
    constexpr std::uint64_t numberMax = std::numeric_limits<std::int64_t>::max();
    const StatementUse use(statement);
    statement.bind(1, static_cast<std::int64_t>(std::min<std::uint64_t>(after, numberMax)));
    statement.bind(2, static_cast<std::int64_t>(std::min<std::uint64_t>(limit, numberMax)));
    std::vector<Kind> entries;
    while (true) {
        const Result<bool> found = statement.step();
        auto stored = found && *found ? from(statement) : std::nullopt;
        if (stored) {
            entries.push_back(std::move(*stored));
            continue;
        }
        const bool atEnd = found && !*found;
        if (atEnd || !entries.empty()) {
            return entries;
        }
        return fail(found ? damageOf(database.path(), "an entry has a part of the wrong size") : found.error());
    }
}

Result<std::vector<Stored>> SqliteJournal::read(Position after, std::size_t limit) const
{
    return connection_->readWith(connection_->read, after, limit, storedFrom);
}

Result<std::vector<Stored>> SqliteJournal::readLasting(Position after, std::size_t limit) const
{
    return connection_->readWith(connection_->lasting, after, limit, storedFrom);
}

Result<std::vector<ledger::Listed>> SqliteJournal::listLasting(Position after, std::size_t limit) const
{
    return connection_->readWith(connection_->listing, after, limit, listedFrom);
}

/// The clock rises along a chain: the latest is that of a tip.
Result<std::uint64_t> SqliteJournal::latestClock() const
{
    const Result<Position> end = last();
    const Result<std::vector<Entry>> begins = end ? openings(*end) : fail(end.error());
    if (!begins) {
        return fail(begins.error());
    }
    std::uint64_t latest = 0;
    for (const Entry& opening : *begins) {
        const Result<std::optional<ChainTip>> tip = connection_->tipOf(opening.chain);
        if (!tip) {
            return fail(tip.error());
        }
        if (*tip && (*tip)->clock >= ledger::HybridClock::end) {
            return Journal::latestClock(); // one that is out of range hides those before it
        }
        latest = std::max(latest, *tip ? (*tip)->clock : 0);
    }
    return latest;
}

Result<std::optional<ChainHead>> SqliteJournal::head(const Id& device) const
{
    Statement& opening = connection_->opening;
    const StatementUse use(opening);
    opening.bindBytes(1, device.bytes);
    const Result<bool> found = opening.step();
    if (!found) {
        return fail(found.error());
    }
    if (!*found) {
        return std::nullopt;
    }
    Id chain;
    Row row(opening);
    row.take(chain);
    const Result<ChainOpening> opened = ledger::chainOpeningFrom(opening.bytes(1));
    const Result<std::optional<ChainTip>> tip = connection_->tipOf(chain);
    if (!tip) {
        return fail(tip.error());
    }
    if (!opened || !row.isSound() || !*tip) {
        return fail(damageOf(connection_->database.path(), "the first entry of a chain cannot be read"));
    }
    const Result<std::int64_t> restored = connection_->database.number("SELECT ifnull(max(position), 0) FROM restores");
    if (!restored) {
        return fail(restored.error());
    }
    const ChainTip& last = **tip;
    const bool isOver = opening.number(2) <= *restored;
    return ChainHead{device, chain, last.sequence, last.hash, last.clock, opened->publicKey, isOver};
}

Result<Position> SqliteJournal::last() const
{
    return connection_->database.number(lastSql).transform(
        [](std::int64_t last) { return static_cast<Position>(last); });
}

Result<std::vector<Restore>> SqliteJournal::restores() const
{
    Database& database = connection_->database;
    Result<Statement> rows = database.prepare("SELECT restore_id, restored_at, position, why FROM restores ORDER BY 1");
    Result<Statement> gaps = database.prepare(
        "SELECT chain_id, after_sequence, before_sequence FROM losses WHERE restore_id = ? ORDER BY loss_id");
    if (!rows || !gaps) {
        return fail(rows ? gaps.error() : rows.error());
    }
    std::vector<Restore> restores;
    Result<bool> found = rows->step();
    for (; found && *found; found = rows->step()) {
        Restore restore{rows->number(1), static_cast<Position>(rows->number(2)), std::string(rows->bytes(3)), {}};
        const StatementUse use(*gaps);
        gaps->bind(1, rows->number(0));
        for (found = gaps->step(); found && *found; found = gaps->step()) {
            Row row(*gaps);
            ledger::Loss& loss = restore.losses.emplace_back();
            row.take(loss.chain);
            row.take(loss.after);
            row.take(loss.before);
        }
        if (!found) {
            break;
        }
        restores.push_back(std::move(restore));
    }
    return found ? Result<std::vector<Restore>>(std::move(restores)) : fail(found.error());
}

Result<std::vector<Entry>> SqliteJournal::openings(Position position) const
{
    Result<Statement> rows = connection_->database.prepare(openingsSql);
    if (!rows) {
        return fail(rows.error());
    }
    rows->bind(1, static_cast<std::int64_t>(position));
    std::vector<Entry> openings;
    Result<bool> found = rows->step();
    for (; found && *found; found = rows->step()) {
        if (std::optional<Stored> stored = storedFrom(*rows)) {
            openings.push_back(std::move(stored->entry));
        }
    }
    return found ? Result<std::vector<Entry>>(std::move(openings)) : fail(found.error());
}

void SqliteJournal::leaveAsItIs(bool leave)
{
    require(leave || !connection_->isToRead, "what is only looked at stays as it is");
    connection_->database.leaveLog(leave);
}

/// A transaction that reads sees the file as it was at its first look.
Done SqliteJournal::holdStill()
{
    return connection_->database.run("BEGIN").and_then([&] { return last().transform([](Position) {}); });
}

bool SqliteJournal::isStructureSeen() const
{
    return connection_->isStructureSeen;
}

Done SqliteJournal::checkStructure() const
{
    return checkPages(connection_->database);
}

Done SqliteJournal::copyTo(const std::string& path) const
{
    return Database::open(path, 0).and_then([&](Database copy) { return connection_->database.copyInto(copy); });
}

Result<std::int64_t> SqliteJournal::counter(const std::string& name) const
{
    Result<Statement> read = connection_->database.prepare("SELECT value FROM counters WHERE name = ?");
    if (!read) {
        return fail(read.error());
    }
    read->bindText(1, name);
    return read->step().transform([&](bool found) { return found ? read->number(0) : 0; });
}

Done SqliteJournal::setCounter(const std::string& name, std::int64_t value)
{
    Result<Statement> write = connection_->database.prepare("INSERT OR REPLACE INTO counters VALUES (?, ?)");
    if (!write) {
        return fail(write.error());
    }
    write->bindText(1, name);
    write->bind(2, value);
    return write->step().transform([](bool) {});
}

} // namespace loopside::store
