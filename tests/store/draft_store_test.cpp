// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "store/draft_store.h"

#include "store/faulty_disk.h"
#include "store/files.h"
#include "store/raw_database.h"
#include "store/temp_folder.h"

#include <catch2/catch.hpp>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

#include <array>
#include <csignal>

using namespace loopside;
using namespace loopside::test;
using loopside::store::DraftStore;

using Drafts = std::map<std::string, std::string>;

namespace {

const Id runOne = Recorder::idOf(0xA0, 1);
const Id runTwo = Recorder::idOf(0xA0, 2);

std::unique_ptr<DraftStore> openedDrafts(const std::string& path)
{
    auto opened = DraftStore::open(path);
    INFO((opened ? std::string() : opened.error().sentence));
    REQUIRE(opened);
    return std::move(*opened);
}

/// Makes a draft file that holds one field of one run, and closes it.
void makeDrafts(const std::string& path)
{
    REQUIRE(openedDrafts(path)->put(runOne, "G1", "38.5"));
}

enum class Acknowledges
{
    AfterPutting,
    BeforePutting, ///< The fault to be found.
};

/// What the killed process does: types one number after the other until it dies.
[[noreturn]] void typeOn(const std::string& path, Acknowledges when, int pipe)
{
    auto drafts = DraftStore::open(path);
    if (!drafts) {
        ::_exit(2);
    }
    for (std::uint64_t number = 1;; ++number) {
        if (when == Acknowledges::BeforePutting) {
            static_cast<void>(!::write(pipe, &number, sizeof(number)));
            ::raise(SIGKILL);
        }
        if (!(*drafts)->put(runOne, "G1", std::to_string(number))) {
            ::_exit(3);
        }
        if (::write(pipe, &number, sizeof(number)) != sizeof(number)) {
            ::_exit(4);
        }
    }
}

/// Lets another process type and kills it after `heardFirst` acknowledgements; returns the last number it acknowledged.
std::uint64_t killWhileTyping(const std::string& path, Acknowledges when, std::uint64_t heardFirst)
{
    std::array<int, 2> ends = {};
    REQUIRE(::pipe(ends.data()) == 0);
    const pid_t child = ::fork();
    REQUIRE(child >= 0);
    if (child == 0) {
        ::close(ends[0]);
        typeOn(path, when, ends[1]);
    }
    ::close(ends[1]);
    std::uint64_t last = 0;
    const auto hear = [&] { return ::read(ends[0], &last, sizeof(last)) == sizeof(last); };
    for (std::uint64_t i = 0; i < heardFirst && hear(); ++i) {
    }
    ::kill(child, SIGKILL);
    while (hear()) {
    }
    ::close(ends[0]);
    int status = 0;
    REQUIRE(::waitpid(child, &status, 0) == child);
    REQUIRE(WIFSIGNALED(status));
    return last;
}

/// The number that stands after the next start; 0 if none does.
std::uint64_t numberThere(const std::string& path)
{
    const Drafts drafts = openedDrafts(path)->of(runOne).value();
    return drafts.empty() ? 0 : std::stoull(drafts.at("G1"));
}

} // namespace

TEST_CASE("a draft is there at the next start, under its run and field alone")
{
    const TempFolder folder;
    const std::string path = folder.file("drafts.db");
    {
        const auto drafts = openedDrafts(path);
        REQUIRE(drafts->put(runOne, "G1", "3"));
        REQUIRE(drafts->put(runOne, "G1", "38."));
        REQUIRE(drafts->put(runOne, "G2", ""));
        REQUIRE(drafts->put(runTwo, "oil", std::string("4\0°", 4)));
    }
    const auto drafts = openedDrafts(path);
    CHECK(drafts->of(runOne).value() == Drafts{{"G1", "38."}, {"G2", ""}});
    CHECK(drafts->of(runTwo).value() == Drafts{{"oil", std::string("4\0°", 4)}});
    CHECK(drafts->of(Id()).value().empty());
    CHECK(drafts->notice().empty());
}

TEST_CASE("clearing a run leaves the drafts of the others")
{
    const TempFolder folder;
    const std::string path = folder.file("drafts.db");
    {
        const auto drafts = openedDrafts(path);
        REQUIRE(drafts->put(runOne, "G1", "38.5"));
        REQUIRE(drafts->put(runTwo, "G1", "12"));
        REQUIRE(drafts->clear(runOne));
        CHECK(drafts->of(runOne).value().empty());
    }
    const auto drafts = openedDrafts(path);
    CHECK(drafts->of(runOne).value().empty());
    CHECK(drafts->of(runTwo).value() == Drafts{{"G1", "12"}});
}

TEST_CASE("a draft file is open to its owner alone")
{
    const TempFolder folder;
    const std::string path = folder.file("drafts.db");
    const auto drafts = openedDrafts(path);
    REQUIRE(drafts->put(runOne, "G1", "38.5"));
    for (const auto& file : std::filesystem::directory_iterator(folder.path())) {
        CAPTURE(file.path());
        struct stat status = {};
        REQUIRE(::stat(file.path().c_str(), &status) == 0);
        CHECK((status.st_mode & 0777U) == 0600);
    }
}

TEST_CASE("an acknowledged draft is there after the program was killed, 25 times")
{
    const TempFolder folder;
    std::uint64_t inAll = 0;
    for (std::uint64_t round = 0; round < 25; ++round) {
        CAPTURE(round);
        const std::string path = folder.file("drafts" + std::to_string(round % 5) + ".db");
        const std::uint64_t acknowledged = killWhileTyping(path, Acknowledges::AfterPutting, round);
        CHECK(numberThere(path) >= acknowledged);
        inAll += acknowledged;
    }
    CHECK(inAll > 25 * 24 / 2 - 1); // else nothing was tried
}

TEST_CASE("a draft acknowledged before it was kept is found missing")
{
    const TempFolder folder;
    const std::string path = folder.file("drafts.db");
    const std::uint64_t acknowledged = killWhileTyping(path, Acknowledges::BeforePutting, 1);
    CHECK(acknowledged == 1);
    CHECK(numberThere(path) == 0);
}

TEST_CASE("a draft is there after a power cut in the instruction after it was acknowledged")
{
    const TempFolder folder;
    const std::string path = folder.file("drafts.db");
    FaultyDisk disk;
    const auto drafts = openedDrafts(path);
    for (const std::string text : {"3", "38", "38.", "38.5", ""}) {
        CAPTURE(text);
        REQUIRE(drafts->put(runOne, "G1", text));
        const TempFolder afterwards;
        for (const auto& [file, content] : disk.synced()) {
            if (file == path || file == path + "-wal") {
                write(afterwards.file(std::filesystem::path(file).filename()), content);
            }
        }
        CHECK(openedDrafts(afterwards.file("drafts.db"))->of(runOne).value() == Drafts{{"G1", text}});
    }
}

TEST_CASE("on a full disk a draft is refused and the one before stands")
{
    const TempFolder folder;
    const std::string path = folder.file("drafts.db");
    FaultyDisk disk;
    const auto drafts = openedDrafts(path);
    REQUIRE(drafts->put(runOne, "G1", "38"));
    disk.failFrom(1, SQLITE_FULL);
    REQUIRE(drafts->put(runOne, "G1", "38")); // nothing to write
    CHECK_FALSE(disk.hasFailed());
    const Done refused = drafts->put(runOne, "G1", "38.5");
    REQUIRE_FALSE(refused);
    CHECK(refused.error().code == Errc::Io);
    CHECK(drafts->of(runOne).value() == Drafts{{"G1", "38"}});
    disk.work();
    CHECK(drafts->put(runOne, "G1", "38.5"));
}

TEST_CASE("what is no draft file is set aside with a notice and a new one is begun")
{
    const TempFolder folder;
    const std::string path = folder.file("drafts.db");
    const std::string kind = GENERATE(as<std::string>(), "text", "cut", "other", "newer", "journal", "folder");
    CAPTURE(kind);
    if (kind == "text") {
        write(path, "not a database, and longer than the header of one would be: " + std::string(100, '.'));
    } else if (kind == "folder") {
        std::filesystem::create_directory(path);
    } else if (kind == "journal") {
        openedJournal(path);
    } else {
        makeDrafts(path);
        if (kind == "cut") {
            write(path, contentOf(path).substr(0, 5000));
        } else {
            RawDatabase(path).run(kind == "newer" ? "PRAGMA user_version = 2" : "PRAGMA application_id = 7");
        }
    }
    write(path + ".1", "set aside before");
    const std::string before = kind == "folder" ? "" : contentOf(path);

    const auto drafts = openedDrafts(path);
    CHECK_THAT(drafts->notice(), Catch::Contains(path + ".2"));
    CHECK(std::filesystem::exists(path + ".2"));
    CHECK(std::filesystem::is_directory(path + ".2") == (kind == "folder"));
    CHECK((kind == "folder" || contentOf(path + ".2") == before));
    CHECK(contentOf(path + ".1") == "set aside before");
    CHECK(drafts->of(runOne).value().empty());
    CHECK(drafts->put(runOne, "G1", "38.5"));
    CHECK(openedDrafts(path)->notice().empty());
}

TEST_CASE("a damaged byte anywhere in a draft file never keeps the tablet from starting")
{
    const TempFolder folder;
    makeDrafts(folder.file("whole.db"));
    const std::string whole = contentOf(folder.file("whole.db"));
    int setAside = 0;
    for (std::size_t at = 0; at < whole.size(); at += at < 120 ? 1 : 61) {
        CAPTURE(at);
        const TempFolder own;
        const std::string path = own.file("drafts.db");
        std::string damaged = whole;
        damaged[at] = static_cast<char>(damaged[at] ^ 0x10);
        write(path, damaged);
        const auto drafts = openedDrafts(path);
        if (!drafts->notice().empty()) {
            ++setAside;
            CHECK(std::filesystem::exists(path + ".1"));
        }
        REQUIRE(drafts->put(runTwo, "G2", "7"));
        CHECK(drafts->of(runTwo).value() == Drafts{{"G2", "7"}});
    }
    CHECK(setAside > 20); // at least the 16 bytes of the mark and those of the application id were noticed
}

TEST_CASE("where no new draft file can be begun the old one stays where it was")
{
    const TempFolder folder;
    const std::string path = folder.file("drafts.db");
    write(path, std::string(8192, 'x'));
    FaultyDisk disk;
    disk.failFrom(1, SQLITE_FULL);
    const auto refused = DraftStore::open(path);
    REQUIRE_FALSE(refused);
    CHECK(refused.error().code == Errc::Io);
    CHECK(contentOf(path) == std::string(8192, 'x'));
    CHECK_FALSE(std::filesystem::exists(path + ".1"));
    CHECK_FALSE(DraftStore::open(folder.file("none/drafts.db")));
}

TEST_CASE("drafts that another program keeps are left to it")
{
    const TempFolder folder;
    const std::string path = folder.file("drafts.db");
    makeDrafts(path);
    RawDatabase other(path);
    other.run("PRAGMA locking_mode = EXCLUSIVE; BEGIN IMMEDIATE; UPDATE drafts SET text = '1'");
    const auto refused = DraftStore::open(path);
    REQUIRE_FALSE(refused);
    CHECK(refused.error().code == Errc::Unavailable);
    CHECK_FALSE(std::filesystem::exists(path + ".1"));
}
