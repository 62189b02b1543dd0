// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "base/text.h"
#include "cli/commands.h"
#include "cli/files.h"
#include "story/plan_json.h"
#include "words/planned.h"

#include <nlohmann/json.hpp>

namespace loopside::cli {

namespace {

/// Tells a plan on lines with a name each.
class PlanTeller
{
public:
    PlanTeller(const run::Setup& setup, const std::optional<run::TypedTemperature>& oil, const words::Words& words,
               std::ostream& out)
        : setup_{setup},
          oil_{oil},
          plan_{run::planOf(setup, oil_ ? std::optional(oil_->value()) : std::nullopt)},
          words_{words},
          out_{out}
    {
    }

    void tell()
    {
        out_ << setup_.tank.name << ", " << setup_.tank.volume.toText() << ", with " << setup_.cart.name << " at "
             << setup_.cart.flow.toText() << "\n";
        tellVerdict();
        tellTime();
        tellOil();
        for (std::size_t i = 0; i < plan_.stages.size(); ++i) {
            tellStage(i);
        }
        for (const Message& caution : plan_.start.cautions) {
            line("caution", words_.say(caution));
        }
        for (const filtration::Suit& suit : plan_.suits) {
            if (suit.level < filtration::SuitLevel::Caution) { // the others were told with the verdict
                line(std::string(filtration::nameOf(suit.level)), suit.sentence);
            }
        }
        for (const Message& message : plan_.start.assumed) {
            line("assumed", words_.say(message));
        }
    }

private:
    void line(const std::string& name, const std::string& text)
    {
        constexpr std::size_t column = 20;
        out_ << name << std::string(name.size() < column ? column - name.size() : 1, ' ') << text << "\n";
    }

    static std::string minutes(units::Duration time) { return fixed(time.in(units::minute), 1) + " min"; }

    void tellVerdict()
    {
        const auto& unit = oil_ ? oil_->unit() : **units::unitNamed<units::Temperature>("°C");
        const run::StartJudged& start = plan_.start;
        line("verdict", words::verdictWord(words_, start.verdict));
        line("", words::verdictReason(words_, start, setup_.cart, unit));
        for (const run::ItemJudged& item : start.items) {
            const bool isFirst = &item == start.limitingItem();
            if (item.fit == run::Fit::Over && !isFirst) {
                line("also over", words_.say(item.told));
            } else if (item.fit == run::Fit::Unknown && !isFirst) {
                line("not known", words_.say(item.told));
            }
        }
        for (const run::GoFrom& from : start.goFrom) {
            line("", words::goFromLine(words_, from, setup_.cart, unit));
        }
        if (start.verdict == run::Verdict::Warm || start.verdict == run::Verdict::NoGo) {
            const auto* limiting = start.limitingItem();
            if (start.heating_k_per_h && limiting != nullptr && limiting->item < run::StartItem::Circuit) {
                line("", words_.say({"plan.heating", {{"rate", fixed(*start.heating_k_per_h, 1)}}}));
            }
            line("", words_.say("plan.override"));
        }
    }

    void tellTime()
    {
        line("one turnover", minutes(plan_.turnover));
        if (plan_.run) {
            line(setup_.target.turnovers->toText() + " turnovers", minutes(*plan_.run));
        }
        if (!plan_.code) {
            return;
        }
        line("to code " + setup_.target.code,
             plan_.code->turnovers ? fixed(*plan_.code->turnovers, 1) + " turnovers, " + minutes(*plan_.code->run)
                     + " if nothing gets in; a count proves it"
                                   : "cannot tell: " + plan_.code->why);
    }

    void tellOil()
    {
        line("oil today",
             plan_.viscosity
                 ? fixed(plan_.viscosity->in(units::centistokes), 0) + " cSt" + (oil_ ? " at " + oil_->toText() : "")
                 : "cannot tell: " + plan_.viscosityWhy);
        if (plan_.caution) {
            line("", *plan_.caution);
        }
    }

    void tellStage(std::size_t index)
    {
        const run::StagePlan& stage = plan_.stages[index];
        const run::StageRecord& record = setup_.stages[index];
        std::string text = stage.cleanDp ? units::printComputed(*stage.cleanDp, *setup_.cart.gauges[index].unit)
                                         : "cannot tell: " + stage.why;
        if (record.changeLimit) {
            text += ", change limit " + record.changeLimit->toText();
        }
        line("stage " + std::to_string(index + 1) + " clean ΔP", text);
        for (const auto& finding : stage.limits) {
            line("", finding.sentence);
        }
        if (stage.sets) {
            line("", std::to_string(*stage.sets) + (*stage.sets == 1 ? " set" : " sets") + " of elements by the water");
        } else if (stage.room) {
            line("",
                 "room for ×" + fixed(*stage.room, 1)
                     + " at today's oil; how long that lasts cannot be told before "
                       "a loading of these elements is known");
        }
    }

    const run::Setup& setup_;
    std::optional<run::TypedTemperature> oil_;
    run::Plan plan_;
    const words::Words& words_;
    std::ostream& out_;
};

} // namespace

Done plan(const std::string& story, bool json, std::ostream& out)
{
    const auto file = readStory(story);
    if (!file) {
        return fail(file.error());
    }
    const auto oil = story::firstOilTemperature(file->story);
    if (json) {
        out << story::planJson(file->story.setup, oil).dump() << "\n";
        return {};
    }
    const auto words = words::Words::in("en");
    if (!words) {
        return fail(words.error());
    }
    PlanTeller(file->story.setup, oil, *words, out).tell();
    return {};
}

} // namespace loopside::cli
