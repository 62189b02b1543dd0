// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "handover/files_away.h"

#include "ledger/attached.h"
#include "ledger/memory_journal.h"

#include <map>

using namespace loopside;
using namespace loopside::test;
using handover::FilesAway;
using sync::FileList;

namespace {

/// A tablet's journal with `count` pictures, one behind the other, and their files.
class Tablet
{
public:
    explicit Tablet(std::size_t count)
    {
        append(recorder_.chainOf(2));
        for (std::size_t i = 0; i < count; ++i) {
            add("picture " + std::to_string(i));
        }
    }

    void add(const std::string& content)
    {
        const std::string file = fileOf(content);
        const ledger::Entry entry = sealedBy(recorder_, added(file));
        append({entry});
        files[*sync::fileNamedBy(entry)] = file;
        places.push_back({entry.chain, entry.header.sequence});
    }

    [[nodiscard]] FilesAway away(ledger::Position done = 0)
    {
        return {journal,
                [this](const std::string& name) -> Result<std::string> {
                    const auto file = files.find(name);
                    return file == files.end() ? fail(Errc::NotFound, "not there") : Result<std::string>(file->second);
                },
                [this](const sync::FilePlace& place) { return place.sequence <= acknowledged; }, done};
    }

    void append(const std::vector<ledger::Entry>& entries) { REQUIRE(journal.append(entries)); }

    ledger::MemoryJournal journal;
    std::map<std::string, std::string> files;
    FileList places;
    std::uint64_t acknowledged = 1'000'000; ///< The hub has the entries up to this one.

private:
    Recorder recorder_{1};
};

} // namespace

TEST_CASE("a hub is offered the files of a journal and gets those that it wants, each once")
{
    Tablet tablet(3);
    FilesAway away = tablet.away();
    CHECK_FALSE(away.say()); // nothing was looked at
    CHECK(away.look().value());
    CHECK_FALSE(away.look().value());
    CHECK(away.waiting() == 3);
    CHECK(away.done() == 0);
    const auto offer = away.say();
    REQUIRE(offer);
    CHECK(offer->path == sync::filesPath);
    CHECK(sync::fileListFrom(offer->body).value() == tablet.places);
    CHECK(away.say()->body == offer->body); // no answer came: the same again
    CHECK(away.hear("nonsense").error().code == Errc::Malformed);
    REQUIRE(away.hear(bytesOf(FileList{tablet.places[2], tablet.places[0]})));
    CHECK(away.waiting() == 2);
    CHECK(away.say()->path == sync::pathOf(tablet.places[0]));
    CHECK(away.say()->body == fileOf("picture 0"));
    REQUIRE(away.hear(bytesOf(FileList{tablet.places[0]})));
    CHECK(away.say()->path == sync::pathOf(tablet.places[2]));
    CHECK(away.done() == 0);
    REQUIRE(away.hear(bytesOf(FileList{tablet.places[2]})));
    CHECK_FALSE(away.say());
    CHECK(away.done() == tablet.journal.last().value());

    tablet.add("later");
    FilesAway after = tablet.away(away.done());
    CHECK(after.look().value());
    CHECK(after.waiting() == 1);
}

TEST_CASE("a file that is not here, or that the hub cannot take, holds no other one up")
{
    Tablet tablet(3);
    FilesAway away = tablet.away();
    REQUIRE(away.look());
    tablet.files.erase(toHex(ledger::sha256(fileOf("picture 0"))));
    REQUIRE(away.say());
    REQUIRE(away.hear(bytesOf(tablet.places)));
    CHECK(away.say()->path == sync::pathOf(tablet.places[1]));
    away.passOver();
    CHECK(away.say()->path == sync::pathOf(tablet.places[2]));
    away.passOver();
    CHECK_FALSE(away.say());
    CHECK(away.done() == tablet.journal.last().value());
}

TEST_CASE("many files are offered in lists that a hub takes")
{
    Tablet tablet(sync::filesListedMost + 5);
    FilesAway away = tablet.away();
    REQUIRE(away.look());
    CHECK(sync::fileListFrom(away.say()->body)->size() == sync::filesListedMost);
    REQUIRE(away.hear(bytesOf(FileList{})));
    CHECK(away.waiting() == 5);
    CHECK(away.done() == 0);
    CHECK(sync::fileListFrom(away.say()->body)->size() == 5);
    REQUIRE(away.hear(bytesOf(FileList{})));
    CHECK_FALSE(away.say());
    CHECK(away.done() == tablet.journal.last().value());
}

TEST_CASE("a journal without files is gone through and done")
{
    Tablet tablet(0);
    FilesAway away = tablet.away();
    CHECK(away.look().value());
    CHECK_FALSE(away.say());
    CHECK(away.done() == tablet.journal.last().value());
}

TEST_CASE("a file is not offered before the hub has its entry, and is not forgotten meanwhile")
{
    Tablet tablet(3);
    FilesAway away = tablet.away();
    REQUIRE(away.look());
    tablet.acknowledged = tablet.places[0].sequence;
    CHECK(sync::fileListFrom(away.say()->body).value() == FileList{tablet.places[0]});
    REQUIRE(away.hear(bytesOf(FileList{})));
    CHECK_FALSE(away.say());
    CHECK(away.waiting() == 2);
    CHECK(away.done() == 0);
    tablet.acknowledged = tablet.places[2].sequence;
    CHECK(sync::fileListFrom(away.say()->body).value() == FileList{tablet.places[1], tablet.places[2]});
}
