// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "sync/precedence.h"

#include <algorithm>

namespace loopside::sync {

std::vector<Held> byPrecedence(std::vector<Held> entries, const std::set<Id>& settled)
{
    const auto counts = [&](const Held& held) { return !held.isAhead || settled.contains(held.entry.header.id); };
    std::ranges::stable_sort(entries, [&](const Held& a, const Held& b) {
        return counts(a) != counts(b) ? counts(b) : foldsBefore(a.entry.header, b.entry.header);
    });
    return entries;
}

} // namespace loopside::sync
