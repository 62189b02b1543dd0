// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "ledger/logbook.h"

#include "base/require.h"
#include "ledger/body.h"
#include "ledger/chain.h"
#include "ledger/handed.h"
#include "ledger/settled.h"
#include "run/put_away.h"

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

/// The run of which `command` tells something; none where it opens one or tells of no run.
Id runOf(const run::Command& command)
{
    const auto* said = std::get_if<run::Say>(&command);
    const auto* closed = std::get_if<run::CloseRun>(&command);
    return said != nullptr ? said->run : closed != nullptr ? closed->run : Id{};
}

} // namespace

Logbook::Logbook(Journal& journal, Clock& clock, RandomSource& random)
    : journal_{&journal}, clock_{&clock}, ids_{random}
{
}

Result<Logbook> Logbook::open(Journal& journal, Clock& clock, RandomSource& random, Reach reach)
{
    Logbook logbook(journal, clock, random);
    logbook.reach_ = reach;
    const Done folded = reach == Reach::Whole ? logbook.foldWhole()
        : reach == Reach::AtHand              ? logbook.foldAtHand()
                                              : logbook.foldOpen();
    if (!folded) {
        return fail(folded.error());
    }
    return logbook;
}

void Logbook::begin(Folded folded)
{
    state_ = std::move(folded.state);
    unknown_ = folded.unknown;
    heard(folded.latest);
}

Done Logbook::foldWhole()
{
    return fold([&](const auto& take) { return readAll(*journal_, take); }).transform([&](Folded folded) {
        begin(std::move(folded));
    });
}

Done Logbook::foldAtHand()
{
    auto atHand = ledger::foldAtHand(*journal_);
    const auto latest = journal_->latestClock();
    if (!atHand || !latest) {
        return fail(atHand ? latest.error() : atHand.error());
    }
    atHand_ = std::move(atHand->runs);
    isEarlierLeft_ = false;
    begin(std::move(atHand->folded));
    heard(*latest);
    return {};
}

Done Logbook::foldOpen()
{
    auto open = ledger::foldOpen(*journal_);
    const auto latest = journal_->latestClock();
    if (!open || !latest) {
        return fail(open ? latest.error() : open.error());
    }
    isEarlierLeft_ = true;
    begin(std::move(open->folded));
    heard(*latest);
    return {};
}

Done Logbook::takeEarlier()
{
    if (!isEarlierLeft_) {
        return {};
    }
    auto all = ledger::foldAtHand(*journal_);
    if (!all) {
        return fail(all.error());
    }
    run::State& told = all->folded.state;
    state_.runs.merge(told.runs);
    for (auto& [name, cart] : told.carts) {
        state_.carts.insert_or_assign(name, std::move(cart));
    }
    for (auto& [type, stock] : told.stock) {
        state_.stock.insert_or_assign(type, std::move(stock));
    }
    state_.stockMoves = std::move(told.stockMoves);
    unknown_ = all->folded.unknown;
    atHand_ = std::move(all->runs);
    isEarlierLeft_ = false;
    return {};
}

Done Logbook::takeOut(const Id& run)
{
    const auto known = state_.runs.find(run);
    if (known == state_.runs.end() || !known->second.isPutAway) {
        return {};
    }
    auto alone = fold([&](const auto& take) {
        return readBehind(*journal_, atHand_.opened.at(run),
                          [&](const Stored& stored) { return stored.entry.header.run == run ? take(stored) : Done{}; });
    });
    if (!alone) {
        return fail(alone.error());
    }
    known->second = std::move(alone->state.runs.at(run));
    keepAtHand(run);
    return {};
}

void Logbook::noteAtHand(const Committed& committed)
{
    if (std::holds_alternative<run::RunOpened>(committed.event)) {
        atHand_.opened.try_emplace(committed.header.run, 0);
        atHand_.open.insert(committed.header.run);
    } else if (std::holds_alternative<run::RunClosed>(committed.event)) {
        keepAtHand(committed.header.run);
    }
}

/// The earliest of too many that are over is put away.
void Logbook::keepAtHand(const Id& closedRun)
{
    atHand_.open.erase(closedRun);
    if (std::ranges::find(atHand_.closed, closedRun) == atHand_.closed.end()) {
        atHand_.closed.push_back(closedRun);
    }
    if (reach_ != Reach::Whole && atHand_.closed.size() > run::closedRunsAtHand) {
        run::putAway(state_.runs.at(atHand_.closed.front()));
        atHand_.closed.pop_front();
    }
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

    if (const Done whole = takeEarlier().and_then([&] { return takeOut(runOf(command)); }); !whole) {
        return fail(whole.error());
    }
    const Stamp now = clock_->now();
    const run::Context context{.device = hand.device,
                               .person = hand.person,
                               .firstEntry = ids_.next(now.wallMs),
                               .now = now,
                               .observed = observed,
                               .together = turnoversTogether(state_, now.wallMs)};
    auto decided = run::decide(state_, command, context);
    if (!decided) {
        return fail(decided.error());
    }
    if (std::holds_alternative<run::Tick>(command)) {
        std::erase_if(*decided, [&](const run::Decided& one) {
            const run::RunState* run = state_.runOf(one.run);
            return run != nullptr && !isTimedAt(*run, hand.device);
        });
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
        noteAtHand(committed.back());
    }
    return committed;
}

Done Logbook::settle(const std::vector<Id>& entries, const Hand& hand)
{
    const auto sealer = sealers_.find(hand.device);
    require(sealer != sealers_.end(), "a device is enrolled before it writes");
    const std::string body = settlingOf(entries);
    if (const auto read = settledBy(body); !read) {
        return fail(read.error());
    }
    const std::vector<Draft> drafts = {{std::string(aheadSettledKind), body}};
    return commit(sealer->second.seal(drafts, clock_->now(), hand.person, ids_), sealer->second);
}

Id Logbook::newId()
{
    return ids_.next(clock_->now().wallMs);
}

} // namespace loopside::ledger
