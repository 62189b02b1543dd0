// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "run/demand.h"

#include "run/stage_loading.h"
#include "run/stock.h"

#include <boost/math/distributions/negative_binomial.hpp>

#include <algorithm>
#include <cmath>
#include <set>

namespace loopside::run {

namespace {

constexpr double msPerDay = 86'400'000.0;
constexpr double daysAhead = 30.0;
constexpr double leastDays = 1.0;

/// When the journal begins to tell of use.
std::optional<std::int64_t> firstTold(const State& state)
{
    std::optional<std::int64_t> first;
    const auto take = [&first](const Header& header) {
        const std::int64_t ms = header.entered.wallMs;
        first = first ? std::min(*first, ms) : ms;
    };
    for (const auto& [id, run] : state.runs) {
        if (!run.setup.isPractice) {
            take(run.opened);
        }
    }
    for (const auto& move : state.stockMoves) {
        take(move.header);
    }
    return first;
}

ElementsBand nextBy(const ElementUse& use)
{
    // Gamma(changes + 1/2, days) mixed with Poisson over `daysAhead`.
    const boost::math::negative_binomial next(use.changes + 0.5, use.days / (use.days + daysAhead));
    const double aChange = static_cast<double>(use.used) / use.changes;
    const auto elements = [&](double part) { return quantile(next, part) * aChange; };
    return {wholeElements(std::floor(elements(0.05))), wholeElements(std::round(elements(0.5))),
            wholeElements(std::ceil(elements(0.95)))};
}

/// Lives at the tank where any was whole there, else everywhere.
struct LivesFor
{
    LifeLearned learned;
    bool isOtherTank;
};

LivesFor livesFor(const State& state, const std::string& tank, const std::string& type)
{
    std::vector<ElementLife> here;
    std::vector<ElementLife> anywhere;
    for (const auto& [id, run] : state.runs) {
        for (const LoadingLearned& one : run.taught) {
            const auto life = livesOf({one}, one.tank, type);
            anywhere.insert(anywhere.end(), life.begin(), life.end());
            if (one.tank == tank) {
                here.insert(here.end(), life.begin(), life.end());
            }
        }
    }
    LifeLearned ofTank = lifeLearned(here);
    return ofTank.whole > 0 ? LivesFor{std::move(ofTank), false} : LivesFor{lifeLearned(anywhere), true};
}

JobDemand demandOf(const State& state, const PlannedWork& work, std::size_t stage)
{
    const StageRecord& record = work.stages[stage];
    JobDemand demand{.order = work.job.order, .tank = work.job.tank, .stage = static_cast<int>(stage) + 1};
    if (!work.tank) {
        demand.why = "no-tank";
        return demand;
    }
    if (!work.job.turnovers) {
        demand.why = "no-turnovers";
        return demand;
    }
    const LivesFor lives = livesFor(state, work.job.tank, record.type);
    if (!lives.learned.litres) {
        demand.why = "no-life";
        return demand;
    }
    demand.lives = lives.learned.whole;
    demand.isOtherTank = lives.isOtherTank;
    demand.elements = elementsFor(work.job.turnovers->toDouble(), *work.tank, *lives.learned.litres, record.elements);
    return demand;
}

void addPlanned(ElementDemand& demand, const State& state, std::span<const PlannedWork> planned)
{
    for (const PlannedWork& work : planned) {
        for (std::size_t stage = 0; stage < work.stages.size(); ++stage) {
            if (work.stages[stage].type != demand.type) {
                continue;
            }
            demand.jobs.push_back(demandOf(state, work, stage));
            if (const auto& elements = demand.jobs.back().elements) {
                demand.planned.low += elements->low;
                demand.planned.best += elements->best;
                demand.planned.high += elements->high;
            } else {
                demand.isAllTold = false;
            }
        }
    }
}

} // namespace

JobStep stepOf(const State& state, const JobRecord& job)
{
    auto step = JobStep::Planned;
    for (const auto& [id, run] : state.runs) {
        if (run.setup.job != job.order || run.setup.isPractice) {
            continue;
        }
        if (run.phase != Phase::Closed) {
            return JobStep::Running;
        }
        if (run.closed->ending == Ending::TargetMet || run.closed->ending == Ending::TargetMetCodeAwaited) {
            step = JobStep::Done;
        }
    }
    return step;
}

bool isTakenUp(const State& state, const JobRecord& job)
{
    return stepOf(state, job) != JobStep::Planned;
}

bool isUse(const StockMoved& move)
{
    return move.why == usedByChangeover || move.why == correctedByAmendment || move.why == stockUsedElsewhere;
}

ElementUse elementUseOf(const State& state, const std::string& type, std::int64_t nowMs)
{
    ElementUse use;
    for (const auto& move : state.stockMoves) {
        if (move.what.type == type && isUse(move.what)) {
            use.used -= move.what.elements;
            use.changes += move.what.why == usedByChangeover ? 1 : 0;
        }
    }
    if (const auto first = firstTold(state)) {
        use.days = std::max(0.0, static_cast<double>(nowMs - *first) / msPerDay);
    }
    if (use.changes > 0 && use.used > 0 && use.days >= leastDays) {
        use.next30Days = nextBy(use);
    }
    return use;
}

bool ElementDemand::mayBeShort() const
{
    const int needed = std::max(planned.high, use.next30Days ? use.next30Days->high : 0);
    return stock.isCounted && needed > stock.elements;
}

bool ElementDemand::isShort() const
{
    const int needed = std::max(planned.low, use.next30Days ? use.next30Days->low : 0);
    return stock.isCounted && (stock.elements < 0 || needed > stock.elements);
}

std::vector<ElementDemand> demandOf(const State& state, std::span<const PlannedWork> planned, std::int64_t nowMs)
{
    std::set<std::string> types;
    for (const auto& [type, stock] : state.stock) {
        types.insert(type);
    }
    for (const PlannedWork& work : planned) {
        for (const StageRecord& stage : work.stages) {
            types.insert(stage.type);
        }
    }
    types.erase("");
    std::vector<ElementDemand> all;
    for (const std::string& type : types) {
        ElementDemand demand{.type = type, .use = elementUseOf(state, type, nowMs)};
        if (const auto stock = state.stock.find(type); stock != state.stock.end()) {
            demand.stock = stock->second;
        }
        addPlanned(demand, state, planned);
        all.push_back(std::move(demand));
    }
    return all;
}

CartUse cartUseOf(const State& state, const std::string& cart)
{
    CartUse use;
    const auto opened = [&use](const Header& header) {
        if (!use.last || header.entered.wallMs > use.last->wallMs) {
            use.last = header.entered;
        }
    };
    for (const auto& [id, run] : state.runs) {
        if (run.setup.cart.name != cart || run.setup.isPractice) {
            continue;
        }
        opened(run.opened);
        if (run.phase == Phase::Closed) {
            ++use.runs;
            use.turnovers += run.closed->turnovers.best;
            use.filtered_l += run.closed->filtered_l;
        }
        for (const Fact& fact : run.facts) {
            const auto* changed = std::get_if<ElementsChanged>(&fact.effective);
            use.elements += changed != nullptr && !fact.struck ? changed->elements : 0;
        }
    }
    for (const auto& [id, job] : state.jobs) {
        if (job.cart() == cart) {
            opened(job.opened);
            (job.flush() != nullptr ? use.flushes : use.transfers) += 1;
        }
    }
    return use;
}

} // namespace loopside::run
