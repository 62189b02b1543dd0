// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "hub/upkeep.h"

#include "base/text.h"
#include "hub/some_hub.h"
#include "hub/sql_accounts.h"
#include "hub/sql_files.h"
#include "ledger/attached.h"

#include <sstream>

using namespace loopside;
using namespace loopside::test;
using namespace loopside::hub;
using sync::Held;

namespace {

constexpr std::int64_t nowMs = 1'751'958'400'000;

/// Two tablets, one of them struck off, with a gap, something ahead and something aside.
void fill(Sql& sql, const Id& site)
{
    DeviceRegister tablets(sql, site);
    for (const auto number : {std::uint8_t{1}, std::uint8_t{2}}) {
        REQUIRE(tablets.put({Recorder::idOf(0xD0, number), Recorder::keyOf(number).publicKey(), "tablet \"2\"", nowMs,
                             number == 2 ? std::optional(nowMs + 5) : std::nullopt}));
    }
    Recorder first(1);
    auto entries = first.chainOf(3);
    const auto aside = first.sealedNotes({"another"});
    const auto last = first.notes({"the last"});
    const auto others = Recorder(2).chainOf(9);
    std::vector<Held> held = {{others[0]}, {others[1]}, {others[7], true}, {others[8]}};
    for (const auto& entry : entries) {
        held.push_back({entry});
    }
    held.push_back({last.front()});
    held.push_back({aside.front()});
    const std::string kept = fileOf(std::string("a picture\0\xFF", 11));
    const std::string gone = fileOf("a face");
    const auto keptAdded = sealedBy(first, added(kept));
    const auto goneAdded = sealedBy(first, added(gone));
    for (const auto& entry : {keptAdded, goneAdded, sealedBy(first, withdrawn(goneAdded.header.id))}) {
        held.push_back({entry});
    }
    const std::vector<ledger::Loss> lost = {{others[0].chain, 2, 8}};
    REQUIRE(SqlHub(sql, site).put(held, lost));
    SqlFiles files(sql, site);
    REQUIRE(files.keep({keptAdded.chain, keptAdded.header.sequence}, kept));
    SqlAccounts accounts(sql, site);
    const Id ines = Recorder::idOf(0xE0, 1);
    const Id otto = Recorder::idOf(0xE0, 2);
    REQUIRE(
        accounts.put({ines, "in\u00e9s", page::Role::Admin, "hash of \"one\"", false}, {nowMs, {}, "added", "ines"}));
    REQUIRE(
        accounts.put({otto, "otto", page::Role::Planner, "hash of two", false}, {nowMs + 1, ines, "added", "otto"}));
    REQUIRE(accounts.put({otto, "otto", page::Role::Planner, "hash of two", true}, {nowMs + 2, ines, "out", "otto"}));
    REQUIRE(accounts.put(page::Session{{7}, ines, nowMs, nowMs}));
}

/// Accounts and what was done to them are the same at both; nobody is signed in to `to`.
void checkAccounts(Sql& from, Sql& to, const Id& site)
{
    SqlAccounts before(from, site);
    SqlAccounts after(to, site);
    CHECK(after.all()->size() == 2);
    CHECK(after.all().value() == before.all().value());
    CHECK(after.audit(9)->size() == 3);
    CHECK(after.audit(9).value() == before.audit(9).value());
    CHECK(before.session({7}).value());
    CHECK_FALSE(after.session({7}).value());
}

const Counted filled = {2, 2, 12, 1, 2, 1};

std::string backupOf(Sql& sql, const SiteRecord& site)
{
    std::ostringstream out;
    const auto counted = writeBackup(sql, site, out);
    REQUIRE(counted);
    CHECK(*counted == filled);
    return out.str();
}

SiteRecord siteOf(Sql& sql, const Id& id)
{
    store::SystemRandom random;
    return *siteIn(sql, id, nowMs, random);
}

std::string sealed(const std::string& content)
{
    return content + toHex(ledger::sha256(content)) + "\n";
}

Errc refusalOf(Sql& sql, const std::string& text)
{
    store::SystemRandom random;
    const auto refused = restoreBackup(sql, text, nowMs, random);
    REQUIRE_FALSE(refused);
    return refused.error().code;
}

template<class From, class To>
void carry()
{
    From from;
    const SiteRecord site = siteOf(from.sql(), from.site());
    fill(from.sql(), site.site);
    const std::string backup = backupOf(from.sql(), site);
    To to;
    store::SystemRandom random;
    if constexpr (std::is_same_v<From, To>) {
        CHECK(refusalOf(from.sql(), backup) == Errc::Conflict); // its site is there
    }
    const auto restored = restoreBackup(to.sql(), backup, nowMs + 9, random);
    INFO((restored ? "" : restored.error().sentence));
    REQUIRE(restored);
    CHECK(*restored == filled);
    const SiteRecord again = siteOf(to.sql(), site.site);
    CHECK(again.log != site.log);
    CHECK(backupOf(to.sql(), again) == backup);
    checkAccounts(from.sql(), to.sql(), site.site);
    const auto verified = verify(to.sql(), again);
    REQUIRE(verified);
    CHECK(verified->faults.empty());
    CHECK(verified->counted == Counted{2, 2, 12, 1, 0, 1});
}

} // namespace

TEST_CASE("a backup of one database comes back whole in the other")
{
    carry<HubOnDisk, HubInPostgres>();
    carry<HubInPostgres, HubOnDisk>();
}

TEST_CASE("a backup that was cut, altered or written by a newer version is refused, and nothing of it stays")
{
    HubOnDisk from;
    HubOnDisk to;
    const SiteRecord site = siteOf(from.sql(), from.site());
    fill(from.sql(), site.site);
    const std::string backup = backupOf(from.sql(), site);
    const std::string content = backup.substr(0, backup.size() - 65);
    CHECK(refusalOf(to.sql(), "") == Errc::Corrupt);
    CHECK(refusalOf(to.sql(), backup.substr(0, backup.size() - 1)) == Errc::Corrupt);
    CHECK(refusalOf(to.sql(), backup.substr(0, backup.size() / 2)) == Errc::Corrupt);
    std::string altered = backup;
    altered[altered.size() / 2] ^= 1;
    CHECK(refusalOf(to.sql(), altered) == Errc::Corrupt);
    std::string newer = content;
    newer.replace(newer.find("backup\":3"), 9, "backup\":4");
    CHECK(refusalOf(to.sql(), sealed(newer)) == Errc::Incompatible);
    // With the right digest, and a note that nobody signed.
    std::string forged = content;
    forged.replace(forged.find("note 2"), 6, "note 7");
    CHECK(refusalOf(to.sql(), sealed(forged)) == Errc::Corrupt);
    CHECK(refusalOf(to.sql(), sealed(content + "?\n")) == Errc::Malformed);
    std::string role = content;
    role.replace(role.find("planner"), 7, "hangman");
    CHECK(refusalOf(to.sql(), sealed(role)) == Errc::Malformed);
    std::string file = content;
    file.replace(file.find("\"file\":\"") + 8, 4, "AAAA");
    CHECK(refusalOf(to.sql(), sealed(file)) == Errc::Corrupt);
    CHECK(to.sql().run("SELECT entry_id FROM files")->empty());
    CHECK(to.sql().run("SELECT name FROM accounts")->empty());
    CHECK(to.sql().run("SELECT made_at FROM sites")->empty());
    CHECK(to.sql().run("SELECT clock FROM entries")->empty());
}

TEST_CASE("a backup of an earlier version, which had no accounts and no files, comes back")
{
    HubOnDisk from;
    HubOnDisk to;
    const SiteRecord site = siteOf(from.sql(), from.site());
    fill(from.sql(), site.site);
    std::istringstream lines(backupOf(from.sql(), site));
    std::string older;
    for (std::string line; std::getline(lines, line) && line.size() != 64;) {
        older += std::string_view("@#*").find(line.front()) != std::string_view::npos ? "" : line + '\n';
    }
    older.replace(older.find("backup\":3"), 9, "backup\":1");
    store::SystemRandom random;
    const auto restored = restoreBackup(to.sql(), sealed(older), nowMs, random);
    REQUIRE(restored);
    CHECK(*restored == Counted{2, 2, 12, 1, 0, 0});
}

TEST_CASE("a check of what a hub holds finds what was changed past the program")
{
    HubOnDisk where;
    const SiteRecord site = siteOf(where.sql(), where.site());
    fill(where.sql(), site.site);
    REQUIRE(verify(where.sql(), site)->faults.empty());
    REQUIRE(where.sql().run("UPDATE files SET bytes = CAST(bytes || 'x' AS BLOB) WHERE length(bytes) > 0"));
    REQUIRE(verify(where.sql(), site)->faults.size() == 1);
    CHECK(verify(where.sql(), site)->faults[0].find("was altered") != std::string::npos);
    REQUIRE(where.sql().run("DELETE FROM files"));
    REQUIRE(where.sql().run("DROP TRIGGER entries_keep"));
    REQUIRE(where.sql().run("UPDATE entries SET clock = clock + 1 WHERE sequence = 3"));
    auto faults = verify(where.sql(), site)->faults;
    REQUIRE(faults.size() == 1);
    CHECK(faults[0].find("do not have the hash") != std::string::npos);
    REQUIRE(where.sql().run("UPDATE entries SET clock = clock - 1 WHERE sequence = 3"));
    REQUIRE(where.sql().run("DROP TRIGGER entries_stay"));
    REQUIRE(where.sql().run("DELETE FROM entries WHERE sequence = 3"));
    faults = verify(where.sql(), site)->faults;
    REQUIRE(faults.size() == 1);
    CHECK(faults[0].find("entry 4") != std::string::npos);
    REQUIRE(where.sql().run("DELETE FROM entries WHERE sequence >= 9"));
    CHECK(verify(where.sql(), site)->faults.size() == 2); // the other chain has lost its end
    REQUIRE(where.sql().run("DELETE FROM devices"));
    CHECK(verify(where.sql(), site)->faults.size() > 2);
}
