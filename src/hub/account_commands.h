// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// The verbs that keep the accounts of the site's page, at the hub's own terminal.

#pragma once

#include "hub/page/account_store.h"
#include "hub/settings.h"

#include <iosfwd>
#include <string>

namespace loopside::hub {

/// Somebody to be let in.
struct NewAccount
{
    std::string name;
    page::Role role = page::Role::Engineer;
    std::string person; ///< An id; empty: that of the person of this name in the catalogue, else a new one.
};

/// Lists who may sign in, and what was done to accounts.
[[nodiscard]] Done accounts(const Settings& settings, std::ostream& out);

/// Each takes the password from `in`, a line. The errors of `page::Accounts`.
[[nodiscard]] Done addAccount(const Settings& settings, const NewAccount& wanted, std::istream& in, std::ostream& out);
[[nodiscard]] Done setPassword(const Settings& settings, const std::string& name, std::istream& in, std::ostream& out);

[[nodiscard]] Done setRole(const Settings& settings, const std::string& name, page::Role role, std::ostream& out);
[[nodiscard]] Done setOut(const Settings& settings, const std::string& name, bool isOut, std::ostream& out);

} // namespace loopside::hub
