// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// How many elements were used, and how many are likely to be needed: in the next 30 days by how often stages were
// changed, and for planned jobs by the dirt that comes by and how long elements lasted.
//
// By use: changes come at random with a steady rate, gamma-distributed beforehand with a half of a change in no time
// (Jeffreys), so that those of the next days are negative binomial. By jobs: load ÷ life, where the load is what the
// turnovers of the job bring and the band of the life is that of life_learned.h.
// Source: Bayes' rule; the negative binomial as a gamma mixture of Poisson distributions (from memory).
// Validity: work that goes on as before. The ends of several jobs are added as if they all came together: wide.

#pragma once

#include "run/life_learned.h"

#include <optional>
#include <span>
#include <string>
#include <vector>

namespace loopside::run {

/// Whether elements went where they were put to use, by a changeover or elsewhere, or came back from there.
[[nodiscard]] bool isUse(const StockMoved& move);

/// What of one element type went out of the stock.
struct ElementUse
{
    int used = 0;                                ///< By changeovers and elsewhere, what amendments took back left out.
    int changes = 0;                             ///< Of stages.
    double days = 0.0;                           ///< Since the first run or move that anybody told of.
    std::optional<ElementsBand> next30Days = {}; ///< None where no stage was ever changed or no day has passed.
};

/// Of `type`, at `nowMs` (UTC).
[[nodiscard]] ElementUse elementUseOf(const State& state, const std::string& type, std::int64_t nowMs);

/// How far a planned job is, by the runs that were begun for it. Practice does not count.
enum class JobStep
{
    Planned, ///< No run, or one that ended before its target.
    Running, ///< A run for it is open.
    Done     ///< A run for it reached its target.
};

[[nodiscard]] JobStep stepOf(const State& state, const JobRecord& job);

/// Whether a run for `job` is open, or reached its target: then nothing more is planned.
[[nodiscard]] bool isTakenUp(const State& state, const JobRecord& job);

/// A job that is planned, with the records that it names as they hold now.
struct PlannedWork
{
    JobRecord job;
    std::optional<TankRecord> tank = {};
    std::vector<StageRecord> stages = {}; ///< Of its cart; none if it names none.
};

/// What one stage takes in one job.
struct JobDemand
{
    std::string order;
    std::string tank;
    int stage = 1;
    std::optional<ElementsBand> elements = {};
    std::string_view why = {}; ///< Why it cannot be told: no-tank, no-turnovers or no-life; else empty.
    int lives = 0;             ///< Whole ones behind it.
    bool isOtherTank = false;  ///< They are of other tanks, whose oil is as dirty as it is there.
};

struct ElementDemand
{
    std::string type;
    StockStanding stock = {};
    ElementUse use = {};
    std::vector<JobDemand> jobs = {};
    ElementsBand planned = {}; ///< The sum of those that can be told.
    bool isAllTold = true;     ///< Whether it is of all jobs.

    /// Whether what is counted there may not do, and whether it surely will not: for the planned jobs or 30 days,
    /// whichever takes more.
    [[nodiscard]] bool mayBeShort() const;
    [[nodiscard]] bool isShort() const;
};

/// Every type that was moved or that a planned job takes, by name.
[[nodiscard]] std::vector<ElementDemand> demandOf(const State& state, std::span<const PlannedWork> planned,
                                                  std::int64_t nowMs);

/// What a cart did. Practice does not count.
struct CartUse
{
    int runs = 0; ///< Closed.
    double turnovers = 0.0;
    double filtered_l = 0.0;
    int elements = 0; ///< That were put in.
    int flushes = 0;
    int transfers = 0;
    std::optional<Stamp> last = {}; ///< When its last run or job was opened.
};

[[nodiscard]] CartUse cartUseOf(const State& state, const std::string& cart);

} // namespace loopside::run
