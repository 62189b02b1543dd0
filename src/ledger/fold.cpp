// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "ledger/fold.h"

#include "ledger/body.h"
#include "ledger/chain.h"
#include "ledger/hybrid_clock.h"
#include "ledger/settled.h"

#include <algorithm>
#include <optional>
#include <utility>

namespace loopside::ledger {

namespace {

Done takeEvent(const Stored& stored, Folded& folded, const std::function<void(Committed)>& take)
{
    if (stored.entry.header.clock < HybridClock::end) {
        folded.latest = std::max(folded.latest, stored.entry.header.clock);
    }
    if (stored.entry.kind == chainOpenedKind || stored.entry.kind == aheadSettledKind) {
        return {};
    }
    auto event = eventFrom(stored.entry.kind, stored.entry.body);
    if (!event && event.error().code == Errc::Incompatible) {
        ++folded.unknown;
        return {};
    }
    if (!event) {
        return fail(Errc::Corrupt,
                    "entry " + std::to_string(stored.position) + " of the journal does not say what its kind \""
                        + stored.entry.kind + "\" should say: " + event.error().sentence);
    }
    take({stored.entry.header, *std::move(event)});
    return {};
}

void take(run::State& state, const Committed& committed)
{
    state = run::apply(std::move(state), committed.header, committed.event);
}

} // namespace

Done foldOnto(Folded& folded, const Stored& stored)
{
    return takeEvent(stored, folded, [&](const Committed& committed) { take(folded.state, committed); });
}

Result<Folded> fold(const EntryReader& read)
{
    Folded folded;
    const auto readEvents = [&](const std::function<void(Committed)>& use) {
        folded = {};
        return read([&](const Stored& stored) { return takeEvent(stored, folded, use); });
    };
    // Almost always the journal's order is that of folding, and no more than an entry is held at a time.
    bool isSorted = true;
    std::optional<run::Header> last;
    const Done atOnce = readEvents([&](const Committed& committed) {
        isSorted = isSorted && (!last || !foldsBefore(committed.header, *last));
        if (isSorted) {
            take(folded.state, committed);
        }
        last = committed.header;
    });
    if (!atOnce) {
        return fail(atOnce.error());
    }
    if (isSorted) {
        return folded;
    }
    std::vector<Committed> entries;
    if (const Done all = readEvents([&](Committed committed) { entries.push_back(std::move(committed)); }); !all) {
        return fail(all.error());
    }
    std::stable_sort(entries.begin(), entries.end(),
                     [](const Committed& a, const Committed& b) { return foldsBefore(a.header, b.header); });
    std::ranges::for_each(entries, [&](const Committed& entry) { take(folded.state, entry); });
    return folded;
}

} // namespace loopside::ledger
