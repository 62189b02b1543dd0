// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "paper/run_trend.h"

#include "paper/text.h"
#include "run/doubt.h"

#include <algorithm>
#include <iterator>
#include <map>
#include <utility>

namespace loopside::paper {

namespace {

using run::Mode;

double minutesOf(run::RunTime time)
{
    return static_cast<double>(time.count()) / 60000.0;
}

class RunTrend
{
public:
    RunTrend(const words::Words& words, const run::RunState& run, const run::Standing& standing)
        : words_{words},
          run_{run},
          standing_{standing},
          unit_{units::unitOf(*run.setup.cart.gauges.front().unit, words.wanted())}
    {
        for (const run::JudgedSet& set : standing.diagnosis.sets) {
            judged_.emplace(set.moment->fact, &set);
        }
    }

    [[nodiscard]] Trend trend(const run::Outlook* ahead)
    {
        trend_.unit = toQt(unit_.symbol);
        addStages();
        addModes();
        addDoubts();
        addEnteredLate();
        addSamples();
        for (const run::Moment& moment : standing_.moments) {
            addMoment(moment);
        }
        trend_.endMinute = std::max(30.0, minutesOf(standing_.now) * 1.15);
        if (ahead != nullptr) {
            addAhead(*ahead);
        }
        return trend_;
    }

private:
    void addStages()
    {
        for (std::size_t i = 0; i < run_.setup.stages.size(); ++i) {
            TrendStage stage;
            stage.name = toQt(words_.say({"app.stage", {{"stage", std::to_string(i + 1)}}}));
            if (const auto& limit = run_.setup.stages[i].changeLimit) {
                stage.limit = limit->value().in(unit_.unit);
                stage.limitText = toQt(units::shown(*limit, words_.wanted()));
            }
            trend_.stages.append(stage);
        }
    }

    /// Stretches between two moments in which the oil did not go through the filters.
    void addModes()
    {
        const auto& moments = standing_.moments;
        for (std::size_t i = 0; i < moments.size(); ++i) {
            if (moments[i].mode != Mode::Filtering) {
                const run::RunTime to = i + 1 < moments.size() ? moments[i + 1].at : standing_.now;
                trend_.spans.append({minutesOf(moments[i].at), minutesOf(to),
                                     toQt(words_.say("mode." + std::string(run::nameOf(moments[i].mode)))), false});
            }
        }
    }

    /// From the set before one that is in doubt to the set after it; and stretches that nobody watched.
    void addDoubts()
    {
        const run::Moment* before = nullptr;
        std::optional<double> from;
        for (const run::Moment& moment : standing_.moments) {
            if (moment.reading == nullptr) {
                continue;
            }
            if (from) {
                addDoubt(*from, minutesOf(moment.at));
                from.reset();
            }
            if (run::isInDoubt(standing_, *moment.fact, judgedAt(moment))) {
                from = minutesOf(before != nullptr ? before->at : moment.at);
            }
            before = &moment;
        }
        if (from) {
            addDoubt(*from, minutesOf(standing_.now));
        }
        addUnwatched();
    }

    /// What the diagnosis says of that set; null where it says nothing.
    [[nodiscard]] const run::JudgedSet* judgedAt(const run::Moment& moment) const
    {
        const auto judged = judged_.find(moment.fact);
        return judged == judged_.end() ? nullptr : judged->second;
    }

    void addUnwatched()
    {
        const auto& moments = standing_.moments;
        for (const run::Question& question : standing_.questions) {
            const auto end = std::find_if(moments.begin(), moments.end(),
                                          [&](const run::Moment& moment) { return moment.fact == question.of; });
            if (question.id == run::unwatchedGap && end != moments.end() && end != moments.begin()) {
                trend_.spans.append(
                    {minutesOf(std::prev(end)->at), minutesOf(end->at), toQt(words_.say("app.trend.unwatched")), true});
            }
        }
    }

    /// From the first to the last of sets that were entered together, later than they were seen.
    void addEnteredLate()
    {
        const run::Moment* first = nullptr;
        const run::Moment* last = nullptr;
        for (const run::Moment& moment : standing_.moments) {
            const bool isSet = moment.reading != nullptr;
            if (isSet && run::isEnteredLate(*moment.fact, standing_.questions)) {
                first = first == nullptr ? &moment : first;
                last = &moment;
            } else if (isSet) {
                addLate(std::exchange(first, nullptr), last);
            }
        }
        addLate(first, last);
    }

    void addLate(const run::Moment* first, const run::Moment* last)
    {
        if (first != nullptr && first != last) {
            trend_.spans.append({minutesOf(first->at), minutesOf(last->at), toQt(words_.say("app.trend.late")), false});
        }
    }

    void addSamples()
    {
        for (const run::Moment& moment : standing_.moments) {
            const auto* drawn = std::get_if<run::SampleDrawn>(&moment.fact->effective);
            if (drawn != nullptr && !moment.fact->struck) {
                trend_.samples.append({minutesOf(moment.at), codeOf(drawn->id)});
            }
        }
    }

    /// As last reported for that sample; empty where nobody knows.
    [[nodiscard]] QString codeOf(const std::string& sample) const
    {
        QString code;
        for (const run::Moment& moment : standing_.moments) {
            const auto* result = std::get_if<run::ResultEntered>(&moment.fact->effective);
            if (result != nullptr && !moment.fact->struck && result->sample == sample && !result->code.empty()) {
                code = toQt(result->code);
            }
        }
        return code;
    }

    void addDoubt(double from, double to)
    {
        trend_.spans.append({from, to, toQt(words_.say("app.level.doubt")), true});
    }

    void addMoment(const run::Moment& moment)
    {
        const double minute = minutesOf(moment.at);
        const auto* changed = std::get_if<run::ElementsChanged>(&moment.fact->effective);
        const bool isChanged = changed != nullptr && !moment.fact->struck;
        if (isChanged && changed->stage >= 1 && changed->stage <= trend_.stages.size()) {
            trend_.stages[changed->stage - 1].changedAt.append(minute);
        }
        if (moment.reading == nullptr || moment.mode != Mode::Filtering) {
            return;
        }
        const bool isQuestioned = run::isHeldBack(*moment.fact, standing_.questions);
        const run::JudgedSet* judged = judgedAt(moment);
        const auto drops = run::dropsAt(moment, run_);
        for (std::size_t i = 0; i < drops.size(); ++i) {
            auto& stage = trend_.stages[static_cast<qsizetype>(i)];
            if (drops[i].raw) {
                stage.raw.append({minute, drops[i].raw->value().in(unit_.unit)});
            }
            const bool isOfDirt = judged == nullptr || !(judged->isDoubtfulFor(i) || judged->doubtsDropOf(i));
            if (drops[i].loading && !isQuestioned && isOfDirt) {
                stage.loading.append({minute, *drops[i].loading});
            }
        }
    }

    /// The axis then reaches into the future as far as into the past, at least an hour.
    void addAhead(const run::Outlook& outlook)
    {
        const double now = minutesOf(standing_.now);
        auto& ahead = trend_.stages[outlook.stage - 1].ahead;
        for (const run::DropAhead& point : outlook.band) {
            ahead.append({minutesOf(point.at), point.low.in(unit_.unit), point.middle.in(unit_.unit),
                          point.high.in(unit_.unit)});
        }
        trend_.endMinute = std::max(trend_.endMinute, std::min(ahead.last().minute, std::max(2.0 * now, now + 60.0)));
        if (standing_.lastReading != nullptr && standing_.lastReading->reading->oil) {
            trend_.aheadText = toQt(
                words_.say({"app.trend.ahead", {{"oil", standing_.lastReading->reading->oil->toText()}}}));
        }
    }

    const words::Words& words_;
    const run::RunState& run_;
    const run::Standing& standing_;
    const run::PressureUnit& unit_;
    std::map<const run::Fact*, const run::JudgedSet*> judged_;
    Trend trend_;
};

} // namespace

Trend runTrend(const words::Words& words, const run::RunState& run, const run::Standing& standing,
               const run::Outlook* ahead)
{
    Trend trend = RunTrend(words, run, standing).trend(ahead);
    trend.rawText = toQt(words.say("app.trend.raw"));
    trend.doubtText = toQt(words.say("app.trend.doubt"));
    trend.sampleLetter = toQt(words.say("app.trend.sample"));
    trend.sampleText = toQt(words.say("app.trend.samples"));
    trend.loadingText = toQt(words.say("app.trend.loading"));
    trend.minuteText = toQt(words.say("app.trend.minutes"));
    return trend;
}

} // namespace loopside::paper
