// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// Judgements about jobs that are no runs: what of them cannot be, and how far one is.

#pragma once

#include "run/state.h"

#include <optional>

namespace loopside::run {

/// What of it cannot be: the first fault, in a sentence that names the field; nothing if it can be. Odd is allowed,
/// impossible is not.
[[nodiscard]] std::optional<Error> faultIn(const JobOpened& opened);
[[nodiscard]] std::optional<Error> faultIn(const JobSaid& said);
[[nodiscard]] std::optional<Error> faultIn(const WasteTransferred& transfer);
[[nodiscard]] std::optional<Error> faultIn(const StartTold& judged);

/// How far a flush is.
struct FlushStanding
{
    int batches = 0;
    units::Volume flushed;                        ///< Oil of all batches.
    std::optional<units::Fraction> residual = {}; ///< Of the old oil in what stays in the cart; see filtration/flush.h.
    std::optional<bool> isThinEnough = {};        ///< Residual at or below the wanted one, if one was wanted.
};

/// How far a transfer is. Nothing is counted from the clock but the time to stop.
struct TransferStanding
{
    std::optional<units::Volume> free = {};   ///< In the container at the start; nothing if what it held is not known.
    std::optional<units::Volume> usable = {}; ///< Of that, what may be filled; see filtration/transfer.h.
    std::optional<units::Volume> rest = {};   ///< Of what was planned, what needs another container.
    std::optional<RunTime> stopAt = {};       ///< At the latest, on the job's clock; nothing if the flow is not known.
    bool isStopOverdue = false;               ///< Open and past `stopAt`.
    std::string why = {};                     ///< Why there is no `usable`; empty if there is.
};

struct JobStanding
{
    RunTime now{0}; ///< On the job's clock.
    bool isOpen = true;
    std::optional<FlushStanding> flush = {};
    std::optional<TransferStanding> transfer = {};
};

[[nodiscard]] JobStanding jobStanding(const Job& job, RunTime now);

} // namespace loopside::run
