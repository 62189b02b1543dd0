// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "run/stage_loading.h"

#include <algorithm>
#include <iterator>

namespace loopside::run {

namespace {

using units::litre;

double secondsOf(RunTime time)
{
    return std::chrono::duration<double>(time).count();
}

/// How much of the piece before `to` was filtering, as far as anybody said.
double filteringPart(const Moment& to, RunTime length, const std::vector<Question>& questions)
{
    const auto gap = std::find_if(questions.begin(), questions.end(), [&](const Question& question) {
        return question.id == unwatchedGap && question.of == to.fact && question.answer != nullptr;
    });
    if (gap == questions.end() || gap->answer->say == "yes") {
        return 1.0;
    }
    const double minutes = gap->answer->minutes ? gap->answer->minutes->toDouble() : 0.0;
    return std::clamp(minutes * 60.0 / secondsOf(length), 0.0, 1.0);
}

/// Whether the first set already shows more than a clean element would.
bool showsUse(const StageLoading& loading)
{
    constexpr double usedAbove = 1.25; // a clean drop that is told is some percent off, and gauges add theirs
    return !loading.sets.empty() && loading.sets.front().drop.loading.value_or(1.0) > usedAbove;
}

class Walk
{
public:
    Walk(const RunState& run, const std::vector<Moment>& moments, const std::vector<Question>& questions,
         const std::vector<JudgedSet>& judged)
        : run_{run}, moments_{moments}, questions_{questions}, judged_{judged}, cleaning_{cleaningOf(run.setup.tank)}
    {
        for (std::size_t i = 0; i < run.setup.stages.size(); ++i) {
            stages_.push_back({{first(i)}, 0.0});
        }
    }

    RunLoadings through()
    {
        for (std::size_t i = 0; i < moments_.size(); ++i) {
            if (i > 0) {
                filter(moments_[i - 1], moments_[i]);
            }
            take(moments_[i]);
        }
        RunLoadings all;
        all.filtered = filtered_;
        for (Stage& stage : stages_) {
            stage.loadings.back().load_l = loadOf(stage);
            stage.loadings.back().isOver = run_.phase == Phase::Closed;
            stage.loadings.front().isUsed = stage.loadings.front().isUsed || showsUse(stage.loadings.front());
            std::move(stage.loadings.begin(), stage.loadings.end(), std::back_inserter(all.loadings));
        }
        return all;
    }

private:
    struct Stage
    {
        std::vector<StageLoading> loadings;
        double loadBefore_l; ///< What the elements before the present ones caught.
    };

    [[nodiscard]] StageLoading first(std::size_t stage) const
    {
        const StageRecord& record = run_.setup.stages[stage];
        return {.stage = static_cast<int>(stage) + 1, .elementType = record.type, .isUsed = record.loaded.has_value()};
    }

    void filter(const Moment& from, const Moment& to)
    {
        const RunTime length = to.at - from.at;
        if (from.mode != Mode::Filtering || length <= RunTime{0}) {
            return;
        }
        const double seconds = secondsOf(length) * filteringPart(to, length, questions_);
        filtered_.seconds += seconds;
        filtered_.turnovers += from.flow * (seconds * units::second) / run_.setup.tank.volume.value();
    }

    /// All that went through so far, clean-up counted.
    [[nodiscard]] double caughtLitres() const
    {
        return forecast::dirtAfter(filtered_.turnovers, cleaning_).value_or(filtered_.turnovers)
            * run_.setup.tank.volume.value().in(litre);
    }

    [[nodiscard]] double loadOf(const Stage& stage) const { return caughtLitres() - stage.loadBefore_l; }

    void take(const Moment& moment)
    {
        const auto* changed = std::get_if<ElementsChanged>(&moment.fact->effective);
        if (changed != nullptr && !moment.fact->struck) {
            change(*changed);
        }
        const bool isGood = moment.reading != nullptr && moment.mode == Mode::Filtering
            && !isHeldBack(*moment.fact, questions_);
        if (isGood) {
            takeSet(moment);
        }
    }

    void change(const ElementsChanged& changed)
    {
        const auto index = static_cast<std::size_t>(changed.stage - 1);
        if (index >= stages_.size()) {
            return;
        }
        Stage& stage = stages_[index];
        StageLoading& over = stage.loadings.back();
        over.load_l = loadOf(stage);
        over.isOver = true;
        stage.loadings.push_back({.stage = changed.stage,
                                  .number = over.number + 1,
                                  .elementType = changed.type.empty() ? over.elementType : changed.type,
                                  .isMixed = changed.elements < run_.setup.stages[index].elements});
        stage.loadBefore_l = caughtLitres();
    }

    void takeSet(const Moment& moment)
    {
        const std::vector<StageDrop> drops = dropsAt(moment, run_);
        const bool isAllAtOnce = isEnteredLate(*moment.fact, questions_);
        const auto judged = std::find_if(judged_.begin(), judged_.end(),
                                         [&](const JudgedSet& set) { return set.moment->fact == moment.fact; });
        const bool isJudged = judged != judged_.end();
        for (std::size_t i = 0; i < stages_.size(); ++i) {
            const StageDrop& drop = drops[i];
            if (drop.raw && drop.reading && drop.corrected) {
                const auto& limit = run_.setup.stages[i].changeLimit;
                stages_[i].loadings.back().sets.push_back({.at = moment.at,
                                                           .fact = moment.fact,
                                                           .drop = drop,
                                                           .filteringSecond = filtered_.seconds,
                                                           .load_l = loadOf(stages_[i]),
                                                           .isLate = moment.fact->seen < moment.fact->entered,
                                                           .isAllAtOnce = isAllAtOnce,
                                                           .isDoubtful = isJudged && judged->isDoubtfulFor(i),
                                                           .isSwelling = isJudged && judged->isSwelling(i),
                                                           .isDropDoubted = isJudged && judged->doubtsDropOf(i),
                                                           .isAtLimit = limit && reaches(*drop.raw, *limit)});
            }
        }
    }

    const RunState& run_;
    const std::vector<Moment>& moments_;
    const std::vector<Question>& questions_;
    const std::vector<JudgedSet>& judged_;
    forecast::CleaningUp cleaning_;
    Filtered filtered_;
    std::vector<Stage> stages_;
};

} // namespace

forecast::CleaningUp cleaningOf(const TankRecord& tank)
{
    forecast::CleaningUp cleaning = forecast::usualCleaningUp;
    if (tank.mixing) {
        cleaning.captureTimesMixing = std::clamp(tank.mixing->toDouble(), 0.0, 1.0);
    }
    return cleaning;
}

double rawPerCorrected(const LoadedSet& set)
{
    const double corrected = set.drop.corrected->in(units::pascal);
    const double raw = set.drop.raw->value().in(units::pascal);
    return corrected > 0.0 && raw > 0.0 ? raw / corrected : 1.0;
}

const StageLoading& RunLoadings::now(int stage) const
{
    const auto last = std::find_if(loadings.rbegin(), loadings.rend(),
                                   [stage](const StageLoading& loading) { return loading.stage == stage; });
    return *last;
}

RunLoadings loadingsOf(const RunState& run, const std::vector<Moment>& moments, const std::vector<Question>& questions,
                       const std::vector<JudgedSet>& judged)
{
    return Walk(run, moments, questions, judged).through();
}

} // namespace loopside::run
