// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "handover/others_shelf.h"

#include "ledger/line.h"
#include "store/database.h"

#include <algorithm>
#include <array>
#include <limits>
#include <utility>

namespace loopside::handover {

using ledger::Entry;
using store::Database;
using store::Statement;
using store::StatementUse;
using sync::Held;
using sync::Put;
using sync::Tip;

namespace {

constexpr int busyTimeoutMs = 2000;

constexpr std::string_view atSql =
    "SELECT is_ahead, line FROM other_entries WHERE site_id = ? AND chain_id = ? AND sequence = ?";
constexpr std::string_view behindSql = "SELECT is_ahead, line FROM other_entries WHERE site_id = ? AND chain_id = ? "
                                       "AND sequence > ? ORDER BY sequence LIMIT ?";
constexpr std::string_view beforeSql = "SELECT is_ahead, line FROM other_entries WHERE site_id = ? AND chain_id = ? "
                                       "AND sequence < ? ORDER BY sequence DESC LIMIT 1";
constexpr std::string_view allSql = "SELECT is_ahead, line FROM other_entries WHERE site_id = ? ORDER BY arrival";
constexpr std::string_view tipsSql = "SELECT device_id, chain_id, max(sequence), hash FROM other_entries "
                                     "WHERE site_id = ? GROUP BY chain_id ORDER BY chain_id";
constexpr std::string_view insertSql = "INSERT INTO other_entries (site_id, device_id, chain_id, sequence, hash, "
                                       "is_ahead, line) VALUES (?, ?, ?, ?, ?, ?, ?)";
constexpr std::string_view asidesSql =
    "SELECT 0, line FROM other_asides WHERE site_id = ? AND chain_id = ? ORDER BY arrival";
constexpr std::string_view isAsideSql = "SELECT 1 FROM other_asides WHERE site_id = ? AND chain_id = ? AND hash = ?";
constexpr std::string_view insertAsideSql =
    "INSERT INTO other_asides (site_id, chain_id, hash, line) VALUES (?, ?, ?, ?)";
constexpr std::string_view hubSql = "SELECT log_id, reached_at FROM hubs WHERE site_id = ?";
constexpr std::string_view putHubSql = "INSERT INTO hubs (site_id, log_id, reached_at) VALUES (?, ?, ?) ON CONFLICT DO "
                                       "UPDATE SET log_id = excluded.log_id, reached_at = excluded.reached_at";
constexpr std::string_view receiptsSql = "SELECT chain_id, device_id, key, sequence, hash, is_aside, marked_at, "
                                         "signature FROM hub_receipts WHERE site_id = ?";
constexpr std::string_view putReceiptSql =
    "INSERT INTO hub_receipts (site_id, chain_id, device_id, key, sequence, hash, is_aside, marked_at, signature) "
    "VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?)";
constexpr std::string_view dropReceiptsSql = "DELETE FROM hub_receipts WHERE site_id = ?";
constexpr std::string_view placesSql = "SELECT topic, entries FROM hub_places WHERE site_id = ?";
constexpr std::string_view putPlaceSql = "INSERT INTO hub_places (site_id, topic, entries) VALUES (?, ?, ?)";
constexpr std::string_view filesSql = "SELECT up_to FROM hub_files WHERE site_id = ?";
constexpr std::string_view putFilesSql = "INSERT INTO hub_files (site_id, up_to) VALUES (?, ?) ON CONFLICT DO UPDATE "
                                         "SET up_to = excluded.up_to";
constexpr std::string_view dropPlacesSql = "DELETE FROM hub_places WHERE site_id = ?";

/// Binds values one after the other; they stay where they are until the statement was reset.
class Binder
{
public:
    explicit Binder(Statement& statement) : statement_{&statement} {}

    Binder& operator<<(std::uint64_t number)
    {
        constexpr std::uint64_t numberMax = std::numeric_limits<std::int64_t>::max();
        statement_->bind(++place_, static_cast<std::int64_t>(std::min(number, numberMax)));
        return *this;
    }
    Binder& operator<<(std::int64_t number)
    {
        statement_->bind(++place_, number);
        return *this;
    }
    Binder& operator<<(bool flag) { return *this << std::int64_t{flag ? 1 : 0}; }
    Binder& operator<<(const Id& id) { return *this << std::span<const std::uint8_t>(id.bytes); }
    Binder& operator<<(std::span<const std::uint8_t> bytes)
    {
        statement_->bindBytes(++place_, bytes);
        return *this;
    }
    Binder& operator<<(const std::string& text)
    {
        statement_->bindText(++place_, text);
        return *this;
    }

private:
    Statement* statement_;
    int place_ = 0;
};

/// Takes the columns of a row one after the other. The layout checks that their sizes are right.
class Row
{
public:
    explicit Row(const Statement& statement) : statement_{&statement} {}

    [[nodiscard]] std::int64_t number() { return statement_->number(column_++); }
    [[nodiscard]] std::string text() { return std::string(statement_->bytes(column_++)); }
    [[nodiscard]] Id id() { return {bytes<16>()}; }

    template<std::size_t Size>
    [[nodiscard]] std::array<std::uint8_t, Size> bytes()
    {
        std::array<std::uint8_t, Size> bytes = {};
        const std::string_view stored = statement_->bytes(column_++);
        std::copy_n(stored.begin(), std::min(stored.size(), Size), bytes.begin());
        return bytes;
    }

private:
    const Statement* statement_;
    int column_ = 0;
};

/// Whether `later` can stand behind `earlier` in a chain, right behind it or not.
bool mayStandBehind(const Entry& later, const Entry& earlier)
{
    const bool isNext = later.header.sequence == earlier.header.sequence + 1;
    return later.header.device == earlier.header.device && later.header.clock > earlier.header.clock
        && (!isNext || later.previous == earlier.hash);
}

} // namespace

struct OthersShelf::Connection
{
    Database database;
    Id site;

    /// Runs `sql` with the site and `values` bound; gives each row to `take`, until it fails.
    template<class Take, class... Values>
    [[nodiscard]] Done each(std::string_view sql, Take take, const Values&... values)
    {
        Result<Statement> statement = database.prepare(sql);
        if (!statement) {
            return fail(statement.error());
        }
        Binder binder(*statement);
        (binder << site << ... << values);
        Result<bool> found = statement->step();
        for (; found && *found; found = statement->step()) {
            Row row(*statement);
            if (Done taken = take(row); !taken) {
                return taken;
            }
        }
        return found.transform([](bool) {});
    }

    /// The same where no rows are expected.
    template<class... Values>
    [[nodiscard]] Done run(std::string_view sql, const Values&... values)
    {
        return each(sql, [](Row&) { return Done(); }, values...);
    }

    /// Entries of rows with the columns is_ahead and line.
    template<class... Values>
    [[nodiscard]] Result<std::vector<Held>> held(std::string_view sql, const Values&... values)
    {
        std::vector<Held> held;
        const Done read = each(
            sql,
            [&](Row& row) -> Done {
                const bool isAhead = row.number() != 0;
                auto entry = ledger::entryFromLine(row.text());
                if (!entry) {
                    return fail(store::damageOf(
                        database.path(), "an entry of another device cannot be read: " + entry.error().sentence));
                }
                held.push_back({*std::move(entry), isAhead});
                return {};
            },
            values...);
        return read ? Result<std::vector<Held>>(std::move(held)) : fail(read.error());
    }

    template<class... Values>
    [[nodiscard]] Result<std::optional<Held>> one(std::string_view sql, const Values&... values)
    {
        return held(sql, values...).transform([](std::vector<Held> found) {
            return found.empty() ? std::nullopt : std::optional(std::move(found.front()));
        });
    }

    [[nodiscard]] Result<bool> isAside(const Id& chain, const ledger::Hash& hash)
    {
        bool found = false;
        const auto note = [&](Row&) {
            found = true;
            return Done();
        };
        return each(isAsideSql, note, chain, std::span<const std::uint8_t>(hash)).transform([&] { return found; });
    }

    [[nodiscard]] Result<Put> putOne(const Held& held);
    [[nodiscard]] Result<bool> fitsItsPlace(const Entry& entry);
    [[nodiscard]] Result<std::vector<Put>> putAll(std::span<const Held> entries);
    [[nodiscard]] Done putProgress(const KeptProgress& kept);
};

Result<Put> OthersShelf::Connection::putOne(const Held& held)
{
    const Entry& entry = held.entry;
    const auto there = one(atSql, entry.chain, entry.header.sequence);
    const auto aside = there ? isAside(entry.chain, entry.hash) : fail(there.error());
    if (!aside) {
        return fail(aside.error());
    }
    if (*there && (*there)->entry.hash == entry.hash) {
        return Put::Same;
    }
    if (*aside) {
        return Put::Conflict;
    }
    const Result<bool> fits = there->has_value() ? Result<bool>(false) : fitsItsPlace(entry);
    if (!fits) {
        return fail(fits.error());
    }
    const std::string line = ledger::lineOf(entry);
    const std::span<const std::uint8_t> hash(entry.hash);
    const Done put = *fits
        ? run(insertSql, entry.header.device, entry.chain, entry.header.sequence, hash, held.isAhead, line)
        : run(insertAsideSql, entry.chain, hash, line);
    return put.transform([&] { return *fits ? Put::Created : Put::Conflict; });
}

/// Whether `entry` fits what stands before and behind its free place, and goes on from nothing that is kept aside.
Result<bool> OthersShelf::Connection::fitsItsPlace(const Entry& entry)
{
    const auto last = one(beforeSql, entry.chain, entry.header.sequence);
    const auto next = last ? one(behindSql, entry.chain, entry.header.sequence, std::uint64_t{1}) : fail(last.error());
    const auto followsAside = next ? isAside(entry.chain, entry.previous) : fail(next.error());
    if (!followsAside) {
        return fail(followsAside.error());
    }
    const bool fitsLast = !*last || mayStandBehind(entry, (*last)->entry);
    const bool fitsNext = !*next || mayStandBehind((*next)->entry, entry);
    return !*followsAside && fitsLast && fitsNext;
}

Result<std::vector<Put>> OthersShelf::Connection::putAll(std::span<const Held> entries)
{
    std::vector<Put> outcomes;
    for (const Held& held : entries) {
        const auto outcome = putOne(held);
        if (!outcome) {
            return fail(outcome.error());
        }
        outcomes.push_back(*outcome);
    }
    return outcomes;
}

Done OthersShelf::Connection::putProgress(const KeptProgress& kept)
{
    Done done = run(putHubSql, kept.progress.log, kept.reachedAtMs)
                    .and_then([&] { return run(dropReceiptsSql); })
                    .and_then([&] { return run(dropPlacesSql); })
                    .and_then([&] { return run(putFilesSql, kept.filesUpTo); });
    for (const auto& [chain, signedMark] : kept.progress.receipts) {
        const sync::Mark& mark = signedMark.mark;
        done = done.and_then([&] {
            return run(putReceiptSql, chain, mark.device, std::span<const std::uint8_t>(mark.key), mark.sequence,
                       std::span<const std::uint8_t>(mark.hash), mark.isAside, mark.atMs,
                       std::span<const std::uint8_t>(signedMark.signature));
        });
    }
    for (const auto& [topic, entries] : kept.progress.places) {
        done = done.and_then([&] { return run(putPlaceSql, topic.name, entries); });
    }
    return done;
}

OthersShelf::OthersShelf(std::unique_ptr<Connection> connection) : connection_{std::move(connection)} {}

OthersShelf::~OthersShelf() = default;

Result<std::unique_ptr<OthersShelf>> OthersShelf::open(const std::string& path, const Id& site)
{
    Result<Database> database = Database::open(path, busyTimeoutMs);
    const Done ready = database ? database->run("PRAGMA synchronous = FULL; PRAGMA foreign_keys = ON; "
                                                "PRAGMA trusted_schema = OFF; PRAGMA cell_size_check = ON")
                                : fail(database.error());
    if (!ready) {
        return fail(ready.error());
    }
    return std::unique_ptr<OthersShelf>(
        new OthersShelf(std::make_unique<Connection>(Connection{*std::move(database), site})));
}

Result<std::vector<Put>> OthersShelf::put(std::span<const Held> entries, std::span<const ledger::Loss> /*losses*/)
{
    auto transaction = store::WriteTransaction::begin(connection_->database);
    auto outcomes = transaction ? connection_->putAll(entries) : fail(transaction.error());
    const Done done = outcomes ? transaction->commit() : fail(outcomes.error());
    return done ? outcomes : fail(done.error());
}

Result<std::vector<Put>> OthersShelf::keep(std::span<const Held> entries, const KeptProgress& progress)
{
    auto transaction = store::WriteTransaction::begin(connection_->database);
    auto outcomes = transaction ? connection_->putAll(entries) : fail(transaction.error());
    const Done done = outcomes ? connection_->putProgress(progress).and_then([&] { return transaction->commit(); })
                               : fail(outcomes.error());
    return done ? outcomes : fail(done.error());
}

Result<std::optional<Held>> OthersShelf::at(const Id& chain, std::uint64_t sequence) const
{
    return connection_->one(atSql, chain, sequence);
}

Result<std::vector<Held>> OthersShelf::behind(const Id& chain, std::uint64_t after, std::size_t most) const
{
    return connection_->held(behindSql, chain, after, std::uint64_t{most});
}

Result<std::vector<Tip>> OthersShelf::tips() const
{
    std::vector<Tip> tips;
    const auto take = [&](Row& row) {
        Tip& tip = tips.emplace_back();
        tip.device = row.id();
        tip.chain = row.id();
        tip.sequence = static_cast<std::uint64_t>(row.number());
        tip.hash = row.bytes<32>();
        return Done();
    };
    return connection_->each(tipsSql, take).transform([&] { return tips; });
}

Result<std::vector<Entry>> OthersShelf::asides(const Id& chain) const
{
    return connection_->held(asidesSql, chain).transform([](std::vector<Held> held) {
        std::vector<Entry> entries;
        for (Held& one : held) {
            entries.push_back(std::move(one.entry));
        }
        return entries;
    });
}

Result<KeptProgress> OthersShelf::progress() const
{
    KeptProgress kept;
    const Id& site = connection_->site;
    const auto takeHub = [&](Row& row) {
        kept.progress.log = row.id();
        kept.reachedAtMs = row.number();
        return Done();
    };
    const auto takeReceipt = [&](Row& row) {
        const Id chain = row.id();
        sync::SignedMark receipt;
        receipt.mark = {site, kept.progress.log, row.id()};
        receipt.mark.key = row.bytes<32>();
        receipt.mark.chain = chain;
        receipt.mark.sequence = static_cast<std::uint64_t>(row.number());
        receipt.mark.hash = row.bytes<32>();
        receipt.mark.isAside = row.number() != 0;
        receipt.mark.atMs = row.number();
        receipt.signature = row.bytes<64>();
        kept.progress.receipts.emplace(chain, receipt);
        return Done();
    };
    const auto takePlace = [&](Row& row) {
        const std::string topic = row.text();
        kept.progress.places.emplace(sync::Topic{topic}, static_cast<std::uint64_t>(row.number()));
        return Done();
    };
    const auto takeFiles = [&](Row& row) {
        kept.filesUpTo = static_cast<std::uint64_t>(row.number());
        return Done();
    };
    return connection_->each(hubSql, takeHub)
        .and_then([&] { return connection_->each(receiptsSql, takeReceipt); })
        .and_then([&] { return connection_->each(placesSql, takePlace); })
        .and_then([&] { return connection_->each(filesSql, takeFiles); })
        .transform([&] { return kept; });
}

Result<std::vector<Held>> OthersShelf::all() const
{
    return connection_->held(allSql);
}

} // namespace loopside::handover
