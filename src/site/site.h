// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// What a site has, from its file and from the journal: the catalogue as it holds now.

#pragma once

#include "base/id.h"
#include "base/result.h"
#include "run/cost.h"
#include "run/state.h"

#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace loopside::site {

/// A cart with the elements that stand in it.
struct SiteCart
{
    run::CartRecord cart;
    std::vector<run::StageRecord> stages;
};

struct SitePerson
{
    Id id;
    std::string name;
    run::PersonRecord wants = {};
};

/// A record that is kept and marked, and offered nowhere.
struct OutOfService
{
    run::RecordPut record;
    std::string why;
};

/// What a site has: tanks, carts with their stages, the people who may hold the tablet. Read from one JSON file. What
/// is out of service stands in `outOfService` alone.
struct Site
{
    std::string name;
    std::vector<run::TankRecord> tanks;
    std::vector<SiteCart> carts;
    std::vector<SitePerson> people;
    std::map<std::string, std::string> plates; ///< What the plate of a tank shows, by the tank's name.
    std::optional<run::Prices> prices = {};    ///< What records tell the cost of a run by.
    std::vector<run::FluidPut> fluids = {};
    std::vector<run::StageRecord> elementTypes = {}; ///< Each as a stage that is filled with it.
    std::vector<run::JobRecord> jobs = {};           ///< Planned, whether they are done or not.
    std::vector<OutOfService> outOfService = {};
    std::vector<SitePerson> peopleOut = {}; ///< Who is kept for the names of old entries, and offered nowhere.
};

/// One of `run::recordKinds`; empty for a person.
[[nodiscard]] std::string kindOf(const run::RecordPut& record);
[[nodiscard]] std::string nameOf(const run::RecordPut& record);

/// All records of one of `run::recordKinds` as they hold now: those in service, then those out of it.
[[nodiscard]] std::vector<run::RecordPut> recordsOf(const Site& site, std::string_view kind);
[[nodiscard]] std::optional<run::RecordPut> recordNamed(const Site& site, std::string_view kind,
                                                        const std::string& name);
/// Null if that record is in service, or not there.
[[nodiscard]] const OutOfService* outOfServiceOf(const Site& site, std::string_view kind, const std::string& name);

/// The oils that there are to choose from: those of the catalogue, then those of the tanks that it has not, each once,
/// named by `run::fluidText`.
[[nodiscard]] std::vector<run::FluidPut> knownFluids(const Site& site);

/// `site` with what was put into the catalogue since: the latest record of a name takes the place of the one before, a
/// new one stands behind those that are there. Nobody is added to the people: a name stands in no journal.
[[nodiscard]] Site withRecords(Site site, const std::vector<run::Entered<run::RecordPut>>& records);

/// What each person is called, those who are kept for the names of old entries too.
[[nodiscard]] std::map<Id, std::string> namesOf(const Site& site);

/// Reads a site; Malformed with the place in the file otherwise.
[[nodiscard]] Result<Site> siteFrom(std::string_view json);

} // namespace loopside::site
