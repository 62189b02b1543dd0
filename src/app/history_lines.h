// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// What became of a tank, a cart, a person: runs and jobs, and who changed what of its record when.

#pragma once

#include "app/row_model.h"
#include "app/tablet.h"

#include <nlohmann/json_fwd.hpp>

#include <vector>

namespace loopside::app {

struct HistoryLine
{
    std::uint64_t clock = 0; ///< Hybrid clock of the entry: the order.
    QString text;
    Id run = {}; ///< That can be looked at; none of what is no run.
};

/// The latest first. Rows: amount (empty), text, run (its id as text; empty if there is none).
[[nodiscard]] QList<RowModel::Row> historyRows(std::vector<HistoryLine> lines);

/// Runs, results of samples and transfers of a tank.
[[nodiscard]] std::vector<HistoryLine> workAtTank(const Tablet& tablet, const std::string& tank);
/// Runs, flushes and transfers of a cart.
[[nodiscard]] std::vector<HistoryLine> workOfCart(const Tablet& tablet, const std::string& cart);
/// Runs for a planned job.
[[nodiscard]] std::vector<HistoryLine> workForJob(const Tablet& tablet, const std::string& order);

/// Who changed what of a record of the catalogue when, and when it left service. `kind` is one of `run::recordKinds`.
[[nodiscard]] std::vector<HistoryLine> changesOf(const Tablet& tablet, const std::string& kind,
                                                 const std::string& name);

/// "2026-05-26 07:12 · Ines · volume: 760 L → 700 L". What both records have alike is not told; a new record says so.
[[nodiscard]] HistoryLine changeLine(const Tablet& tablet, const run::Header& header,
                                     const nlohmann::ordered_json& before, const nlohmann::ordered_json& after);

} // namespace loopside::app
