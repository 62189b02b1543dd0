// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// What recording one entry costs beyond what the disk asks for: one durable append through the journal beside one bare
// insert and commit of the same bytes, turn about, same settings, same folder. `bench_append [FOLDER] [ENTRIES]`

#include "ledger/sealer.h"
#include "store/sqlite_journal.h"

#include <sqlite3.h>

#include <algorithm>
#include <chrono>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <string>
#include <vector>

using namespace loopside;

namespace {

/// Ends the program with `why`; a figure from a run in which something failed is worth nothing.
void must(bool condition, const char* why)
{
    if (!condition) {
        std::fprintf(stderr, "bench_append: %s\n", why);
        std::exit(1);
    }
}

/// Microseconds, one for each time.
class Times
{
public:
    template<class Work>
    auto measure(Work work)
    {
        const auto begin = std::chrono::steady_clock::now();
        auto result = work();
        const std::chrono::duration<double, std::micro> spent = std::chrono::steady_clock::now() - begin;
        times_.push_back(spent.count());
        return result;
    }

    /// The time below which `part` (0 to 1) of them lie.
    [[nodiscard]] double quantile(double part)
    {
        std::ranges::sort(times_);
        return times_[static_cast<std::size_t>(part * static_cast<double>(times_.size() - 1))];
    }

private:
    std::vector<double> times_;
};

/// The least that keeps bytes durably in SQLite: a table of blobs, one insert and commit at a time.
class BareTable
{
public:
    explicit BareTable(const std::string& path)
    {
        must(sqlite3_open(path.c_str(), &connection_) == SQLITE_OK, "the bare database cannot be opened");
        run("PRAGMA journal_mode = WAL; PRAGMA synchronous = FULL;"
            "CREATE TABLE entries (position INTEGER PRIMARY KEY, bytes BLOB NOT NULL) STRICT");
        must(sqlite3_prepare_v2(connection_, "INSERT INTO entries (bytes) VALUES (?)", -1, &insert_, nullptr)
                 == SQLITE_OK,
             "the bare insert cannot be prepared");
    }
    BareTable(const BareTable&) = delete;
    BareTable& operator=(const BareTable&) = delete;
    ~BareTable()
    {
        sqlite3_finalize(insert_);
        sqlite3_close(connection_);
    }

    bool append(const std::string& bytes)
    {
        sqlite3_bind_blob64(insert_, 1, bytes.data(), bytes.size(), SQLITE_STATIC);
        const bool done = sqlite3_step(insert_) == SQLITE_DONE;
        return sqlite3_reset(insert_) == SQLITE_OK && done;
    }

private:
    void run(const char* sql) { must(sqlite3_exec(connection_, sql, nullptr, nullptr, nullptr) == SQLITE_OK, sql); }

    sqlite3* connection_ = nullptr;
    sqlite3_stmt* insert_ = nullptr;
};

struct Figures
{
    Times append, bare, seal, hash, sign;
};

/// A body about as long as that of a logged reading.
const std::string body =
    R"({"gauges":[{"value":"38.0","unit":"psi"},{"value":"23.5","unit":"psi"},{"value":"17.5","unit":"psi"}],)"
    R"("oil":{"value":"41","unit":"C"},"flow":null,"note":""})";

void appendOne(store::SqliteJournal& journal, BareTable& bare, ledger::Sealer& sealer, IdMaker& ids,
               const ledger::DeviceKey& key, Figures& figures, bool bareFirst)
{
    const ledger::Draft draft{"reading-logged", body, {}, {}, {}};
    const auto entries = figures.seal.measure([&] { return sealer.seal(std::span(&draft, 1), {}, {}, ids); });
    const ledger::Entry& entry = entries.front();
    must(figures.hash.measure([&] { return ledger::hashOf(entry); }) == entry.hash, "a hash differs");
    must(figures.sign.measure([&] { return ledger::signatureOf(entry, key); }) == entry.signature,
         "a signature differs");
    std::string bytes = ledger::signedBytes(entry);
    bytes.append(reinterpret_cast<const char*>(entry.hash.data()), entry.hash.size());
    bytes.append(reinterpret_cast<const char*>(entry.signature.data()), entry.signature.size());
    const auto appendBare = [&] {
        must(figures.bare.measure([&] { return bare.append(bytes); }), "a bare insert failed");
    };
    if (bareFirst) {
        appendBare();
    }
    must(figures.append.measure([&] { return journal.append(entries); }).has_value(), "an append failed");
    if (!bareFirst) {
        appendBare();
    }
    sealer.accept(entries);
}

void print(const char* what, Times& times)
{
    std::printf("%-32s %9.1f %9.1f\n", what, times.quantile(0.5), times.quantile(0.99));
}

} // namespace

int main(int argc, char** argv)
{
    const std::filesystem::path parent = argc > 1 ? argv[1] : std::filesystem::temp_directory_path().string();
    const int count = argc > 2 ? std::max(std::atoi(argv[2]), 1) : 2000;
    std::string folder = (parent / "loopside-bench-XXXXXX").string();
    must(mkdtemp(folder.data()) != nullptr, "no folder to work in");
    Figures figures;
    {
        auto journal = store::SqliteJournal::open(folder + "/journal.db");
        must(journal.has_value(), "the journal cannot be opened");
        BareTable bare(folder + "/bare.db");
        SeededRandom random(1);
        IdMaker ids(random);
        const ledger::DeviceKey key = ledger::DeviceKey::fromSeed({1});
        ledger::Sealer sealer = ledger::Sealer::startChain({{1}}, {{2}}, ledger::DeviceKey::fromSeed({1}));
        const ledger::Draft opening = sealer.chainOpened();
        const auto opened = sealer.seal(std::span(&opening, 1), {}, {}, ids);
        must((*journal)->append(opened).has_value(), "the chain cannot be opened");
        sealer.accept(opened);
        for (int i = 0; i < count; ++i) {
            appendOne(**journal, bare, sealer, ids, key, figures, i % 2 == 0);
        }
    }
    std::filesystem::remove_all(folder);
    std::printf("%d entries                      median us    p99 us\n", count);
    print("durable append, journal", figures.append);
    print("bare insert and commit", figures.bare);
    print("sealing (before the append)", figures.seal);
    print("  of it hashing", figures.hash);
    print("  of it signing", figures.sign);
    std::printf("append / bare                    %9.3f\n", figures.append.quantile(0.5) / figures.bare.quantile(0.5));
    return 0;
}
