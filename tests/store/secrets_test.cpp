// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// Nothing secret leaves the key file, and nothing beside the journal is open to others.

#include "base/text.h"
#include "ledger/line.h"
#include "store/backup.h"
#include "store/draft_store.h"
#include "store/files.h"
#include "store/instance_lock.h"
#include "store/key_file.h"
#include "store/recovery.h"
#include "store/temp_folder.h"

#include <catch2/catch.hpp>
#include <sys/stat.h>

#include <algorithm>
#include <set>

using namespace loopside;
using namespace loopside::test;

namespace {

struct Found
{
    std::set<std::string> files;    ///< All, by name.
    std::set<std::string> telling;  ///< Such as hold the secret, as bytes or as digits.
    std::set<std::string> openOnes; ///< Such as others may read or write.
};

/// The secret as it might stand somewhere.
std::vector<std::string> formsOf(const ledger::Seed& seed)
{
    const std::string digits = toHex(seed);
    std::string capitals = digits;
    std::ranges::transform(capitals, capitals.begin(), [](char sign) { return static_cast<char>(std::toupper(sign)); });
    return {std::string(seed.begin(), seed.end()), digits, capitals};
}

Found lookThrough(const std::filesystem::path& folder, const std::vector<ledger::Seed>& seeds)
{
    Found found;
    for (const auto& file : std::filesystem::recursive_directory_iterator(folder)) {
        if (!file.is_regular_file()) {
            continue;
        }
        const std::string name = std::filesystem::relative(file.path(), folder).string();
        const std::string content = contentOf(file.path().string());
        found.files.insert(name);
        for (const ledger::Seed& seed : seeds) {
            const auto forms = formsOf(seed);
            if (std::ranges::any_of(forms,
                                    [&](const std::string& form) { return content.find(form) != std::string::npos; })) {
                found.telling.insert(name);
            }
        }
        struct stat status = {};
        REQUIRE(::stat(file.path().c_str(), &status) == 0);
        if ((status.st_mode & (S_IRWXG | S_IRWXO)) != 0) {
            found.openOnes.insert(name);
        }
    }
    return found;
}

/// Writes `bodies` with the key of the folder.
void log(store::SqliteJournal& journal, const std::string& keyFile, const std::vector<std::string>& bodies,
         IdMaker& ids)
{
    auto key = store::loadOrCreateKey(keyFile);
    REQUIRE(key);
    const Id device = store::deviceOf(*key);
    const auto head = journal.head(device);
    REQUIRE(head);
    const bool isNew = !head->has_value();
    auto sealer = isNew ? ledger::Sealer::startChain(device, ids.next(0), *std::move(key))
                        : ledger::Sealer::continueChain(**head, *std::move(key)).value();
    std::vector<ledger::Draft> drafts;
    if (isNew) {
        drafts.push_back(sealer.chainOpened());
    }
    for (const std::string& body : bodies) {
        drafts.push_back({"noted", body, {}, {}, {}});
    }
    REQUIRE(journal.append(sealer.seal(drafts, {}, Recorder::idOf(0xE0, 1), ids)));
}

} // namespace

TEST_CASE("the secret of a device stands in its key files alone, and every file is its owner's alone")
{
    const mode_t before = ::umask(0); // the most careless system
    const TempFolder folder;
    const std::string path = folder.file("journal.sqlite");
    const std::string key = folder.file("device.key");
    SeededRandom random(3);
    IdMaker ids(random);
    std::vector<ledger::Seed> seeds;
    std::vector<std::string> said; ///< All that a log or a screen could show.
    const auto lock = store::InstanceLock::take(path);
    REQUIRE(lock);
    {
        auto opened = store::openOrRecover(path, folder.file("backups"), 0);
        REQUIRE(opened);
        store::SqliteJournal& journal = *opened->journal;
        seeds.push_back(store::loadOrCreateKey(key).value().seed());
        log(journal, key, {R"({"note":"a"})", R"({"note":"b"})"}, ids);
        REQUIRE(store::backUp(journal, folder.file("backups"), 1'783'857'600'000));
        const auto kept = store::replaceKey(key);
        REQUIRE(kept);
        said.push_back(*kept);
        seeds.push_back(store::loadOrCreateKey(key).value().seed());
        log(journal, key, {R"({"note":"c"})"}, ids);
        auto drafts = store::DraftStore::open(folder.file("drafts.sqlite"));
        REQUIRE(drafts);
        REQUIRE((*drafts)->put(Recorder::idOf(0xA0, 1), "1.low", "38"));
        std::string lines;
        for (const ledger::Stored& stored : allOf(journal)) {
            lines += ledger::lineOf(stored.entry) + "\n";
        }
        said.push_back(lines); // what an export holds
        CHECK(std::filesystem::exists(path + "-wal"));
        CHECK(lookThrough(folder.path(), seeds).telling == std::set<std::string>{"device.key", "device.key.old.1"});
        CHECK(lookThrough(folder.path(), seeds).openOnes.empty());
    }
    std::string spoilt = contentOf(path);
    spoilt[spoilt.size() / 2] = static_cast<char>(spoilt[spoilt.size() / 2] ^ 0x55);
    write(path, spoilt.substr(0, spoilt.size() - 4096));
    {
        auto recovered = store::openOrRecover(path, folder.file("backups"), 0);
        REQUIRE(recovered);
        REQUIRE(recovered->recovered);
        said.push_back(recovered->recovered->why);
        const Found found = lookThrough(folder.path(), seeds);
        CHECK(found.files.contains("journal.sqlite.damaged.1"));
        CHECK(found.telling == std::set<std::string>{"device.key", "device.key.old.1"});
        CHECK(found.openOnes.empty());
        // The planted fault: a secret that got into an entry is found by the same look, in journal and log alike.
        log(*recovered->journal, key, {R"({"note":")" + toHex(seeds[0]) + R"("})"}, ids);
        CHECK(lookThrough(folder.path(), seeds).telling.contains("journal.sqlite-wal"));
    }
    CHECK(lookThrough(folder.path(), seeds).telling.contains("journal.sqlite"));
    std::string broken = contentOf(key);
    broken.pop_back();
    write(key, broken);
    const auto refused = store::loadOrCreateKey(key);
    REQUIRE_FALSE(refused);
    said.push_back(refused.error().sentence);
    for (const std::string& text : said) {
        for (const ledger::Seed& seed : seeds) {
            for (const std::string& form : formsOf(seed)) {
                CHECK(text.find(form) == std::string::npos);
            }
        }
    }
    REQUIRE(::chmod(path.c_str(), 0644) == 0); // the other planted fault
    CHECK(lookThrough(folder.path(), {}).openOnes == std::set<std::string>{"journal.sqlite"});
    ::umask(before);
}
