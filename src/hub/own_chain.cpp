// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "hub/own_chain.h"

#include <algorithm>

namespace loopside::hub {

using ledger::ChainHead;
using ledger::Position;
using ledger::Stored;
using sync::Held;
using sync::Tip;

Result<std::optional<Tip>> OwnChain::tip() const
{
    return shelf_->tipsOf(device_).transform(
        [](const std::vector<Tip>& tips) { return tips.empty() ? std::nullopt : std::optional(tips.back()); });
}

Result<Position> OwnChain::append(std::span<const ledger::Entry> entries)
{
    std::vector<Held> held;
    for (const ledger::Entry& entry : entries) {
        held.push_back({entry});
    }
    const auto outcomes = shelf_->put(held, {});
    if (!outcomes) {
        return fail(outcomes.error());
    }
    const bool isWhole = std::ranges::all_of(*outcomes, [](sync::Put put) { return put == sync::Put::Created; });
    return isWhole ? last() : fail(Errc::Conflict, "another hub with the same key wrote meanwhile: try again");
}

Result<std::vector<Stored>> OwnChain::read(Position after, std::size_t limit) const
{
    const auto end = tip();
    if (!end) {
        return fail(end.error());
    }
    if (!*end) {
        return std::vector<Stored>();
    }
    return shelf_->behind((*end)->chain, after, limit).transform([](std::vector<Held> found) {
        std::vector<Stored> stored;
        for (Held& held : found) {
            const Position position = held.entry.header.sequence;
            stored.push_back({position, std::move(held.entry)});
        }
        return stored;
    });
}

Result<std::optional<ChainHead>> OwnChain::head(const Id& device) const
{
    const auto end = device == device_ ? tip() : Result<std::optional<Tip>>();
    if (!end || !*end) {
        return end ? Result<std::optional<ChainHead>>() : fail(end.error());
    }
    const auto first = shelf_->at((*end)->chain, 1);
    const auto latest = first ? shelf_->at((*end)->chain, (*end)->sequence) : fail(first.error());
    if (!latest) {
        return fail(latest.error());
    }
    const auto opening = *first ? ledger::chainOpeningFrom((*first)->entry.body)
                                : fail(Errc::Corrupt, "the beginning of the hub's own chain is not there");
    if (!opening || !*latest) {
        return fail(opening ? Error{Errc::Corrupt, "the end of the hub's own chain is not there"} : opening.error());
    }
    return ChainHead{device_,           (*end)->chain, (*end)->sequence, (*end)->hash, (*latest)->entry.header.clock,
                     opening->publicKey};
}

Result<Position> OwnChain::last() const
{
    return tip().transform([](const std::optional<Tip>& end) { return end ? end->sequence : 0; });
}

} // namespace loopside::hub
