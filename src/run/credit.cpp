// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "run/credit.h"

#include <algorithm>
#include <cmath>

namespace loopside::run {

namespace {

constexpr RunTime graceOnPlan = std::chrono::minutes(5);

/// What a set says of the oil around it.
struct Milestone
{
    RunTime at;
    double doubtful = 0.0;  ///< Share of the flow that may not have gone through the filters.
    double confirmed = 0.0; ///< Share of which somebody said so.
    std::string_view why = {};
};

/// A time between two sets, with the worse of what they say.
struct Doubt
{
    RunTime from;
    RunTime to;
    double doubtful;
    double confirmed;
    std::string_view why;
};

class Accountant
{
public:
    Accountant(const RunState& run, const std::vector<Moment>& moments, const std::vector<std::optional<RunTime>>& due,
               const std::vector<Question>& questions, const std::vector<JudgedSet>& judged, RunTime now)
        : run_{run},
          moments_{moments},
          due_{due},
          questions_{questions},
          judged_{judged},
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
        return {{low_ / tank, best_ / tank, high_ / tank}, best_, bestTime_, std::move(cuts_)};
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
        const RunTime best = std::min(creditedBest(i, length), length - doubted(moment.at, to, &Doubt::confirmed));
        best_ += litres(moment, best);
        bestTime_ += best;
        const RunTime allowed = due_[i].value_or(moment.at) - moment.at + graceOnPlan;
        if (length <= allowed && length <= unwatchedAfter) {
            low_ += litres(moment, length - doubted(moment.at, to, &Doubt::doubtful) - unsure(moment.at, to));
            cutDoubts(moment, to);
            cutUnsure(moment, to);
        } else {
            cut({moment.at, to, length > unwatchedAfter ? cutUnwatched : cutLate, turnovers(moment, length),
                 turnovers(moment, length - best)});
        }
    }

    void cutDoubts(const Moment& moment, RunTime to)
    {
        for (const Doubt& doubt : doubts_) {
            const RunTime from = std::max(moment.at, doubt.from);
            const RunTime end = std::min(to, doubt.to);
            if (end > from) {
                const double all = turnovers(moment, end - from);
                cut({from, end, doubt.why, all * doubt.doubtful, all * doubt.confirmed});
            }
        }
    }

    void cutUnsure(const Moment& moment, RunTime to)
    {
        for (const RunClock::Unsure& gap : run_.clock.unsure()) {
            const RunTime from = std::max(moment.at, gap.from);
            const RunTime end = std::min(to, gap.to);
            if (end > from) {
                cut({from, end, cutRestarted, turnovers(moment, unsure(from, end)), 0.0});
            }
        }
    }

    /// Joins it to the last one where that goes on.
    void cut(const CreditCut& piece)
    {
        if (!cuts_.empty() && cuts_.back().why == piece.why && cuts_.back().to == piece.from) {
            cuts_.back().to = piece.to;
            cuts_.back().low += piece.low;
            cuts_.back().best += piece.best;
        } else {
            cuts_.push_back(piece);
        }
    }

    [[nodiscard]] double turnovers(const Moment& moment, RunTime length) const
    {
        return litres(moment, length) / run_.setup.tank.volume.value();
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

    /// Why the set shows that the oil may not have gone through the filters, or cannot be relied on; empty if it does
    /// not.
    [[nodiscard]] std::string_view whyDoubtful(const Moment& moment, const JudgedSet* judged) const
    {
        for (std::size_t i = 0; i < moment.raw.size(); ++i) {
            const auto& setting = run_.setup.stages[i].bypass;
            if (setting && moment.raw[i] && reaches(*moment.raw[i], *setting)) {
                return cutAtBypass;
            }
        }
        if (judged != nullptr && judged->isDoubtful) {
            return whatTakes(*judged, Takes::AllDoubtful);
        }
        return isHeldBack(*moment.fact, questions_) ? cutQuestioned : std::string_view();
    }

    static std::string_view whatTakes(const JudgedSet& judged, Takes what)
    {
        const auto sign = std::find_if(judged.signs.begin(), judged.signs.end(),
                                       [&](const Sign& candidate) { return candidate.pattern->takes == what; });
        return sign == judged.signs.end() ? cutQuestioned : sign->pattern->id;
    }

    /// Whether somebody said "yes" to what was found at this set.
    [[nodiscard]] bool isConfirmed(const JudgedSet& judged) const
    {
        return std::any_of(judged.signs.begin(), judged.signs.end(), [&](const Sign& sign) {
            return sign.pattern->takes != Takes::Nothing
                && isConfirmed(sign.pattern->id, judged.moment->fact->header.id);
        });
    }

    [[nodiscard]] bool isConfirmed(std::string_view finding, const Id& of) const
    {
        bool isSo = false;
        for (const Moment& moment : moments_) { // the latest answer counts
            const auto* answer = std::get_if<QuestionAnswered>(&moment.fact->effective);
            if (answer != nullptr && !moment.fact->struck && answer->question == finding && answer->of == of) {
                isSo = answer->say == "yes";
            }
        }
        return isSo;
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
        Milestone last{.at = RunTime{0}};
        auto judged = judged_.begin();
        for (const Moment& moment : moments_) {
            if (moment.reading == nullptr) {
                continue;
            }
            const bool isJudged = judged != judged_.end() && judged->moment == &moment;
            const JudgedSet* set = isJudged ? &*judged++ : nullptr;
            Milestone here{.at = moment.at, .why = whyDoubtful(moment, set)};
            if (here.why.empty() && !isComplete(moment)) {
                continue;
            }
            if (!here.why.empty()) {
                here.doubtful = 1.0;
            } else if (set != nullptr && set->flowLeft < 1.0) {
                here.doubtful = 1.0 - set->flowLeft;
                here.why = whatTakes(*set, Takes::LostFlow);
            }
            here.confirmed = here.doubtful > 0.0 && set != nullptr && isConfirmed(*set) ? here.doubtful : 0.0;
            addDoubt(last, here, here.at);
            last = here;
        }
        addDoubt(last, last, RunTime::max());
    }

    void addDoubt(const Milestone& from, const Milestone& other, RunTime to)
    {
        const double doubtful = std::max(from.doubtful, other.doubtful);
        if (doubtful > 0.0) {
            doubts_.push_back({from.at, to, doubtful, std::max(from.confirmed, other.confirmed),
                               other.doubtful > from.doubtful || from.why.empty() ? other.why : from.why});
        }
    }

    [[nodiscard]] RunTime doubted(RunTime from, RunTime to, double Doubt::* share) const
    {
        RunTime sum{0};
        for (const Doubt& doubt : doubts_) { // they do not overlap
            const RunTime common = std::max(RunTime{0}, std::min(to, doubt.to) - std::max(from, doubt.from));
            sum += RunTime{std::llround(static_cast<double>(common.count()) * (doubt.*share))};
        }
        return sum;
    }

    /// How much of the time was unsure by the clock, besides what is doubted anyway.
    [[nodiscard]] RunTime unsure(RunTime from, RunTime to) const
    {
        RunTime sum{0};
        for (const RunClock::Unsure& gap : run_.clock.unsure()) {
            const RunTime begin = std::max(from, gap.from);
            const RunTime end = std::min(to, gap.to);
            sum += end > begin ? end - begin - doubted(begin, end, &Doubt::doubtful) : RunTime{0};
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
    const std::vector<JudgedSet>& judged_;
    RunTime end_;
    std::vector<Doubt> doubts_;
    std::vector<CreditCut> cuts_;
    units::Volume low_;
    units::Volume best_;
    units::Volume high_;
    RunTime bestTime_{0};
};

} // namespace

Credit creditOf(const RunState& run, const std::vector<Moment>& moments, const std::vector<std::optional<RunTime>>& due,
                const std::vector<Question>& questions, const std::vector<JudgedSet>& judged, RunTime now)
{
    return Accountant(run, moments, due, questions, judged, now).count();
}

} // namespace loopside::run
