// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// Published tables as tests read them: comma-separated files in tests/published/data, whose first line is `#` and the
// source, whose second holds the titles. A field in double quotes may hold commas.

#pragma once

#include <map>
#include <string>
#include <utility>
#include <vector>

namespace loopside::published {

/// One row of a table, its fields by title.
class Row
{
public:
    explicit Row(std::map<std::string, std::string> fields) : fields_{std::move(fields)} {}

    /// The field under `title`, which must be there: throws otherwise, which fails the test.
    [[nodiscard]] const std::string& text(const std::string& title) const;

    /// The field as a number; throws if it is not one.
    [[nodiscard]] double number(const std::string& title) const;

    /// The titles that are numbers, by their number: the columns of a table over temperatures.
    [[nodiscard]] std::map<double, std::string> grid() const;

private:
    std::map<std::string, std::string> fields_;
};

/// The rows of tests/published/data/`file`; throws if it cannot be read, lacks its source or has a row of another
/// width.
[[nodiscard]] std::vector<Row> rowsOf(const std::string& file);

} // namespace loopside::published
