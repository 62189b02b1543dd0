// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "site/site.h"

namespace loopside::app {

using site::Site;
using site::SiteCart;
using site::siteFrom;
using site::SitePerson;
using site::withRecords;

/// Where the one of `before` that stood at `row` stands in `now`, by name; below 0 if it is not there.
[[nodiscard]] int keptRow(const std::vector<std::string>& before, int row, const std::vector<std::string>& now);

[[nodiscard]] std::vector<std::string> tankNames(const Site& site);
[[nodiscard]] std::vector<std::string> cartNames(const Site& site);
/// Of those in service.
[[nodiscard]] std::vector<std::string> personIds(const Site& site);

/// Whose tag reads `code`: that of a tank (its plate or its name) or of a cart (its name), whatever the case of
/// letters; blanks and dashes count only where that tells two apart.
struct Tagged
{
    std::optional<std::size_t> tank = {}; ///< Place in `tanks`.
    std::optional<std::size_t> cart = {}; ///< Place in `carts`.
};
[[nodiscard]] Tagged taggedIn(const Site& site, std::string_view code);

} // namespace loopside::app
