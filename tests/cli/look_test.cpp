// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// What the verbs do with a journal that is damaged: those that read change nothing of it, those that write do what a
// start of the tablet does.

#include "cli/program.h"
#include "store/backup.h"
#include "store/files.h"
#include "store/instance_lock.h"
#include "store/key_file.h"
#include "store/recovery.h"
#include "store/temp_folder.h"

#include <catch2/catch.hpp>

using namespace loopside;
using namespace loopside::test;
using Catch::Contains;
using Arguments = std::vector<std::string>;

namespace {

constexpr std::size_t frameBytes = 24 + 4096;
constexpr std::size_t headerBytes = 32;

const std::string story = std::string(LOOPSIDE_SOURCE_DIR) + "/tests/stories/f04_hungry_stage.json";

/// The files of a journal.
struct Bytes
{
    std::string file;
    std::string log;
    std::string end;

    friend bool operator==(const Bytes&, const Bytes&) = default;
};

Bytes bytesOf(const std::string& path)
{
    return {contentOf(path), contentOf(path + "-wal"), contentOf(path + ".end")};
}

void put(const std::string& path, const Bytes& bytes)
{
    write(path, bytes.file);
    write(path + "-wal", bytes.log);
    write(path + ".end", bytes.end);
}

/// A journal as a kill leaves it: ten acknowledged entries, all of them in the log.
Bytes asKilled(const std::string& path)
{
    const auto journal = openedJournal(path);
    Recorder recorder(1);
    REQUIRE(journal->append(recorder.open()));
    for (int i = 0; i < 9; ++i) {
        REQUIRE(journal->append(recorder.notes({"note " + std::to_string(i)})));
    }
    return bytesOf(path);
}

/// A byte of the log turned, in a frame behind which whole transactions stand.
Bytes withLogSpoilt(Bytes bytes)
{
    const std::size_t frames = (bytes.log.size() - headerBytes) / frameBytes;
    REQUIRE(frames > 20);
    char& byte = bytes.log[headerBytes + frames / 2 * frameBytes + 100];
    byte = static_cast<char>(byte ^ 1);
    return bytes;
}

/// The folder of a tablet, with the journal `bytes` in it.
class Spoilt
{
public:
    explicit Spoilt(const Bytes& bytes) : bytes_{bytes} { put(journal, bytes); }

    explicit Spoilt(Bytes (*spoil)(Bytes)) : Spoilt(spoil(asKilled(TempFolder().file("journal.db")))) {}

    [[nodiscard]] bool isAsItWas() const { return bytesOf(journal) == bytes_; }

    /// How many entries are there after the next start, and what it tells.
    [[nodiscard]] std::pair<std::size_t, std::string> started() const
    {
        const auto opened = store::openOrRecover(journal, folder.file("backups"), 0);
        REQUIRE(opened);
        return {allOf(*opened->journal).size(), opened->notice().id};
    }

    TempFolder folder;
    const std::string journal = folder.file("journal.sqlite");

private:
    Bytes bytes_;
};

/// All verbs that only read, each with what it needs.
std::vector<Arguments> readingVerbs(const TempFolder& folder, const std::string& journal)
{
    const std::string key = folder.file("device.key");
    REQUIRE(store::loadOrCreateKey(key));
    return {{"verify", journal},
            {"verify", "--json", journal},
            {"record", journal},
            {"notes", journal},
            {"tank", journal},
            {"stock", journal},
            {"export", journal},
            {"export", journal, "--to", folder.file("out.jsonl")},
            {"backup", journal, "--to", folder.file("out")},
            {"bundle", "export", journal, "--to", folder.file("out.bundle"), "--key", key}};
}

Bytes endCutOff(Bytes bytes)
{
    bytes.log.resize(headerBytes + (bytes.log.size() - headerBytes) / frameBytes / 2 * frameBytes);
    return bytes;
}

/// What a power cut tears: the last write, of which the witness knows nothing.
Bytes torn(Bytes bytes)
{
    bytes.log.resize(bytes.log.size() - 1000);
    bytes.end.clear();
    return bytes;
}

} // namespace

TEST_CASE("verbs that read tell of a log that is spoilt in the middle, and leave everything to the next start")
{
    const Spoilt spoilt(withLogSpoilt);
    for (const Arguments& verb : readingVerbs(spoilt.folder, spoilt.journal)) {
        CAPTURE(verb);
        const Ran ran = runProgram(verb);
        CHECK(ran.exitCode == 1);
        CHECK_THAT(ran.out + ran.err, Contains("its log is spoilt in the middle"));
        REQUIRE(spoilt.isAsItWas());
    }
    CHECK(spoilt.started() == std::pair(std::size_t{10}, std::string("store-recovered")));
}

TEST_CASE("verbs that read tell of an end that was cut off")
{
    const Spoilt spoilt(endCutOff);
    for (const Arguments& verb : readingVerbs(spoilt.folder, spoilt.journal)) {
        CAPTURE(verb);
        const Ran ran = runProgram(verb);
        CHECK(ran.exitCode == 1);
        CHECK_THAT(ran.out + ran.err, Contains("had been logged, and is not there"));
        REQUIRE(spoilt.isAsItWas());
    }
    CHECK(spoilt.started().second == "store-recovered");
}

TEST_CASE("a torn write is still there to be counted after verbs that read")
{
    const Spoilt spoilt(torn);
    for (const Arguments& verb : readingVerbs(spoilt.folder, spoilt.journal)) {
        CAPTURE(verb);
        CHECK(runProgram(verb).exitCode == 0);
        REQUIRE(spoilt.isAsItWas());
    }
    CHECK(answerOf("verify", {spoilt.journal})["torn_write_waits"] == true);
    CHECK_THAT(runProgram({"verify", spoilt.journal}).out, Contains("stands torn behind the others"));
    CHECK(spoilt.started() == std::pair(std::size_t{9}, std::string("store-torn")));
}

TEST_CASE("a file that was kept as evidence is the same after a look at it")
{
    const TempFolder folder;
    const Bytes spoilt = withLogSpoilt(asKilled(folder.file("journal.db")));
    const std::string kept = folder.file("other.db.damaged.1");
    put(kept, spoilt);
    CHECK(runProgram({"verify", kept}).exitCode == 1);
    CHECK(bytesOf(kept) == spoilt);
}

TEST_CASE("a look at a journal that was closed well leaves nothing behind")
{
    const TempFolder folder;
    const std::string path = folder.file("journal.db");
    makeJournal(path, Recorder(1).chainOf(5));
    const Bytes before = bytesOf(path);
    REQUIRE(runProgram({"verify", path}).exitCode == 0);
    CHECK(bytesOf(path) == before);
    CHECK_FALSE(std::filesystem::exists(path + "-wal"));
    CHECK_FALSE(std::filesystem::exists(path + "-shm"));
    CHECK_FALSE(std::filesystem::exists(path + ".lock"));
}

TEST_CASE("a look at a journal of an earlier layout leaves it there")
{
    const int layout = GENERATE(1, 2);
    const TempFolder folder;
    const std::string path = folder.file("journal.db");
    std::filesystem::copy_file(
        std::string(LOOPSIDE_SOURCE_DIR) + "/tests/store/data/journal_v" + std::to_string(layout) + ".sqlite", path);
    const Bytes before = bytesOf(path);
    CHECK(answerOf("verify", {path})["entries"] == 28);
    CHECK(linesOf(runProgram({"record", path}).out).size() == 28);
    CHECK(bytesOf(path) == before);
}

TEST_CASE("verbs that write put a damaged journal together first, and tell it")
{
    const Spoilt spoilt(withLogSpoilt);
    const auto write = GENERATE(0, 1, 2);
    Arguments verb;
    if (write == 0) {
        verb = {"replay", story, "--journal", spoilt.journal};
    } else if (write == 1) {
        const std::string other = spoilt.folder.file("other.db");
        REQUIRE(runProgram({"replay", story, "--journal", other}).exitCode == 0);
        const std::string key = spoilt.folder.file("other.key");
        REQUIRE(store::loadOrCreateKey(key));
        const std::string bundle = spoilt.folder.file("other.bundle");
        REQUIRE(runProgram({"bundle", "export", other, "--to", bundle, "--key", key}).exitCode == 0);
        verb = {"bundle", "import", bundle, "--journal", spoilt.journal};
    } else {
        const std::string table = spoilt.folder.file("tanks.csv");
        test::write(table, "name,volume_l\nVacuum pump,60\n");
        const std::string site = std::string(LOOPSIDE_SOURCE_DIR) + "/assets/demo/site.json";
        verb = {"take-records", table,
                "--kind",       "tanks",
                "--site",       site,
                "--data",       spoilt.folder.path().string(),
                "--person",     "018f3b5e-0001-7000-8000-000000000001"};
    }
    const Bytes before = bytesOf(spoilt.journal);
    const Ran ran = runProgram(verb);
    CAPTURE(verb, ran.err);
    CHECK(ran.exitCode == 0);
    CHECK_THAT(ran.err, Contains("its log is spoilt in the middle") && Contains("10 entries"));
    CHECK(contentOf(spoilt.journal + ".damaged.1") == before.file);
    CHECK(contentOf(spoilt.journal + ".damaged.1-wal") == before.log);
    CHECK(linesOf(runProgram({"record", spoilt.journal}).out).size() > 10);
    CHECK_THAT(runProgram({"verify", spoilt.journal}).out, Contains("made anew on"));
    CHECK(runProgram({"verify", spoilt.journal}).exitCode == 0);
}

TEST_CASE("a verb that writes drops and counts a torn write, and tells it")
{
    const Spoilt spoilt(torn);
    const Ran ran = runProgram({"replay", story, "--journal", spoilt.journal});
    CHECK(ran.exitCode == 0);
    CHECK_THAT(ran.err, Contains("last write was dropped"));
    CHECK(answerOf("verify", {spoilt.journal})["torn_writes"] == 1);
}

TEST_CASE("no verb writes beside a tablet that works, and what one reads takes no part of its log for torn")
{
    const TempFolder folder;
    const std::string path = folder.file("journal.sqlite");
    const auto lock = store::InstanceLock::take(path);
    Recorder recorder(1);
    const auto tablet = openedJournal(path);
    REQUIRE(tablet->append(recorder.chainOf(3)));
    const Ran refused = runProgram({"replay", story, "--journal", path});
    CHECK(refused.exitCode == 1);
    CHECK_THAT(refused.err, Contains("open in another window"));
    const auto verbs = readingVerbs(folder, path);
    for (const Arguments& verb : verbs) {
        CAPTURE(verb);
        CHECK(runProgram(verb).exitCode == 0);
        REQUIRE(tablet->append(recorder.notes({"goes on"})));
    }
    CHECK(answerOf("verify", {path})["torn_write_waits"] == false);
    const Bytes left = bytesOf(path); // as a kill leaves it now
    const Spoilt killed(left);
    CHECK(killed.started() == std::pair(4 + verbs.size(), std::string()));
}

TEST_CASE("an older file in the place of a tablet's journal is told by what its backups hold")
{
    const TempFolder folder;
    const std::string path = folder.file("journal.sqlite");
    Recorder recorder(1);
    makeJournal(path, recorder.chainOf(3));
    const std::string older = contentOf(path);
    REQUIRE(openedJournal(path)->append(recorder.notes({"more"})));
    REQUIRE(store::backUp(*openedJournal(path), folder.file("backups"), 0));
    CHECK(runProgram({"verify", path}).exitCode == 0);
    write(path, older);
    std::filesystem::remove(path + ".end");
    const Ran found = runProgram({"verify", path});
    CHECK(found.exitCode == 1);
    CHECK_THAT(found.out, Contains("the backup of") && Contains("holds 5"));
}
