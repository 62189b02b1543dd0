// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "sync/tablet_side.h"

#include "sync/admit.h"
#include "sync/wire.h"

#include <algorithm>
#include <iterator>
#include <utility>

namespace loopside::sync {

using ledger::Entry;

namespace {

constexpr std::size_t envelopeBytes = 900; ///< Of a line without its body, about.

/// As many of `entries` as go into one message; one at least.
std::vector<Entry> batchOf(std::vector<Held> entries)
{
    std::vector<Entry> batch;
    std::size_t bytes = 0;
    for (Held& held : entries) {
        bytes += held.entry.body.size() + envelopeBytes;
        if (!batch.empty() && bytes > batchBytes) {
            break;
        }
        batch.push_back(std::move(held.entry));
    }
    return batch;
}

} // namespace

TabletSide::TabletSide(const Site& site, const Id& device, const Shelf& own, std::vector<ledger::Loss> losses,
                       std::set<Topic> interest, Progress progress)
    : site_{site},
      device_{device},
      own_{&own},
      losses_{std::move(losses)},
      interest_{std::move(interest)},
      progress_{std::move(progress)}
{
}

Result<std::optional<Message>> TabletSide::say() const
{
    const auto tips = own_->tips();
    if (!tips) {
        return fail(tips.error());
    }
    if (auto greeted = greeting(*tips)) {
        return greeted;
    }
    auto handed = handOver(*tips);
    return handed && !*handed ? Result<std::optional<Message>>(question()) : handed;
}

std::optional<Message> TabletSide::greeting(const std::vector<Tip>& tips) const
{
    HandOver said{device_};
    for (const Tip& tip : tips) {
        if (!round_.greeted.contains(tip.chain) && said.chains.size() < listedMost) {
            said.chains.push_back(tip.chain);
        }
    }
    return said.chains.empty() ? std::nullopt : std::optional(Message{site_.id, std::move(said)});
}

Result<std::optional<Message>> TabletSide::handOver(const std::vector<Tip>& tips) const
{
    for (const Tip& tip : tips) {
        const auto upTo = handedUpTo(tip.chain);
        if (!upTo) {
            return fail(upTo.error());
        }
        if (round_.stuck.contains(tip.chain) || *upTo >= tip.sequence) {
            continue;
        }
        auto entries = own_->behind(tip.chain, *upTo, entriesMost);
        if (!entries) {
            return fail(entries.error());
        }
        HandOver said{device_, {tip.chain}};
        std::ranges::copy_if(losses_, std::back_inserter(said.losses), [&](const ledger::Loss& loss) {
            return loss.chain == tip.chain && said.losses.size() < listedMost;
        });
        said.entries = batchOf(*std::move(entries));
        return Message{site_.id, std::move(said)};
    }
    return std::nullopt;
}

std::optional<Message> TabletSide::question() const
{
    std::set<Topic> topics = interest_;
    if (round_.wantsOwn || !losses_.empty()) {
        topics.insert(Topic::device(device_));
    }
    Ask said{device_};
    for (const Topic& topic : topics) {
        if (!round_.ended.contains(topic) && said.places.size() < listedMost) {
            const auto place = progress_.places.find(topic);
            said.places.push_back({topic, place == progress_.places.end() ? 0 : place->second});
        }
    }
    return said.places.empty() ? std::nullopt : std::optional(Message{site_.id, std::move(said)});
}

/// Up to where the hub has the own chain: as told in this round, else by the receipt.
Result<std::uint64_t> TabletSide::handedUpTo(const Id& chain) const
{
    if (const auto told = round_.handedUpTo.find(chain); told != round_.handedUpTo.end()) {
        return told->second;
    }
    const auto receipt = progress_.receipts.find(chain);
    if (receipt == progress_.receipts.end()) {
        return 0;
    }
    const Mark& mark = receipt->second.mark;
    return isOwn(mark).transform([&](bool isOurs) { return isOurs ? mark.sequence : 0; });
}

Result<Heard> TabletSide::hear(const Message& message) const
{
    if (message.site != site_.id) {
        return fail(Errc::Conflict,
                    "this message is of the site " + toText(message.site) + "; this tablet belongs to the site "
                        + toText(site_.id));
    }
    Heard heard;
    heard.progress = progress_;
    heard.round = round_;
    Done done = fail(Errc::Malformed, "this is what a tablet says, not what a tablet is told");
    if (const auto* marks = std::get_if<Marks>(&message.said)) {
        done = take(*marks, heard);
    } else if (const auto* page = std::get_if<Page>(&message.said)) {
        done = take(*page, heard);
    } else if (const auto* refusal = std::get_if<Refusal>(&message.said)) {
        heard.refusal = *refusal;
        done = {};
    }
    return done ? Result<Heard>(std::move(heard)) : fail(done.error());
}

void TabletSide::accept(const Heard& heard)
{
    progress_ = heard.progress;
    round_ = heard.round;
}

Done TabletSide::mayBelieve(const SignedMark& mark, const Id& log) const
{
    if (!isSignedBy(mark, site_.hub)) {
        return fail(Errc::Corrupt, "a mark is not signed by the hub of this site; nothing was taken from the message");
    }
    if (mark.mark.site != site_.id || mark.mark.log != log) {
        return fail(Errc::Conflict,
                    "a mark is of another site or of another record of the hub; nothing was taken from the message");
    }
    return {};
}

/// A hub whose record is another one has forgotten, or knows more: everything begins anew with it.
void TabletSide::noteLog(const Id& log, Heard& heard) const
{
    if (heard.progress.log != log) {
        heard.progress = {log};
        heard.round = {};
    }
}

Done TabletSide::take(const Marks& said, Heard& heard) const
{
    for (const SignedMark& mark : said.marks) {
        if (Done believed = mayBelieve(mark, said.log); !believed) {
            return believed;
        }
    }
    noteLog(said.log, heard);
    for (const SignedMark& mark : said.marks) {
        if (Done taken = take(mark, heard); !taken) {
            return taken;
        }
    }
    heard.round.greeted.insert(said.unknown.begin(), said.unknown.end());
    for (const Id& chain : said.unknown) {
        heard.round.handedUpTo[chain] = 0;
    }
    for (const Id& chain : said.gaps) {
        const bool began = heard.progress.receipts.erase(chain) + heard.round.handedUpTo[chain] == 0;
        heard.round.handedUpTo[chain] = 0;
        if (began) {
            heard.round.stuck.insert(chain);
        }
    }
    heard.clashes = said.clashes;
    return fillGaps(said, heard);
}

/// Goes back to where the hub has a gap that this journal can fill: what was lost turned up again, in a backup perhaps.
Done TabletSide::fillGaps(const Marks& said, Heard& heard) const
{
    for (const ledger::Loss& gap : said.missing) {
        const auto own = own_->behind(gap.chain, gap.after, 1);
        if (!own) {
            return fail(own.error());
        }
        const auto upTo = heard.round.handedUpTo.find(gap.chain);
        if (!own->empty() && own->front().entry.header.sequence < gap.before && upTo != heard.round.handedUpTo.end()) {
            upTo->second = std::min(upTo->second, gap.after);
        }
    }
    return {};
}

Done TabletSide::take(const SignedMark& signedMark, Heard& heard) const
{
    const Mark& mark = signedMark.mark;
    const auto own = own_->at(mark.chain, mark.sequence);
    if (!own) {
        return fail(own.error());
    }
    const bool isOurs = *own && (*own)->entry.hash == mark.hash;
    const bool isByUs = mark.device == device_; // of others, whose chains a bundle brought, the hub may know more
    if (isByUs && (!isOurs || mark.isAside)) {
        heard.forked.insert(mark.chain);
    }
    if (!mark.isAside) {
        heard.round.greeted.insert(mark.chain);
        heard.round.wantsOwn = heard.round.wantsOwn || (isByUs && !isOurs);
    }
    if (!isOurs) {
        return {};
    }
    SignedMark& receipt = heard.progress.receipts.try_emplace(mark.chain, signedMark).first->second;
    const auto known = isOwn(receipt.mark);
    if (!known) {
        return fail(known.error());
    }
    const bool hasForgotten = !mark.isAside && !receipt.mark.isAside && mark.atMs > receipt.mark.atMs;
    if (!*known || hasForgotten || mark.sequence >= receipt.mark.sequence) {
        receipt = signedMark;
    }
    heard.round.handedUpTo[mark.chain] = receipt.mark.sequence;
    return {};
}

/// Whether what `mark` names is an entry that stands in its place here.
Result<bool> TabletSide::isOwn(const Mark& mark) const
{
    return own_->at(mark.chain, mark.sequence).transform([&](const std::optional<Held>& held) {
        return held && held->entry.hash == mark.hash;
    });
}

Done TabletSide::take(const Page& said, Heard& heard) const
{
    if (!ledger::verifies(site_.hub, signedBytes(site_.id, said), said.signature)) {
        return fail(Errc::Corrupt, "a page is not signed by the hub of this site; nothing was taken from it");
    }
    std::map<Id, Mark> marks;
    for (const SignedMark& mark : said.marks) {
        if (Done believed = mayBelieve(mark, said.log); !believed) {
            return believed;
        }
        marks[mark.mark.chain] = mark.mark;
    }
    for (const Held& held : said.entries) {
        const auto mark = marks.find(held.entry.chain);
        if (mark == marks.end()) {
            return fail(Errc::Conflict, "a page has an entry without the hub's mark of its chain; nothing was taken");
        }
        if (Done entered = mayEnter(held.entry, mark->second); !entered) {
            return entered;
        }
    }
    noteLog(said.log, heard);
    for (const Section& section : said.sections) {
        std::uint64_t& place = heard.progress.places[section.topic];
        if (section.after <= place) {
            place = std::max(place, section.upTo);
        }
        if (place >= section.last) {
            heard.round.ended.insert(section.topic);
        }
    }
    for (const Held& held : said.entries) {
        const auto own = own_->at(held.entry.chain, held.entry.header.sequence);
        if (!own) {
            return fail(own.error());
        }
        if (!*own || (*own)->entry.hash != held.entry.hash) {
            heard.entries.push_back(held);
        }
    }
    return {};
}

} // namespace loopside::sync
