// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "app/site.h"

#include "app/wording.h"
#include "ledger/setup_json.h"

#include <algorithm>
#include <utility>

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
    const Id id = object.at("id").orRefuse(idFromText(object.at("id").text()));
    return {id, object.at("name").text(), {.id = id}};
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

/// The item of that name, made if it is not there.
template<class Item, class Name>
Item& itemOf(std::vector<Item>& items, Name isIt, Item otherwise)
{
    const auto found = std::find_if(items.begin(), items.end(), isIt);
    return found != items.end() ? *found : items.emplace_back(std::move(otherwise));
}

/// Puts one record in its place.
struct Putter
{
    void operator()(const run::TankPut& put) const
    {
        const auto isIt = [&](const run::TankRecord& tank) { return tank.name == put.tank.name; };
        itemOf(site.tanks, isIt, put.tank) = put.tank;
        if (put.plate.empty()) {
            site.plates.erase(put.tank.name);
        } else {
            site.plates[put.tank.name] = put.plate;
        }
    }

    void operator()(const run::CartPut& put) const
    {
        const auto isIt = [&](const SiteCart& cart) { return cart.cart.name == put.cart.name; };
        itemOf(site.carts, isIt, SiteCart{put.cart, {}}) = {put.cart, put.stages};
    }

    void operator()(const run::PersonPut& put) const
    {
        for (SitePerson& person : site.people) {
            if (person.id == put.person.id) {
                person.wants = put.person;
            }
        }
    }

    Site& site;
};

} // namespace

Site withRecords(Site site, const std::vector<run::Entered<run::RecordPut>>& records)
{
    for (const auto& told : records) {
        std::visit(Putter{site}, told.what);
    }
    return site;
}

Tagged taggedIn(const Site& site, std::string_view code)
{
    const QString read = toQt(code);
    const auto isRead = [&](const std::string& name) { return toQt(name).compare(read, Qt::CaseInsensitive) == 0; };
    Tagged tagged;
    for (std::size_t i = 0; i < site.tanks.size(); ++i) {
        const auto plate = site.plates.find(site.tanks[i].name);
        if (isRead(site.tanks[i].name) || (plate != site.plates.end() && isRead(plate->second))) {
            tagged.tank = i;
        }
    }
    for (std::size_t i = 0; i < site.carts.size(); ++i) {
        if (isRead(site.carts[i].cart.name)) {
            tagged.cart = i;
        }
    }
    return tagged;
}

Result<Site> siteFrom(std::string_view json)
{
    return ledger::readJson(json, readSite);
}

} // namespace loopside::app
