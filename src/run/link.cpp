// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "run/link.h"

#include "run/standing.h"

#include <algorithm>
#include <optional>

namespace loopside::run {

namespace {

std::int64_t openedMs(const RunState& run)
{
    return run.opened.entered.wallMs;
}

std::int64_t endMs(const RunState& run, std::int64_t nowMs)
{
    return run.phase == Phase::Closed ? openedMs(run) + run.closedAt.count() : std::max(nowMs, openedMs(run));
}

bool mayBeOne(const RunState& one, const RunState& other, std::int64_t nowMs)
{
    return !one.isPutAway && !other.isPutAway && !one.setup.isPractice && !other.setup.isPractice
        && one.setup.tank.name == other.setup.tank.name && one.setup.cart.name == other.setup.cart.name
        && !one.setup.cart.name.empty()
        && std::max(openedMs(one), openedMs(other)) < std::min(endMs(one, nowMs), endMs(other, nowMs));
}

/// Of one run a time in which it says the same; rates in turnovers a millisecond.
struct Piece
{
    std::int64_t fromMs = 0;
    std::int64_t toMs = 0;
    bool isFiltering = false;
    bool isAfterLastEntry = false;
    double rate = 0.0;
};

/// A stretch of which the credit leaves something out.
struct Loss
{
    std::int64_t fromMs = 0;
    std::int64_t toMs = 0;
    double lowRate = 0.0;
    double bestRate = 0.0;
};

/// A run on the wall clock.
struct WrittenRun
{
    Id run = {};
    std::vector<Piece> pieces = {};
    std::vector<Loss> losses = {};

    [[nodiscard]] const Piece* at(std::int64_t ms) const
    {
        const auto piece = std::ranges::find_if(
            pieces, [&](const Piece& candidate) { return candidate.fromMs <= ms && ms < candidate.toMs; });
        return piece == pieces.end() ? nullptr : &*piece;
    }

    /// What `piece` credits at `ms`, each end of the band as a rate.
    [[nodiscard]] TurnoverBand rateAt(const Piece& piece, std::int64_t ms) const
    {
        if (!piece.isFiltering) {
            return {};
        }
        TurnoverBand rate{piece.isAfterLastEntry ? 0.0 : piece.rate, piece.isAfterLastEntry ? 0.0 : piece.rate,
                          piece.rate};
        for (const Loss& loss : losses) {
            if (loss.fromMs <= ms && ms < loss.toMs) {
                rate.low -= loss.lowRate;
                rate.best -= loss.bestRate;
            }
        }
        rate.best = std::max(rate.best, 0.0);
        rate.low = std::clamp(rate.low, 0.0, rate.best);
        return rate;
    }
};

WrittenRun writtenRunOf(const RunState& run, std::int64_t nowMs)
{
    const std::int64_t begin = openedMs(run);
    const Standing standing = standingByGauges(run, RunTime{std::max(nowMs, begin) - begin});
    WrittenRun told{run.id};
    bool isStated = false; // nobody said what the cart did before the first mode
    for (std::size_t i = 0; i < standing.moments.size(); ++i) {
        const Moment& moment = standing.moments[i];
        const bool isLast = i + 1 == standing.moments.size();
        isStated = isStated || std::holds_alternative<ModeChanged>(moment.fact->effective);
        const std::int64_t to = isLast ? endMs(run, nowMs) : begin + standing.moments[i + 1].at.count();
        if (isStated && to > begin + moment.at.count()) {
            const double perSecond = moment.flow * (1.0 * units::second) / run.setup.tank.volume.value();
            told.pieces.push_back({begin + moment.at.count(), to, moment.mode == Mode::Filtering,
                                   isLast && run.phase != Phase::Closed, perSecond / 1000.0});
        }
    }
    for (const CreditCut& cut : standing.credit.cuts) {
        const auto length = static_cast<double>((cut.to - cut.from).count());
        if (length > 0.0) {
            told.losses.push_back(
                {begin + cut.from.count(), begin + cut.to.count(), cut.low / length, cut.best / length});
        }
    }
    return told;
}

/// All moments at which what somebody says changes.
std::vector<std::int64_t> bordersOf(const std::vector<WrittenRun>& all)
{
    std::set<std::int64_t> borders;
    for (const WrittenRun& told : all) {
        for (const Piece& piece : told.pieces) {
            borders.insert({piece.fromMs, piece.toMs});
        }
        for (const Loss& loss : told.losses) {
            borders.insert({loss.fromMs, loss.toMs});
        }
    }
    return {borders.begin(), borders.end()};
}

/// Adds up the linked runs from border to border.
class Union
{
public:
    explicit Union(const std::vector<WrittenRun>& all) : all_{all} {}

    void add(std::int64_t fromMs, std::int64_t toMs)
    {
        TurnoverBand rate;
        double lowest = 0.0; // flow that anybody names, as a rate
        const WrittenRun* firstFiltering = nullptr;
        const WrittenRun* firstNot = nullptr;
        for (const WrittenRun& told : all_) {
            const Piece* piece = told.at(fromMs);
            if (piece == nullptr) {
                continue;
            }
            if (!piece->isFiltering) {
                firstNot = firstNot == nullptr && !piece->isAfterLastEntry ? &told : firstNot;
                continue;
            }
            const TurnoverBand one = told.rateAt(*piece, fromMs);
            rate = {std::max(rate.low, one.low), std::max(rate.best, one.best), std::max(rate.high, one.high)};
            if (piece->isAfterLastEntry) {
                continue;
            }
            if (firstFiltering != nullptr && piece->rate != lowest) {
                disagree({fromMs, toMs, firstFiltering->run, told.run, "flow"});
            }
            lowest = firstFiltering == nullptr ? piece->rate : std::min(lowest, piece->rate);
            firstFiltering = firstFiltering == nullptr ? &told : firstFiltering;
        }
        if (firstFiltering != nullptr && firstNot != nullptr) {
            disagree({fromMs, toMs, firstFiltering->run, firstNot->run, "mode"});
            rate.low = 0.0;
        } else if (firstFiltering != nullptr) {
            rate.low = std::min(rate.low, lowest);
        }
        const auto length = static_cast<double>(toMs - fromMs);
        sum.turnovers.low += rate.low * length;
        sum.turnovers.best += rate.best * length;
        sum.turnovers.high += rate.high * length;
    }

    LinkedCredit sum = {};

private:
    /// Joins it to the one before where that goes on.
    void disagree(const Disagreement& next)
    {
        const auto last = std::ranges::find_if(sum.disagreements, [&](const Disagreement& known) {
            return known.toMs == next.fromMs && known.one == next.one && known.other == next.other
                && known.what == next.what;
        });
        if (last == sum.disagreements.end()) {
            sum.disagreements.push_back(next);
        } else {
            last->toMs = next.toMs;
        }
    }

    const std::vector<WrittenRun>& all_;
};

} // namespace

std::vector<RunPair> linkProposals(const State& state, const std::set<RunPair>& answered, std::int64_t nowMs)
{
    std::vector<RunPair> proposals;
    for (auto one = state.runs.begin(); one != state.runs.end(); ++one) {
        if (one->second.isPutAway) {
            continue; // a journal has thousands of them
        }
        for (auto other = std::next(one); other != state.runs.end(); ++other) {
            const bool isEarlier = openedMs(one->second) <= openedMs(other->second);
            const RunPair pair = isEarlier ? RunPair{one->first, other->first} : RunPair{other->first, one->first};
            if (mayBeOne(one->second, other->second, nowMs) && !answered.contains(pair)
                && !answered.contains({pair.second, pair.first})) {
                proposals.push_back(pair);
            }
        }
    }
    return proposals;
}

LinkedCredit linkedCredit(const std::vector<const RunState*>& runs, std::int64_t nowMs)
{
    std::vector<WrittenRun> all;
    for (const RunState* run : runs) {
        all.push_back(writtenRunOf(*run, nowMs));
    }
    const std::vector<std::int64_t> borders = bordersOf(all);
    Union together(all);
    for (std::size_t i = 0; i + 1 < borders.size(); ++i) {
        together.add(borders[i], borders[i + 1]);
    }
    return std::move(together.sum);
}

} // namespace loopside::run
