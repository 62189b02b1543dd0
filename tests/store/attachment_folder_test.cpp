// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "store/attachment_folder.h"

#include "base/text.h"
#include "ledger/digest.h"
#include "ledger/some_setup.h"
#include "run/notes.h"
#include "store/crash_disk.h"
#include "store/files.h"
#include "store/temp_folder.h"

#include <catch2/catch.hpp>
#include <sys/stat.h>

#include <algorithm>

using namespace loopside;
using namespace loopside::test;
using store::AttachmentFolder;
using store::Salt;

namespace {

const std::string content(40'000, 'p');

Salt saltOf(std::uint8_t number)
{
    Salt salt = {};
    salt.fill(number);
    return salt;
}

/// A state with one run that has the attachments `hashes`, the ones of `withdrawn` withdrawn.
run::State stateWith(const std::vector<std::string>& hashes, const std::vector<std::string>& withdrawn = {})
{
    run::State state;
    std::uint8_t number = 0;
    const auto add = [&](const run::Event& event) {
        run::Header header;
        header.id.bytes[0] = ++number;
        header.sequence = number;
        header.run.bytes[0] = 1;
        state = run::apply(std::move(state), header, event);
        return header.id;
    };
    add(run::RunOpened{fullSetup()});
    for (const std::string& hash : hashes) {
        const Id entry = add(run::AttachmentAdded{run::AttachmentKind::Photo, {}, hash, 40'000, "image/jpeg", {}});
        if (std::ranges::count(withdrawn, hash) > 0) {
            add(run::AttachmentWithdrawn{entry, "wrong"});
        }
    }
    return state;
}

} // namespace

TEST_CASE("an attachment's file is named by the hash of its bytes, which are the salt and the content")
{
    const TempFolder folder;
    AttachmentFolder attachments(folder.file("journal.db.attachments"));
    const auto hash = attachments.keep(content, saltOf(7));
    REQUIRE(hash);
    const std::string path = folder.file("journal.db.attachments") + "/" + *hash;
    CHECK(contentOf(path) == std::string(32, '\7') + content);
    CHECK(*hash == toHex(ledger::sha256(contentOf(path))));
    CHECK(attachments.read(*hash).value() == content);
    struct stat status = {};
    REQUIRE(::stat(path.c_str(), &status) == 0);
    CHECK((status.st_mode & 0777U) == 0600);
    CHECK(attachments.keep(content, saltOf(8)).value() != *hash); // the same picture twice does not show as such
}

TEST_CASE("SHA-256 is that of FIPS 180-4")
{
    // the example "abc" of FIPS 180-4, from memory
    CHECK(toHex(ledger::sha256("abc")) == "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
}

TEST_CASE("nothing, and more than 300 kB, is refused")
{
    const TempFolder folder;
    AttachmentFolder attachments(folder.file("a"));
    CHECK(attachments.keep("", saltOf(1)).error().code == Errc::OutOfRange);
    CHECK(attachments.keep(std::string(300'001, 'x'), saltOf(1)).error().code == Errc::OutOfRange);
    CHECK(attachments.keep(std::string(300'000, 'x'), saltOf(1)));
    CHECK(attachments.hashes().value().size() == 1);
}

TEST_CASE("what was acknowledged survives a power cut at any later moment, and the nth call may fail for any n")
{
    int failures = 0;
    for (int n = 1; n < 30; ++n) {
        for (std::uint64_t seed = 1; seed <= 40; ++seed) {
            CAPTURE(n, seed);
            CrashDisk disk(seed);
            AttachmentFolder attachments("folder/a", disk);
            const auto first = attachments.keep(content, saltOf(1));
            REQUIRE(first);
            disk.failFrom(n);
            const auto second = attachments.keep(content, saltOf(2));
            disk.work();
            failures += second ? 0 : 1;
            disk.cutPower();
            CHECK(attachments.read(*first).value_or("") == content);
            if (second) { // only then does an entry point to it
                CHECK(attachments.read(*second).value_or("") == content);
            }
            const std::vector<std::string> there = attachments.hashes().value();
            for (const std::string& hash : there) { // an orphan may be left; it tells nothing false
                const auto read = attachments.read(hash);
                CHECK((hash == *first || read.has_value() || read.error().code == Errc::Corrupt));
            }
        }
    }
    CHECK(failures >= 6 * 40); // folder, its folder, write, sync, rename, folder
}

TEST_CASE("a file that is there is not lost where the same one cannot be placed again")
{
    for (int n = 1; n < 10; ++n) {
        CAPTURE(n);
        CrashDisk disk(1);
        AttachmentFolder attachments("folder/a", disk);
        const auto hash = attachments.keep(content, saltOf(1));
        REQUIRE(hash);
        const std::string file = attachments.file(*hash).value();
        disk.failAt(n);
        static_cast<void>(attachments.keepFile(*hash, file));
        disk.work();
        CHECK(attachments.read(*hash).value_or("") == content);
    }
}

TEST_CASE("a disk that acknowledges syncs and does not do them is found out by this test")
{
    int lost = 0;
    for (std::uint64_t seed = 1; seed <= 40; ++seed) {
        CrashDisk disk(seed);
        disk.lieAboutSyncs();
        AttachmentFolder attachments("folder/a", disk);
        const auto hash = attachments.keep(content, saltOf(1));
        REQUIRE(hash);
        disk.cutPower();
        lost += attachments.read(*hash).value_or("") == content ? 0 : 1;
    }
    CHECK(lost > 20);
}

TEST_CASE("a removed file is gone after a power cut too, and removing one that is not there is no fault")
{
    for (std::uint64_t seed = 1; seed <= 40; ++seed) {
        CrashDisk disk(seed);
        AttachmentFolder attachments("folder/a", disk);
        const auto one = attachments.keep(content, saltOf(1));
        const auto two = attachments.keep(content, saltOf(2));
        REQUIRE((one && two));
        REQUIRE(attachments.remove(*one));
        disk.cutPower();
        CHECK(attachments.read(*one).error().code == Errc::NotFound);
        CHECK(attachments.read(*two).value_or("") == content);
        CHECK(attachments.remove(*one));
    }
}

TEST_CASE("the last file of a folder that is removed is gone after a power cut too")
{
    for (std::uint64_t seed = 1; seed <= 40; ++seed) {
        CrashDisk disk(seed);
        AttachmentFolder attachments("folder/a", disk);
        const auto only = attachments.keep(content, saltOf(1));
        REQUIRE(only);
        REQUIRE(attachments.remove(*only));
        disk.cutPower();
        CHECK(attachments.read(*only).error().code == Errc::NotFound);
    }
}

TEST_CASE("what is no name of an attachment is neither read nor removed, wherever it points")
{
    const TempFolder folder;
    write(folder.file("journal.db"), "the journal");
    AttachmentFolder attachments = AttachmentFolder::besideJournal(folder.file("journal.db"));
    REQUIRE(attachments.keep(content, saltOf(1)));
    const std::string name = GENERATE(as<std::string>(), "../journal.db", "", ".", std::string(64, '/'),
                                      std::string(63, 'a'), std::string(64, 'A'));
    CHECK(attachments.read(name).error().code == Errc::Malformed);
    CHECK(attachments.remove(name).error().code == Errc::Malformed);
    CHECK(contentOf(folder.file("journal.db")) == "the journal");
    CHECK(attachments.hashes().value().size() == 1);
}

TEST_CASE("removing from a folder that was never made is no fault")
{
    const TempFolder folder;
    CHECK(AttachmentFolder(folder.file("a")).remove(std::string(64, 'a')));
}

TEST_CASE("missing and altered files, files of no entry, and leftovers are told in plain words")
{
    CrashDisk disk(1);
    AttachmentFolder attachments("folder/a", disk);
    std::vector<std::string> hashes;
    for (std::uint8_t i = 1; i <= 5; ++i) {
        hashes.push_back(attachments.keep(content, saltOf(i)).value());
    }
    REQUIRE(attachments.remove(hashes[1]));
    disk.spoil("folder/a/" + hashes[2]);
    const auto checked = store::checkAttachments(stateWith({hashes[0], hashes[1], hashes[2], hashes[3]}, {hashes[3]}),
                                                 attachments);
    CHECK(checked.whole == 1);
    REQUIRE(checked.faults.size() == 2);
    CHECK_THAT(checked.faults[0], Catch::Contains(hashes[1]) && Catch::EndsWith("is missing"));
    CHECK_THAT(checked.faults[1], Catch::Contains(hashes[2]) && Catch::EndsWith("was altered since it was kept"));
    CHECK(checked.leftovers == std::vector{hashes[3]});
    CHECK(checked.orphans == std::vector{hashes[4]});
}

TEST_CASE("another folder takes what it has not, whole, and loses what was withdrawn")
{
    CrashDisk disk(1);
    AttachmentFolder from("folder/a", disk);
    AttachmentFolder to("backups/attachments", disk);
    std::vector<std::string> hashes;
    for (std::uint8_t i = 1; i <= 3; ++i) {
        hashes.push_back(from.keep(content, saltOf(i)).value());
    }
    CHECK(to.takeFrom(from).value() == 3);
    CHECK(to.takeFrom(from).value() == 0);
    const std::string fourth = from.keep(content, saltOf(4)).value();
    disk.spoil("folder/a/" + fourth);
    CHECK(to.takeFrom(from, {hashes[0]}).value() == 0); // an altered one is not carried on
    CHECK(to.read(hashes[0]).error().code == Errc::NotFound);
    CHECK(to.read(hashes[1]).value() == content);
}

TEST_CASE("a file that was altered is taken anew from a folder that has it whole")
{
    CrashDisk disk(1);
    AttachmentFolder backups("backups/attachments", disk);
    AttachmentFolder ours("folder/a", disk);
    const std::string hash = backups.keep(content, saltOf(1)).value();
    REQUIRE(ours.takeFrom(backups).value() == 1);
    disk.spoil("folder/a/" + hash);
    REQUIRE(ours.read(hash).error().code == Errc::Corrupt);
    CHECK(ours.takeFrom(backups).value() == 1);
    CHECK(ours.read(hash).value() == content);
    disk.spoil("backups/attachments/" + hash);
    CHECK(ours.takeFrom(backups).value() == 0); // and a whole one is not given up for an altered one
    CHECK(ours.read(hash).value() == content);
}

TEST_CASE("the system's disk does what the one in memory does")
{
    const TempFolder folder;
    store::Disk& disk = store::systemDisk();
    const std::string inside = folder.file("a");
    CHECK(disk.list(inside).value().empty());
    CHECK(disk.makeFolder(inside));
    CHECK(disk.makeFolder(inside));
    CHECK(disk.write(inside + "/x", "first"));
    CHECK(disk.write(inside + "/x", "second"));
    CHECK(disk.sync(inside + "/x"));
    CHECK(disk.rename(inside + "/x", inside + "/y"));
    CHECK(disk.syncFolder(inside));
    CHECK(disk.read(inside + "/y", 100).value() == "second");
    CHECK(disk.read(inside + "/y", 3).value() == "seco"); // one more, which tells that there are more
    CHECK(disk.read(inside + "/x", 3).error().code == Errc::NotFound);
    CHECK(disk.list(inside).value() == std::vector<std::string>{"y"});
    CHECK(disk.remove(inside + "/y"));
    CHECK(disk.remove(inside + "/y"));
    CHECK(disk.write(folder.file("nowhere/x"), "a").error().code == Errc::Io);
    CHECK(disk.syncFolder(folder.file("nowhere")).error().code == Errc::NotFound);
}
