// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "store/damage_rounds.h"

#include "ledger/verify.h"
#include "store/files.h"
#include "store/temp_folder.h"

#include <catch2/catch.hpp>

namespace loopside::test {

namespace {

/// Whether anything says that the journal `path` is not as it was.
bool isNoticed(const std::string& path)
{
    const auto journal = store::SqliteJournal::open(path);
    if (!journal) {
        CHECK_FALSE(journal.error().sentence.empty());
        return true;
    }
    return !ledger::verifyAll(**journal).empty() || !(*journal)->head(Recorder::idOf(0xD0, 1));
}

} // namespace

Damage damageIn(const std::string& path, const std::vector<ledger::Entry>& entries)
{
    if (isNoticed(path)) {
        return Damage::Noticed;
    }
    const auto journal = openedJournal(path);
    const ledger::Entry& last = entries.back();
    const ledger::ChainHead head = {last.header.device, last.chain,        last.header.sequence,
                                    last.hash,          last.header.clock, Recorder::keyOf(1).publicKey()};
    const bool isSame = allOf(*journal) == inOrder(entries) && journal->head(last.header.device).value() == head;
    return isSame ? Damage::None : Damage::Hidden;
}

void checkDamage(std::size_t step)
{
    const TempFolder folder;
    const std::string path = folder.file("journal.db");
    const std::vector<ledger::Entry> entries = Recorder(1).chainOf(6);
    makeJournal(path, entries);
    const std::string sound = contentOf(path);
    std::size_t noticed = 0;
    for (std::size_t i = 0; i < sound.size(); i += step) {
        std::string damaged = sound;
        damaged[i] = static_cast<char>(damaged[i] ^ (1 << (i % 8)));
        write(path, damaged);
        CAPTURE(i);
        const Damage damage = damageIn(path, entries);
        REQUIRE(damage != Damage::Hidden);
        noticed += damage == Damage::Noticed ? 1 : 0;
    }
    CHECK(noticed * step > 2800); // the seven entries alone have more bytes than that
}

} // namespace loopside::test
