// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "sync/topic.h"

#include "ledger/body.h"
#include "ledger/handed.h"
#include "ledger/kinds.h"
#include "ledger/settled.h"
#include "run/run_code.h"

#include <algorithm>
#include <array>

namespace loopside::sync {

namespace {

/// Records of all kinds, the stock, and in which order a person wants them to count.
constexpr std::array<std::string_view, 9> catalogueKinds = {
    "tank-put",        "cart-put",   "fluid-put",   "element-type-put",      "job-put",
    "record-serviced", "person-put", "stock-moved", ledger::aheadSettledKind};

/// The name of the tank that `entry` says its run or job is on.
std::optional<std::string> tankOf(const ledger::Entry& entry)
{
    if (entry.kind != "run-opened" && entry.kind != "run-moved" && entry.kind != "transfer-opened") {
        return std::nullopt;
    }
    const auto event = ledger::eventFrom(entry.kind, entry.body);
    if (!event) {
        return std::nullopt;
    }
    if (const auto* opened = std::get_if<run::RunOpened>(&*event)) {
        return opened->setup.tank.name;
    }
    if (const auto* moved = std::get_if<run::RunMoved>(&*event)) {
        return moved->tank.name;
    }
    const auto* transfer = std::get_if<run::TransferOpened>(&*event);
    return transfer != nullptr ? std::optional(transfer->tank) : std::nullopt;
}

/// The device to which `entry` hands its run.
std::optional<Id> receiverOf(const ledger::Entry& entry)
{
    const auto event = entry.kind == "kept" ? ledger::eventFrom(entry.kind, entry.body)
                                            : fail(Errc::NotFound, "another kind");
    const auto* kept = event ? std::get_if<run::Kept>(&*event) : nullptr;
    return kept != nullptr ? ledger::handedTo(*kept) : std::nullopt;
}

} // namespace

Listing listingOf(const ledger::Entry& entry)
{
    const Id& run = entry.header.run;
    Listing listing;
    listing.topics.push_back(Topic::device(entry.header.device));
    if (std::ranges::find(catalogueKinds, entry.kind) != catalogueKinds.end()) {
        listing.topics.push_back(Topic::catalogue());
    }
    if (entry.kind == "loading-learned") {
        listing.topics.push_back(Topic::learned());
    }
    if (run.isNone()) {
        return listing;
    }
    listing.topics.push_back(Topic::run(run));
    listing.topics.push_back(Topic::code(run::codeOf(run)));
    listing.isLasting = !ledger::isKindOfMoment(entry.kind);
    if (const auto tank = tankOf(entry); tank && Topic::tank(*tank).name.size() <= topicBytesMax) {
        listing.tank = Topic::tank(*tank);
    }
    if (const auto device = receiverOf(entry)) {
        listing.handedTo = Topic::handedTo(*device);
    }
    return listing;
}

void TopicIndex::add(const ledger::Entry& entry)
{
    const run::Header& header = entry.header;
    const Ref ref = {header.device, entry.chain, header.sequence};
    const Listing listing = listingOf(entry);
    for (const Topic& topic : listing.topics) {
        topics_[topic].push_back(ref);
    }
    if (header.run.isNone()) {
        return;
    }
    Run& run = runs_[header.run];
    for (const Topic& handed : run.handedTo) {
        topics_[handed].push_back(ref);
    }
    if (listing.isLasting) {
        run.lasting.push_back(ref);
        for (const Topic& tank : run.tanks) {
            topics_[tank].push_back(ref);
        }
    }
    if (listing.tank) {
        join(run.tanks, *listing.tank, run.lasting);
    }
    if (listing.handedTo) {
        join(run.handedTo, *listing.handedTo, topics_[Topic::run(header.run)]);
    }
}

/// Lists a run under `topic` from its beginning on, if it is not listed there.
void TopicIndex::join(std::set<Topic>& joined, const Topic& topic, const std::vector<Ref>& from)
{
    if (joined.insert(topic).second) {
        auto& list = topics_[topic];
        list.insert(list.end(), from.begin(), from.end());
    }
}

const std::vector<Ref>& TopicIndex::of(const Topic& topic) const
{
    static const std::vector<Ref> none;
    const auto listed = topics_.find(topic);
    return listed == topics_.end() ? none : listed->second;
}

} // namespace loopside::sync
