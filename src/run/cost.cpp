// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "run/cost.h"

#include <algorithm>

namespace loopside::run {

namespace {

int elementsPutIn(const RunState& run)
{
    int elements = 0;
    for (const Fact& fact : run.facts) {
        const auto* changed = std::get_if<ElementsChanged>(&fact.effective);
        elements += changed != nullptr && !fact.struck ? changed->elements : 0;
    }
    return elements;
}

void add(std::optional<double>& sum, const std::optional<Decimal>& price, double times)
{
    if (price) {
        sum = sum.value_or(0.0) + price->toDouble() * times;
    }
}

/// Whether the oil surely became cleaner, in bottles that may be held against each other.
bool isDropProven(const Proof& proof)
{
    const bool isCleaner = std::any_of(proof.sizes.begin(), proof.sizes.end(),
                                       [](const SizeProof& size) { return size.change == oil::CodeChange::Cleaner; });
    return isCleaner && proof.codesDown && proof.comparability && proof.comparability->isComparable();
}

/// What `spent` comes to for each number, where the least drop may be none.
void sharePerCode(RunCost& cost, const CodesDown& down)
{
    if (cost.spent && down.gotMost > 0) {
        cost.perCodeLeast = *cost.spent / down.gotMost;
        cost.perCodeMost = down.gotLeast > 0 ? std::optional(*cost.spent / down.gotLeast) : std::nullopt;
    }
}

void assumePrice(std::vector<Message>& assumed, const std::optional<Decimal>& price, const std::string& what,
                 const std::string& currency)
{
    if (price) {
        assumed.push_back({"cost.assumed." + what, {{"price", price->toText() + " " + currency}}});
    } else {
        assumed.push_back({"cost.no-price." + what, {}});
    }
}

} // namespace

RunCost costOf(const RunState& run, const Standing& standing, const Proof& proof, const Prices& prices)
{
    RunCost cost;
    cost.elements = elementsPutIn(run);
    cost.hours = std::chrono::duration<double, std::ratio<3600>>(standing.credit.filtering).count();
    cost.filtered_l = standing.credit.filtered.in(units::litre);
    cost.saved_l = proof.isMet() ? run.setup.tank.volume.value().in(units::litre) : 0.0;
    add(cost.spent, prices.element, cost.elements);
    add(cost.spent, prices.hour, cost.hours);
    if (proof.isMet()) {
        add(cost.savedWorth, prices.oilPerLitre, cost.saved_l);
    }
    if (isDropProven(proof)) {
        sharePerCode(cost, *proof.codesDown);
    }
    assumePrice(cost.assumed, prices.element, "element", prices.currency);
    assumePrice(cost.assumed, prices.hour, "hour", prices.currency);
    assumePrice(cost.assumed, prices.oilPerLitre, "oil", prices.currency);
    cost.assumed.push_back({"cost.assumed.fitted", {}});
    cost.assumed.push_back({proof.isMet() ? "cost.assumed.saved" : "cost.assumed.not-saved", {}});
    if (!isDropProven(proof)) {
        cost.assumed.push_back({"cost.assumed.no-drop", {}});
    }
    return cost;
}

} // namespace loopside::run
