// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// Entries as lines of text, for keeping and for programs: one JSON object a line (schema/README.md, section 3b). An
// export begins with a line that says how many follow, so that one that was cut short shows.

#pragma once

#include "base/result.h"
#include "ledger/chain.h"
#include "ledger/entry.h"

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

namespace loopside::ledger {

/// `entry` as one line, without its end.
[[nodiscard]] std::string lineOf(const Entry& entry);

/// The entry that `lineOf` wrote, bit for bit. Malformed for anything else. Neither hash nor signature is looked at.
[[nodiscard]] Result<Entry> entryFromLine(std::string_view line);

/// What stands in the first line of an export.
struct ExportTitle
{
    std::uint64_t entries = 0;
    std::vector<Loss> losses = {}; ///< Gaps that were there, and told of, when it was written.

    friend bool operator==(const ExportTitle&, const ExportTitle&) = default;
};

[[nodiscard]] std::string lineOf(const ExportTitle& title);

/// The title that `lineOf` wrote. Incompatible for one of a newer version, Malformed for anything else.
[[nodiscard]] Result<ExportTitle> titleFromLine(std::string_view line);

} // namespace loopside::ledger
