// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "run/stock.h"

#include <numeric>

namespace loopside::run {

std::vector<StockMoved> stockChanges(const RunState& run)
{
    std::vector<std::string> types; // of what each stage holds
    for (const StageRecord& stage : run.setup.stages) {
        types.push_back(stage.type);
    }
    std::vector<StockMoved> changes;
    for (const Fact& fact : run.facts) {
        const auto* changed = std::get_if<ElementsChanged>(&fact.effective);
        if (changed == nullptr || run.setup.isPractice) {
            continue;
        }
        std::string& type = types[static_cast<std::size_t>(changed->stage) - 1];
        type = changed->type.empty() || fact.struck ? type : changed->type;
        const int told = std::accumulate(run.used.begin(), run.used.end(), 0, [&](int sum, const StockMoved& move) {
            return move.of == fact.header.id ? sum + move.elements : sum;
        });
        const int wanted = fact.struck ? 0 : -changed->elements;
        const bool isFirst = told == 0 && fact.amendedBy.empty();
        if (!type.empty() && wanted != told) {
            changes.push_back(
                {type, wanted - told, std::string(isFirst ? usedByChangeover : correctedByAmendment), fact.header.id});
        }
    }
    return changes;
}

} // namespace loopside::run
