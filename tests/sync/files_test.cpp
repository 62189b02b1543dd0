// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "sync/files.h"

#include "ledger/attached.h"

using namespace loopside;
using namespace loopside::test;
using sync::FileList;
using sync::FilePlace;

namespace {

const FilePlace place = {Recorder::idOf(0xC0, 1), 12};

} // namespace

TEST_CASE("a list of files is read as it was written, and nothing else is one")
{
    const FileList files = {place, {Recorder::idOf(0xC0, 2), 1}};
    const std::string bytes = bytesOf(files);
    CHECK(sync::fileListFrom(bytes).value() == files);
    CHECK(sync::fileListFrom(bytesOf(FileList{})).value().empty());
    CHECK(sync::fileListFrom(bytesOf(FileList(sync::filesListedMost, place))));
    CHECK(sync::fileListFrom(bytesOf(FileList(sync::filesListedMost + 1, place))).error().code == Errc::Malformed);
    CHECK(sync::fileListFrom("").error().code == Errc::Malformed);
    CHECK(sync::fileListFrom(bytes.substr(0, bytes.size() - 3)).error().code == Errc::Malformed);
    CHECK(sync::fileListFrom(R"({"loopside_files":2,"files":[]})").error().code == Errc::Incompatible);
    CHECK(sync::fileListFrom(R"({"loopside_files":1,"files":[{"chain":"x","sequence":1}]})").error().code
          == Errc::Malformed);
}

TEST_CASE("a path names the place of one entry, in one way")
{
    CHECK(sync::pathOf(place) == "/v1/files/" + toText(place.chain) + "/12");
    CHECK(sync::filePlaceIn(sync::pathOf(place)) == place);
    const std::string chain = toText(place.chain);
    const std::vector<std::string> others = {"/v1/files",
                                             "/v1/files/",
                                             "/v1/files/" + chain,
                                             "/v1/files/" + chain + "/",
                                             "/v1/files/" + chain + "/012",
                                             "/v1/files/" + chain + "/12x",
                                             "/v1/files/" + chain + "/12?a",
                                             "/v1/files/xy/12",
                                             "/v1/filesx" + chain + "/12",
                                             "/v1/files/" + chain + "/99999999999999999999"};
    for (const std::string& other : others) {
        INFO(other);
        CHECK_FALSE(sync::filePlaceIn(other));
    }
}

TEST_CASE("only the file that an entry names may be kept for it")
{
    Recorder recorder(1);
    const auto chain = recorder.chainOf(1);
    const std::string file = fileOf("a picture");
    const ledger::Entry entry = sealedBy(recorder, added(file));
    const ledger::Entry gone = sealedBy(recorder, withdrawn(entry.header.id));
    CHECK(sync::fileNamedBy(entry) == toHex(ledger::sha256(file)));
    CHECK_FALSE(sync::fileNamedBy(gone));
    CHECK(sync::withdrawnBy(gone) == entry.header.id);
    CHECK_FALSE(sync::withdrawnBy(entry));
    CHECK(sync::mayKeep(entry, file));
    CHECK(sync::mayKeep(entry, fileOf("another picture")).error().code == Errc::Corrupt);
    CHECK(sync::mayKeep(entry, "").error().code == Errc::Corrupt);
    CHECK(sync::mayKeep(chain.back(), file).error().code == Errc::Conflict);
    CHECK(sync::mayKeep(entry, std::string(sync::fileBytesMax + 1, 'x')).error().code == Errc::OutOfRange);
    ledger::Entry unreadable = entry;
    unreadable.body = "{";
    CHECK(sync::mayKeep(unreadable, file).error().code == Errc::Conflict);
}
