// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// A record for spreadsheets and other programs: CSV by RFC 4180.

#pragma once

#include "report/record.h"

#include <string>
#include <vector>

namespace loopside::report {

/// One line: fields in quotation marks where they need it, CR LF behind it.
[[nodiscard]] std::string csvLine(const std::vector<std::string>& fields);

/// `field`, with an apostrophe in front where a spreadsheet would take it for a formula.
///
/// Source: OWASP, CSV Injection; from memory.
[[nodiscard]] std::string asCsvText(const std::string& field);

/// Every cell of `record` as a line: part, row (the id of the entry, or what it tells), column, value. Part, row and
/// column are the same in every language. The first line names these four; the last ones, of part `proof`, tell the
/// run, its code, the number of its entries and their digest, by which the file belongs to the record in JSON.
[[nodiscard]] std::string csvOf(const RunRecord& record);

} // namespace loopside::report
