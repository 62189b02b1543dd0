// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "oil/reference_table.h"

#include "base/require.h"

#include <algorithm>
#include <charconv>

namespace loopside::oil {

namespace {

ReferenceRow parsedRow(std::string_view line, std::size_t columns)
{
    ReferenceRow row{line.substr(0, line.find(',')), std::vector<double>(columns)};
    const char* at = line.data();
    const char* const end = line.data() + line.size();
    for (double& number : row.numbers) {
        const auto [stop, error] = std::from_chars(at, end, number);
        require(error == std::errc{}, "a reference table holds numbers");
        at = stop == end ? end : stop + 1;
    }
    require(at == end, "a row of a reference table has as many numbers as the others");
    return row;
}

} // namespace

std::vector<ReferenceRow> referenceRows(std::string_view csv, std::size_t columns)
{
    std::vector<ReferenceRow> rows;
    while (!csv.empty()) {
        const std::string_view line = csv.substr(0, csv.find('\n'));
        csv.remove_prefix(std::min(csv.size(), line.size() + 1));
        if (!line.empty() && line.front() >= '0' && line.front() <= '9') {
            rows.push_back(parsedRow(line, columns));
        }
    }
    return rows;
}

} // namespace loopside::oil
