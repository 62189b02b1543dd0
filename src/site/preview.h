// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// What a file of records would do to the catalogue, row by row, before anybody says that it shall. Nothing is guessed:
// a row with one thing in it that cannot be read is not taken, and says why and what to do.

#pragma once

#include "run/decide.h"
#include "site/record_changes.h"
#include "site/site.h"

#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace loopside::site {

enum class RowFate
{
    New,
    Changed,
    Same,
    Unreadable
};

/// new, changed, same or unreadable.
[[nodiscard]] std::string_view nameOf(RowFate fate);

struct RowFault
{
    std::string column; ///< As the file names it; empty: the row as a whole.
    std::string value;  ///< As the file has it.
    Message what;
    Message todo;
};

struct PreviewRow
{
    int line = 0;     ///< Of the file, from 1.
    std::string name; ///< Of the record; empty if it could not be read.
    RowFate fate = RowFate::Unreadable;
    std::vector<Change> changes = {}; ///< Of one that is changed; of a new one all that it holds.
    std::vector<RowFault> faults = {};
    std::vector<Message> odd = {};            ///< Of a row that is taken: what somebody looks at before.
    std::optional<run::RecordPut> put = {};   ///< What is to be put; none if nothing of the record changes.
    std::optional<run::MoveStock> stock = {}; ///< What a count of the stock moves it by.
    std::optional<run::Say> say = {};         ///< What is to be entered in a run: a result.
};

struct Preview
{
    std::string recordKind; ///< One of `run::recordKinds`; empty of results.
    std::vector<PreviewRow> rows;
    std::vector<std::string> passedOver = {}; ///< Columns that no record has.

    [[nodiscard]] int count(RowFate fate) const;
    /// How many rows there are to be taken: the new and the changed ones.
    [[nodiscard]] int takes() const { return count(RowFate::New) + count(RowFate::Changed); }
    /// All good rows of records that do something, as one command.
    [[nodiscard]] run::PutRecords command() const;
    /// All that the good rows do: the records as one command, so that all of them are put or none, then each result.
    [[nodiscard]] std::vector<run::Command> commands() const;
};

using Stock = std::map<std::string, run::StockStanding>;

/// Holds the text of `file` against what is known. A column that is not there and a field that is empty leave what is
/// known; "-" takes it back. Malformed with a sentence for people if the file as a whole cannot be read (value_table.h)
/// or has no column for the name.
[[nodiscard]] Result<Preview> previewOf(const std::string& file, std::string text, std::string_view recordKind,
                                        const Site& site, const Stock& stock);

} // namespace loopside::site
