// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// Notes and attachments of a journal, by the program itself: listed, checked, carried to where the entries go.

#include "run/notes.h"

#include "cli/program.h"
#include "ledger/logbook.h"
#include "store/attachment_folder.h"
#include "store/sqlite_journal.h"
#include "store/temp_folder.h"
#include "story/story.h"

#include <catch2/catch.hpp>

#include <filesystem>
#include <fstream>
#include <iterator>

using namespace loopside;
using namespace loopside::test;

namespace {

std::string contentOf(const std::string& path)
{
    std::ifstream file(path, std::ios::binary);
    return {std::istreambuf_iterator<char>(file), std::istreambuf_iterator<char>()};
}

class StillClock final : public Clock
{
public:
    Stamp now() override { return {}; }
};

/// A journal with a note, a point that was left out, and two pictures, one of them withdrawn.
struct Kept
{
    explicit Kept(const std::string& path) : attachments{store::AttachmentFolder::besideJournal(path)}
    {
        const auto story = story::parseStory(
            contentOf(std::string(LOOPSIDE_SOURCE_DIR) + "/tests/stories/f04_hungry_stage.json"));
        REQUIRE(story);
        const auto journal = store::SqliteJournal::open(path);
        REQUIRE(journal);
        StillClock clock;
        SeededRandom random(1);
        auto logbook = ledger::Logbook::open(**journal, clock, random);
        REQUIRE(logbook);
        const ledger::Hand hand{.device = {.bytes = {1}}, .person = {.bytes = {2}}};
        REQUIRE(logbook->enrol(hand.device, ledger::DeviceKey::fromSeed({})));
        const Id run = logbook->newId();
        REQUIRE(logbook->submit(run::OpenRun{run, story->setup}, hand));
        const auto say = [&](run::Said what) {
            const auto said = logbook->submit(run::Say{run, std::move(what)}, hand);
            REQUIRE(said);
            return said->front().header.id;
        };
        say(run::CheckAnswered{"setup-vents", "skipped", "no vent on it"});
        say(run::Noted{"the needle is bent"});
        picture = attachments.keep("a picture", {1}).value();
        say(run::AttachmentAdded{run::AttachmentKind::Photo, {}, picture, 9, "image/jpeg", "the dial"});
        withdrawn = attachments.keep("a face", {2}).value();
        const Id entry = say(run::AttachmentAdded{run::AttachmentKind::Photo, {}, withdrawn, 6, "image/jpeg", {}});
        say(run::AttachmentWithdrawn{entry, "a face is on it"});
    }

    store::AttachmentFolder attachments;
    std::string picture;
    std::string withdrawn;
};

} // namespace

TEST_CASE("the notes of a journal are told in words, and its pictures saved as ordinary files")
{
    const TempFolder folder;
    const Kept kept(folder.file("a.db"));
    const Ran told = runProgram({"notes", folder.file("a.db")});
    CHECK(told.exitCode == 0);
    CHECK_THAT(told.out,
               Catch::Contains("Tank vents open, nothing shut off: left out: no vent on it")
                   && Catch::Contains("Note: the needle is bent") && Catch::Contains("Picture, 1\u00a0kB: the dial")
                   && Catch::Contains("Picture, withdrawn: a face is on it"));
    CHECK_THAT(runProgram({"notes", folder.file("a.db"), "--language", "de"}).out,
               Catch::Contains("zurückgezogen: a face is on it"));
    std::filesystem::create_directory(folder.file("out"));
    CHECK(runProgram({"notes", folder.file("a.db"), "--to", folder.file("out")}).exitCode == 0);
    CHECK(contentOf(folder.file("out") + "/" + kept.picture.substr(0, 16) + ".jpg") == "a picture");
    CHECK(std::distance(std::filesystem::directory_iterator(folder.file("out")), {}) == 1); // the withdrawn one is not
}

TEST_CASE("verify tells what is missing or altered, and what lies about")
{
    const TempFolder folder;
    const Kept kept(folder.file("a.db"));
    const Ran whole = runProgram({"verify", folder.file("a.db")});
    CHECK(whole.exitCode == 0);
    CHECK_THAT(whole.out,
               Catch::Contains("1 attachments are as they were kept")
                   && Catch::Contains(kept.withdrawn + " was withdrawn and is still there"));
    std::ofstream(kept.attachments.path() + "/" + kept.picture, std::ios::app) << "more";
    const Ran altered = runProgram({"verify", folder.file("a.db")});
    CHECK(altered.exitCode == 1);
    CHECK_THAT(altered.out, Catch::Contains("was altered since it was kept"));
    std::filesystem::remove(kept.attachments.path() + "/" + kept.picture);
    const Ran missing = runProgram({"verify", "--json", folder.file("a.db")});
    CHECK(missing.exitCode == 1);
    CHECK_THAT(missing.out, Catch::Contains("is missing"));
}

TEST_CASE("backup, restore, export and import carry the pictures, but none that was withdrawn")
{
    const TempFolder folder;
    const Kept kept(folder.file("a.db"));
    const auto pictureOf = [&](const store::AttachmentFolder& in) { return in.read(kept.picture).value_or("none"); };
    CHECK_THAT(runProgram({"backup", folder.file("a.db"), "--to", folder.file("backups")}).out,
               Catch::Contains("1 attachments"));
    const auto backups = store::AttachmentFolder::inBackups(folder.file("backups"));
    CHECK(pictureOf(backups) == "a picture");
    CHECK(backups.read(kept.withdrawn).error().code == Errc::NotFound);

    CHECK_THAT(runProgram({"export", folder.file("a.db"), "--to", folder.file("a.jsonl")}).out,
               Catch::Contains("1 attachments"));
    CHECK_THAT(runProgram({"import", folder.file("a.jsonl"), "--journal", folder.file("b.db")}).out,
               Catch::Contains("1 attachments"));
    CHECK(pictureOf(store::AttachmentFolder::besideJournal(folder.file("b.db"))) == "a picture");

    std::filesystem::remove_all(kept.attachments.path());
    const Ran restored = runProgram({"restore", folder.file("a.db"), "--backups", folder.file("backups")});
    CHECK(restored.exitCode == 0);
    CHECK_THAT(restored.out, Catch::Contains("1 attachments brought back"));
    CHECK(pictureOf(kept.attachments) == "a picture");
    CHECK(runProgram({"verify", folder.file("a.db")}).exitCode == 0);
}
