// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "site/site.h"

#include "ledger/prices_json.h"
#include "ledger/setup_json.h"

#include <algorithm>
#include <utility>

namespace loopside::site {

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

/// A person, and whether they are offered no more.
struct ReadPerson
{
    SitePerson person;
    bool isOut = false;
};

ReadPerson readPerson(const JsonReader& object)
{
    object.onlyKeys({"id", "name", "out_of_service"});
    const Id id = object.at("id").orRefuse(idFromText(object.at("id").text()));
    const auto isOut = object.ifThere("out_of_service", [](const JsonReader& flag) { return flag.boolean(); });
    return {{id, object.at("name").text(), {.id = id}}, isOut.value_or(false)};
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
    object.onlyKeys({"name", "tanks", "carts", "people", "plates", "prices"});
    Site site{.name = object.at("name").text(),
              .tanks = readList(object.at("tanks"), ledger::readTank),
              .carts = readList(object.at("carts"), readSiteCart),
              .people = {},
              .plates = object.ifThere("plates", readPlates).value_or(std::map<std::string, std::string>{}),
              .prices = object.ifThere("prices", ledger::readPrices)};
    for (ReadPerson& read : readList(object.at("people"), readPerson)) {
        (read.isOut ? site.peopleOut : site.people).push_back(std::move(read.person));
    }
    if (site.people.empty()) {
        object.at("people").refuse("somebody has to be in service, to hold the tablet");
    }
    return site;
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
        for (auto* people : {&site.people, &site.peopleOut}) {
            for (SitePerson& person : *people) {
                person.wants = person.id == put.person.id ? put.person : person.wants;
            }
        }
    }

    void operator()(const run::FluidPut& put) const
    {
        const auto isIt = [&](const run::FluidPut& fluid) { return fluid.name == put.name; };
        itemOf(site.fluids, isIt, put) = put;
    }

    void operator()(const run::ElementTypePut& put) const
    {
        const auto isIt = [&](const run::StageRecord& type) { return type.type == put.stage.type; };
        itemOf(site.elementTypes, isIt, put.stage) = put.stage;
    }

    void operator()(const run::JobPut& put) const
    {
        const auto isIt = [&](const run::JobRecord& job) { return job.order == put.job.order; };
        itemOf(site.jobs, isIt, put.job) = put.job;
    }

    void operator()(const run::RecordServiced& serviced) const
    {
        const auto record = recordNamed(site, serviced.kind, serviced.name);
        if (!record) {
            return;
        }
        std::erase_if(site.outOfService, [&](const OutOfService& out) {
            return kindOf(out.record) == serviced.kind && nameOf(out.record) == serviced.name;
        });
        forget(serviced.kind, serviced.name);
        if (serviced.isInService) {
            std::visit(*this, *record);
        } else {
            site.outOfService.push_back({*record, serviced.why});
        }
    }

    void forget(const std::string& kind, const std::string& name) const
    {
        if (kind == "tank") {
            std::erase_if(site.tanks, [&](const run::TankRecord& tank) { return tank.name == name; });
        } else if (kind == "cart") {
            std::erase_if(site.carts, [&](const SiteCart& cart) { return cart.cart.name == name; });
        } else if (kind == "fluid") {
            std::erase_if(site.fluids, [&](const run::FluidPut& fluid) { return fluid.name == name; });
        } else if (kind == "job") {
            std::erase_if(site.jobs, [&](const run::JobRecord& job) { return job.order == name; });
        } else {
            std::erase_if(site.elementTypes, [&](const run::StageRecord& type) { return type.type == name; });
        }
    }

    Site& site;
};

/// A record that is put while it is out of service stays out of it.
void put(Site& site, const run::RecordPut& record)
{
    for (OutOfService& out : site.outOfService) {
        if (!kindOf(record).empty() && !std::holds_alternative<run::RecordServiced>(record)
            && kindOf(out.record) == kindOf(record) && nameOf(out.record) == nameOf(record)) {
            out.record = record;
            return;
        }
    }
    std::visit(Putter{site}, record);
}

std::string plateOf(const Site& site, const std::string& tank)
{
    const auto plate = site.plates.find(tank);
    return plate == site.plates.end() ? std::string() : plate->second;
}

struct Kind
{
    std::string operator()(const run::TankPut&) const { return "tank"; }
    std::string operator()(const run::CartPut&) const { return "cart"; }
    std::string operator()(const run::PersonPut&) const { return {}; }
    std::string operator()(const run::FluidPut&) const { return "fluid"; }
    std::string operator()(const run::ElementTypePut&) const { return "element-type"; }
    std::string operator()(const run::JobPut&) const { return "job"; }
    std::string operator()(const run::RecordServiced& serviced) const { return serviced.kind; }
};

struct Name
{
    std::string operator()(const run::TankPut& put) const { return put.tank.name; }
    std::string operator()(const run::CartPut& put) const { return put.cart.name; }
    std::string operator()(const run::PersonPut& put) const { return toText(put.person.id); }
    std::string operator()(const run::FluidPut& put) const { return put.name; }
    std::string operator()(const run::ElementTypePut& put) const { return put.stage.type; }
    std::string operator()(const run::JobPut& put) const { return put.job.order; }
    std::string operator()(const run::RecordServiced& serviced) const { return serviced.name; }
};

} // namespace

Site withRecords(Site site, const std::vector<run::Entered<run::RecordPut>>& records)
{
    for (const auto& told : records) {
        put(site, told.what);
    }
    return site;
}

std::string kindOf(const run::RecordPut& record)
{
    return std::visit(Kind{}, record);
}

std::string nameOf(const run::RecordPut& record)
{
    return std::visit(Name{}, record);
}

std::vector<run::RecordPut> recordsOf(const Site& site, std::string_view kind)
{
    std::vector<run::RecordPut> records;
    if (kind == "tank") {
        for (const run::TankRecord& tank : site.tanks) {
            records.emplace_back(run::TankPut{tank, plateOf(site, tank.name)});
        }
    } else if (kind == "cart") {
        for (const SiteCart& cart : site.carts) {
            records.emplace_back(run::CartPut{cart.cart, cart.stages});
        }
    } else if (kind == "fluid") {
        records.assign(site.fluids.begin(), site.fluids.end());
    } else if (kind == "job") {
        for (const run::JobRecord& job : site.jobs) {
            records.emplace_back(run::JobPut{job});
        }
    } else {
        for (const run::StageRecord& type : site.elementTypes) {
            records.emplace_back(run::ElementTypePut{type});
        }
    }
    for (const OutOfService& out : site.outOfService) {
        if (kindOf(out.record) == kind) {
            records.push_back(out.record);
        }
    }
    return records;
}

std::optional<run::RecordPut> recordNamed(const Site& site, std::string_view kind, const std::string& name)
{
    const auto records = recordsOf(site, kind);
    const auto found = std::find_if(records.begin(), records.end(),
                                    [&](const run::RecordPut& record) { return nameOf(record) == name; });
    return found == records.end() ? std::nullopt : std::optional(*found);
}

const OutOfService* outOfServiceOf(const Site& site, std::string_view kind, const std::string& name)
{
    const auto found = std::find_if(site.outOfService.begin(), site.outOfService.end(), [&](const OutOfService& out) {
        return kindOf(out.record) == kind && nameOf(out.record) == name;
    });
    return found == site.outOfService.end() ? nullptr : &*found;
}

std::vector<run::FluidPut> knownFluids(const Site& site)
{
    std::vector<run::FluidPut> fluids = site.fluids;
    for (const run::TankRecord& tank : site.tanks) {
        const std::string text = run::fluidText(tank.fluid);
        const bool isThere = text.empty() || std::any_of(fluids.begin(), fluids.end(), [&](const run::FluidPut& fluid) {
                                 return fluid.name == text || fluid.fluid == tank.fluid;
                             });
        if (!isThere) {
            fluids.push_back({text, tank.fluid});
        }
    }
    return fluids;
}

std::map<Id, std::string> namesOf(const Site& site)
{
    std::map<Id, std::string> names;
    for (const auto* people : {&site.people, &site.peopleOut}) {
        for (const SitePerson& person : *people) {
            names[person.id] = person.name;
        }
    }
    return names;
}

Result<Site> siteFrom(std::string_view json)
{
    return ledger::readJson(json, readSite);
}

} // namespace loopside::site
