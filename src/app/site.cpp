// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "app/site.h"

#include "ledger/setup_json.h"

namespace loopside::app {

namespace {

using ledger::JsonReader;

SiteCart readSiteCart(const JsonReader& object)
{
    object.onlyKeys({"cart", "stages"});
    const auto stages = object.at("stages").items();
    SiteCart read{ledger::readCart(object.at("cart"), stages.size()), {}};
    for (const JsonReader& stage : stages) {
        read.stages.push_back(ledger::readStage(stage));
    }
    return read;
}

SitePerson readPerson(const JsonReader& object)
{
    object.onlyKeys({"id", "name"});
    return {object.at("id").orRefuse(idFromText(object.at("id").text())), object.at("name").text()};
}

std::map<std::string, std::string> readPlates(const JsonReader& object)
{
    std::map<std::string, std::string> plates;
    for (const auto& [tank, plate] : object.value().members) {
        plates.emplace(tank, object.at(tank).text());
    }
    return plates;
}

template<class Item>
std::vector<Item> readList(const JsonReader& list, Item (*read)(const JsonReader&))
{
    std::vector<Item> items;
    for (const JsonReader& item : list.items()) {
        items.push_back(read(item));
    }
    if (items.empty()) {
        list.refuse("a site has at least one of these");
    }
    return items;
}

Site readSite(const JsonReader& object)
{
    object.onlyKeys({"name", "tanks", "carts", "people", "plates"});
    return {object.at("name").text(), readList(object.at("tanks"), ledger::readTank),
            readList(object.at("carts"), readSiteCart), readList(object.at("people"), readPerson),
            object.ifThere("plates", readPlates).value_or(std::map<std::string, std::string>{})};
}

} // namespace

Result<Site> siteFrom(std::string_view json)
{
    return ledger::readJson(json, readSite);
}

} // namespace loopside::app
