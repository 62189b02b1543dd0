// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "run/stock.h"

#include <numeric>

namespace loopside::run {

namespace {

/// What each stage of a run holds, as its changeovers go by.
class Types
{
public:
    explicit Types(const Setup& setup)
    {
        for (const StageRecord& stage : setup.stages) {
            types_.push_back(stage.type);
        }
    }

    void change(const Fact& fact, const ElementsChanged& changed)
    {
        if (!changed.type.empty() && !fact.struck) {
            types_[static_cast<std::size_t>(changed.stage) - 1] = changed.type;
        }
    }

    [[nodiscard]] const std::string& in(int stage) const { return types_[static_cast<std::size_t>(stage) - 1]; }

private:
    std::vector<std::string> types_;
};

} // namespace

std::vector<StockMoved> stockChanges(const RunState& run)
{
    Types types(run.setup);
    std::vector<StockMoved> changes;
    for (const Fact& fact : run.facts) {
        const auto* changed = std::get_if<ElementsChanged>(&fact.effective);
        if (changed == nullptr || run.setup.isPractice) {
            continue;
        }
        types.change(fact, *changed);
        const std::string& type = types.in(changed->stage);
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

std::string elementTypeIn(const RunState& run, int stage)
{
    Types types(run.setup);
    for (const Fact& fact : run.facts) {
        if (const auto* changed = std::get_if<ElementsChanged>(&fact.effective)) {
            types.change(fact, *changed);
        }
    }
    return types.in(stage);
}

} // namespace loopside::run
