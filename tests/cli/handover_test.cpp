// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// A journal handed over by the program itself to the real hub, over HTTPS.

#include "cli/program.h"
#include "cli/written_journal.h"
#include "handover/hub_file.h"
#include "hub/held_by.h"
#include "hub/postgres_server.h"
#include "store/instance_lock.h"
#include "store/sqlite_journal.h"

#include <catch2/catch.hpp>
#include <fcntl.h>
#include <sys/wait.h>
#include <unistd.h>

#include <array>
#include <chrono>
#include <csignal>
#include <filesystem>
#include <thread>

using namespace loopside;
using namespace loopside::test;
using Json = nlohmann::json;

namespace {

/// More than one message may have.
constexpr int many = 600;

/// A tablet's folder, with a journal that nobody has open.
class Tablet
{
public:
    void note(int count)
    {
        std::vector<std::string> texts;
        for (int i = 0; i < count; ++i) {
            texts.push_back("note " + std::to_string(++notes_));
        }
        writeNotes(journal(), folder_.file("device.key"), texts);
    }

    void picture(const std::string& content)
    {
        writeNotes(journal(), folder_.file("device.key"), {"with " + content}, content);
    }

    [[nodiscard]] std::string journal() const { return folder_.file("journal.sqlite"); }
    [[nodiscard]] std::string hubFile() const { return folder_.file("site.hub"); }
    [[nodiscard]] std::string exported() const { return runProgram({"export", journal()}).out; }
    [[nodiscard]] std::size_t size() const { return linesOf(runProgram({"record", journal()}).out).size(); }

    /// `handover` in words, with whatever exit code.
    [[nodiscard]] Ran tell(std::vector<std::string> more = {}) const
    {
        more.insert(more.begin(), {"handover", journal()});
        return runProgram(more);
    }

    [[nodiscard]] Ran enrol(const std::string& address, const std::string& code) const
    {
        return tell({"--enrol", address, "--code", code, "--name", "the cart's", "--json"});
    }

    /// It says by `trouble` why not everything is there; all of the journal is still only here, as it was.
    void isLeft(const Ran& ran, const std::string& before, const std::string& trouble) const
    {
        CAPTURE(ran.out, ran.err);
        CHECK(ran.exitCode == 1);
        const Json said = Json::parse(ran.out);
        CHECK(said["trouble"]["id"] == trouble);
        CHECK(said["handed_over"] == 0);
        CHECK(said["waiting"] == size() - said["there"].get<std::size_t>());
        CHECK(ran.err == "loopside-cli: " + said["trouble"]["sentence"].get<std::string>() + "\n");
        CHECK(exported() == before);
    }

    [[nodiscard]] std::vector<ledger::Entry> entries() const
    {
        const auto opened = store::SqliteJournal::open(journal());
        REQUIRE(opened);
        std::vector<ledger::Entry> all;
        const auto read = (*opened)->read(0, 1'000'000);
        REQUIRE(read);
        for (const auto& stored : *read) {
            all.push_back(stored.entry);
        }
        return all;
    }

    /// As if the hub that it is enrolled at were reached by `address` now.
    void finds(const std::string& address) const
    {
        auto hub = handover::readHub(hubFile()).value();
        REQUIRE(hub);
        hub->address = address;
        REQUIRE(handover::writeHub(hubFile(), *hub));
    }

private:
    TempFolder folder_;
    int notes_ = 0;
};

/// The requests of tablets of which the hub's log tells.
std::size_t requestsTo(const HubProgram& hub)
{
    std::size_t count = 0;
    for (const std::string& line : linesOf(hub.said())) {
        count += line.find("\"/v1/") != std::string::npos ? 1 : 0;
    }
    return count;
}

} // namespace

TEST_CASE("a journal is handed over whole, and another time nothing is doubled")
{
    HubProgram hub;
    hub.start();
    Tablet tablet;
    tablet.note(many);
    const std::string before = tablet.exported();
    const Ran first = tablet.enrol(hub.address(), hub.code());
    CAPTURE(first.out, first.err);
    REQUIRE(first.exitCode == 0);
    const Json said = Json::parse(first.out);
    CHECK(said["hub"] == hub.address());
    CHECK(said["handed_over"] == many + 2); // with the opening of chain and run
    CHECK(said["there"] == many + 2);
    CHECK(said["waiting"] == 0);
    CHECK(said["cautions"].empty());
    CHECK(said["trouble"].is_null());
    CHECK(said["receipt"].get<std::string>().size() == 64);
    CHECK(tablet.exported() == before);
    CHECK_THAT(hub.run("devices"), Catch::Contains("the cart's"));

    const Json again = answerOf("handover", {tablet.journal()});
    CHECK(again["handed_over"] == 0);
    CHECK(again["there"] == many + 2);
    CHECK(again["receipt"] == said["receipt"]);
    tablet.note(3);
    const Json more = answerOf("handover", {tablet.journal()});
    CHECK(more["handed_over"] == 4);
    CHECK(more["receipt"] != said["receipt"]);
    const Ran told = tablet.tell({"--language", "de"});
    CHECK(told.exitCode == 0);
    CHECK_THAT(told.out, Catch::Contains("Jetzt übergebene Einträge: 0\n") && Catch::Contains("Server des Standorts"));

    CHECK(hub.end(SIGTERM) == 0);
    const auto site = handover::readHub(tablet.hubFile()).value();
    REQUIRE(site);
    const bool isSame = heldBy(hub, site->site.id) == tablet.entries();
    CHECK(isSame);
}

TEST_CASE("a code that is not right enrols nothing and hands nothing over")
{
    HubProgram hub;
    hub.start();
    Tablet tablet;
    tablet.note(2);
    const std::string before = tablet.exported();
    const std::string code = hub.code();
    std::string wrong = code; // in its secret: the hub is the one that is meant
    wrong.front() = wrong.front() == '7' ? '8' : '7';
    tablet.isLeft(tablet.enrol(hub.address(), wrong), before, "handover.wrong-code");
    CHECK_FALSE(std::filesystem::exists(tablet.hubFile()));
    const Ran mistyped = tablet.enrol(hub.address(), code.substr(1));
    CHECK(mistyped.exitCode == 1);
    CHECK(mistyped.out.empty());
    CHECK_THAT(mistyped.err, Catch::Contains("twenty signs"));
    CHECK(tablet.tell({"--enrol", hub.address()}).exitCode == 2);
    const Ran unenrolled = tablet.tell({"--json"});
    tablet.isLeft(unenrolled, before, "handover.no-hub-yet");

    CHECK(tablet.enrol(hub.address(), code).exitCode == 0);
    Tablet other; // a code lets one tablet in
    other.note(1);
    other.isLeft(other.enrol(hub.address(), code), other.exported(), "handover.wrong-code");
}

TEST_CASE("a hub with another certificate than the one meant is told nothing")
{
    HubProgram meant;
    HubProgram other;
    meant.start();
    other.start();
    Tablet tablet;
    tablet.note(2);
    const std::string before = tablet.exported();
    const std::string code = meant.code();
    tablet.isLeft(tablet.enrol(other.address(), code), before, "handover.other-hub"); // by the code alone
    CHECK(tablet.enrol(meant.address(), code).exitCode == 0);                         // the secret is still good
    tablet.note(1);
    tablet.finds(other.address());
    tablet.isLeft(tablet.tell({"--json"}), tablet.exported(), "handover.other-hub"); // by what was enrolled
    CHECK(meant.end(SIGTERM) == 0);
    CHECK(other.end(SIGTERM) == 0); // what was being answered is in its log
    CHECK(requestsTo(meant) >= 2);
    CHECK(requestsTo(other) == 0);
}

TEST_CASE("pictures go over behind the entries, once, and a hub's check and backup know them")
{
    HubProgram hub;
    hub.start();
    Tablet tablet;
    tablet.note(3);
    tablet.picture("a picture of gauge 2");
    const Ran first = tablet.enrol(hub.address(), hub.code());
    CAPTURE(first.out, first.err);
    REQUIRE(first.exitCode == 0);
    CHECK(Json::parse(first.out)["files_waiting"] == 0);
    CHECK_THAT(hub.run("verify"), Catch::Contains("1 files"));
    const auto asked = requestsTo(hub);
    CHECK(answerOf("handover", {tablet.journal()})["files_waiting"] == 0);
    CHECK(requestsTo(hub) - asked <= 2); // nothing of the picture
    tablet.picture("another picture");
    CHECK(answerOf("handover", {tablet.journal()})["files_waiting"] == 0);
    CHECK_THAT(hub.run("verify"), Catch::Contains("2 files"));
}

TEST_CASE("a hub that is away is told, and a handover goes on when it is back")
{
    HubProgram hub;
    hub.start();
    Tablet tablet;
    tablet.note(2);
    const std::string address = hub.address();
    const std::string code = hub.code();
    hub.end(SIGKILL);
    tablet.isLeft(tablet.enrol(address, code), tablet.exported(), "handover.nobody");
    tablet.isLeft(tablet.enrol("no hub at all", code), tablet.exported(), "handover.no-address");
    hub.start();
    CHECK(tablet.enrol(hub.address(), code).exitCode == 0);
    hub.end(SIGKILL);
    tablet.note(1);
    const Ran away = tablet.tell({"--json"});
    tablet.isLeft(away, tablet.exported(), "handover.nobody");
    CHECK(Json::parse(away.out)["there"] == 4);
    CHECK(Json::parse(away.out)["waiting"] == 2);
    hub.start();
    tablet.finds(hub.address());
    CHECK(answerOf("handover", {tablet.journal()})["handed_over"] == 2);
}

TEST_CASE("a network that dies after 17 of 41 entries costs nothing: the other 24 go over once, then the six pictures")
{
    HubProgram hub;
    hub.start();
    Tablet tablet;
    tablet.note(17);
    REQUIRE(tablet.enrol(hub.address(), hub.code()).exitCode == 0);
    const Json atFirst = answerOf("handover", {tablet.journal()});
    hub.end(SIGKILL);
    for (int i = 1; i <= 6; ++i) {
        tablet.picture("picture " + std::to_string(i));
    }
    tablet.note(24);
    const std::string before = tablet.exported();
    const std::size_t left = tablet.size() - atFirst["there"].get<std::size_t>();
    for (int tries = 0; tries < 2; ++tries) {
        const Ran away = tablet.tell({"--json"});
        tablet.isLeft(away, before, "handover.nobody");
        CHECK(Json::parse(away.out)["waiting"] == left);
        CHECK(Json::parse(away.out)["receipt"] == atFirst["receipt"]); // no more than that is filed
    }
    hub.start();
    tablet.finds(hub.address());
    const Json said = answerOf("handover", {tablet.journal()});
    CHECK(said["handed_over"] == left);
    CHECK(said["waiting"] == 0);
    CHECK(said["files_waiting"] == 0);
    CHECK(said["receipt"] != atFirst["receipt"]);
    CHECK(tablet.exported() == before); // the tablet keeps what it has
    CHECK_THAT(hub.run("verify"), Catch::Contains("6 files"));
    CHECK(hub.end(SIGTERM) == 0);
    const std::string log = hub.said();
    CHECK(log.find("/v1/messages") < log.find("/v1/files")); // what was written goes first
    const auto site = handover::readHub(tablet.hubFile()).value();
    const bool isSame = heldBy(hub, site->site.id) == tablet.entries();
    CHECK(isSame);
}

namespace {

/// Starts a handover of `journal` and kills it after so long; whether it was still at work.
bool wasKilledAfter(std::chrono::milliseconds time, const std::string& journal)
{
    const pid_t child = ::fork();
    REQUIRE(child >= 0);
    if (child == 0) {
        const int nowhere = ::open("/dev/null", O_WRONLY);
        ::dup2(nowhere, STDOUT_FILENO);
        ::dup2(nowhere, STDERR_FILENO);
        ::execl(LOOPSIDE_CLI, LOOPSIDE_CLI, "handover", journal.c_str(), nullptr);
        ::_exit(127);
    }
    std::this_thread::sleep_for(time);
    ::kill(child, SIGKILL);
    int status = 0;
    REQUIRE(::waitpid(child, &status, 0) == child);
    return WIFSIGNALED(status);
}

/// Kills ever later handovers, until one is through before it is killed; how many were killed.
int killsUntilThrough(Tablet& tablet)
{
    constexpr std::chrono::milliseconds step(15);
    constexpr int most = 400;
    int kills = 0;
    while (kills < most && wasKilledAfter(step * (kills + 1), tablet.journal())) {
        ++kills;
        tablet.note(2); // the shift goes on
    }
    return kills;
}

} // namespace

TEST_CASE("a tablet that is killed while it hands over, again and again, loses nothing and doubles nothing")
{
    HubProgram hub;
    hub.start();
    Tablet tablet;
    tablet.note(1);
    REQUIRE(tablet.enrol(hub.address(), hub.code()).exitCode == 0);
    tablet.note(many);
    tablet.picture("a picture of gauge 2");
    tablet.picture("a picture of gauge 3");
    const int kills = killsUntilThrough(tablet);
    CAPTURE(kills);
    CHECK(kills >= 5);
    const Json said = answerOf("handover", {tablet.journal()});
    CHECK(said["waiting"] == 0);
    CHECK(said["files_waiting"] == 0);
    CHECK(said["there"] == tablet.size());
    CHECK_THAT(hub.run("verify"), Catch::Contains("2 files"));
    CHECK(hub.end(SIGTERM) == 0);
    const auto site = handover::readHub(tablet.hubFile()).value();
    const bool isSame = heldBy(hub, site->site.id) == tablet.entries();
    CHECK(isSame);
}

TEST_CASE("a hub whose disk is full says so, everything stays, and the next handover goes on by itself")
{
    HubProgram hub;
    hub.start();
    Tablet tablet;
    tablet.note(2);
    REQUIRE(tablet.enrol(hub.address(), hub.code()).exitCode == 0);
    tablet.note(many);
    const std::string before = tablet.exported();
    hub.roomForFiles(32'768);
    const Ran full = tablet.tell({"--json"});
    tablet.isLeft(full, before, "handover.hub-full");
    CHECK_THAT(full.err, Catch::Contains("its disk is full or its database is away"));
    CHECK(Json::parse(full.out)["there"] == 4);
    hub.roomForFiles({});
    const Json said = answerOf("handover", {tablet.journal()});
    CHECK(said["waiting"] == 0);
    CHECK(said["there"] == tablet.size());
    CHECK(tablet.exported() == before);
    CHECK(hub.end(SIGTERM) == 0);
    const auto site = handover::readHub(tablet.hubFile()).value();
    const bool isSame = heldBy(hub, site->site.id) == tablet.entries();
    CHECK(isSame);
}

TEST_CASE("while a hub's PostgreSQL is away everything stays, and the next handover goes on by itself")
{
    PostgresServer server;
    server.start();
    HubProgram hub({{"LOOPSIDE_HUB_DATABASE", server.connection()}});
    hub.start();
    Tablet tablet;
    tablet.note(2);
    REQUIRE(tablet.enrol(hub.address(), hub.code()).exitCode == 0);
    tablet.note(many);
    const std::string before = tablet.exported();
    server.stop();
    for (int tries = 0; tries < 3; ++tries) {
        const Ran away = tablet.tell({"--json"});
        tablet.isLeft(away, before, "handover.hub-full");
        CHECK_THAT(away.err, Catch::Contains("its disk is full or its database is away"));
    }
    server.start();
    const Json said = answerOf("handover", {tablet.journal()});
    CHECK(said["waiting"] == 0);
    CHECK(said["there"] == tablet.size());
    CHECK(tablet.exported() == before);
}

TEST_CASE("two hubs before one database are one to a tablet, whichever answers it")
{
    PostgresServer server;
    server.start();
    const Variables variables = {{"LOOPSIDE_HUB_DATABASE", server.connection()}};
    HubProgram one(variables);
    one.start();
    HubProgram other(variables); // with the same key and certificate, as docs/hub.md says
    std::filesystem::copy(one.folder(), other.folder(), std::filesystem::copy_options::recursive);
    other.start();
    Tablet tablet;
    tablet.note(3);
    REQUIRE(tablet.enrol(one.address(), one.code()).exitCode == 0);
    const std::array<const HubProgram*, 4> turns = {&other, &one, &other, &one};
    for (const HubProgram* hub : turns) {
        tablet.note(many / 4);
        tablet.finds(hub->address());
        const Json said = answerOf("handover", {tablet.journal()});
        CHECK(said["handed_over"] == many / 4 + 1); // and that the tablet began anew
        CHECK(said["there"] == tablet.size());
    }
    // a tablet enrolled at one of them is taken by both, whichever gave the code
    Tablet second;
    second.note(1);
    REQUIRE(second.enrol(other.address(), one.code()).exitCode == 0);
    second.finds(one.address());
    CHECK(answerOf("handover", {second.journal()})["waiting"] == 0);
    CHECK(one.end(SIGTERM) == 0);
    tablet.finds(other.address());
    CHECK(answerOf("handover", {tablet.journal()})["there"] == tablet.size());
    CHECK_THAT(other.run("verify"), Catch::Contains("entries"));
}

TEST_CASE("a handover needs the journal and the key that are there, and nobody else who writes")
{
    Tablet tablet;
    const Ran nothing = tablet.tell();
    CHECK(nothing.exitCode == 1);
    CHECK_THAT(nothing.err, Catch::Contains("is not there"));
    CHECK_FALSE(std::filesystem::exists(tablet.journal()));
    tablet.note(1);
    const Ran keyless = tablet.tell({"--key", tablet.journal() + ".key"});
    CHECK(keyless.exitCode == 1);
    CHECK_THAT(keyless.err, Catch::Contains("is not there"));
    CHECK_FALSE(std::filesystem::exists(tablet.journal() + ".key"));
    const auto lock = store::InstanceLock::take(tablet.journal()); // as the app does while it is open
    REQUIRE(lock);
    CHECK(tablet.tell().exitCode == 1);
}
