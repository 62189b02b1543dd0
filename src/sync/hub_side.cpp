// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "sync/hub_side.h"

#include "sync/admit.h"
#include "sync/precedence.h"
#include "sync/wire.h"

#include <algorithm>
#include <iterator>
#include <map>
#include <set>
#include <utility>

namespace loopside::sync {

using ledger::Entry;

namespace {

Done mayBe(std::size_t count, std::size_t most, const std::string& what)
{
    return count <= most
        ? Done{}
        : fail(Errc::OutOfRange,
               "a message has at most " + std::to_string(most) + " " + what + ", not " + std::to_string(count));
}

/// A piece of a page under way.
class PageBuilder
{
public:
    explicit PageBuilder(const HubStore& store) : store_{&store} {}

    /// Adds what stands in `place`'s topic behind it, as far as there is room. What the asking device wrote itself is
    /// passed over, but where it asks for just that.
    [[nodiscard]] Done add(const Place& place, const Id& device)
    {
        const auto listed = store_->list(place.topic, place.after, entriesMost);
        if (!listed) {
            return fail(listed.error());
        }
        const std::uint64_t after = std::min(place.after, listed->last);
        Section section{place.topic, after, after, listed->last};
        for (const Ref& ref : listed->refs) {
            const bool isOwn = ref.device == device && !place.topic.isOfDevice();
            if (!isOwn && !taken_.contains(ref)) {
                const auto held = store_->at(ref.chain, ref.sequence);
                if (!held || !*held) {
                    return fail(held ? Error{Errc::Corrupt, "what a topic lists is not there"} : held.error());
                }
                if (!hasRoomFor((*held)->entry)) {
                    break;
                }
                bytes_ += sizeOf((*held)->entry);
                taken_.insert(ref);
                page.entries.push_back(**held);
            }
            ++section.upTo;
        }
        page.sections.push_back(section);
        return {};
    }

    Page page = {};

private:
    [[nodiscard]] static std::size_t sizeOf(const Entry& entry) { return entry.body.size() + 900; }

    [[nodiscard]] bool hasRoomFor(const Entry& entry) const
    {
        return page.entries.empty() || (page.entries.size() < entriesMost && bytes_ + sizeOf(entry) <= batchBytes);
    }

    const HubStore* store_;
    std::set<Ref> taken_;
    std::size_t bytes_ = 0;
};

} // namespace

HubSide::HubSide(HubSettings settings, HubStore& store, ledger::DeviceKey key)
    : settings_{std::move(settings)}, store_{&store}, key_{std::move(key)}
{
}

Result<Message> HubSide::hear(const Message& message, std::int64_t nowMs)
{
    if (message.site != settings_.site) {
        return fail(Errc::Conflict,
                    "this message is for the site " + toText(message.site) + "; this hub is that of the site "
                        + toText(settings_.site));
    }
    if (const auto* handed = std::get_if<HandOver>(&message.said)) {
        return take(*handed, nowMs).transform([&](Marks marks) { return Message{settings_.site, std::move(marks)}; });
    }
    if (const auto* asked = std::get_if<Ask>(&message.said)) {
        return answer(*asked, nowMs).transform([&](Page page) { return Message{settings_.site, std::move(page)}; });
    }
    return fail(Errc::Malformed, "this is what a hub says, not what a hub is told");
}

Done HubSide::mayTake(const HandOver& said) const
{
    Done done = mayBe(said.entries.size(), entriesMost, "entries")
                    .and_then([&] { return mayBe(said.chains.size(), listedMost, "chains"); })
                    .and_then([&] { return mayBe(said.losses.size(), listedMost, "gaps"); });
    for (const Entry& entry : said.entries) {
        if (!done) {
            return done;
        }
        const auto key = settings_.keyOf(entry.header.device);
        done = key
            ? mayEnter(entry, *key)
            : fail(Errc::Conflict, "the device " + toText(entry.header.device) + " is not enrolled at this site");
    }
    return done;
}

Result<Marks> HubSide::take(const HandOver& said, std::int64_t nowMs)
{
    if (const Done may = mayTake(said); !may) {
        return fail(may.error());
    }
    std::vector<Held> entries;
    for (const Entry& entry : said.entries) {
        entries.push_back({entry, isAhead(entry.header.clock, nowMs)});
    }
    const auto outcomes = entries.empty() ? Result<std::vector<Put>>(std::vector<Put>())
                                          : store_->put(entries, said.losses);
    if (!outcomes) {
        return fail(outcomes.error());
    }
    Marks marks{settings_.log};
    std::map<Id, SignedMark> receipts; // of each chain the last entry in front of a gap
    std::set<Id> gaps;
    for (std::size_t i = 0; i < entries.size(); ++i) {
        const Entry& entry = said.entries[i];
        const Put outcome = (*outcomes)[i];
        if (outcome == Put::Gap) {
            gaps.insert(entry.chain);
        } else if (!gaps.contains(entry.chain)) {
            receipts[entry.chain] = marked({entry.header.device, entry.chain, entry.header.sequence, entry.hash},
                                           outcome == Put::Conflict, nowMs);
        }
        if (outcome == Put::Conflict) {
            marks.clashes.push_back({entry.chain, entry.header.sequence, entry.hash});
        }
    }
    marks.gaps.assign(gaps.begin(), gaps.end());
    for (const auto& [chain, receipt] : receipts) {
        marks.marks.push_back(receipt);
    }
    const Done told = addMarks(said, nowMs, marks);
    return told ? Result<Marks>(std::move(marks)) : fail(told.error());
}

/// How far the hub has the chains that were named; in a greeting also those of the device that were not, which a tablet
/// that was put back to an older copy of itself does not know.
Done HubSide::addMarks(const HandOver& said, std::int64_t nowMs, Marks& marks) const
{
    std::set<Id> chains(said.chains.begin(), said.chains.end());
    const auto others = said.entries.empty() ? store_->tipsOf(said.device)
                                             : Result<std::vector<Tip>>(std::vector<Tip>());
    if (!others) {
        return fail(others.error());
    }
    for (const Tip& tip : *others) {
        if (chains.size() < listedMost) {
            chains.insert(tip.chain);
        }
    }
    for (const Id& chain : chains) {
        const auto mark = markOf(chain, nowMs);
        if (!mark) {
            return fail(mark.error());
        }
        if (!*mark) {
            marks.unknown.push_back(chain);
        } else if (marks.marks.size() < listedMost) {
            marks.marks.push_back(**mark);
        }
        const auto gaps = store_->gapsOf(chain);
        if (!gaps) {
            return fail(gaps.error());
        }
        const std::size_t room = listedMost - marks.missing.size();
        std::ranges::copy_n(gaps->begin(), static_cast<std::ptrdiff_t>(std::min(room, gaps->size())),
                            std::back_inserter(marks.missing));
    }
    return {};
}

Result<Page> HubSide::answer(const Ask& said, std::int64_t nowMs) const
{
    if (const Done may = mayBe(said.places.size(), listedMost, "places"); !may) {
        return fail(may.error());
    }
    PageBuilder builder(*store_);
    for (const Place& place : said.places) {
        if (const Done added = builder.add(place, said.device); !added) {
            return fail(added.error());
        }
    }
    Page page = std::move(builder.page);
    page.log = settings_.log;
    std::set<Id> chains;
    for (const Held& held : page.entries) {
        chains.insert(held.entry.chain);
    }
    for (const Id& chain : chains) {
        const auto mark = markOf(chain, nowMs);
        if (!mark || !*mark) {
            return fail(mark ? Error{Errc::Corrupt, "a chain that is listed has no mark"} : mark.error());
        }
        page.marks.push_back(**mark);
    }
    page.signature = key_.sign(signedBytes(settings_.site, page));
    return page;
}

Result<std::optional<SignedMark>> HubSide::markOf(const Id& chain, std::int64_t nowMs) const
{
    return store_->tip(chain).transform(
        [&](const std::optional<Tip>& tip) { return tip ? std::optional(marked(*tip, false, nowMs)) : std::nullopt; });
}

SignedMark HubSide::marked(const Tip& tip, bool isAside, std::int64_t nowMs) const
{
    const auto key = settings_.keyOf(tip.device).value_or(ledger::PublicKey{});
    return signedBy(
        key_, {settings_.site, settings_.log, tip.device, key, tip.chain, tip.sequence, tip.hash, isAside, nowMs});
}

} // namespace loopside::sync
