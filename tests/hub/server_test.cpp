// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// A hub with real sockets on 127.0.0.1, and what it needs for that: settings and a certificate.

#include "hub/server.h"

#include "base/text.h"
#include "hub/certificate.h"
#include "hub/log.h"
#include "hub/sqlite_sql.h"
#include "ledger/recorder.h"
#include "store/system_clock.h"
#include "store/temp_folder.h"
#include "sync/wire.h"

#include <httplib.h>

#include <filesystem>
#include <fstream>
#include <mutex>
#include <thread>

using namespace loopside;
using namespace loopside::test;
using namespace loopside::hub;

namespace {

std::optional<std::string> nothing(const std::string& /*name*/)
{
    return std::nullopt;
}

/// A client that trusts one certificate.
class TrustingClient : public httplib::SSLClient
{
public:
    TrustingClient(int port, const std::string& certificate) : SSLClient("127.0.0.1", port)
    {
        set_ca_cert_path(certificate.c_str());
        enable_server_certificate_verification(true);
    }
};

/// A hub that listens at a free port, from the beginning of a test to its end.
class Listening
{
public:
    explicit Listening(Pages pages = nullptr)
    {
        settings.listen = "127.0.0.1";
        settings.port = 0;
        settings.folder = folder.file("");
        settings.names = {"localhost", "127.0.0.1"};
        REQUIRE(loadOrCreateCertificate({settings.certificateFile(), settings.certificateKeyFile()}, settings.names));
        auto opened = SqliteSql::open(settings.file());
        REQUIRE(opened);
        sql = *std::move(opened);
        store::SystemRandom random;
        site = *siteIn(*sql, {}, clock.now().wallMs, random);
        service = std::make_unique<Service>(*sql, site, Recorder::keyOf(99), clock);
        auto made = Server::open(
            settings, *service,
            [this](const Served& served) {
                const std::lock_guard lock(logging);
                log.push_back(served);
            },
            std::move(pages));
        INFO((made ? "" : made.error().sentence));
        REQUIRE(made);
        server = *std::move(made);
        running = std::thread([this] { server->run(); });
    }
    Listening(const Listening&) = delete;
    Listening& operator=(const Listening&) = delete;
    ~Listening() { stop(); }

    void stop()
    {
        if (running.joinable()) {
            server->stop();
            running.join();
        }
    }

    [[nodiscard]] TrustingClient client() const { return {server->port(), settings.certificateFile()}; }

    [[nodiscard]] httplib::Headers signedHeaders(const Id& forSite, const std::string& path, const std::string& body)
    {
        sync::Nonce nonce = {};
        nonce[15] = ++nonces;
        return {{std::string(sync::signatureHeader),
                 sync::signatureOf(forSite, {"POST", path, body}, Recorder::idOf(0xD0, 1), clock.now().wallMs, nonce,
                                   Recorder::keyOf(1))}};
    }

    TempFolder folder;
    Settings settings;
    store::SystemClock clock;
    std::unique_ptr<SqliteSql> sql;
    SiteRecord site;
    std::unique_ptr<Service> service;
    std::unique_ptr<Server> server;
    std::thread running;
    std::mutex logging;
    std::vector<Served> log;
    std::uint8_t nonces = 0;
};

} // namespace

TEST_CASE("a tablet enrols and hands over through a real socket")
{
    Listening hub;
    auto client = hub.client();
    REQUIRE(DeviceRegister(*hub.sql, hub.site.site).addCode("SECRET01", hub.clock.now().wallMs));
    const std::string wish = bytesOf(
        sync::EnrolmentRequest{Recorder::idOf(0xD0, 1), Recorder::keyOf(1).publicKey(), "SECRET01", "tablet 1"});
    const auto enrolled = client.Post("/v1/enrol", hub.signedHeaders({}, "/v1/enrol", wish), wish, "application/json");
    REQUIRE(enrolled);
    REQUIRE(enrolled->status == 200);
    CHECK(sync::enrolmentAnswerFrom(enrolled->body)->site == hub.site.site);
    CHECK_FALSE(enrolled->get_header_value("Loopside-Time").empty());
    const std::string body = bytesOf(
        sync::Message{hub.site.site, sync::HandOver{Recorder::idOf(0xD0, 1), {}, {}, Recorder(1).chainOf(3)}});
    const auto headers = hub.signedHeaders(hub.site.site, "/v1/messages", body);
    const auto answer = client.Post("/v1/messages", headers, body, "application/x-ndjson");
    REQUIRE(answer);
    CHECK(answer->status == 200);
    CHECK(std::get<sync::Marks>(sync::messageFrom(answer->body)->said).marks.front().mark.sequence == 4);
    const auto replayed = client.Post("/v1/messages", headers, body, "application/x-ndjson");
    CHECK(replayed->status == 401);
    CHECK_FALSE(replayed->has_header("Loopside-Reason"));
    CHECK_FALSE(answer->has_header("Loopside-Device"));
    hub.stop();
    REQUIRE(hub.log.size() == 3);
    CHECK(hub.log[1].device == toText(Recorder::idOf(0xD0, 1)));
    CHECK(hub.log[2].reason.find("made before") != std::string::npos);
    for (const Served& served : hub.log) {
        CHECK(lineOf(served, 0).find("SECRET01") == std::string::npos);
    }
}

TEST_CASE("what a hub tells of itself, and what it has no answer to")
{
    Listening hub;
    auto client = hub.client();
    CHECK(client.Get("/v1/health")->status == 200);
    CHECK(client.Get("/v1/ready")->status == 200);
    CHECK(client.Get("/v1/metrics")->body.ends_with("# EOF\n"));
    CHECK(client.Get("/v1/openapi.yaml")->body.find("/v1/messages:") != std::string::npos);
    CHECK(client.Get("/")->status == 404);
    CHECK(client.Get("/v1/none")->status == 404);
    CHECK(client.Get("/v1/messages")->status == 404);
    CHECK(client.Post("/v1/messages", "hello", "text/plain")->status == 401);
    CHECK(client.Post("/v1/messages", {{"Content-Encoding", "gzip"}}, "hello", "text/plain")->status == 415);
    const auto tooLong = hub.client().Post("/v1/messages", std::string(sync::messageBytesMax + 1, 'x'), "text/plain");
    CHECK((!tooLong || tooLong->status == 413)); // the hub may hang up while the rest is still sent
}

TEST_CASE("pages for people come in at one place, and never under the tablets' paths")
{
    Listening hub([](const PageRequest& request) -> std::optional<PageAnswer> {
        if (request.path.starts_with("/v1/")) {
            return PageAnswer{200, "text/plain", "wrong", {}};
        }
        return request.path == "/" ? std::optional(PageAnswer{200, "text/html", request.method, {{"X-Own", "1"}}})
                                   : std::nullopt;
    });
    auto client = hub.client();
    const auto page = client.Get("/");
    REQUIRE(page);
    CHECK(page->body == "GET");
    CHECK(page->get_header_value("X-Own") == "1");
    CHECK(client.Get("/other")->status == 404);
    CHECK(client.Get("/v1/other")->status == 404);
}

TEST_CASE("garbage and silence on the socket harm nobody else")
{
    Listening hub;
    httplib::Client plain("127.0.0.1", hub.server->port()); // no TLS
    CHECK_FALSE(plain.Get("/v1/health"));
    CHECK(hub.client().Get("/v1/health")->status == 200);
    httplib::SSLClient stranger("127.0.0.1", hub.server->port());
    stranger.enable_server_certificate_verification(true);
    CHECK_FALSE(stranger.Get("/v1/health")); // it does not know this certificate
}

TEST_CASE("an address that is taken is told")
{
    Listening hub;
    Settings same = hub.settings;
    same.port = hub.server->port();
    const auto second = Server::open(same, *hub.service, [](const Served&) {});
    REQUIRE_FALSE(second);
    CHECK(second.error().sentence.find("cannot listen") != std::string::npos);
}

TEST_CASE("a certificate is made once and kept")
{
    TempFolder folder;
    const CertificateFiles files = {folder.file("certificate.pem"), folder.file("certificate.key")};
    const auto made = loadOrCreateCertificate(files, {"hub.example", "192.0.2.7"});
    REQUIRE(made);
    CHECK(loadOrCreateCertificate(files, {"other"}).value() == *made);
    CHECK(fingerprintText(*made).size() == 95);
    const auto rights = std::filesystem::status(files.key).permissions();
    CHECK(rights == (std::filesystem::perms::owner_read | std::filesystem::perms::owner_write));
    std::filesystem::permissions(files.key, std::filesystem::perms::group_read, std::filesystem::perm_options::add);
    CHECK(loadOrCreateCertificate(files, {"hub.example"}).error().code == Errc::Conflict);
    std::filesystem::permissions(files.key, rights);
    std::ofstream(files.certificate) << "no certificate";
    CHECK(loadOrCreateCertificate(files, {"hub.example"}).error().code == Errc::Corrupt);
    std::filesystem::remove(files.key);
    CHECK(loadOrCreateCertificate(files, {"hub.example"}).error().code == Errc::Conflict);
    const CertificateFiles others = {folder.file("b.pem"), folder.file("b.key")};
    CHECK(loadOrCreateCertificate(others, {"a,email:x"}).error().code == Errc::Malformed);
    CHECK_FALSE(std::filesystem::exists(others.key));
}

TEST_CASE("settings come from the file, and from the environment before that")
{
    const auto settings = settingsFrom("port = 9000\nnames = [\"a.example\", \"b.example\"]\ndatabase = \"host=x\"\n",
                                       "hub.toml", [](const std::string& name) {
                                           return name == "LOOPSIDE_HUB_PORT" ? std::optional<std::string>("9001")
                                                                              : std::nullopt;
                                       });
    REQUIRE(settings);
    CHECK(settings->port == 9001);
    CHECK(settings->names == std::vector<std::string>{"a.example", "b.example"});
    CHECK(settings->database == "host=x");
    CHECK(settingsFrom("", "", nothing)->port == 8443);
    for (const std::string wrong : {"port = 70000", "port = \"x\"", "prot = 1", "site = \"no id\"", "names = []",
                                    "names = [1]", "listen = \"\"", "port =", "database = 7"}) {
        INFO(wrong);
        const auto refused = settingsFrom(wrong, "hub.toml", nothing);
        REQUIRE_FALSE(refused);
        CHECK(refused.error().code == Errc::Malformed);
        CHECK(refused.error().sentence.starts_with("hub.toml: "));
    }
}
