// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include <string>
#include <vector>

namespace loopside::report {

/// A column, or a row of a table that tells names and values. `id` is the same in every language.
struct Column
{
    std::string id;
    std::string title;
    friend bool operator==(const Column&, const Column&) = default;
};

struct Row
{
    std::string id; ///< Of the entry that it is about, or what it tells.
    std::vector<std::string> cells;
    friend bool operator==(const Row&, const Row&) = default;
};

/// One part of a record, in words.
struct Table
{
    std::string id; ///< The same in every language.
    std::string title;
    std::vector<Column> columns;
    std::vector<Row> rows = {};
    std::string empty = {}; ///< What is said where there are no rows.
    friend bool operator==(const Table&, const Table&) = default;
};

} // namespace loopside::report
