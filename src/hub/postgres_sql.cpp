// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "hub/postgres_sql.h"

#include "base/require.h"
#include "base/text.h"
#include "embedded/hub_0001_postgresql.h"
#include "embedded/hub_0002_postgresql.h"

#include <libpq-fe.h>

#include <array>

namespace loopside::hub {

namespace {

// From pg_type.dat of PostgreSQL: fixed for good.
constexpr Oid int8Type = 20;
constexpr Oid byteaType = 17;

struct Clear
{
    void operator()(PGresult* result) const { PQclear(result); }
};
using Answer = std::unique_ptr<PGresult, Clear>;

Error awayError()
{
    return {
        Errc::Unavailable,
        "the hub's database does not answer: nothing was stored; what tablets have stays with them, and the hub goes "
        "on by itself when the database is back"};
}

/// SQLSTATE classes as in appendix A of PostgreSQL's manual.
Error errorOf(const PGresult* result)
{
    const char* field = PQresultErrorField(result, PG_DIAG_SQLSTATE);
    const std::string state = field == nullptr ? "" : field;
    const char* told = PQresultErrorField(result, PG_DIAG_MESSAGE_PRIMARY);
    const std::string detail = told == nullptr ? "no reason was given" : told;
    if (state == "53100") {
        return {Errc::Io, "the disk of the hub's database is full: nothing was stored; make room"};
    }
    if (state.empty() || state.starts_with("08") || state.starts_with("53") || state.starts_with("57")) {
        return awayError();
    }
    if (state == "40001" || state == "40P01" || state == "55P03") {
        return {Errc::Unavailable, "the hub's database is busy: nothing was stored; ask again"};
    }
    if (state.starts_with("23") || state == "P0001") {
        return {Errc::Conflict, "the hub's database refuses it: " + detail};
    }
    if (state == "25006") {
        return {Errc::Io, "the hub's database may only be read: nothing was stored; allow writing to it"};
    }
    return {Errc::Io, "the hub's database failed: nothing was stored (" + detail + ")"};
}

bool isDone(const Answer& answer)
{
    const auto status = PQresultStatus(answer.get());
    return status == PGRES_COMMAND_OK || status == PGRES_TUPLES_OK;
}

Done doneOf(const Answer& answer)
{
    return isDone(answer) ? Done{} : fail(errorOf(answer.get()));
}

SqlRow::Cell cellOf(const PGresult* result, int row, int column)
{
    if (PQgetisnull(result, row, column) != 0) {
        return {};
    }
    std::string bytes(PQgetvalue(result, row, column), static_cast<std::size_t>(PQgetlength(result, row, column)));
    if (PQftype(result, column) != int8Type) {
        return bytes;
    }
    std::uint64_t number = 0;
    for (const char byte : bytes) {
        number = number << 8U | static_cast<std::uint8_t>(byte);
    }
    return static_cast<std::int64_t>(number);
}

std::vector<SqlRow> rowsOf(const PGresult* result)
{
    std::vector<SqlRow> rows;
    for (int row = 0; row < PQntuples(result); ++row) {
        std::vector<SqlRow::Cell> cells;
        for (int column = 0; column < PQnfields(result); ++column) {
            require(PQftype(result, column) == int8Type || PQftype(result, column) == byteaType,
                    "statements give numbers of 64 bits and bytes");
            cells.push_back(cellOf(result, row, column));
        }
        rows.emplace_back(std::move(cells));
    }
    return rows;
}

/// Values as libpq takes them: numbers in eight bytes, the highest first, bytes as they are.
struct Bound
{
    std::vector<std::array<char, 8>> numbers;
    std::vector<const char*> places = {};
    std::vector<int> lengths = {};
    std::vector<int> formats = {};

    explicit Bound(const std::vector<SqlValue>& values) : numbers(values.size())
    {
        for (std::size_t i = 0; i < values.size(); ++i) {
            if (const auto* number = std::get_if<std::int64_t>(&values[i])) {
                add(i, static_cast<std::uint64_t>(*number));
            } else {
                const auto bytes = std::get<std::string_view>(values[i]);
                places.push_back(bytes.empty() ? "" : bytes.data()); // a null pointer would be NULL
                lengths.push_back(static_cast<int>(bytes.size()));
            }
            formats.push_back(1);
        }
    }

private:
    void add(std::size_t place, std::uint64_t number)
    {
        for (std::size_t i = 8; i > 0; --i) {
            numbers[place][i - 1] = static_cast<char>(number & 0xFFU);
            number >>= 8U;
        }
        places.push_back(numbers[place].data());
        lengths.push_back(8);
    }
};

/// Rows as COPY takes them in its binary format ("Binary Format" in the page on COPY of PostgreSQL's manual).
class CopyBytes
{
public:
    explicit CopyBytes(const SqlRows& rows)
    {
        using namespace std::string_view_literals;
        bytes_ = "PGCOPY\n\377\r\n\0"sv;
        addNumber<std::int32_t>(0); // flags
        addNumber<std::int32_t>(0); // nothing more in the head
        for (std::size_t i = 0; i < rows.values.size(); ++i) {
            if (i % rows.columnCount == 0) {
                addNumber(static_cast<std::int16_t>(rows.columnCount));
            }
            add(rows.values[i]);
        }
        addNumber<std::int16_t>(-1);
    }

    [[nodiscard]] const std::string& bytes() const { return bytes_; }

private:
    /// The highest byte first.
    template<class Number>
    void addNumber(Number number)
    {
        for (std::size_t i = sizeof(Number); i > 0; --i) {
            bytes_ += static_cast<char>(static_cast<std::uint64_t>(number) >> (8 * (i - 1)) & 0xFFU);
        }
    }

    void add(const SqlValue& value)
    {
        if (const auto* number = std::get_if<std::int64_t>(&value)) {
            addNumber<std::int32_t>(sizeof *number);
            addNumber(*number);
        } else {
            const auto bytes = std::get<std::string_view>(value);
            addNumber(static_cast<std::int32_t>(bytes.size()));
            bytes_ += bytes;
        }
    }

    std::string bytes_;
};

/// What statements of one site wait for: the end of its id, which is random.
std::int64_t lockOf(const Id& site)
{
    std::uint64_t number = 0;
    for (std::size_t i = 8; i < site.bytes.size(); ++i) {
        number = number << 8U | site.bytes[i];
    }
    return static_cast<std::int64_t>(number);
}

} // namespace

void PostgresSql::Finish::operator()(pg_conn* connection) const
{
    PQfinish(connection);
}

Result<std::unique_ptr<PostgresSql>> PostgresSql::open(const std::string& connection)
{
    const std::array<const char*, 7> names = {"connect_timeout",
                                              "tcp_user_timeout",
                                              "keepalives_idle",
                                              "fallback_application_name",
                                              "client_encoding",
                                              "dbname",
                                              nullptr};
    const std::array<const char*, 7> values = {"5", "10000", "10", "loopside-hub", "UTF8", connection.c_str(), nullptr};
    std::unique_ptr<PostgresSql> sql(new PostgresSql(PQconnectdbParams(names.data(), values.data(), 1)));
    if (PQstatus(sql->connection_.get()) != CONNECTION_OK) {
        return fail(Errc::Unavailable,
                    "the hub's database does not answer: see that it runs and that the connection string in the hub's "
                    "settings is right");
    }
    const Done ready = sql->makeSettings().and_then([&] { return layOut(*sql); });
    return ready ? Result<std::unique_ptr<PostgresSql>>(std::move(sql)) : fail(ready.error());
}

Done PostgresSql::makeSettings()
{
    return doneOf(Answer(PQexec(connection_.get(),
                                "SET synchronous_commit = on; SET statement_timeout = '30s'; SET lock_timeout = '10s'; "
                                "SET client_min_messages = warning")));
}

Done PostgresSql::connectIfLost()
{
    if (isInTransaction_ || PQstatus(connection_.get()) == CONNECTION_OK) {
        return {};
    }
    names_.clear();
    PQreset(connection_.get());
    return PQstatus(connection_.get()) == CONNECTION_OK ? makeSettings() : fail(awayError());
}

Result<std::string> PostgresSql::prepared(std::string_view statement, std::size_t values)
{
    const auto known = names_.find(statement);
    if (known != names_.end()) {
        return known->second;
    }
    std::string name = "s" + std::to_string(names_.size());
    const Answer answer(
        PQprepare(connection_.get(), name.c_str(), std::string(statement).c_str(), static_cast<int>(values), nullptr));
    if (!isDone(answer)) {
        return fail(errorOf(answer.get()));
    }
    names_.emplace(statement, name);
    return name;
}

Result<std::vector<SqlRow>> PostgresSql::run(std::string_view statement, const std::vector<SqlValue>& values)
{
    if (const Done connected = connectIfLost(); !connected) {
        return fail(connected.error());
    }
    const auto name = prepared(statement, values.size());
    if (!name) {
        return fail(name.error());
    }
    const Bound bound(values);
    const Answer answer(PQexecPrepared(connection_.get(), name->c_str(), static_cast<int>(values.size()),
                                       bound.places.data(), bound.lengths.data(), bound.formats.data(), 1));
    return isDone(answer) ? Result<std::vector<SqlRow>>(rowsOf(answer.get())) : fail(errorOf(answer.get()));
}

Done PostgresSql::add(const SqlRows& rows)
{
    if (rows.values.empty()) {
        return {};
    }
    const std::string copy = "COPY " + std::string(rows.table) + " (" + std::string(rows.columns)
        + ") FROM STDIN (FORMAT binary)";
    const Answer begun(PQexec(connection_.get(), copy.c_str()));
    if (PQresultStatus(begun.get()) != PGRES_COPY_IN) {
        return fail(errorOf(begun.get()));
    }
    const CopyBytes said(rows);
    if (PQputCopyData(connection_.get(), said.bytes().data(), static_cast<int>(said.bytes().size())) != 1
        || PQputCopyEnd(connection_.get(), nullptr) != 1) {
        return fail(awayError());
    }
    Done done = fail(awayError());
    for (Answer answer(PQgetResult(connection_.get())); answer; answer.reset(PQgetResult(connection_.get()))) {
        done = doneOf(answer);
    }
    return done;
}

Result<std::vector<SqlRow>> PostgresSql::runLightly(std::string_view statement, const std::vector<SqlValue>& values)
{
    return inTransaction(*this, Id{}, [&]() -> Result<std::vector<SqlRow>> {
        const Done lightly = runAll("SET LOCAL synchronous_commit = off");
        return lightly ? run(statement, values) : fail(lightly.error());
    });
}

Done PostgresSql::runAll(std::string_view script)
{
    return doneOf(Answer(PQexec(connection_.get(), std::string(script).c_str())));
}

Done PostgresSql::begin(const Id& site)
{
    if (const Done connected = connectIfLost(); !connected) {
        return connected;
    }
    if (const Done begun = runAll("BEGIN"); !begun) {
        return begun;
    }
    isInTransaction_ = true;
    const std::string lock = "SELECT pg_advisory_xact_lock(" + std::to_string(lockOf(site)) + ")";
    const Done locked = runAll(lock);
    if (!locked) {
        rollBack();
    }
    return locked;
}

Done PostgresSql::commit()
{
    const Done committed = runAll("COMMIT");
    isInTransaction_ = !committed;
    return committed;
}

void PostgresSql::rollBack()
{
    // It fails only where the connection is gone, and with it the transaction.
    static_cast<void>(runAll("ROLLBACK"));
    isInTransaction_ = false;
}

std::span<const std::string_view> PostgresSql::schema() const
{
    static const std::array steps = {schema::hub_0001_postgresql(), schema::hub_0002_postgresql()};
    return steps;
}

} // namespace loopside::hub
