// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "words/tank_told.h"

#include "base/text.h"
#include "run/life_learned.h"
#include "run/tank_learned.h"
#include "units/wanted.h"

#include <algorithm>
#include <array>
#include <map>

namespace loopside::words {

namespace {

using filtration::Band;

constexpr std::array<int, 3> sizesUm = {4, 6, 14};

std::string litresText(const Words& words, double litres)
{
    const run::TypedVolume volume(Decimal::nearest(litres, litres < 100.0 ? 1 : 0),
                                  **units::unitNamed<units::Volume>("L"));
    return units::shown(volume, words.wanted());
}

/// No more digits than such a band is worth.
std::string rateText(double rate)
{
    return fixed(rate, rate < 1.0 ? 2 : rate < 10.0 ? 1 : 0);
}

LineTold lifeLine(const Words& words, const std::string& type, const run::LifeLearned& life)
{
    const Band band = life.litres.value_or(Band{});
    return {words.say("across.lives"),
            words.say({life.litres ? "across.life" : "across.life-unknown",
                       {{"type", type.empty() ? words.say("app.past.type-not-told") : type},
                        {"life-least", litresText(words, band.low)},
                        {"life-middle", litresText(words, band.best)},
                        {"life-most", litresText(words, band.high)},
                        {"runs", std::to_string(life.whole)},
                        {"cut", std::to_string(life.cutShort)}}})};
}

/// How ΔP rises to the limit.
LineTold shapeLine(const Words& words, const std::string& type, const run::LifeLearned& life)
{
    constexpr double percent = 100.0;
    return {words.say("across.shapes"),
            words.say({"across.shape",
                       {{"type", type.empty() ? words.say("app.past.type-not-told") : type},
                        {"least", fixed(percent * life.halfWay->low, 0)},
                        {"most", fixed(percent * std::min(1.0, life.halfWay->high), 0)},
                        {"runs", std::to_string(life.shapes)}}})};
}

void addLives(const Words& words, const run::TankPast& past, std::vector<LineTold>& lines)
{
    std::map<std::string, std::vector<run::ElementLife>> byType;
    for (const run::ElementLife& life : past.lives) {
        byType[life.type].push_back(life);
    }
    for (const auto& [type, lives] : byType) {
        const run::LifeLearned life = run::lifeLearned(lives);
        lines.push_back(lifeLine(words, type, life));
        if (life.halfWay) {
            lines.push_back(shapeLine(words, type, life));
        }
    }
    if (byType.empty()) {
        lines.push_back({words.say("across.lives"), words.say("app.past.none")});
    }
}

LineTold mixingLine(const Words& words, const run::MixingLearned& mixing)
{
    return {words.say(mixing.runs > 0 ? "across.mixing" : "across.mixing-none"),
            words.say({"across.mixed",
                       {{"least", fixed(mixing.captureTimesMixing.low, 2)},
                        {"most", fixed(mixing.captureTimesMixing.high, 2)},
                        {"middle", fixed(mixing.captureTimesMixing.best, 2)},
                        {"told", fixed(mixing.told, 2)},
                        {"runs", std::to_string(mixing.runs)}}})};
}

void addIngress(const Words& words, const run::TankPast& past, std::vector<LineTold>& lines)
{
    const auto sizes = run::ingressLearned(past);
    for (std::size_t i = 0; i < sizesUm.size(); ++i) {
        if (const auto& size = sizes[i]) {
            lines.push_back({words.say("across.ingress"),
                             words.say({size->isTold() ? "across.got-in" : "across.got-in-bound",
                                        {{"size", std::to_string(sizesUm[i])},
                                         {"least", rateText(size->perMlADay.low)},
                                         {"most", rateText(size->perMlADay.high)},
                                         {"runs", std::to_string(size->gaps)}}})});
        }
    }
}

} // namespace

std::vector<LineTold> learnedOfTank(const Words& words, const run::TankPast& past, const std::optional<Decimal>& mixing)
{
    std::vector<LineTold> lines;
    addLives(words, past, lines);
    lines.push_back(mixingLine(words, run::mixingLearned(past, mixing)));
    addIngress(words, past, lines);
    return lines;
}

} // namespace loopside::words
