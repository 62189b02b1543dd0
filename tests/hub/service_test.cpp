// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// What a hub answers, on its own file, without sockets.

#include "hub/service.h"

#include "base/text.h"
#include "hub/some_hub.h"
#include "ledger/attached.h"
#include "sync/wire.h"

using namespace loopside;
using namespace loopside::test;
using namespace loopside::hub;

namespace {

constexpr std::int64_t startMs = 1'751'958'400'000;

class SetClock final : public Clock
{
public:
    [[nodiscard]] Stamp now() override
    {
        return {startMs + passedMs, 0, static_cast<std::uint64_t>(passedMs) * 1'000'000, {}};
    }
    std::int64_t passedMs = 0;
};

std::string secretOf(std::uint8_t number)
{
    return "SECRET0" + std::to_string(number);
}

/// A hub and tablets with the recorders' keys.
class Scene
{
public:
    Scene()
    {
        auto opened = SqliteSql::open(folder.file("hub.sqlite"));
        REQUIRE(opened);
        begin(*std::move(opened), {});
    }

    explicit Scene(PostgresServer& server)
    {
        auto opened = PostgresSql::open(server.connection());
        REQUIRE(opened);
        begin(*std::move(opened), freshId());
    }

    void begin(std::unique_ptr<Sql> database, const Id& wanted)
    {
        sql = std::move(database);
        SeededRandom random(1);
        const auto found = siteIn(*sql, wanted, startMs, random);
        REQUIRE(found);
        site = *found;
        service = std::make_unique<Service>(*sql, site, Recorder::keyOf(99), clock);
    }

    [[nodiscard]] DeviceRegister tablets() { return DeviceRegister(*sql, site.site); }

    /// Each request has a nonce of its own, unless `nonce` says which.
    [[nodiscard]] std::string signature(const Id& forSite, const std::string& path, const std::string& body,
                                        std::uint8_t number, std::int64_t strayMs = 0)
    {
        nonce[15] = static_cast<std::uint8_t>(++nonces);
        nonce[14] = static_cast<std::uint8_t>(nonces >> 8U);
        return sync::signatureOf(forSite, {"POST", path, body}, Recorder::idOf(0xD0, number),
                                 clock.now().wallMs + strayMs, nonce, Recorder::keyOf(number));
    }

    [[nodiscard]] Answer enrol(std::uint8_t number, const std::string& secret)
    {
        const std::string body = bytesOf(sync::EnrolmentRequest{Recorder::idOf(0xD0, number),
                                                                Recorder::keyOf(number).publicKey(), secret, "tablet"});
        const std::string header = signature({}, "/v1/enrol", body, number);
        return service->enrol({{"POST", "/v1/enrol", body}, header, "192.0.2.1"});
    }

    void letIn(std::uint8_t number)
    {
        REQUIRE(tablets().addCode(secretOf(number), clock.now().wallMs));
        REQUIRE(enrol(number, secretOf(number)).status == 200);
    }

    [[nodiscard]] Answer say(const std::string& body, const std::string& header)
    {
        return service->message({{"POST", "/v1/messages", body}, header, "192.0.2.1"});
    }

    [[nodiscard]] Answer say(const std::string& body, std::uint8_t number, std::int64_t strayMs = 0)
    {
        return say(body, signature(site.site, "/v1/messages", body, number, strayMs));
    }

    [[nodiscard]] Answer bring(const std::string& path, const std::string& body, std::uint8_t number)
    {
        const std::string header = signature(site.site, path, body, number);
        return service->files({{"POST", path, body}, header, "192.0.2.1"});
    }

    [[nodiscard]] std::string handOver(std::uint8_t number, const std::vector<ledger::Entry>& entries) const
    {
        return bytesOf(sync::Message{site.site, sync::HandOver{Recorder::idOf(0xD0, number), {}, {}, entries}});
    }

    [[nodiscard]] std::size_t held() const { return hub::SqlHub(*sql, site.site).tips().value().size(); }

    TempFolder folder;
    SetClock clock;
    std::unique_ptr<Sql> sql;
    SiteRecord site;
    std::unique_ptr<Service> service;
    sync::Nonce nonce = {};
    unsigned nonces = 0;
};

Errc codeIn(const Answer& answer)
{
    const auto message = sync::messageFrom(answer.body);
    REQUIRE(message);
    REQUIRE(std::holds_alternative<sync::Refusal>(message->said));
    CHECK(std::get<sync::Refusal>(message->said).sentence == answer.reason);
    return std::get<sync::Refusal>(message->said).code;
}

} // namespace

TEST_CASE("a code lets one tablet in, once, for a quarter of an hour")
{
    Scene scene;
    CHECK(scene.enrol(1, secretOf(1)).status == 409); // no such code yet
    REQUIRE(scene.tablets().addCode(secretOf(1), startMs));
    CHECK(scene.enrol(1, secretOf(2)).status == 409);
    const Answer answer = scene.enrol(1, secretOf(1));
    REQUIRE(answer.status == 200);
    CHECK(sync::enrolmentAnswerFrom(answer.body).value()
          == sync::EnrolmentAnswer{scene.site.site, Recorder::keyOf(99).publicKey()});
    CHECK(scene.enrol(2, secretOf(1)).status == 409); // used
    CHECK(scene.enrol(1, secretOf(1)).status == 200); // the answer was lost
    REQUIRE(scene.tablets().addCode(secretOf(3), startMs));
    scene.clock.passedMs = codeLastsMs;
    const Answer late = scene.enrol(3, secretOf(3));
    CHECK(late.status == 409);
    CHECK(codeIn(late) == Errc::NotFound); // by which a tablet tells it from being struck off
    CHECK(late.reason.find(secretOf(3)) == std::string::npos);
    CHECK(scene.tablets().all()->size() == 1);
}

TEST_CASE("an enrolment is signed by the key that it names, and codes are not tried quickly")
{
    Scene scene;
    REQUIRE(scene.tablets().addCode(secretOf(1), startMs));
    const std::string body = bytesOf(
        sync::EnrolmentRequest{Recorder::idOf(0xD0, 1), Recorder::keyOf(1).publicKey(), secretOf(1), "tablet"});
    const auto enrol = [&](const std::string& header) {
        return scene.service->enrol({{"POST", "/v1/enrol", body}, header, "192.0.2.1"}).status;
    };
    CHECK(enrol("") == 401);
    CHECK(enrol(scene.signature({}, "/v1/enrol", body, 2)) == 401);
    CHECK(enrol(scene.signature(scene.site.site, "/v1/enrol", body, 1)) == 401);
    CHECK(scene.service->enrol({{"POST", "/v1/enrol", "{}"}, "", "192.0.2.1"}).status == 400);
    CHECK(scene.tablets().all()->empty());
    for (int i = 0; i < 6; ++i) {
        CHECK(scene.enrol(2, secretOf(7)).status == 409);
    }
    const Answer tooSoon = scene.enrol(1, secretOf(1));
    CHECK(tooSoon.status == 429);
    CHECK(tooSoon.retryAfterS == 6);
    scene.clock.passedMs = 6000;
    CHECK(scene.enrol(1, secretOf(1)).status == 200);
}

TEST_CASE("what an enrolled tablet hands over is stored and marked, once")
{
    Scene scene;
    scene.letIn(1);
    const auto entries = Recorder(1).chainOf(2);
    for (int i = 0; i < 2; ++i) {
        const Answer answer = scene.say(scene.handOver(1, entries), 1);
        REQUIRE(answer.status == 200);
        CHECK(answer.device == toText(Recorder::idOf(0xD0, 1)));
        const auto message = sync::messageFrom(answer.body);
        const auto& marks = std::get<sync::Marks>(message->said);
        REQUIRE(marks.marks.size() == 1);
        CHECK(marks.marks[0].mark.sequence == 3);
        CHECK(isSignedBy(marks.marks[0], Recorder::keyOf(99).publicKey()));
    }
    const std::string metrics = scene.service->metrics().body;
    CHECK(metrics.find("loopside_hub_requests_total{endpoint=\"messages\",status=\"200\"} 2\n") != std::string::npos);
    CHECK(metrics.find("loopside_hub_entries_heard_total 6\n") != std::string::npos);
    CHECK(metrics.ends_with("loopside_hub_ready 1\n# EOF\n"));
}

TEST_CASE("files come behind the entries that name them, from enrolled tablets alone, signed with their bytes")
{
    Scene scene;
    scene.letIn(1);
    Recorder recorder(1);
    auto chain = recorder.chainOf(1);
    const std::string file = fileOf("a picture");
    chain.push_back(sealedBy(recorder, added(file)));
    const sync::FileList list = {{chain[2].chain, 3}};
    const std::string listPath(sync::filesPath);
    const std::string path = sync::pathOf(list[0]);
    CHECK(scene.bring(listPath, bytesOf(list), 1).body == bytesOf(sync::FileList{}));
    CHECK(scene.bring(path, file, 1).status == 409); // its entry is not here yet
    REQUIRE(scene.say(scene.handOver(1, chain), 1).status == 200);
    CHECK(scene.bring(listPath, bytesOf(list), 1).body == bytesOf(list));
    CHECK(scene.bring(path, fileOf("no picture"), 1).status == 409);
    CHECK(scene.bring(path, std::string(sync::fileBytesMax + 1, 'x'), 1).status == 413);
    CHECK(scene.bring(listPath, "{}", 1).status == 400);
    CHECK(scene.bring(listPath + "/nowhere", file, 1).status == 400);
    CHECK(scene.bring(path, file, 2).status == 401); // not enrolled
    const std::string signedForAnother = scene.signature(scene.site.site, path, fileOf("no picture"), 1);
    CHECK(scene.service->files({{"POST", path, file}, signedForAnother, "192.0.2.1"}).status == 401);
    CHECK(scene.bring(listPath, bytesOf(list), 1).body == bytesOf(list)); // nothing was kept by all that
    CHECK(scene.bring(path, file, 1).status == 200);
    CHECK(scene.bring(listPath, bytesOf(list), 1).body == bytesOf(sync::FileList{}));
}

TEST_CASE("forged, replayed, strayed, foreign, newer and malformed requests are refused and change nothing")
{
    Scene scene;
    scene.letIn(1);
    scene.letIn(2);
    const std::string body = scene.handOver(1, Recorder(1).chainOf(2));
    CHECK(scene.say(body, "").status == 401);
    CHECK(scene.say(body, scene.signature(scene.site.site, "/v1/messages", body + "x", 1)).status == 401);
    CHECK(scene.say(body, scene.signature(Recorder::idOf(0x51, 9), "/v1/messages", body, 1)).status == 401);
    CHECK(scene.say(body, 3).status == 401); // not enrolled
    CHECK(scene.say(body, "v2 " + scene.signature(scene.site.site, "/v1/messages", body, 1)).status == 400);
    const Answer strayed = scene.say(body, 1, 600'000);
    CHECK(strayed.status == 401);
    CHECK(codeIn(strayed) == Errc::OutOfRange);
    CHECK(scene.say(body, 2).status == 409); // in another's name
    const std::string foreign = bytesOf(
        sync::Message{Recorder::idOf(0x51, 9), sync::HandOver{Recorder::idOf(0xD0, 1), {}, {}, {}}});
    CHECK(scene.say(foreign, 1).status == 409);
    const Answer newer = scene.say("{\"loopside_message\":9}\n", 1);
    CHECK(newer.status == 400);
    CHECK(codeIn(newer) == Errc::Incompatible);
    CHECK(scene.say("\xFF", 1).status == 400);
    CHECK(scene.say(std::string(sync::messageBytesMax + 1, ' '), 1).status == 413);
    CHECK(scene.held() == 0);
    const std::string header = scene.signature(scene.site.site, "/v1/messages", body, 1);
    CHECK(scene.say(body, header).status == 200);
    CHECK(scene.say(body, header).status == 401); // replayed
}

TEST_CASE("a tablet that was struck off says nothing more and cannot come back with its key")
{
    Scene scene;
    scene.letIn(1);
    const std::string body = scene.handOver(1, Recorder(1).chainOf(1));
    REQUIRE(scene.say(body, 1).status == 200);
    REQUIRE(scene.tablets().revoke(Recorder::idOf(0xD0, 1), startMs));
    const Answer refused = scene.say(body, 1);
    CHECK(refused.status == 401);
    CHECK(refused.reason.find("struck off") != std::string::npos);
    REQUIRE(scene.tablets().addCode(secretOf(5), startMs));
    const Answer struckOff = scene.enrol(1, secretOf(5));
    CHECK(struckOff.status == 409);
    CHECK(codeIn(struckOff) == Errc::Conflict);
    CHECK(scene.held() == 1); // what it wrote stays
    CHECK_FALSE(scene.tablets().revoke(Recorder::idOf(0xD0, 8), startMs));
    const auto deeds = deedsOf(*scene.sql, scene.site.site);
    REQUIRE(deeds->size() == 4);
    CHECK((*deeds)[2].find("was struck off") != std::string::npos);
    CHECK((*deeds)[0].find(secretOf(1)) == std::string::npos);
}

TEST_CASE("a tablet that asks without end is told to wait")
{
    Scene scene;
    scene.letIn(1);
    const std::string greeting = scene.handOver(1, {});
    for (int i = 0; i < 100; ++i) {
        REQUIRE(scene.say(greeting, 1).status == 200);
    }
    const Answer answer = scene.say(greeting, 1);
    CHECK(answer.status == 429);
    CHECK(answer.retryAfterS == 1);
    scene.clock.passedMs = 1000;
    CHECK(scene.say(greeting, 1).status == 200);
}

TEST_CASE("a hub whose file is full says so, and takes everything when there is room")
{
    Scene scene;
    scene.letIn(1);
    const auto entries = Recorder(1).chainOf(200);
    REQUIRE(scene.sql->run("PRAGMA max_page_count = 60"));
    const Answer full = scene.say(scene.handOver(1, entries), 1);
    CHECK(full.status == 503);
    CHECK(codeIn(full) == Errc::Io);
    CHECK(full.reason.find("disk is full") != std::string::npos);
    CHECK(scene.held() == 0);
    CHECK(scene.service->ready().status == 200); // it can read
    REQUIRE(scene.sql->run("PRAGMA max_page_count = 100000"));
    CHECK(scene.say(scene.handOver(1, entries), 1).status == 200);
    CHECK(scene.held() == 1);
}

TEST_CASE("a hub whose record was replaced under it is not ready")
{
    Scene scene;
    CHECK(scene.service->ready().status == 200);
    CHECK(scene.service->health().body == "{\"status\":\"ok\"}\n");
    const Id other = Recorder::idOf(0x10, 2);
    REQUIRE(scene.sql->run("UPDATE sites SET log_id = $1", {valueOf(other)}));
    CHECK(scene.service->ready().status == 503);
    CHECK(scene.service->metrics().body.find("loopside_hub_ready 0\n") != std::string::npos);
}

TEST_CASE("while PostgreSQL is gone nothing is taken and a plain sentence says so, and then it goes on by itself")
{
    auto& server = PostgresServer::running();
    Scene scene(server);
    scene.letIn(1);
    const std::string body = scene.handOver(1, Recorder(1).chainOf(2));
    server.stop();
    for (int i = 0; i < 2; ++i) {
        const Answer answer = scene.say(body, 1);
        CHECK(answer.status == 503);
        CHECK(codeIn(answer) == Errc::Unavailable);
        CHECK(answer.reason.find("what tablets have stays with them") != std::string::npos);
    }
    CHECK(scene.service->ready().status == 503);
    CHECK(scene.service->health().status == 200);
    server.start();
    CHECK(scene.say(body, 1).status == 200);
    CHECK(scene.service->ready().status == 200);
    CHECK(scene.held() == 1);
}
