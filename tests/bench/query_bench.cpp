// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// What the tablet asks a long journal, beside the same statement asked of the same file through SQLite alone, whose
// columns are looked at and let go: 100 entries, the place of a chain's end, 100 lasting entries. In time of the
// processor. `bench_query [ENTRIES]...`; none: 1000 and 100000.

#include "bench/long_journal.h"
#include "bench/measure.h"
#include "store/sqlite_journal.h"

#include <sqlite3.h>

#include <filesystem>
#include <functional>

using namespace loopside;
using namespace loopside::bench;

namespace {

constexpr int rounds = 500;
constexpr std::size_t page = 100;

/// Microseconds, the median of all rounds.
double medianUs(const std::function<void(int)>& work)
{
    std::vector<double> times;
    for (int i = 0; i < rounds; ++i) {
        times.push_back(processorSecondsOf([&] { work(i); }) * 1e6);
    }
    return medianOf(std::move(times));
}

/// One statement of SQLite on a file that is only read.
class BareQuery
{
public:
    BareQuery(const std::string& path, const std::string& sql)
    {
        must(sqlite3_open_v2(path.c_str(), &connection_, SQLITE_OPEN_READONLY, nullptr) == SQLITE_OK, "no bare file");
        must(sqlite3_prepare_v2(connection_, sql.c_str(), -1, &statement_, nullptr) == SQLITE_OK, sql.c_str());
    }
    BareQuery(const BareQuery&) = delete;
    BareQuery& operator=(const BareQuery&) = delete;
    ~BareQuery()
    {
        sqlite3_finalize(statement_);
        sqlite3_close(connection_);
    }

    /// Goes through all rows behind `after` and looks at each column; gives their number.
    std::size_t rowsBehind(std::size_t after)
    {
        sqlite3_bind_int64(statement_, 1, static_cast<sqlite3_int64>(after));
        std::size_t rows = 0;
        for (; sqlite3_step(statement_) == SQLITE_ROW; ++rows) {
            for (int column = 0; column < sqlite3_column_count(statement_); ++column) {
                bytes_ += static_cast<std::size_t>(sqlite3_column_bytes(statement_, column));
            }
        }
        must(sqlite3_reset(statement_) == SQLITE_OK, "a bare query failed");
        return rows;
    }

private:
    sqlite3* connection_ = nullptr;
    sqlite3_stmt* statement_ = nullptr;
    std::size_t bytes_ = 0;
};

void print(const char* what, std::size_t entries, double ours, double bare)
{
    std::printf("%-24s %9zu %9.1f %9.1f %7.2f\n", what, entries, ours, bare, ours / bare);
}

void measure(std::size_t entries, const std::string& folder)
{
    const std::string path = folder + "/journal.db";
    const auto journal = store::SqliteJournal::open(path);
    must(journal.has_value(), "the journal cannot be made");
    Filler(**journal).fillTo(entries, 1000);
    const auto after = [&](int i) { return (static_cast<std::size_t>(i) * 7919) % (entries - page); };

    BareQuery hundred(path, "SELECT * FROM entries WHERE position > ? ORDER BY position LIMIT 100");
    const double bareHundred = medianUs([&](int i) { must(hundred.rowsBehind(after(i)) == page, "rows are missing"); });
    print("100 entries", entries, medianUs([&](int i) {
              const auto read = (*journal)->read(after(i), page);
              must(read.has_value() && read->size() == page, "entries are missing");
          }),
          bareHundred);

    BareQuery tip(path,
                  "SELECT device_id, sequence, clock, hash FROM entries WHERE chain_id = (SELECT chain_id FROM "
                  "entries WHERE sequence = 1 AND position > ? ORDER BY position DESC LIMIT 1) "
                  "ORDER BY sequence DESC LIMIT 1");
    const double bareTip = medianUs([&](int) { must(tip.rowsBehind(0) == 1, "the tip is missing"); });
    print("end of a chain", entries, medianUs([&](int) {
              const auto head = (*journal)->head(Filler::device);
              must(head.has_value() && head->has_value(), "the head is missing");
          }),
          bareTip);

    BareQuery last(path, "SELECT max(position) FROM entries WHERE position > ?");
    const double bareLast = medianUs([&](int) { must(last.rowsBehind(0) == 1, "the last is missing"); });
    print("last position", entries, medianUs([&](int) {
              const auto position = (*journal)->last();
              must(position.has_value() && *position == entries, "the last entry is another one");
          }),
          bareLast);
}

} // namespace

int main(int argc, char** argv)
{
    std::printf("query                      entries        us   bare us   ratio\n");
    for (const std::size_t size : sizesTold(argc, argv)) {
        std::string folder = (std::filesystem::temp_directory_path() / "loopside-query-XXXXXX").string();
        must(mkdtemp(folder.data()) != nullptr, "no folder to work in");
        measure(size, folder);
        std::filesystem::remove_all(folder);
    }
    return 0;
}
