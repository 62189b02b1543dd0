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

void checkDamage(std::size_t step)
{
    const TempFolder folder;
    const std::string path = folder.file("journal.db");
    const std::vector<ledger::Entry> entries = Recorder(1).chainOf(6);
    makeJournal(path, entries);
    const std::string sound = contentOf(path);
    const auto head = openedJournal(path)->head(Recorder(1).device());
    REQUIRE(head);
    std::size_t noticed = 0;
    for (std::size_t i = 0; i < sound.size(); i += step) {
        std::string damaged = sound;
        damaged[i] = static_cast<char>(damaged[i] ^ (1 << (i % 8)));
        write(path, damaged);
        CAPTURE(i);
        if (isNoticed(path)) {
            ++noticed;
            continue;
        }
        const auto journal = openedJournal(path);
        REQUIRE(allOf(*journal) == inOrder(entries));
        REQUIRE(journal->head(Recorder(1).device()).value() == *head);
    }
    CHECK(noticed * step > 2800); // the seven entries alone have more bytes than that
}

} // namespace loopside::test
