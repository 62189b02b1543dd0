// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "base/text.h"
#include "ledger/verify.h"
#include "store/damage_rounds.h"
#include "store/files.h"
#include "store/raw_database.h"
#include "store/temp_folder.h"

#include <catch2/catch.hpp>

using namespace loopside;
using namespace loopside::ledger;
using namespace loopside::test;

TEST_CASE("a bit turned in a journal's file is noticed or changes nothing")
{
    checkDamage(97);
}

TEST_CASE("an altered entry that nothing in the journal tells of is told from a sound journal")
{
    const TempFolder folder;
    const std::string path = folder.file("journal.db");
    const auto written = Recorder(1).chainOf(6);
    Recorder recorder(1);
    auto entries = recorder.chainOf(5);
    entries.push_back(recorder.notes({GENERATE(as<std::string>(), "note 6", "note 7")}).front()); // signed, linked
    makeJournal(path, entries);
    CHECK(damageIn(path, written) == (entries == written ? Damage::None : Damage::Hidden));
    RawDatabase(path).runPastTriggers("UPDATE entries SET body = X'00' WHERE position = 3");
    CHECK(damageIn(path, written) == Damage::Noticed);
}

TEST_CASE("whoever gets past our rules to the table is found out")
{
    const TempFolder folder;
    const std::string path = folder.file("journal.db");
    makeJournal(path, Recorder(1).chainOf(4));
    RawDatabase raw(path);
    const auto firstFault = [&] {
        const std::vector<Fault> faults = verifyAll(*openedJournal(path));
        return faults.empty() ? Position{0} : faults.front().position;
    };
    REQUIRE(firstFault() == 0);

    SECTION("any one column changed")
    {
        const auto* change = GENERATE(
            "format = 2", "entry_id = zeroblob(16)", "device_id = zeroblob(16)", "chain_id = zeroblob(16)",
            "sequence = 9", "clock = clock + 1", "run_id = NULL", "person_id = zeroblob(16)",
            "entered_at = entered_at + 1", "entered_offset_min = 0", "mono_ns = 0", "boot_id = zeroblob(16)",
            "observed_ago_ms = 0", "observed_how = ''", "kind = 'x'", "body = X'00'", "previous_hash = zeroblob(32)",
            "hash = zeroblob(32)", "signature = zeroblob(64)");
        CAPTURE(change);
        raw.runPastTriggers("UPDATE entries SET " + std::string(change) + " WHERE position = 3");
        CHECK(firstFault() == 3);
    }
    SECTION("an entry removed")
    {
        raw.runPastTriggers("DELETE FROM entries WHERE position = 3");
        CHECK(firstFault() == 4);
    }
    SECTION("two entries in each other's place")
    {
        raw.runPastTriggers(
            "UPDATE entries SET position = 99 WHERE position = 3; UPDATE entries SET position = 3 WHERE position = 4;"
            "UPDATE entries SET position = 4 WHERE position = 99");
        CHECK(firstFault() == 3);
    }
    SECTION("another key in the chain's opening")
    {
        const std::string key = toHex(Recorder::keyOf(1).publicKey());
        const std::string other = toHex(Recorder::keyOf(2).publicKey());
        raw.runPastTriggers("UPDATE entries SET body = CAST(replace(CAST(body AS TEXT), '" + key + "', '" + other
                            + "') AS BLOB) WHERE position = 1");
        CHECK(firstFault() == 1);
    }
}
