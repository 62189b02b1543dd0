// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "words/told.h"

#include "base/text.h"

#include <algorithm>
#include <charconv>

namespace loopside::words {

namespace {

std::string argument(const std::vector<Message::Argument>& told, std::string_view name)
{
    const auto found = std::find_if(told.begin(), told.end(), [&](const auto& pair) { return pair.first == name; });
    return found == told.end() ? std::string() : found->second;
}

std::string alertVariant(run::AlertId alert, const std::vector<Message::Argument>& told)
{
    std::string id = "alert." + std::string(run::nameOf(alert));
    if (alert == run::AlertId::StageAtLimit) {
        const std::string advice = argument(told, "advice");
        return id + "." + advice + (advice == "change" && isOverLimit(told) ? ".over" : "");
    }
    if (alert == run::AlertId::StageNearLimit && argument(told, "advice") == "cold") {
        return id + ".cold";
    }
    if (alert == run::AlertId::StopNow) {
        const std::string finding = argument(told, "finding");
        return finding.empty() ? id : id + "." + finding;
    }
    if (alert == run::AlertId::TargetTurnoversMet && argument(told, "minutes") != "0") {
        return id + ".low";
    }
    return id;
}

Message banded(std::string id, const run::TurnoverBand& band)
{
    return {std::move(id), {{"low", fixed(band.low, 2)}, {"best", fixed(band.best, 2)}, {"high", fixed(band.high, 2)}}};
}

} // namespace

bool isOverLimit(const std::vector<Message::Argument>& told)
{
    const auto drop = run::TypedPressure::parse(argument(told, "drop"));
    const auto limit = run::TypedPressure::parse(argument(told, "limit"));
    constexpr double rounding = 1e-9; // of turning units into each other
    return drop && limit && drop->value() > limit->value() * (1.0 + rounding);
}

std::string elementsText(const Words& words, int elements)
{
    const std::string number = std::to_string(elements);
    return words.say({elements > 2 ? "elements.n" : "elements." + number, {{"elements", number}}});
}

std::string alertSentence(const Words& words, run::AlertId alert, const std::vector<Message::Argument>& told)
{
    Message message{alertVariant(alert, told), told};
    for (auto& [name, value] : message.arguments) {
        int elements = 0;
        if (name == "elements"
            && std::from_chars(value.data(), value.data() + value.size(), elements).ec == std::errc{}) {
            value = elementsText(words, elements);
        }
    }
    return words.say(message);
}

std::string questionSentence(const Words& words, const run::Question& question)
{
    std::string id = "question." + std::string(question.id);
    if (!question.variant.empty()) {
        id += "." + std::string(question.variant);
    }
    return words.say({std::move(id), question.arguments});
}

std::string findingSentence(const Words& words, const run::Finding& finding)
{
    return words.say(finding.headline);
}

std::string stageLine(const Words& words, const run::StageDrop& drop, const run::StageRecord& stage, int number)
{
    const std::string stageNumber = std::to_string(number);
    if (!drop.raw) {
        return words.say({"told.stage.unknown", {{"stage", stageNumber}}});
    }
    const run::PressureUnit& unit = units::unitOf(*drop.raw->unit, words.wanted());
    std::string line = words.say({"told.stage", {{"stage", stageNumber}, {"drop", drop.raw->toText()}}});
    if (drop.reading) {
        line += " "
            + words.say(
                {"told.stage.error", {{"error", fixed(drop.reading->in(unit.unit), units::computedDecimals(unit))}}});
    }
    if (stage.changeLimit) {
        line += " " + words.say({"told.stage.limit", {{"limit", stage.changeLimit->toText()}}});
    }
    if (drop.corrected && drop.loading) {
        line += ", "
            + words.say({"told.stage.corrected",
                         {{"corrected", units::printComputed(*drop.corrected, unit)},
                          {"viscosity", stage.cleanAt->viscosity.toText()},
                          {"loading", fixed(*drop.loading, 2)}}});
    }
    return line;
}

std::string turnoverLine(const Words& words, const run::TurnoverBand& band, const run::Target& target)
{
    Message message = banded(target.turnovers ? "told.turnovers.target" : "told.turnovers", band);
    if (target.turnovers) {
        message.arguments.emplace_back("target", target.turnovers->toText());
    }
    return words.say(message);
}

std::vector<std::string> creditLines(const Words& words, const run::Credit& credit)
{
    const auto minutes = [](run::RunTime time) {
        return std::to_string(std::chrono::duration_cast<std::chrono::minutes>(time).count());
    };
    constexpr double shown = 0.005; // turnovers; less is 0.00 on the screen
    std::vector<std::string> lines;
    for (const run::CreditCut& cut : credit.cuts) {
        if (cut.low < shown) {
            continue;
        }
        lines.push_back(words.say({cut.best < shown ? "credit.cut" : "credit.cut-best",
                                   {{"from", minutes(cut.from)},
                                    {"to", minutes(cut.to)},
                                    {"why", words.say("credit.why." + std::string(cut.why))},
                                    {"low", fixed(cut.low, 2)},
                                    {"best", fixed(cut.best, 2)}}}));
    }
    return lines;
}

std::string alertsLine(const Words& words, const run::AlertMetrics& metrics)
{
    if (metrics.raised == 0) {
        return words.say("told.no-alerts");
    }
    return words.say({metrics.isRate() ? "told.alerts" : "told.alerts-early",
                      {{"raised", std::to_string(metrics.raised)},
                       {"rate", fixed(metrics.perHour, 1)},
                       {"minutes", std::to_string(metrics.minutesOpen)},
                       {"most", std::to_string(metrics.mostInTenMinutes)},
                       {"standing", std::to_string(metrics.standing)}}});
}

std::string closingLine(const Words& words, const run::RunClosed& closed)
{
    Message message = banded("told.closed", closed.turnovers);
    message.arguments.emplace_back("ending", words.say("ending." + std::string(run::nameOf(closed.ending))));
    message.arguments.emplace_back("litres", fixed(closed.filtered_l, 0));
    return words.say(message);
}

} // namespace loopside::words
