// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "run/demand.h"
#include "site/site.h"

#include <ostream>
#include <string>
#include <vector>

namespace loopside::cli {

/// Everything that a journal says, over all its runs, and the catalogue as it holds now.
struct SiteAtHand
{
    run::State state; ///< Each run put away.
    site::Site site;
    std::vector<run::PlannedWork> planned; ///< Jobs that nobody took up; the first due first, those without a day last.
};

/// Of the journal `journal` and perhaps a site file.
[[nodiscard]] Result<SiteAtHand> siteAtHand(const std::string& journal, const std::string& siteFile);

/// A line "label  text" in two columns, indented.
void tellLine(std::ostream& out, const std::string& label, const std::string& text);

/// The day of a moment in UTC, such as "2026-07-12".
[[nodiscard]] std::string dayOf(const Stamp& stamp);

/// "820 L", with a digit behind the point below 100.
[[nodiscard]] std::string litresText(double litres);

} // namespace loopside::cli
