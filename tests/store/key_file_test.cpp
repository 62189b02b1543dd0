// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "store/key_file.h"

#include "ledger/verify.h"
#include "store/files.h"
#include "store/temp_folder.h"

#include <catch2/catch.hpp>
#include <sys/stat.h>

using namespace loopside;
using namespace loopside::test;
using loopside::store::loadOrCreateKey;

namespace {

constexpr const char* title = "loopside device key 1\n";

/// The secret of RFC 8032, section 7.1, test 1.
const std::string publishedSeed = "9d61b19deffd5a60ba844af492ec2cc44449c5697b326919703bac031cae7f60";

void writePrivately(const std::string& path, const std::string& content)
{
    write(path, content);
    REQUIRE(::chmod(path.c_str(), 0600) == 0);
}

} // namespace

TEST_CASE("a key is made once, for its owner alone, and is the same at every start")
{
    const TempFolder folder;
    const std::string path = folder.file("device.key");
    const auto made = loadOrCreateKey(path);
    REQUIRE(made);
    struct stat status = {};
    REQUIRE(::stat(path.c_str(), &status) == 0);
    CHECK((status.st_mode & 0777U) == 0600);
    CHECK_FALSE(std::filesystem::exists(path + ".new"));
    const auto loaded = loadOrCreateKey(path);
    REQUIRE(loaded);
    CHECK(loaded->publicKey() == made->publicKey());
}

TEST_CASE("a key file written by its description is read")
{
    const TempFolder folder;
    const std::string path = folder.file("device.key");
    writePrivately(path, title + publishedSeed + "\n");
    const auto loaded = loadOrCreateKey(path);
    REQUIRE(loaded);
    CHECK(loaded->publicKey()[0] == 0xD7); // public key d75a98… of the same test
    CHECK(loaded->publicKey()[31] == 0x1A);
}

TEST_CASE("a key file that others may read or write is refused with what to do")
{
    const TempFolder folder;
    const std::string path = folder.file("device.key");
    REQUIRE(loadOrCreateKey(path));
    const unsigned loose = GENERATE(0640U, 0604U, 0620U, 0602U, 0610U);
    REQUIRE(::chmod(path.c_str(), loose) == 0);
    const auto refused = loadOrCreateKey(path);
    REQUIRE_FALSE(refused);
    CHECK(refused.error().code == Errc::Conflict);
    CHECK_THAT(refused.error().sentence, Catch::Contains("chmod 600 " + path));
    REQUIRE(::chmod(path.c_str(), 0600) == 0);
    CHECK(loadOrCreateKey(path));
}

TEST_CASE("a damaged key file is refused and never replaced")
{
    const TempFolder folder;
    const std::string path = folder.file("device.key");
    const std::string content = GENERATE(as<std::string>(), "", "loopside device key 1\n", title + publishedSeed,
                                         title + publishedSeed + "\n\n", title + publishedSeed.substr(1) + "g\n",
                                         "loopside device key 2\n" + publishedSeed + "\n");
    writePrivately(path, content);
    const auto refused = loadOrCreateKey(path);
    REQUIRE_FALSE(refused);
    CHECK(refused.error().code == Errc::Corrupt);
    CHECK_THAT(refused.error().sentence, Catch::Contains("left as it is"));
    CHECK(contentOf(path) == content);
}

TEST_CASE("a key that cannot be written is not made")
{
    const TempFolder folder;
    const auto refused = loadOrCreateKey(folder.file("none/device.key"));
    REQUIRE_FALSE(refused);
    CHECK(refused.error().code == Errc::Io);
    CHECK_THAT(refused.error().sentence, Catch::Contains("the folder"));
}

TEST_CASE("what a cut-off start left of a key does not stand in the way")
{
    const TempFolder folder;
    const std::string path = folder.file("device.key");
    write(path + ".new", "half");
    CHECK(loadOrCreateKey(path));
    CHECK_FALSE(std::filesystem::exists(path + ".new"));
}

TEST_CASE("a replaced key opens a chain of its own and is told, and what the old one signed stays checkable")
{
    const TempFolder folder;
    const std::string path = folder.file("device.key");
    const auto journal = openedJournal(folder.file("journal.db"));
    SeededRandom random(5);
    IdMaker ids(random);
    const auto writeAsNow = [&](std::uint8_t chain) {
        auto key = loadOrCreateKey(path);
        REQUIRE(key);
        const Id device = store::deviceOf(*key);
        auto sealer = ledger::Sealer::startChain(device, Recorder::idOf(0xC0, chain), *std::move(key));
        const std::vector<ledger::Draft> drafts = {sealer.chainOpened(), {"noted", R"({"note":"a"})", {}, {}, {}}};
        for (const ledger::Draft& draft : drafts) {
            const auto entries = sealer.seal(std::span(&draft, 1), {}, Recorder::idOf(0xE0, 1), ids);
            REQUIRE(journal->append(entries));
            sealer.accept(entries);
        }
        return device;
    };
    CHECK(
        store::replacedKeyNotice(*journal, path, Recorder::idOf(0xD0, 1)).value().id.empty()); // the first start of all
    const Id old = writeAsNow(1);
    CHECK(store::replacedKeyNotice(*journal, path, old).value().id.empty());

    const auto kept = store::replaceKey(path);
    REQUIRE(kept);
    const Id fresh = store::deviceOf(loadOrCreateKey(path).value());
    CHECK(fresh != old);
    CHECK(store::replacedKeyNotice(*journal, path, fresh).value().id == "key-replaced");
    const std::string other = folder.file("another.key"); // a tablet to which this journal was brought
    const Id stranger = store::deviceOf(loadOrCreateKey(other).value());
    CHECK(store::replacedKeyNotice(*journal, other, stranger).value().id.empty());
    REQUIRE(store::replaceKey(other)); // replaced before the journal came: the old one signed nothing in it
    const Id strangerAnew = store::deviceOf(loadOrCreateKey(other).value());
    CHECK(store::replacedKeyNotice(*journal, other, strangerAnew).value().id.empty());
    CHECK(writeAsNow(2) == fresh);
    CHECK(store::replacedKeyNotice(*journal, path, fresh).value().id.empty()); // told once
    CHECK(ledger::verifyAll(*journal).empty());
    CHECK(store::deviceOf(loadOrCreateKey(*kept).value()) == old); // it can still be shown to be this device's

    std::vector<ledger::Stored> all = allOf(*journal); // the planted fault: what the old key signed, altered
    all[1].entry.signature[0] ^= 1U;
    ledger::Verifier verifier;
    for (const ledger::Stored& stored : all) {
        verifier.take(stored);
    }
    REQUIRE(verifier.faults().size() == 1);
    CHECK(verifier.faults().front().position == 2);
}
