// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "run/credit.h"

#include <algorithm>
#include <cmath>

namespace loopside::run {

namespace {

constexpr RunTime graceOnPlan = std::chrono::minutes(5);

/// A time in which the oil may not have gone through the filters.
struct Doubt
{
    RunTime from;
    RunTime to;
};

class Accountant
{
public:
    Accountant(const RunState& run, const std::vector<Moment>& moments, const std::vector<std::optional<RunTime>>& due,
               const std::vector<Question>& questions, RunTime now)
        : run_{run},
          moments_{moments},
          due_{due},
          questions_{questions},
          end_{run.phase == Phase::Closed ? std::min(now, run.closedAt) : now}
    {
        findDoubts();
    }

    Credit count()
    {
        for (std::size_t i = 0; i < moments_.size(); ++i) {
            const bool isLast = i + 1 == moments_.size();
            const RunTime to = std::min(end_, isLast ? end_ : moments_[i + 1].at);
            if (moments_[i].mode == Mode::Filtering && to > moments_[i].at) {
                countPiece(i, to, isLast && run_.phase != Phase::Closed);
            }
        }
        const units::Volume tank = run_.setup.tank.volume.value();
        return {{low_ / tank, best_ / tank, high_ / tank}, best_, bestTime_};
    }

private:
    void countPiece(std::size_t i, RunTime to, bool isAfterLastEntry)
    {
        const Moment& moment = moments_[i];
        const RunTime length = to - moment.at;
        high_ += litres(moment, length);
        if (isAfterLastEntry) {
            return;
        }
        const RunTime best = creditedBest(i, length);
        best_ += litres(moment, best);
        bestTime_ += best;
        const RunTime allowed = due_[i].value_or(moment.at) - moment.at + graceOnPlan;
        if (length <= allowed && length <= unwatchedAfter) {
            low_ += litres(moment, length - doubted(moment.at, to));
        }
    }

    /// The whole piece, unless nobody watched it; then what a person said of it.
    [[nodiscard]] RunTime creditedBest(std::size_t i, RunTime length) const
    {
        if (length <= unwatchedAfter || i + 1 == moments_.size()) {
            return length <= unwatchedAfter ? length : RunTime{0};
        }
        const auto gap = std::find_if(questions_.begin(), questions_.end(), [&](const Question& question) {
            return question.id == unwatchedGap && question.of == moments_[i + 1].fact;
        });
        if (gap == questions_.end() || gap->answer == nullptr || gap->answer->say == "no") {
            return RunTime{0};
        }
        if (gap->answer->say == "yes") {
            return length;
        }
        const double minutes = gap->answer->minutes ? gap->answer->minutes->toDouble() : 0.0;
        return std::clamp(RunTime{std::llround(minutes * 60000.0)}, RunTime{0}, length);
    }

    /// Whether the set shows that the oil may not have gone through the filters, or cannot be relied on.
    [[nodiscard]] bool isDoubtful(const Moment& moment) const
    {
        for (std::size_t i = 0; i < moment.raw.size(); ++i) {
            const auto& setting = run_.setup.stages[i].bypass;
            if (setting && moment.raw[i] && reaches(*moment.raw[i], *setting)) {
                return true;
            }
        }
        return isHeldBack(*moment.fact, questions_);
    }

    /// Whether the set shows each stage that has a bypass setting, and anything at all.
    [[nodiscard]] bool isComplete(const Moment& moment) const
    {
        for (std::size_t i = 0; i < moment.raw.size(); ++i) {
            if (run_.setup.stages[i].bypass && !moment.raw[i]) {
                return false;
            }
        }
        return !isBlank(*moment.reading);
    }

    void findDoubts()
    {
        RunTime lastGood{0};
        bool open = false;
        for (const Moment& moment : moments_) {
            if (moment.reading == nullptr) {
                continue;
            }
            if (isDoubtful(moment)) {
                open = true;
            } else if (isComplete(moment)) {
                if (open) {
                    doubts_.push_back({lastGood, moment.at});
                    open = false;
                }
                lastGood = moment.at;
            }
        }
        if (open) {
            doubts_.push_back({lastGood, RunTime::max()});
        }
    }

    [[nodiscard]] RunTime doubted(RunTime from, RunTime to) const
    {
        RunTime sum{0};
        for (const Doubt& doubt : doubts_) { // they do not overlap
            sum += std::max(RunTime{0}, std::min(to, doubt.to) - std::max(from, doubt.from));
        }
        return sum;
    }

    static units::Volume litres(const Moment& moment, RunTime length)
    {
        return moment.flow * (static_cast<double>(length.count()) / 1000.0 * units::second);
    }

    const RunState& run_;
    const std::vector<Moment>& moments_;
    const std::vector<std::optional<RunTime>>& due_;
    const std::vector<Question>& questions_;
    RunTime end_;
    std::vector<Doubt> doubts_;
    units::Volume low_;
    units::Volume best_;
    units::Volume high_;
    RunTime bestTime_{0};
};

} // namespace

Credit creditOf(const RunState& run, const std::vector<Moment>& moments, const std::vector<std::optional<RunTime>>& due,
                const std::vector<Question>& questions, RunTime now)
{
    return Accountant(run, moments, due, questions, now).count();
}

} // namespace loopside::run
