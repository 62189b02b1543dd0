// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "sync/placing.h"

#include <algorithm>

namespace loopside::sync {

using ledger::Entry;
using ledger::Loss;

namespace {

/// Whether `later` can stand behind `earlier` in a chain, right behind it or not.
bool mayStandBehind(const Placed& later, const Placed& earlier)
{
    const bool isNext = later.sequence == earlier.sequence + 1;
    return later.device == earlier.device && later.clock > earlier.clock && (!isNext || later.previous == earlier.hash);
}

/// Whether `losses` tells that everything is gone between `last` and `entry`.
bool isLost(const Entry& entry, std::uint64_t last, std::span<const Loss> losses)
{
    return std::ranges::any_of(losses, [&](const Loss& loss) {
        return loss.chain == entry.chain && loss.after <= last && loss.before == entry.header.sequence;
    });
}

/// Behind what `entry` was made is not known here, and nobody tells that it is lost.
bool isGap(const Entry& entry, const Surroundings& around, std::span<const Loss> losses)
{
    const std::uint64_t sequence = entry.header.sequence;
    const std::uint64_t last = around.before ? around.before->sequence : 0;
    const bool goesOn = around.before && last + 1 == sequence && around.before->hash == entry.previous;
    if (sequence == 1 || goesOn) {
        return false;
    }
    const auto& behind = around.there ? around.there : around.next;
    const bool fillsLoss = behind && behind->previous == entry.hash;
    return !around.followsAside && !fillsLoss && !isLost(entry, last, losses);
}

bool isKnown(const Entry& entry, const Surroundings& around)
{
    return (around.there && around.there->hash == entry.hash) || around.isAside;
}

} // namespace

Placed placedOf(const Entry& entry)
{
    return {entry.header.device, entry.header.sequence, entry.header.clock, entry.previous, entry.hash};
}

Put singlePlacingOf(const Entry& entry, const Surroundings& around)
{
    if (around.there && around.there->hash == entry.hash) {
        return Put::Same;
    }
    const Placed placed = placedOf(entry);
    const bool fitsNext = !around.next || mayStandBehind(*around.next, placed);
    const bool fitsLast = !around.before || mayStandBehind(placed, *around.before);
    const bool fits = !around.there && !around.isAside && !around.followsAside && fitsNext && fitsLast;
    return fits ? Put::Created : Put::Conflict;
}

Put placingOf(const Entry& entry, const Surroundings& around, std::span<const Loss> losses)
{
    return !isKnown(entry, around) && isGap(entry, around, losses) ? Put::Gap : singlePlacingOf(entry, around);
}

} // namespace loopside::sync
