// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// The program itself: enrolment with the code that it prints, and kills in the middle of handing over.

#include "base/text.h"
#include "hub/hub_program.h"
#include "hub/some_hub.h"
#include "ledger/recorder.h"
#include "sync/enrolment.h"
#include "sync/enrolment_code.h"
#include "sync/signed_request.h"
#include "sync/wire.h"

#include <httplib.h>

#include <csignal>
#include <thread>

using namespace loopside;
using namespace loopside::test;
using sync::Held;

namespace {

/// A tablet that hands over what its recorder wrote.
class Tablet
{
public:
    explicit Tablet(std::uint8_t number) : number_{number}, recorder_{number}, entries_{recorder_.open()} {}

    void write(int count)
    {
        for (int i = 0; i < count; ++i) {
            entries_.push_back(recorder_.notes({"note " + std::to_string(entries_.size())}).front());
        }
    }

    void enrol(const HubProgram& hub, const std::string& code)
    {
        const auto read = sync::enrolmentCodeFrom(code);
        REQUIRE(read);
        const std::string body = bytesOf(
            sync::EnrolmentRequest{recorder_.device(), Recorder::keyOf(number_).publicKey(), read->secret, "tablet"});
        const auto answer = post(hub, "/v1/enrol", body);
        REQUIRE(answer);
        REQUIRE(answer->status == 200);
        site_ = sync::enrolmentAnswerFrom(answer->body)->site;
    }

    /// Says what is not acknowledged yet, at most `most` entries; how far the hub has the chain, if it answers.
    std::optional<std::uint64_t> handOver(const HubProgram& hub, std::size_t most)
    {
        const auto first = entries_.begin() + static_cast<std::ptrdiff_t>(acknowledged_);
        const auto count = std::min(most, entries_.size() - acknowledged_);
        const sync::HandOver said = {recorder_.device(), {}, {}, {first, first + static_cast<std::ptrdiff_t>(count)}};
        const auto answer = post(hub, "/v1/messages", bytesOf(sync::Message{site_, said}));
        if (!answer) {
            return std::nullopt;
        }
        INFO(answer->body);
        REQUIRE(answer->status == 200);
        const auto message = sync::messageFrom(answer->body);
        const auto& marks = std::get<sync::Marks>(message->said).marks;
        return marks.empty() ? 0 : marks.front().mark.sequence;
    }

    /// Hands over all that is left in pieces of 20; false where the hub went away.
    bool handOverAll(const HubProgram& hub)
    {
        while (acknowledged_ < entries_.size()) {
            const auto upTo = handOver(hub, 20);
            if (!upTo) {
                return false;
            }
            REQUIRE(*upTo > acknowledged_); // else this would never end
            acknowledged_ = *upTo;
        }
        return true;
    }

    [[nodiscard]] const std::vector<ledger::Entry>& entries() const { return entries_; }
    [[nodiscard]] std::uint64_t acknowledged() const { return acknowledged_; }
    [[nodiscard]] const Id& site() const { return site_; }

private:
    httplib::Result post(const HubProgram& hub, const std::string& path, const std::string& body)
    {
        httplib::SSLClient client("127.0.0.1", hub.port());
        client.set_ca_cert_path(hub.certificate().c_str());
        client.enable_server_certificate_verification(true);
        sync::Nonce nonce = {};
        nonce[14] = static_cast<std::uint8_t>(++requests_ >> 8U);
        nonce[15] = static_cast<std::uint8_t>(requests_);
        const httplib::Headers headers = {
            {std::string(sync::signatureHeader),
             sync::signatureOf(site_, {"POST", path, body}, recorder_.device(), store::SystemClock().now().wallMs,
                               nonce, Recorder::keyOf(number_))}};
        return client.Post(path.c_str(), headers, body, "application/x-ndjson");
    }

    std::uint8_t number_;
    Recorder recorder_;
    std::vector<ledger::Entry> entries_;
    Id site_ = {};
    std::uint64_t acknowledged_ = 0;
    unsigned requests_ = 0;
};

/// Kills the hub at different moments of a hand-over. What was acknowledged must be there each time.
std::vector<Held> afterKills(HubProgram& hub, Tablet& tablet, hub::Sql& sql)
{
    int cutShort = 0;
    for (int round = 0; round < 5; ++round) {
        hub.start();
        const auto greeted = tablet.handOver(hub, 0);
        REQUIRE(greeted);
        CHECK(*greeted >= tablet.acknowledged());
        tablet.write(100);
        std::jthread killer([round, process = hub.process()] {
            std::this_thread::sleep_for(std::chrono::milliseconds(20 + 37 * round));
            ::kill(process, SIGKILL);
        });
        cutShort += tablet.handOverAll(hub) ? 0 : 1;
        killer.join();
        hub.end(SIGKILL);
    }
    CHECK(cutShort > 0); // else nothing was tried
    hub.start();
    CHECK(tablet.handOverAll(hub));
    CHECK(hub.run("verify").find(std::to_string(tablet.entries().size()) + " entries in 1 chains") == 0);
    CHECK(hub.end(SIGTERM) == 0);
    CHECK(hub.said().find("\"stopped\"") != std::string::npos);
    return hub::SqlHub(sql, tablet.site()).behind(tablet.entries().front().chain, 0, 10'000).value();
}

void checkHolds(const std::vector<Held>& held, const std::vector<ledger::Entry>& entries)
{
    REQUIRE(held.size() == entries.size());
    for (std::size_t i = 0; i < held.size(); ++i) {
        CHECK(held[i].entry == entries[i]);
    }
}

} // namespace

TEST_CASE("a hub that is killed while tablets hand over loses nothing that it acknowledged, in its own file")
{
    HubProgram hub;
    hub.start();
    Tablet tablet(1);
    const std::string printed = hub.run("enrol");
    tablet.enrol(hub, found(printed, "\n    ([0-9A-Z-]{24})\n"));
    CHECK(hub.said().find(found(printed, "SHA-256: ([0-9A-F:]+)")) != std::string::npos);
    CHECK(hub.run("devices").find(toText(tablet.entries().front().header.device)) == 0);
    hub.end(SIGKILL);
    auto sql = hub::SqliteSql::open(hub.file());
    REQUIRE(sql);
    checkHolds(afterKills(hub, tablet, **sql), tablet.entries());
}

TEST_CASE("a hub that is killed while tablets hand over loses nothing that it acknowledged, in PostgreSQL")
{
    HubInPostgres where;
    HubProgram hub({{"LOOPSIDE_HUB_DATABASE", PostgresServer::running().connection()},
                    {"LOOPSIDE_HUB_SITE", toText(where.site())}});
    hub.start();
    Tablet tablet(1);
    tablet.enrol(hub, hub.code());
    CHECK(tablet.site() == where.site());
    hub.end(SIGKILL);
    checkHolds(afterKills(hub, tablet, where.sql()), tablet.entries());
}
