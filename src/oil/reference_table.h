// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include <cstddef>
#include <string_view>
#include <vector>

namespace loopside::oil {

/// One line of an embedded table.
struct ReferenceRow
{
    std::string_view name;       ///< The first cell as it stands, such as "00".
    std::vector<double> numbers; ///< All cells, the first too.
};

/// The rows of a table of `columns` numbers with commas between them, in their order. Lines that do not begin with a
/// digit are its source and its titles. The tables are part of the program: one of another form stops it.
[[nodiscard]] std::vector<ReferenceRow> referenceRows(std::string_view csv, std::size_t columns);

} // namespace loopside::oil
