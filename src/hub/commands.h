// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// The verbs of loopside-hub. Each works on the database that the settings name, beside a hub that runs.

#pragma once

#include "hub/settings.h"
#include "hub/sql.h"
#include "site/site.h"

#include <iosfwd>
#include <memory>
#include <string>

namespace loopside::hub {

/// The settings in the file `path`, which may be missing only where `path` is empty, and in the environment.
[[nodiscard]] Result<Settings> loadSettings(const std::string& path);

/// The database that `settings` name, laid out.
[[nodiscard]] Result<std::unique_ptr<Sql>> openDatabase(const Settings& settings);

/// The site in the file that the settings name, as tablets have it; an empty one where they name none.
[[nodiscard]] Result<site::Site> catalogueOf(const Settings& settings);

/// Answers tablets and the site's page until the program is told to stop (SIGTERM, SIGINT).
[[nodiscard]] Done serve(const Settings& settings, std::ostream& out);

/// Prints a code that lets one tablet in.
[[nodiscard]] Done enrol(const Settings& settings, std::ostream& out);

/// Lists the tablets, and what was done to the hub.
[[nodiscard]] Done devices(const Settings& settings, std::ostream& out);

/// Strikes the tablet `device` off, an id.
[[nodiscard]] Done revoke(const Settings& settings, const std::string& device, std::ostream& out);

/// Writes a backup to the file `path`, which must not be there.
[[nodiscard]] Done backUp(const Settings& settings, const std::string& path, std::ostream& out);

/// Puts the backup `path` into the database, which does not hold its site.
[[nodiscard]] Done restore(const Settings& settings, const std::string& path, std::ostream& out);

/// Looks at all that the hub holds. Corrupt if something is not as it was written; what, is printed.
[[nodiscard]] Done verifyAll(const Settings& settings, std::ostream& out);

} // namespace loopside::hub
