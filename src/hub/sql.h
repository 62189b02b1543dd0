// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "base/id.h"
#include "base/result.h"

#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <type_traits>
#include <variant>
#include <vector>

namespace loopside::hub {

/// What goes into a statement. Bytes are the caller's.
using SqlValue = std::variant<std::int64_t, std::string_view>;

[[nodiscard]] inline SqlValue valueOf(std::span<const std::uint8_t> bytes)
{
    return std::string_view(reinterpret_cast<const char*>(bytes.data()), bytes.size());
}

[[nodiscard]] inline SqlValue valueOf(const Id& id)
{
    return valueOf(std::span<const std::uint8_t>(id.bytes));
}

/// Rows for a table, one behind the other in `values`: a value for each of its columns that is named.
struct SqlRows
{
    std::string_view table;
    std::string_view columns; ///< With commas between them.
    std::size_t columnCount = 0;
    std::vector<SqlValue> values = {};
};

/// A row that a statement gave. Columns count from 0.
class SqlRow
{
public:
    using Cell = std::variant<std::monostate, std::int64_t, std::string>;

    explicit SqlRow(std::vector<Cell> cells) : cells_{std::move(cells)} {}

    [[nodiscard]] bool isNothing(std::size_t column) const
    {
        return std::holds_alternative<std::monostate>(cells_.at(column));
    }
    [[nodiscard]] std::int64_t number(std::size_t column) const { return std::get<std::int64_t>(cells_.at(column)); }
    [[nodiscard]] const std::string& bytes(std::size_t column) const
    {
        return std::get<std::string>(cells_.at(column));
    }

private:
    std::vector<Cell> cells_;
};

/// The door to a database: SQLite in a file, or PostgreSQL. Statements are written so that both take them: places are
/// $1, $2, … in any order, numbers are of 64 bits, everything else is bytes.
///
/// Not thread-safe; the owner serialises calls. Errors: Unavailable where the database is away or in use, Io where its
/// disk is full or fails, Conflict where a rule of the schema refuses.
class Sql
{
public:
    Sql() = default;
    Sql(const Sql&) = delete;
    Sql& operator=(const Sql&) = delete;
    virtual ~Sql() = default;

    /// Runs `statement` and gives its rows. Outside of a transaction what it changes is on disk when it returns.
    [[nodiscard]] virtual Result<std::vector<SqlRow>> run(std::string_view statement,
                                                          const std::vector<SqlValue>& values = {}) = 0;

    /// Adds `rows` within the transaction that is under way, at once where the database can do that. Their values are
    /// the numbers and bytes that the columns are of.
    [[nodiscard]] virtual Done add(const SqlRows& rows) = 0;

    /// Runs one statement outside of a transaction, of which a power cut may take back what it changed.
    [[nodiscard]] virtual Result<std::vector<SqlRow>> runLightly(std::string_view statement,
                                                                 const std::vector<SqlValue>& values) = 0;

    /// Runs several statements without values, within the transaction that is under way.
    [[nodiscard]] virtual Done runAll(std::string_view script) = 0;

    /// Begins a transaction; it waits for others that write of `site`.
    [[nodiscard]] virtual Done begin(const Id& site) = 0;

    /// Returns when what was changed is on disk.
    [[nodiscard]] virtual Done commit() = 0;
    virtual void rollBack() = 0;

    /// The steps of schema/hub for this kind of database, in their order.
    [[nodiscard]] virtual std::span<const std::string_view> schema() const = 0;
};

/// What `read` makes of each of `rows`; the first failure of either ends it.
template<class Read>
[[nodiscard]] auto rowsAs(const Result<std::vector<SqlRow>>& rows, Read read)
    -> Result<std::vector<typename std::invoke_result_t<Read, const SqlRow&>::value_type>>
{
    if (!rows) {
        return fail(rows.error());
    }
    std::vector<typename std::invoke_result_t<Read, const SqlRow&>::value_type> all;
    for (const SqlRow& row : *rows) {
        auto one = read(row);
        if (!one) {
            return fail(one.error());
        }
        all.push_back(*std::move(one));
    }
    return all;
}

template<class T>
[[nodiscard]] Result<std::optional<T>> firstOf(Result<std::vector<T>> all)
{
    return std::move(all).transform(
        [](std::vector<T> found) { return found.empty() ? std::nullopt : std::optional<T>(std::move(found.front())); });
}

/// Runs `work` in one transaction: all of it or, where it fails, nothing.
template<class Work>
[[nodiscard]] auto inTransaction(Sql& sql, const Id& site, Work work) -> decltype(work())
{
    if (const Done begun = sql.begin(site); !begun) {
        return fail(begun.error());
    }
    auto done = work();
    if (!done) {
        sql.rollBack();
        return done;
    }
    if (const Done committed = sql.commit(); !committed) {
        sql.rollBack();
        return fail(committed.error());
    }
    return done;
}

/// Brings the database up to this version, each step whole or not at all. Incompatible if a newer one laid it out.
[[nodiscard]] Done layOut(Sql& sql);

} // namespace loopside::hub
