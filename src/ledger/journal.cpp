// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "ledger/journal.h"

#include "ledger/hybrid_clock.h"
#include "ledger/kinds.h"
#include "ledger/read_all.h"

#include <algorithm>
#include <iterator>

namespace loopside::ledger {

Listed listedOf(const Stored& stored)
{
    const Entry& entry = stored.entry;
    return {stored.position, entry.header.device, entry.header.run, entry.kind};
}

Result<std::vector<Stored>> Journal::readLasting(Position after, std::size_t limit) const
{
    std::vector<Stored> lasting;
    while (lasting.size() < limit) {
        auto entries = read(after, limit);
        if (!entries) {
            return lasting.empty() ? fail(entries.error()) : Result<std::vector<Stored>>(std::move(lasting));
        }
        if (entries->empty()) {
            break;
        }
        for (Stored& stored : *entries) {
            after = stored.position;
            if (!isKindOfMoment(stored.entry.kind) && lasting.size() < limit) {
                lasting.push_back(std::move(stored));
            }
        }
    }
    return lasting;
}

Result<std::vector<Listed>> Journal::listLasting(Position after, std::size_t limit) const
{
    return readLasting(after, limit).transform([](const std::vector<Stored>& entries) {
        std::vector<Listed> listed;
        std::ranges::transform(entries, std::back_inserter(listed), listedOf);
        return listed;
    });
}

Result<std::uint64_t> Journal::latestClock() const
{
    std::uint64_t latest = 0;
    const Done read = readAll(*this, [&](const Stored& stored) {
        if (stored.entry.header.clock < HybridClock::end) {
            latest = std::max(latest, stored.entry.header.clock);
        }
        return Done{};
    });
    return read ? Result<std::uint64_t>(latest) : fail(read.error());
}

Result<Position> Journal::last() const
{
    Position last = 0;
    const Done read = readAll(*this, [&](const Stored& stored) {
        last = stored.position;
        return Done{};
    });
    return read ? Result<Position>(last) : fail(read.error());
}

} // namespace loopside::ledger
