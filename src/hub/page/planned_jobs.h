// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// Jobs that a planner tells on the page: one by a form, or many by a CSV file. Both are read by what reads files of
// records on the tablet (site/preview.h); nothing is guessed, and all rows are taken or none.

#pragma once

#include "hub/page/site_views.h"
#include "site/preview.h"

#include <map>
#include <string>

namespace loopside::page {

/// What the form has, by the names of the columns: order, tank, cart, reason, turnovers, target_code, target_source,
/// due, elements. An empty field keeps what is known of that order.
using JobForm = std::map<std::string, std::string>;

/// One row, of line 2. Malformed if the form has a field that no job has, or a text with a line break or a quotation
/// mark, which no such file can hold.
[[nodiscard]] Result<site::Preview> jobInForm(const JobForm& form, const Known& known);

/// Malformed with a sentence for people if the file as a whole cannot be read.
[[nodiscard]] Result<site::Preview> jobsInFile(const std::string& file, const std::string& text, const Known& known);

/// Whether every row could be read.
[[nodiscard]] bool isWhole(const site::Preview& preview);

/// What is wrong, row by row: line, column (empty: the whole row), value, what, todo.
[[nodiscard]] Json faultsOf(const site::Preview& preview, const words::Words& words);

} // namespace loopside::page
