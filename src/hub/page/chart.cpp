// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "hub/page/chart.h"

#include "run/doubt.h"
#include "units/wanted.h"

#include <algorithm>
#include <tuple>

namespace loopside::page {

namespace {

/// Minutes with two digits behind the point: no finer is anything drawn.
double minutesOf(run::RunTime time)
{
    constexpr double tensOfMs = 600.0;
    return static_cast<double>(static_cast<std::int64_t>(static_cast<double>(time.count()) / tensOfMs)) / 100.0;
}

class Chart
{
public:
    Chart(const Look& look, const run::RunState& run)
        : look_{look},
          run_{run},
          standing_{look.standing(run)},
          unit_{units::unitOf(*run.setup.cart.gauges.front().unit, look.words().wanted())}
    {
    }

    [[nodiscard]] Json told()
    {
        addStages();
        for (const run::Moment& moment : standing_.moments) {
            addChange(moment);
            addSet(moment);
            addSample(moment);
        }
        addModes();
        addDoubts();
        addAhead();
        return {{"unit", std::string(unit_.symbol)},
                {"minutes", minutes_},
                {"stages", stages_},
                {"spans", spans_},
                {"samples", samples_},
                {"ahead", ahead_},
                {"endMinute", end_},
                {"texts", texts()}};
    }

private:
    void addStages()
    {
        constexpr double leastMinutes = 30.0;
        constexpr double roomBehind = 1.15;
        end_ = std::max(leastMinutes, minutesOf(lastAt()) * roomBehind);
        for (std::size_t i = 0; i < run_.setup.stages.size(); ++i) {
            const auto& limit = run_.setup.stages[i].changeLimit;
            stages_.push_back({{"name", look_.say({"app.stage", {{"stage", std::to_string(i + 1)}}})},
                               {"limit", limit ? Json(limit->value().in(unit_.unit)) : Json()},
                               {"limitText", limit ? units::shown(*limit, look_.words().wanted()) : std::string()},
                               {"raw", Json::array()},
                               {"loading", Json::array()},
                               {"changedAt", Json::array()}});
        }
    }

    /// Now, or the end of a run that is over.
    [[nodiscard]] run::RunTime lastAt() const
    {
        return run_.phase == run::Phase::Closed ? run_.closedAt : standing_.now;
    }

    void addChange(const run::Moment& moment)
    {
        const auto* changed = std::get_if<run::ElementsChanged>(&moment.fact->effective);
        if (changed != nullptr && !moment.fact->struck && changed->stage >= 1
            && static_cast<std::size_t>(changed->stage) <= stages_.size()) {
            stages_[static_cast<std::size_t>(changed->stage) - 1]["changedAt"].push_back(minutesOf(moment.at));
        }
    }

    [[nodiscard]] const run::JudgedSet* judgedAt(const run::Moment& moment) const
    {
        const auto& sets = standing_.diagnosis.sets;
        const auto judged = std::ranges::find_if(
            sets, [&](const run::JudgedSet& set) { return set.moment->fact == moment.fact; });
        return judged == sets.end() ? nullptr : &*judged;
    }

    void addSet(const run::Moment& moment)
    {
        if (moment.reading == nullptr || moment.mode != run::Mode::Filtering) {
            return;
        }
        minutes_.push_back(minutesOf(moment.at));
        const bool isQuestioned = run::isHeldBack(*moment.fact, standing_.questions);
        const run::JudgedSet* judged = judgedAt(moment);
        const auto drops = run::dropsAt(moment, run_);
        for (std::size_t i = 0; i < stages_.size(); ++i) {
            const bool isTold = i < drops.size();
            const bool isPastStage = judged != nullptr && judged->isDoubtfulFor(i);
            const bool isLoadingTold = isTold && !isQuestioned && !isPastStage && drops[i].loading;
            stages_[i]["raw"].push_back(isTold && drops[i].raw ? Json(drops[i].raw->value().in(unit_.unit)) : Json());
            stages_[i]["loading"].push_back(isLoadingTold ? Json(*drops[i].loading) : Json());
        }
    }

    void addSample(const run::Moment& moment)
    {
        const auto* drawn = std::get_if<run::SampleDrawn>(&moment.fact->effective);
        if (drawn != nullptr && !moment.fact->struck) {
            samples_.push_back({{"minute", minutesOf(moment.at)}, {"text", joined({drawn->id, codeOf(drawn->id)})}});
        }
    }

    /// As last reported for that sample; empty where nobody knows.
    [[nodiscard]] std::string codeOf(const std::string& sample) const
    {
        std::string code;
        for (const run::Moment& moment : standing_.moments) {
            const auto* result = std::get_if<run::ResultEntered>(&moment.fact->effective);
            if (result != nullptr && !moment.fact->struck && result->sample == sample && !result->code.empty()) {
                code = result->code;
            }
        }
        return code;
    }

    void addSpan(run::RunTime from, run::RunTime to, const std::string& text, bool isDoubtful)
    {
        spans_.push_back(
            {{"from", minutesOf(from)}, {"to", minutesOf(to)}, {"text", text}, {"isDoubtful", isDoubtful}});
    }

    /// Stretches between two moments in which the oil did not go through the filters, in one piece where they touch.
    void addModes()
    {
        const auto& moments = standing_.moments;
        for (std::size_t i = 0; i < moments.size(); ++i) {
            if (moments[i].mode == run::Mode::Filtering || (i > 0 && moments[i - 1].mode == moments[i].mode)) {
                continue;
            }
            std::size_t end = i + 1;
            while (end < moments.size() && moments[end].mode == moments[i].mode) {
                ++end;
            }
            addSpan(moments[i].at, end < moments.size() ? moments[end].at : std::max(lastAt(), moments[i].at),
                    look_.say("mode." + std::string(run::nameOf(moments[i].mode))), false);
        }
    }

    /// From the set before one that is in doubt to the set after it; and stretches that nobody watched.
    void addDoubts()
    {
        const std::string doubt = look_.say("app.level.doubt");
        const run::Moment* before = nullptr;
        std::optional<run::RunTime> from;
        for (const run::Moment& moment : standing_.moments) {
            addUnwatched(moment);
            if (moment.reading == nullptr) {
                continue;
            }
            if (from) {
                addSpan(*from, moment.at, doubt, true);
                from.reset();
            }
            if (run::isInDoubt(standing_, *moment.fact, judgedAt(moment))) {
                from = before != nullptr ? before->at : moment.at;
            }
            before = &moment;
        }
        if (from) {
            addSpan(*from, std::max(lastAt(), *from), doubt, true);
        }
    }

    void addUnwatched(const run::Moment& moment)
    {
        const bool isEnd = std::ranges::any_of(standing_.questions, [&](const run::Question& question) {
            return question.id == run::unwatchedGap && question.of == moment.fact;
        });
        if (isEnd && &moment != &standing_.moments.front()) {
            addSpan((&moment - 1)->at, moment.at, look_.say("app.trend.unwatched"), true);
        }
    }

    /// The stage that is first to reach its limit; null where nothing is told of any, or the run is over.
    [[nodiscard]] const run::Outlook* firstToReach() const
    {
        const auto keyOf = [](const run::Outlook& outlook) {
            constexpr auto never = run::RunTime::max();
            return std::tuple(outlook.limitAt.t50.value_or(never), outlook.limitAt.t10.value_or(never),
                              -outlook.pBeforeTarget.value_or(0.0));
        };
        const run::Outlook* first = nullptr;
        for (const run::Outlook& outlook : standing_.outlooks) {
            const bool isTold = !outlook.band.empty() && run_.phase != run::Phase::Closed;
            first = isTold && (first == nullptr || keyOf(outlook) < keyOf(*first)) ? &outlook : first;
        }
        return first;
    }

    /// The axis then reaches into the future as far as into the past, at least an hour.
    void addAhead()
    {
        const run::Outlook* outlook = firstToReach();
        if (outlook == nullptr) {
            return;
        }
        constexpr double hour = 60.0;
        const double now = minutesOf(standing_.now);
        ahead_ = {{"stage", outlook->stage - 1},
                  {"minutes", Json::array()},
                  {"low", Json::array()},
                  {"middle", Json::array()},
                  {"high", Json::array()}};
        for (const run::DropAhead& point : outlook->band) {
            ahead_["minutes"].push_back(minutesOf(point.at));
            ahead_["low"].push_back(point.low.in(unit_.unit));
            ahead_["middle"].push_back(point.middle.in(unit_.unit));
            ahead_["high"].push_back(point.high.in(unit_.unit));
        }
        end_ = std::max(end_, std::min(minutesOf(outlook->band.back().at), std::max(2.0 * now, now + hour)));
    }

    [[nodiscard]] Json texts() const
    {
        const bool knowsOil = standing_.lastReading != nullptr && standing_.lastReading->reading->oil.has_value();
        return {{"raw", look_.say("app.trend.raw")},
                {"loading", look_.say("app.trend.loading")},
                {"minutes", look_.say("app.trend.minutes")},
                {"ahead",
                 !ahead_.is_null() && knowsOil
                     ? look_.say({"app.trend.ahead", {{"oil", standing_.lastReading->reading->oil->toText()}}})
                     : std::string()},
                {"doubt", look_.say("app.trend.doubt")},
                {"samples", look_.say("app.trend.samples")},
                {"sample", look_.say("app.trend.sample")}};
    }

    const Look& look_;
    const run::RunState& run_;
    const run::Standing& standing_;
    const run::PressureUnit& unit_;
    Json minutes_ = Json::array();
    Json stages_ = Json::array();
    Json spans_ = Json::array();
    Json samples_ = Json::array();
    Json ahead_ = Json();
    double end_ = 0.0;
};

} // namespace

Json chartOf(const Look& look, const run::RunState& run)
{
    return Chart(look, run).told();
}

} // namespace loopside::page
