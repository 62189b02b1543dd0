// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// Tablets that end their shift together: each hands its journal over to a real loopside-hub on its own file, over
// HTTPS, all of them begun at once, from one program. They were enrolled before. `hub_load [TABLETS [ENTRIES]]`

#define CATCH_CONFIG_RUNNER
#include "base/text.h"
#include "bench/long_journal.h"
#include "bench/measure.h"
#include "hub/device_register.h"
#include "hub/hub_program.h"
#include "hub/some_hub.h"
#include "ledger/memory_journal.h"
#include "store/key_file.h"
#include "sync/memory_shelf.h"
#include "sync/tablet_side.h"
#include "sync/wire.h"

#include <catch2/catch.hpp>
#include <httplib.h>

#include <atomic>
#include <chrono>
#include <csignal>
#include <filesystem>
#include <fstream>
#include <latch>
#include <thread>

using namespace loopside;
using bench::must;

namespace {

constexpr int timeoutS = 30; // as the tablet's own way to its hub has
constexpr int statusDone = 200;
constexpr int statusTooSoon = 429;

std::uint16_t tabletCount = 1000;
std::size_t entryCount = 200;

/// What happened to one tablet.
struct Told
{
    std::vector<double> answers; ///< Seconds from a request to its answer.
    double whole = 0;            ///< Seconds until everything was there.
    int tooSoon = 0;             ///< Times that the hub asked it to wait.
    int unanswered = 0;          ///< Requests that no answer came to within the time.
};

/// A tablet whose journal is written and whose hub knows it.
class Tablet
{
public:
    explicit Tablet(std::uint16_t number) : key_{bench::Filler::keyOf(number)}
    {
        ledger::MemoryJournal journal;
        bench::Filler(journal, number).fillTo(entryCount, 1);
        std::vector<sync::Held> entries;
        const auto read = journal.read(0, entryCount);
        for (const ledger::Stored& stored : *read) {
            entries.push_back({stored.entry});
        }
        last_ = entries.back().entry;
        must(shelf_.put(entries, {}).has_value(), "a journal cannot be put");
    }

    [[nodiscard]] hub::Device enrolled() const
    {
        return {last_.header.device, key_.publicKey(), "tablet", last_.header.entered.wallMs, {}};
    }
    [[nodiscard]] const ledger::Entry& last() const { return last_; }
    [[nodiscard]] const Told& told() const { return told_; }

    /// Whether the hub has signed for its last entry.
    [[nodiscard]] bool hasReceipt() const
    {
        const auto receipt = receipts_.find(last_.chain);
        return receipt != receipts_.end() && receipt->second.mark.hash == last_.hash;
    }

    /// One round, as a tablet does it, until nothing is left to say.
    void handOver(const sync::Site& site, int port, const std::string& certificate)
    {
        using Clock = std::chrono::steady_clock;
        const auto begin = Clock::now();
        sync::TabletSide side(
            site, last_.header.device, shelf_, {},
            {sync::Topic::catalogue(), sync::Topic::learned(), sync::Topic::handedTo(last_.header.device)});
        httplib::SSLClient client("127.0.0.1", port);
        prepare(client, certificate);
        for (auto said = side.say(); said && *said;) {
            const auto asked = Clock::now();
            const auto answer = post(client, site.id, sync::bytesOf(**said));
            if (!answer) {
                ++told_.unanswered;
                continue; // the same once more, by a new connection
            }
            told_.answers.push_back(std::chrono::duration<double>(Clock::now() - asked).count());
            if (answer->status == statusTooSoon) {
                ++told_.tooSoon;
                std::this_thread::sleep_for(std::chrono::seconds(std::stoi(answer->get_header_value("Retry-After"))));
                continue;
            }
            must(answer->status == statusDone, answer->body.c_str());
            const auto heard = side.hear(sync::messageFrom(answer->body).value());
            must(heard.has_value() && !heard->refusal, "an answer is none");
            side.accept(*heard);
            said = side.say();
        }
        told_.whole = std::chrono::duration<double>(Clock::now() - begin).count();
        receipts_ = side.progress().receipts;
    }

private:
    static void prepare(httplib::SSLClient& client, const std::string& certificate)
    {
        client.set_ca_cert_path(certificate.c_str());
        client.enable_server_certificate_verification(true);
        client.set_keep_alive(true);
        client.set_connection_timeout(timeoutS);
        client.set_read_timeout(timeoutS);
        client.set_write_timeout(timeoutS);
    }

    httplib::Result post(httplib::SSLClient& client, const Id& site, const std::string& body)
    {
        const httplib::Headers headers = {
            {std::string(sync::signatureHeader),
             sync::signatureOf(site, {"POST", "/v1/messages", body}, last_.header.device,
                               store::SystemClock().now().wallMs, test::freshId().bytes, key_)}};
        return client.Post("/v1/messages", headers, body, "application/x-ndjson");
    }

    ledger::DeviceKey key_;
    sync::MemoryShelf shelf_{sync::MemoryShelf::Keeps::Chains};
    ledger::Entry last_;
    std::map<Id, sync::SignedMark> receipts_;
    Told told_;
};

std::vector<std::unique_ptr<Tablet>> someTablets()
{
    std::vector<std::unique_ptr<Tablet>> tablets;
    for (std::uint16_t number = 1; number <= tabletCount; ++number) {
        tablets.push_back(std::make_unique<Tablet>(number));
    }
    return tablets;
}

/// Lets all of them in, and tells of which site they are now.
sync::Site enrol(const test::HubProgram& hub, const std::vector<std::unique_ptr<Tablet>>& tablets)
{
    const auto sql = hub::SqliteSql::open(hub.file());
    must(sql.has_value(), "the hub's file cannot be opened");
    store::SystemRandom random;
    const auto site = hub::siteIn(**sql, {}, 0, random);
    must(site.has_value(), "the hub has no site");
    hub::DeviceRegister devices(**sql, site->site);
    const Done put = hub::inTransaction(**sql, site->site, [&]() -> Done {
        Done done = {};
        for (const auto& tablet : tablets) {
            done = done ? devices.put(tablet->enrolled()) : done;
        }
        return done;
    });
    must(put.has_value(), "a tablet cannot be enrolled");
    const auto keyFile = std::filesystem::path(hub.file()).parent_path() / "hub.key";
    return {site->site, store::loadOrCreateKey(keyFile.string()).value().publicKey()};
}

/// Seconds from the moment at which all of them begin.
double secondsOfAll(const std::vector<std::unique_ptr<Tablet>>& tablets, const sync::Site& site,
                    const test::HubProgram& hub)
{
    std::latch together(static_cast<std::ptrdiff_t>(tablets.size()) + 1);
    const int port = hub.port(); // not in the threads: Catch2 has checks in it
    std::vector<std::thread> threads;
    for (const auto& tablet : tablets) {
        threads.emplace_back([&, one = tablet.get()] {
            together.arrive_and_wait();
            one->handOver(site, port, hub.certificate());
        });
    }
    together.arrive_and_wait();
    return bench::secondsOf([&] { std::ranges::for_each(threads, &std::thread::join); });
}

/// Most memory that the process had, MB.
double mostMbOf(pid_t process)
{
    std::ifstream status("/proc/" + std::to_string(process) + "/status");
    for (std::string word; status >> word;) {
        double kb = 0;
        if (word == "VmHWM:" && status >> kb) {
            return kb / 1024;
        }
    }
    must(false, "no memory is told");
    return 0;
}

double quantileOf(std::vector<double> figures, double part)
{
    std::ranges::sort(figures);
    return figures[static_cast<std::size_t>(part * static_cast<double>(figures.size() - 1))];
}

/// How many tablets miss anything: a receipt, or an entry in the file of the hub, which has ended.
int missesOf(const std::vector<std::unique_ptr<Tablet>>& tablets, const test::HubProgram& hub, const Id& site)
{
    const auto sql = hub::SqliteSql::open(hub.file());
    must(sql.has_value(), "the hub's file cannot be opened");
    const hub::SqlHub store(**sql, site);
    return static_cast<int>(std::ranges::count_if(tablets, [&](const auto& tablet) {
        const auto tip = store.tip(tablet->last().chain);
        const auto count = store.behind(tablet->last().chain, 0, entryCount + 1);
        return !tablet->hasReceipt() || !tip || !*tip || (*tip)->hash != tablet->last().hash || !count
            || count->size() != entryCount;
    }));
}

} // namespace

TEST_CASE("the figures")
{
    const auto tablets = someTablets();
    test::HubProgram hub;
    hub.start(); // makes its site
    hub.end(SIGTERM);
    const sync::Site site = enrol(hub, tablets);
    hub.start();
    const double seconds = secondsOfAll(tablets, site, hub);
    const double mb = mostMbOf(hub.process());
    must(hub.end(SIGTERM) == 0, "the hub did not end well");
    Told all;
    std::vector<double> wholes;
    for (const auto& tablet : tablets) {
        const Told& told = tablet->told();
        all.answers.insert(all.answers.end(), told.answers.begin(), told.answers.end());
        all.tooSoon += told.tooSoon;
        all.unanswered += told.unanswered;
        wholes.push_back(told.whole);
    }
    const double entries = static_cast<double>(tablets.size() * entryCount);
    std::printf("%zu tablets, %zu entries each: all there after %.1f s, %.0f entries/s\n", tablets.size(), entryCount,
                seconds, entries / seconds);
    std::printf("a tablet's handover, s: median %.1f, p99 %.1f, most %.1f\n", quantileOf(wholes, 0.5),
                quantileOf(wholes, 0.99), quantileOf(wholes, 1));
    std::printf("%zu answers, s: median %.2f, p99 %.2f, most %.2f; %d of them asked to wait, %d requests unanswered\n",
                all.answers.size(), quantileOf(all.answers, 0.5), quantileOf(all.answers, 0.99),
                quantileOf(all.answers, 1), all.tooSoon, all.unanswered);
    std::printf("the hub had at most %.0f MB\n", mb);
    const int misses = missesOf(tablets, hub, site.id);
    std::printf("tablets that miss anything: %d; verify: %s", misses, hub.run("verify").c_str());
    CHECK(misses == 0);
}

int main(int argc, char** argv)
{
    tabletCount = argc > 1 ? static_cast<std::uint16_t>(std::clamp(std::atoi(argv[1]), 1, 10'000)) : tabletCount;
    entryCount = argc > 2 ? static_cast<std::size_t>(std::max(std::atoi(argv[2]), 2)) : entryCount;
    return Catch::Session().run();
}
