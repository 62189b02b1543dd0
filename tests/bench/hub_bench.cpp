// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// How many entries a second a hub's store puts into its own file and into PostgreSQL, in messages of 256, beside psql's
// \copy of the very same rows, turn about. PostgreSQL syncs to the disk, as it does at a site.
// `bench_hub [ENTRIES [ROUNDS]]`

#define CATCH_CONFIG_RUNNER
#include "base/text.h"
#include "bench/long_journal.h"
#include "bench/measure.h"
#include "hub/some_hub.h"
#include "ledger/memory_journal.h"

#include <catch2/catch.hpp>

#include <array>
#include <fstream>
#include <numeric>
#include <sstream>

using namespace loopside;
using bench::must;
using bench::secondsOf;
using test::PostgresServer;

namespace {

constexpr std::size_t entriesOfMessage = 256;

std::size_t entryCount = 20'000;
int rounds = 3;

/// As a tablet has written them: runs of 200 readings.
std::vector<sync::Held> someEntries()
{
    ledger::MemoryJournal journal;
    bench::Filler(journal).fillTo(entryCount, 1);
    std::vector<sync::Held> entries;
    const auto read = journal.read(0, entryCount);
    for (const ledger::Stored& stored : *read) {
        entries.push_back({stored.entry});
    }
    return entries;
}

/// Puts all of them, message by message; each must turn out as `outcome`.
void put(hub::SqlHub& store, std::span<const sync::Held> entries, sync::Put outcome)
{
    for (std::size_t i = 0; i < entries.size(); i += entriesOfMessage) {
        const auto outcomes = store.put(entries.subspan(i, std::min(entriesOfMessage, entries.size() - i)), {});
        must(outcomes.has_value(), "a put failed");
        must(std::ranges::all_of(*outcomes, [&](sync::Put one) { return one == outcome; }),
             "an outcome is another one");
    }
}

/// A second database of the server, with the same tables, and psql, which copies between them.
class Copies
{
public:
    explicit Copies(const PostgresServer& server) : hub_{server.connection()}, second_{hub_}
    {
        second_.replace(second_.find("dbname="), std::string::npos, "dbname=second");
        static_cast<void>(psql(hub_, "CREATE DATABASE second;"));
        must(hub::PostgresSql::open(second_).has_value(), "the second database cannot be laid out");
    }

    /// Takes all rows of `site` out of the hub's tables.
    void takeOut(const Id& site) const
    {
        std::string script;
        for (const std::string_view table : tables) {
            script += "\\copy (SELECT * FROM " + std::string(table) + " WHERE site_id = '\\x" + toHex(site.bytes)
                + "') TO " + file(table) + "\n";
        }
        static_cast<void>(psql(hub_, script));
    }

    /// Seconds in which \copy takes them into the second database, as psql tells: of the entries alone, and of all.
    [[nodiscard]] std::pair<double, double> takeIn() const
    {
        std::string script = "\\timing on\n";
        for (const std::string_view table : tables) {
            script += "\\copy " + std::string(table) + " FROM " + file(table) + "\n";
        }
        std::istringstream told(psql(second_, script));
        std::vector<double> seconds;
        for (std::string word; told >> word;) {
            double ms = 0;
            if (word == "Time:" && told >> ms) {
                seconds.push_back(ms / 1000);
            }
        }
        must(seconds.size() == tables.size(), "psql did not tell its times");
        return {seconds.front(), std::accumulate(seconds.begin(), seconds.end(), 0.0)};
    }

private:
    static constexpr std::array<std::string_view, 4> tables = {"entries", "listed", "run_topics", "chains"};

    [[nodiscard]] std::string file(std::string_view table) const { return folder_.file(std::string(table) + ".rows"); }

    [[nodiscard]] std::string psql(const std::string& connection, const std::string& script) const
    {
        std::ofstream(folder_.file("script")) << script;
        const std::string line = "psql -X -v ON_ERROR_STOP=1 -d '" + connection + "' -f " + folder_.file("script")
            + " > " + folder_.file("told") + " 2>&1";
        const int status = std::system(line.c_str());
        std::ostringstream told;
        told << std::ifstream(folder_.file("told")).rdbuf();
        must(status == 0, told.str().c_str());
        return told.str();
    }

    test::TempFolder folder_;
    std::string hub_;
    std::string second_;
};

/// Entries a second, of each round.
struct Figures
{
    std::vector<double> file, again, postgres, postgresAgain, copy, copyOfEntries;
};

void measureRound(const std::vector<sync::Held>& entries, PostgresServer& server, const Copies& copies,
                  Figures& figures)
{
    const auto note = [&](std::vector<double>& into, double seconds) {
        into.push_back(static_cast<double>(entries.size()) / seconds);
    };
    test::HubOnDisk file;
    note(figures.file, secondsOf([&] { put(file.shelf(), entries, sync::Put::Created); }));
    note(figures.again, secondsOf([&] { put(file.shelf(), entries, sync::Put::Same); }));
    const auto sql = hub::PostgresSql::open(server.connection());
    must(sql.has_value(), "PostgreSQL does not answer");
    const Id site = test::freshId();
    hub::SqlHub store(**sql, site);
    note(figures.postgres, secondsOf([&] { put(store, entries, sync::Put::Created); }));
    note(figures.postgresAgain, secondsOf([&] { put(store, entries, sync::Put::Same); }));
    copies.takeOut(site);
    const auto [ofEntries, ofAll] = copies.takeIn();
    note(figures.copyOfEntries, ofEntries);
    note(figures.copy, ofAll);
}

void print(const char* what, std::vector<double> figures)
{
    const auto [least, most] = std::ranges::minmax(figures);
    std::printf("%-44s %8.0f   (%.0f to %.0f)\n", what, bench::medianOf(figures), least, most);
}

/// The median of how the rounds compare, each with itself.
double ratioOf(const std::vector<double>& a, const std::vector<double>& b)
{
    std::vector<double> ratios;
    for (std::size_t i = 0; i < a.size(); ++i) {
        ratios.push_back(a[i] / b[i]);
    }
    return bench::medianOf(ratios);
}

} // namespace

TEST_CASE("the figures")
{
    PostgresServer server(PostgresServer::Disk::Synced);
    server.start();
    const Copies copies(server);
    const auto entries = someEntries();
    Figures figures;
    for (int round = 0; round < rounds; ++round) {
        measureRound(entries, server, copies, figures);
    }
    std::printf("%zu entries, %d rounds                    entries/s   (least to most)\n", entries.size(), rounds);
    print("into the hub's own file", figures.file);
    print("  said again", figures.again);
    print("into PostgreSQL", figures.postgres);
    print("  said again", figures.postgresAgain);
    print("\\copy of all these rows", figures.copy);
    print("\\copy of the rows of entries alone", figures.copyOfEntries);
    std::printf("PostgreSQL / \\copy of all %.2f, of entries alone %.2f; PostgreSQL / own file %.2f\n",
                ratioOf(figures.postgres, figures.copy), ratioOf(figures.postgres, figures.copyOfEntries),
                ratioOf(figures.postgres, figures.file));
}

int main(int argc, char** argv)
{
    entryCount = argc > 1 ? static_cast<std::size_t>(std::max(std::atoi(argv[1]), 1)) : entryCount;
    rounds = argc > 2 ? std::max(std::atoi(argv[2]), 1) : rounds;
    return Catch::Session().run();
}
