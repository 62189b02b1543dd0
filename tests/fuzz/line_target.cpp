// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// Entries as lines of an export: what is read is written the same, and read again.

#include "fuzz/target.h"
#include "ledger/line.h"

using namespace loopside;

int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size)
{
    const std::string_view text = fuzz::textOf(data, size);
    if (const auto entry = ledger::entryFromLine(text)) {
        const auto again = ledger::entryFromLine(lineOf(*entry));
        fuzz::must(again && *again == *entry, "an entry does not come back from its line");
        static_cast<void>(hashOf(*entry));
        return 0; // with the keys of an entry it is no title
    }
    if (const auto title = ledger::titleFromLine(text)) {
        const auto again = ledger::titleFromLine(lineOf(*title));
        fuzz::must(again && *again == *title, "the title of an export does not come back");
    }
    return 0;
}
