// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "base/id.h"
#include "base/result.h"
#include "run/state.h"

#include <map>
#include <string>
#include <string_view>
#include <vector>

namespace loopside::app {

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

/// What a site has: tanks, carts with their stages, the people who may hold the tablet. Read from one JSON file.
struct Site
{
    std::string name;
    std::vector<run::TankRecord> tanks;
    std::vector<SiteCart> carts;
    std::vector<SitePerson> people;
    std::map<std::string, std::string> plates; ///< What the plate of a tank shows, by the tank's name.
};

/// `site` with what was put into the catalogue since: the latest record of a name takes the place of the one before, a
/// new one stands behind those that are there. Nobody is added to the people: a name stands in no journal.
[[nodiscard]] Site withRecords(Site site, const std::vector<run::Entered<run::RecordPut>>& records);

/// Whose tag reads `code`: that of a tank (its plate or its name) or of a cart (its name), whatever the case of
/// letters.
struct Tagged
{
    std::optional<std::size_t> tank = {}; ///< Place in `tanks`.
    std::optional<std::size_t> cart = {}; ///< Place in `carts`.
};
[[nodiscard]] Tagged taggedIn(const Site& site, std::string_view code);

/// Reads a site; Malformed with the place in the file otherwise.
[[nodiscard]] Result<Site> siteFrom(std::string_view json);

} // namespace loopside::app
