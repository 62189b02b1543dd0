// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "ledger/prices_json.h"

namespace loopside::ledger {

namespace {

std::optional<Decimal> priceIn(const JsonReader& object, std::string_view name)
{
    const auto price = object.decimalIfThere(name);
    if (price && *price < Decimal(0, 0)) {
        object.at(name).refuse("a price is not below 0");
    }
    return price;
}

} // namespace

run::Prices readPrices(const JsonReader& object)
{
    object.onlyKeys({"currency", "element", "oil_per_litre", "hour"});
    return {object.at("currency").text(), priceIn(object, "element"), priceIn(object, "oil_per_litre"),
            priceIn(object, "hour")};
}

} // namespace loopside::ledger
