// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// A laboratory's file of results, and what it would enter, row by row, before anybody says that it shall. A result goes
// to the run in which its bottle was drawn, however long ago; nothing is guessed and nothing is converted but counts
// per 100 mL into counts per mL, which is exact.
//
//   sample; code; c4_per_ml, c6_per_ml, c14_per_ml or …_per_100ml; counted (volume); method; water; viscosity; acid;
//   report

#pragma once

#include "run/decide.h"
#include "site/preview.h"

#include <map>
#include <optional>
#include <string>
#include <vector>

namespace loopside::site {

/// A bottle that was drawn, with the latest that was told of it.
struct KnownBottle
{
    Id run = {};
    std::string tank = {};
    std::string id = {};
    std::optional<run::ResultEntered> result = {};
    run::FluidRecord fluid = {}; ///< Of the tank.
};

/// All bottles of `state` that were not struck, also of runs that are put away (put_away.h); of practice runs none. A
/// name that stands in one run twice is the later bottle.
[[nodiscard]] std::vector<KnownBottle> bottlesOf(const run::State& state);

struct ResultRow
{
    int line = 0;       ///< Of the file, from 1.
    std::string sample; ///< As the file has it.
    std::string tank;   ///< Of the bottle, if it is known.
    RowFate fate = RowFate::Unreadable;
    std::vector<RowFault> faults = {};
    std::optional<run::Say> say = {}; ///< What is to be entered; none if nothing changes.
};

struct ResultsPreview
{
    std::vector<ResultRow> rows;
    std::vector<std::string> passedOver = {}; ///< Columns that no result has.

    [[nodiscard]] int count(RowFate fate) const;
};

/// A result as it was told, and what cannot be so in it.
struct ResultRead
{
    run::ResultEntered result;
    std::vector<RowFault> faults = {};
};

/// Reads one from `fields`, by column; those that are empty need not be there.
[[nodiscard]] ResultRead readResult(const std::map<std::string, std::string>& fields);

/// Holds the text of `file` against the bottles that are known. Malformed with a sentence for people if the file as a
/// whole cannot be read (value_table.h) or has no column `sample`.
[[nodiscard]] Result<ResultsPreview> resultsIn(const std::string& file, std::string text,
                                               const std::vector<KnownBottle>& bottles);

/// What a file of this kind is called beside `fileKinds`.
inline constexpr std::string_view resultsKind = "results";

/// The same as rows like those of records: named by bottle and tank, with what is entered, and what is odd in it as a
/// question (run/result_odd.h).
[[nodiscard]] Result<Preview> resultsPreviewOf(const std::string& file, std::string text, const run::State& state);

} // namespace loopside::site
