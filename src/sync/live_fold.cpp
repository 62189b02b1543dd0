// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "sync/live_fold.h"

#include "ledger/body.h"
#include "ledger/chain.h"
#include "ledger/hybrid_clock.h"
#include "ledger/settled.h"
#include "run/apply.h"
#include "run/cart.h"

#include <algorithm>
#include <numeric>
#include <optional>
#include <utility>

namespace loopside::sync {

using ledger::Entry;
using ledger::Loss;
using run::Event;
using run::Header;

namespace {

constexpr std::size_t pieceOfChain = 500;

/// What `entry` says; nothing where it says nothing to be folded: of the order alone, or of a kind of a later version.
Result<std::optional<Event>> eventIn(const Entry& entry)
{
    if (entry.kind == ledger::chainOpenedKind || entry.kind == ledger::aheadSettledKind) {
        return std::optional<Event>();
    }
    auto event = ledger::eventFrom(entry.kind, entry.body);
    if (event) {
        return std::optional<Event>(*std::move(event));
    }
    return event.error().code == Errc::Incompatible
        ? Result<std::optional<Event>>(std::optional<Event>())
        : fail(Errc::Corrupt,
               "entry " + toText(entry.header.id) + " does not say what its kind \"" + entry.kind
                   + "\" should say: " + event.error().sentence);
}

const std::string* cartOf(const run::State& state, const Id& run)
{
    const run::RunState* found = state.runOf(run);
    const run::Job* job = state.jobOf(run);
    return found != nullptr ? &found->setup.cart.name : job != nullptr ? &job->cart() : nullptr;
}

/// Adds what is missing between the place `after` of a chain and `next`, if anything is.
void addGap(std::vector<Loss>& gaps, std::uint64_t after, const Held& next)
{
    const std::uint64_t sequence = next.entry.header.sequence;
    if (sequence > after + 1) {
        gaps.push_back({next.entry.chain, after, sequence});
    }
}

/// Whether `event` begins what has its id in the place of a run.
bool isOpening(const Event& event)
{
    return std::holds_alternative<run::RunOpened>(event) || std::holds_alternative<run::FlushOpened>(event)
        || std::holds_alternative<run::TransferOpened>(event);
}

} // namespace

LiveFold::LiveFold(const HubStore& store, std::function<void(const run::RunState&)> beforePutAway,
                   std::size_t closedWhole)
    : store_{&store}, beforePutAway_{std::move(beforePutAway)}, closedWhole_{closedWhole}
{
    beginAnew();
}

void LiveFold::beginAnew()
{
    state_ = std::make_shared<run::State>();
    shown_ = state_;
    changes_ = std::make_shared<RunChanges>();
    changesShown_ = changes_;
    chains_.clear();
    last_.clear();
    latest_ = {};
    pending_.clear();
    cartsToRecount_.clear();
    closed_.clear();
    ahead_.clear();
    settled_.clear();
    isAheadChanged_ = false;
    latestClock_ = 0;
}

Result<bool> LiveFold::catchUp()
{
    const auto tips = store_->tips();
    if (!tips) {
        return fail(tips.error());
    }
    if (isOtherRecord(*tips)) {
        beginAnew();
    }
    bool isNew = !pending_.empty() || isAheadChanged_; // what a failure left
    for (const Tip& tip : *tips) {
        const auto followed = follow(tip);
        if (!followed) {
            return fail(followed.error());
        }
        isNew = isNew || *followed;
    }
    const Done done = rankAhead().and_then([&] { return foldPending(); });
    if (!done) {
        return fail(done.error());
    }
    recountCarts();
    return isNew;
}

/// Whether what was taken in is no part of what the store holds: another record was put in its place.
bool LiveFold::isOtherRecord(const std::vector<Tip>& tips) const
{
    return std::ranges::any_of(chains_, [&](const auto& chain) {
        const auto& [id, followed] = chain;
        const auto tip = std::ranges::find(tips, id, &Tip::chain);
        return tip == tips.end() || tip->sequence < followed.sequence
            || (tip->sequence == followed.sequence && tip->hash != followed.hash);
    });
}

Result<bool> LiveFold::follow(const Tip& tip)
{
    Followed& followed = chains_[tip.chain];
    const auto filled = fillGaps(tip.chain, followed);
    if (!filled) {
        return fail(filled.error());
    }
    const bool isLonger = followed.sequence < tip.sequence;
    while (followed.sequence < tip.sequence) {
        const auto piece = store_->behind(tip.chain, followed.sequence, pieceOfChain);
        if (!piece || piece->empty()) {
            return piece ? fail(Errc::Corrupt, "a chain ends before its last entry") : fail(piece.error());
        }
        for (const Held& held : *piece) {
            if (const Done taken = take(held); !taken) {
                return fail(taken.error());
            }
            addGap(followed.gaps, followed.sequence, held);
            followed.sequence = held.entry.header.sequence;
            followed.hash = held.entry.hash;
        }
    }
    return isLonger || *filled;
}

/// Takes in what came into gaps of `chain` since they were seen; true if anything did.
Result<bool> LiveFold::fillGaps(const Id& chain, Followed& followed)
{
    bool isFilled = false;
    std::vector<Loss> left;
    for (const Loss& gap : followed.gaps) {
        std::uint64_t after = gap.after;
        while (after + 1 < gap.before) {
            const auto next = store_->behind(chain, after, 1);
            const bool isThere = next && !next->empty();
            const Done taken = isThere && next->front().entry.header.sequence < gap.before ? take(next->front())
                                                                                           : Done{};
            if (!isThere || !taken) {
                return next ? fail(isThere ? taken.error() : Error{Errc::Corrupt, "a chain lost its end"})
                            : fail(next.error());
            }
            addGap(left, after, next->front());
            after = next->front().entry.header.sequence;
            isFilled = isFilled || after < gap.before;
        }
    }
    followed.gaps = std::move(left);
    return isFilled;
}

Done LiveFold::take(const Held& held)
{
    const Entry& entry = held.entry;
    if (entry.kind == ledger::aheadSettledKind) {
        if (const auto ids = ledger::settledBy(entry.body)) {
            settled_.insert(ids->begin(), ids->end());
            isAheadChanged_ = true;
        }
    }
    if (held.isAhead && !settled_.contains(entry.header.id)) {
        ahead_.try_emplace(entry.header.id, Ahead{entry.header, entry.chain});
        isAheadChanged_ = true;
        return {};
    }
    if (entry.header.clock < ledger::HybridClock::end) {
        latestClock_ = std::max(latestClock_, entry.header.clock);
    }
    return takeOnto(entry.header, entry);
}

/// Folds `entry` at the place of `header`.
Done LiveFold::takeOnto(const Header& header, const Entry& entry)
{
    const auto event = eventIn(entry);
    if (!event) {
        return fail(event.error());
    }
    if (*event) {
        applyToSite(*state_, header, **event);
        foldIntoRun(header, **event);
    }
    return {};
}

void LiveFold::foldIntoRun(const Header& header, const Event& event)
{
    const Id& run = header.run;
    const run::RunState* known = state_->runOf(run);
    if (run.isNone() && known == nullptr && state_->jobOf(run) == nullptr && !isOpening(event)) {
        return; // of no run: most often so
    }
    const auto last = last_.find(run);
    const bool isLate = last != last_.end() && !foldsBefore(last->second, header);
    if (pending_.contains(run) || isLate || (known != nullptr && known->isPutAway)
        || (run.isNone() && known == nullptr)) {
        pending_.insert(run);
        return;
    }
    last_.insert_or_assign(run, header);
    applyToRun(*state_, header, event);
    if (foldsBefore(latest_, header)) {
        latest_ = header;
        updateCarts(*state_, header, event);
    } else {
        markCartsOf(run);
    }
    changed(run);
    keepWhole(run);
}

/// Gives those that ran ahead their ranks, and those that were settled since their own clocks.
Done LiveFold::rankAhead()
{
    if (!isAheadChanged_) {
        return {};
    }
    std::vector<Ahead*> order;
    for (auto& [id, ahead] : ahead_) {
        order.push_back(&ahead);
    }
    const auto counts = [&](const Ahead* one) { return settled_.contains(one->header.id); };
    std::ranges::sort(order, [&](const Ahead* a, const Ahead* b) {
        return counts(a) != counts(b) ? counts(b) : foldsBefore(a->header, b->header);
    });
    std::uint64_t rank = 0;
    for (Ahead* one : order) {
        const bool isSettled = counts(one);
        rank += isSettled ? 0 : 1;
        if (!isSettled && one->rank == rank) {
            continue;
        }
        const auto held = store_->at(one->chain, one->header.sequence);
        if (!held || !*held) {
            return held ? fail(Errc::Corrupt, "an entry that ran ahead is not there any more") : fail(held.error());
        }
        takeBackFromSite(*state_, one->header.id);
        if (!one->header.run.isNone() || state_->runOf({}) != nullptr || state_->jobOf({}) != nullptr) {
            pending_.insert(one->header.run);
        }
        Header header = one->header;
        header.clock = isSettled ? header.clock : rank;
        if (const Done taken = takeOnto(header, (*held)->entry); !taken) {
            return taken;
        }
        one->rank = rank;
        if (isSettled) {
            latestClock_ = header.clock < ledger::HybridClock::end ? std::max(latestClock_, header.clock)
                                                                   : latestClock_;
        }
    }
    std::erase_if(ahead_, [&](const auto& one) { return settled_.contains(one.first); });
    isAheadChanged_ = false;
    return {};
}

Done LiveFold::foldPending()
{
    while (!pending_.empty()) {
        const Id run = *pending_.begin();
        markCartsOf(run);
        if (const Done folded = foldRun(run); !folded) {
            return folded;
        }
        markCartsOf(run);
        pending_.erase(run);
        keepWhole(run);
    }
    return {};
}

/// Folds `run`, or the job of that id, from all of its entries.
Done LiveFold::foldRun(const Id& run)
{
    auto all = store_->ofRun(run);
    if (!all) {
        return fail(all.error());
    }
    std::vector<std::pair<Header, Event>> events;
    for (const Held& held : *all) {
        Header header = held.entry.header;
        if (held.isAhead && !settled_.contains(header.id)) {
            const auto ahead = ahead_.find(header.id);
            if (ahead == ahead_.end()) {
                continue; // it came just now, and has its turn
            }
            header.clock = ahead->second.rank;
        }
        auto event = eventIn(held.entry);
        if (!event) {
            return fail(event.error());
        }
        if (*event) {
            events.emplace_back(header, **std::move(event));
        }
    }
    std::ranges::stable_sort(events, [](const auto& a, const auto& b) { return foldsBefore(a.first, b.first); });
    state_->runs.erase(run);
    state_->jobs.erase(run);
    for (const auto& [header, event] : events) {
        applyToRun(*state_, header, event);
        last_.insert_or_assign(run, header);
        latest_ = foldsBefore(latest_, header) ? header : latest_;
    }
    changed(run);
    return {};
}

Done LiveFold::takeOut(const Id& run)
{
    const run::RunState* known = state_->runOf(run);
    if (known == nullptr || !known->isPutAway) {
        return {};
    }
    const Done folded = foldRun(run);
    keepWhole(run);
    return folded;
}

void LiveFold::markCartsOf(const Id& run)
{
    if (const std::string* cart = cartOf(*state_, run)) {
        cartsToRecount_.insert(*cart);
    }
}

void LiveFold::recountCarts()
{
    for (const std::string& cart : cartsToRecount_) {
        run::recountCart(*state_, cart);
    }
    cartsToRecount_.clear();
}

void LiveFold::changed(const Id& run)
{
    (*changes_)[run] = ++change_;
}

/// Puts runs that are over away where `run` is one more than may stay whole.
void LiveFold::keepWhole(const Id& run)
{
    const run::RunState* known = state_->runOf(run);
    if (known == nullptr || known->phase != run::Phase::Closed || known->isPutAway) {
        return;
    }
    std::erase(closed_, run);
    closed_.push_back(run);
    while (closed_.size() > closedWhole_) {
        const auto first = state_->runs.find(closed_.front());
        closed_.pop_front();
        if (first != state_->runs.end() && first->second.phase == run::Phase::Closed && !first->second.isPutAway) {
            beforePutAway_(first->second);
            run::putAway(first->second);
            changed(first->first);
        }
    }
}

std::uint64_t LiveFold::entries() const
{
    return std::accumulate(chains_.begin(), chains_.end(), std::uint64_t{0},
                           [](std::uint64_t sum, const auto& chain) { return sum + chain.second.sequence; });
}

} // namespace loopside::sync
