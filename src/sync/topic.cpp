// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "sync/topic.h"

#include "ledger/body.h"
#include "ledger/kinds.h"

#include <algorithm>
#include <array>
#include <optional>

namespace loopside::sync {

namespace {

constexpr std::array<std::string_view, 8> catalogueKinds = {
    "tank-put", "cart-put", "fluid-put", "element-type-put", "job-put", "record-serviced", "person-put", "stock-moved"};

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

} // namespace

void TopicIndex::add(const ledger::Entry& entry)
{
    const run::Header& header = entry.header;
    const Ref ref = {header.device, entry.chain, header.sequence};
    topics_[Topic::device(header.device)].push_back(ref);
    if (std::ranges::find(catalogueKinds, entry.kind) != catalogueKinds.end()) {
        topics_[Topic::catalogue()].push_back(ref);
    }
    if (entry.kind == "loading-learned") {
        topics_[Topic::learned()].push_back(ref);
    }
    if (header.run.isNone()) {
        return;
    }
    topics_[Topic::run(header.run)].push_back(ref);
    Run& run = runs_[header.run];
    if (!ledger::isKindOfMoment(entry.kind)) {
        run.lasting.push_back(ref);
        for (const Topic& tank : run.tanks) {
            topics_[tank].push_back(ref);
        }
    }
    const auto name = tankOf(entry);
    const Topic tank = Topic::tank(name.value_or(""));
    if (name && tank.name.size() <= topicBytesMax && run.tanks.insert(tank).second) {
        auto& list = topics_[tank];
        list.insert(list.end(), run.lasting.begin(), run.lasting.end());
    }
}

const std::vector<Ref>& TopicIndex::of(const Topic& topic) const
{
    static const std::vector<Ref> none;
    const auto listed = topics_.find(topic);
    return listed == topics_.end() ? none : listed->second;
}

} // namespace loopside::sync
