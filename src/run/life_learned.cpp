// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "run/life_learned.h"

#include "run/learning.h"
#include "run/stage_loading.h"

#include <algorithm>
#include <cmath>

namespace loopside::run {

namespace {

constexpr double elementsMost = 9999.0;
constexpr double shapesDiffer = 0.3; // of the logarithm, from element to element; ours

} // namespace

int wholeElements(double elements)
{
    return static_cast<int>(std::clamp(elements, 0.0, elementsMost));
}

NextValue nextLife(std::span<const ElementLife> lives)
{
    std::vector<ValueSeen> seen;
    for (const ElementLife& life : lives) {
        if (life.litres > 0.0) {
            seen.push_back({life.litres, life.isCutShort});
        }
    }
    return NextValue::from(seen, {.spread = dirtUnsure});
}

int wholeLives(std::span<const ElementLife> lives)
{
    return static_cast<int>(std::count_if(
        lives.begin(), lives.end(), [](const ElementLife& life) { return !life.isCutShort && life.litres > 0.0; }));
}

ElementsBand elementsFor(double turnovers, const TankRecord& tank, const filtration::Band& life_l, int inStage)
{
    const auto dirt = forecast::dirtAfter(turnovers, cleaningOf(tank));
    const double load_l = dirt.value_or(0.0) * tank.volume.value().in(units::litre);
    return {wholeElements(std::floor(load_l / life_l.high) * inStage),
            wholeElements(std::round(load_l / life_l.best) * inStage),
            wholeElements(std::ceil(load_l / life_l.low) * inStage)};
}

LifeLearned lifeLearned(std::span<const ElementLife> lives)
{
    const NextValue next = nextLife(lives);
    LifeLearned learned;
    learned.whole = wholeLives(lives);
    learned.cutShort = static_cast<int>(std::count_if(
        lives.begin(), lives.end(), [](const ElementLife& life) { return life.isCutShort && life.litres > 0.0; }));
    learned.litres = next.isKnown() ? std::optional(next.band()) : std::nullopt;
    std::vector<ValueSeen> shapes;
    for (const ElementLife& life : lives) {
        if (life.halfWay) {
            shapes.push_back({*life.halfWay});
        }
    }
    learned.shapes = static_cast<int>(shapes.size());
    learned.halfWay = shapes.empty() ? std::nullopt
                                     : std::optional(NextValue::from(shapes, {.spread = shapesDiffer}).band());
    return learned;
}

std::vector<ElementLife> livesOf(const std::vector<LoadingLearned>& learned, const std::string& tank,
                                 const std::string& type)
{
    std::vector<ElementLife> lives;
    for (const LoadingLearned& one : learned) {
        if (one.tank == tank && one.elementType == type && !one.isUsed && !one.isWithdrawn) {
            lives.push_back({one.elementType, one.end_l, one.isCutShort});
        }
    }
    return lives;
}

} // namespace loopside::run
