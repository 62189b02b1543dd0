// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "app/site.h"

#include "app/wording.h"
#include "run/right_tank.h"

#include <algorithm>

namespace loopside::app {

int keptRow(const std::vector<std::string>& before, int row, const std::vector<std::string>& now)
{
    if (row < 0 || row >= static_cast<int>(before.size())) {
        return -1;
    }
    const auto found = std::ranges::find(now, before[static_cast<std::size_t>(row)]);
    return found == now.end() ? -1 : static_cast<int>(found - now.begin());
}

std::vector<std::string> tankNames(const Site& site)
{
    std::vector<std::string> names;
    std::ranges::transform(site.tanks, std::back_inserter(names), &run::TankRecord::name);
    return names;
}

std::vector<std::string> cartNames(const Site& site)
{
    std::vector<std::string> names;
    for (const SiteCart& cart : site.carts) {
        names.push_back(cart.cart.name);
    }
    return names;
}

std::vector<std::string> personIds(const Site& site)
{
    std::vector<std::string> ids;
    for (const SitePerson& person : site.people) {
        ids.push_back(toText(person.id));
    }
    return ids;
}

namespace {

/// Whose plate or name is the one that `isIt` says.
template<class IsIt>
Tagged taggedBy(const Site& site, IsIt isIt)
{
    Tagged tagged;
    for (std::size_t i = 0; i < site.tanks.size(); ++i) {
        const auto plate = site.plates.find(site.tanks[i].name);
        if (isIt(site.tanks[i].name) || (plate != site.plates.end() && isIt(plate->second))) {
            tagged.tank = i;
        }
    }
    for (std::size_t i = 0; i < site.carts.size(); ++i) {
        if (isIt(site.carts[i].cart.name)) {
            tagged.cart = i;
        }
    }
    return tagged;
}

} // namespace

Tagged taggedIn(const Site& site, std::string_view code)
{
    const QString read = toQt(code);
    const auto isRead = [&](const std::string& name) { return toQt(name).compare(read, Qt::CaseInsensitive) == 0; };
    const auto hasSigns = [&](const std::string& name) { return run::readsAs(code, name); };
    const Tagged exact = taggedBy(site, isRead);
    return exact.tank || exact.cart ? exact : taggedBy(site, hasSigns); // as somebody types it from a plate
}

} // namespace loopside::app
