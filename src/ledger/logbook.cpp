// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "ledger/logbook.h"

#include "base/require.h"
#include "ledger/body.h"
#include "ledger/chain.h"

#include <algorithm>
#include <optional>
#include <utility>

namespace loopside::ledger {

namespace {

/// Refuses what could be written but not be read back: one such entry would close the whole journal.
Done staysReadable(const run::Event& event)
{
    const auto read = eventFrom(kindOf(event), bodyOf(event));
    if (!read) {
        return fail(Errc::Malformed, read.error().sentence);
    }
    return *read == event ? Done{}
                          : fail(Errc::Malformed, "this cannot be kept the way it was said; nothing was written");
}

} // namespace

Logbook::Logbook(Journal& journal, Clock& clock, RandomSource& random)
    : journal_{&journal}, clock_{&clock}, ids_{random}
{
}

Result<Logbook> Logbook::open(Journal& journal, Clock& clock, RandomSource& random)
{
    Logbook logbook(journal, clock, random);
    if (auto folded = logbook.fold(); !folded) {
        return fail(folded.error());
    }
    return logbook;
}

Done Logbook::fold()
{
    // Almost always the journal's order is that of folding, and no more than an entry is held at a time.
    bool isSorted = true;
    std::optional<run::Header> last;
    const auto foldAtOnce = [&](Committed committed) {
        isSorted = isSorted && (!last || !foldsBefore(committed.header, *last));
        if (isSorted) {
            state_ = run::apply(std::move(state_), committed.header, committed.event);
        }
        last = committed.header;
    };
    if (auto read = eachEvent(foldAtOnce); !read || isSorted) {
        return read;
    }
    std::vector<Committed> entries;
    if (auto read = eachEvent([&](Committed committed) { entries.push_back(std::move(committed)); }); !read) {
        return read;
    }
    std::stable_sort(entries.begin(), entries.end(),
                     [](const Committed& a, const Committed& b) { return foldsBefore(a.header, b.header); });
    state_ = {};
    for (const Committed& entry : entries) {
        state_ = run::apply(std::move(state_), entry.header, entry.event);
    }
    return {};
}

Done Logbook::eachEvent(const std::function<void(Committed)>& take)
{
    unknown_ = 0;
    return readAll(*journal_, [&](const Stored& stored) -> Done {
        heard(stored.entry.header.clock);
        if (stored.entry.kind == chainOpenedKind) {
            return {};
        }
        auto event = eventFrom(stored.entry.kind, stored.entry.body);
        if (!event && event.error().code == Errc::Incompatible) {
            ++unknown_;
            return {};
        }
        if (!event) {
            return fail(Errc::Corrupt,
                        "entry " + std::to_string(stored.position) + " of the journal does not say what its kind \""
                            + stored.entry.kind + "\" should say: " + event.error().sentence);
        }
        take({stored.entry.header, *std::move(event)});
        return {};
    });
}

Done Logbook::enrol(const Id& device, DeviceKey key)
{
    const auto head = journal_->head(device);
    if (!head) {
        return fail(head.error());
    }
    if (*head && !(*head)->isOver) {
        auto sealer = Sealer::continueChain(**head, std::move(key));
        if (!sealer) {
            return fail(sealer.error());
        }
        sealer->heard(latest_);
        sealers_.insert_or_assign(device, *std::move(sealer));
        return {};
    }
    const Stamp now = clock_->now();
    const auto parent = head->has_value() ? std::optional(ParentChain{(*head)->chain, (*head)->last}) : std::nullopt;
    Sealer sealer = Sealer::startChain(device, ids_.next(now.wallMs), std::move(key), parent);
    sealer.heard(latest_);
    const std::vector<Draft> drafts = {sealer.chainOpened()};
    const auto entries = sealer.seal(drafts, now, device, ids_); // no person yet: the device stands for itself
    if (auto done = commit(entries, sealer); !done) {
        return done;
    }
    sealers_.insert_or_assign(device, std::move(sealer));
    return {};
}

Done Logbook::commit(const std::vector<Entry>& entries, Sealer& sealer)
{
    if (const auto appended = journal_->append(entries); !appended) {
        return fail(appended.error());
    }
    sealer.accept(entries);
    heard(entries.back().header.clock);
    return {};
}

void Logbook::heard(std::uint64_t clock)
{
    if (clock < HybridClock::end) {
        latest_ = std::max(latest_, clock);
    }
    for (auto& [device, sealer] : sealers_) {
        sealer.heard(clock);
    }
}

Result<std::vector<Committed>> Logbook::submit(const run::Command& command, const Hand& hand,
                                               const run::Observed& observed)
{
    const auto sealer = sealers_.find(hand.device);
    require(sealer != sealers_.end(), "a device is enrolled before it writes");

    const Stamp now = clock_->now();
    const run::Context context{hand.device, hand.person, ids_.next(now.wallMs), now, observed};
    auto decided = run::decide(state_, command, context);
    if (!decided) {
        return fail(decided.error());
    }
    if (decided->empty()) {
        return std::vector<Committed>{};
    }
    std::vector<Draft> drafts;
    for (const run::Decided& one : *decided) {
        if (auto done = staysReadable(one.event); !done) {
            return fail(done.error());
        }
        const bool isFirst = drafts.empty();
        drafts.push_back({std::string(kindOf(one.event)), bodyOf(one.event), one.run,
                          isFirst ? observed : run::Observed{}, isFirst ? context.firstEntry : Id{}});
    }
    const auto entries = sealer->second.seal(drafts, now, hand.person, ids_);
    if (auto done = commit(entries, sealer->second); !done) {
        return fail(done.error());
    }
    std::vector<Committed> committed;
    for (std::size_t i = 0; i < entries.size(); ++i) {
        state_ = run::apply(std::move(state_), entries[i].header, (*decided)[i].event);
        committed.push_back({entries[i].header, std::move((*decided)[i].event)});
    }
    return committed;
}

Id Logbook::newId()
{
    return ids_.next(clock_->now().wallMs);
}

} // namespace loopside::ledger
