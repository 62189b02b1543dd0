// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "ledger/settled.h"

#include "ledger/json_parts.h"

#include <nlohmann/json.hpp>

#include <algorithm>
#include <iterator>

namespace loopside::ledger {

std::string settlingOf(const std::vector<Id>& entries)
{
    nlohmann::ordered_json ids = nlohmann::ordered_json::array();
    std::ranges::transform(entries, std::back_inserter(ids), [](const Id& id) { return toText(id); });
    return nlohmann::ordered_json({{"entries", ids}}).dump();
}

Result<std::vector<Id>> settledBy(std::string_view body)
{
    return readJson(body, [](const JsonReader& settling) {
        settling.onlyKeys({"entries"});
        const auto items = settling.at("entries").items();
        if (items.empty() || items.size() > settledMost) {
            settling.at("entries").refuse("1 to " + std::to_string(settledMost) + " entries are settled at once");
        }
        std::vector<Id> ids;
        std::ranges::transform(items, std::back_inserter(ids), idOf);
        return ids;
    });
}

} // namespace loopside::ledger
