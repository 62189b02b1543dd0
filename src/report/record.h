// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// The record of a run as plain tables, the same every time: what was done, read, seen, drawn, counted and signed, what
// it proves and what it cost. A pure function of the run's entries and of what is told beside them (language, units,
// names, prices), so that whoever has the entries can make it anew and compare.
//
// It stands as of the last entry of the run: no clock goes into it, and it changes only when something more is said.

#pragma once

#include "report/entry_text.h"
#include "report/evidence.h"
#include "report/table.h"
#include "run/cost.h"

#include <map>
#include <optional>

namespace loopside::report {

/// What is told beside the entries. Nothing of it is signed.
struct Telling
{
    std::string language = "en";
    units::Wanted wanted = {};
    std::map<Id, std::string> names = {}; ///< Of people; one that has none is told by the first digits of the id.
    std::optional<run::Prices> prices = {};
};

struct RunRecord
{
    std::string title;   ///< "Record of a cleaning run".
    std::string subject; ///< Tank and cart.
    std::string code;    ///< Of the run, six signs.
    Id run = {};
    bool isPractice = false;
    std::vector<std::string> notices; ///< What must not be passed over: practice, still open, no count.
    std::string verdict;              ///< How the oil stands against its target, in a sentence with the count.
    std::vector<Table> tables;        ///< All of `tableIds`, in that order.
    std::string digest;               ///< `digestOf` its entries, 64 digits.
    std::size_t entries = 0;

    [[nodiscard]] const Table& table(std::string_view id) const;
    friend bool operator==(const RunRecord&, const RunRecord&) = default;
};

inline constexpr std::array<std::string_view, 12> tableIds = {"run",      "result", "sizes",      "path",
                                                              "samples",  "stages", "alerts",     "findings",
                                                              "readings", "cost",   "signatures", "events"};

/// The record of the run that `evidence` is of. Malformed or Corrupt where its entries cannot be read, Incompatible
/// where they are of a newer version, NotFound for a language that is not there.
[[nodiscard]] Result<RunRecord> recordOf(const Evidence& evidence, const Telling& telling);

/// The run that the entries of `evidence` come to. Fails as of `recordOf`.
[[nodiscard]] Result<run::RunState> runOf(const Evidence& evidence);

/// When the last entry of `run` was made: what its record stands as of.
[[nodiscard]] run::RunTime lastOf(const run::RunState& run);

} // namespace loopside::report
