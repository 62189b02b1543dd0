// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// Telling a person of a site file otherwise. All but the list of people stays byte for byte what somebody wrote.

#pragma once

#include "base/id.h"
#include "base/result.h"

#include <string>
#include <string_view>

namespace loopside::site {

/// A person as the site file is to have them from now on.
struct PersonTold
{
    Id id = {};
    std::string name;
    bool isOut = false; ///< Kept, and offered nowhere.
};

/// `json`, a site file, with `person` in the place of the one of that id, or behind the others. Malformed if it is no
/// site file, or would be none then.
[[nodiscard]] Result<std::string> textWithPerson(const std::string& json, const PersonTold& person);

} // namespace loopside::site
