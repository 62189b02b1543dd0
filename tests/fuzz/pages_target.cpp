// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// The pages of a damaged journal and its log: the first two bytes say how many bytes belong to the log.

#include "fuzz/target.h"
#include "store/carve.h"
#include "store/log_scan.h"

using namespace loopside;

int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size)
{
    if (size < 2) {
        return 0;
    }
    const std::string_view all = fuzz::textOf(data + 2, size - 2);
    const std::size_t split = (std::size_t{data[0]} << 8U | data[1]) % (all.size() + 1);
    const std::string_view log = all.substr(0, split);
    const std::string_view database = all.substr(split);
    const store::LogScan scan = store::scanLog(log, database);
    fuzz::must(!(scan.isTorn && scan.isDamaged), "a log is both torn and damaged");
    static_cast<void>(store::committedPage(log, 1));
    store::carveEntries(database, log, [](const ledger::Entry& entry) {
        fuzz::must(hashOf(entry) == entry.hash, "an entry was found that does not have its hash");
    });
    return 0;
}
