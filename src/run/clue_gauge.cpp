// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "run/clue_parts.h"

namespace loopside::run::clue {

namespace {

/// How far gauge `i` has gone since `then`, in divisions of that dial; nothing where it was not read.
std::optional<double> gone(const Evidence& e, const Sight& then, std::size_t i)
{
    const auto& now = e.now.gauges[i];
    const auto& before = then.gauges[i];
    return now && before ? std::optional((now->value - before->value) / divisionOf(e.run.setup.cart.gauges[i]))
                         : std::nullopt;
}

/// Stands while it has to move: an inner needle when both its neighbours go one way, the first when the next one goes
/// far, the last when the oil alone would move it.
double holdsNeedleStands(const Evidence& e, std::size_t place)
{
    constexpr int sets = 3;
    constexpr int setsAtEnd = 6;
    constexpr double far = 3.0;     // in divisions: each neighbour
    constexpr double farther = 7.0; // and one of them
    const Standstill& needle = e.needles[place];
    const std::size_t last = e.needles.size() - 1;
    const bool isAtEnd = place == 0 || place == last;
    if (needle.sets < (isAtEnd ? setsAtEnd : sets)) {
        return impossible;
    }
    const auto& relief = e.run.setup.cart.relief;
    constexpr double nearRelief = 0.9;
    if (place == 0 && relief && needle.since->gauges[0]->value > relief->value() * nearRelief) {
        return impossible; // the relief valve holds it
    }
    if (place == last) {
        const auto& head = needle.since->head;
        const Uncertain factor = expectedFactor(e.now, *needle.since);
        const double should = head ? head->value / divisionOf(e.run.setup.cart.gauges[place]) : 0.0;
        return plainly(std::abs(should * (factor.value - 1.0)) > far && std::abs(factor.above(1.0)) > veryLikely);
    }
    const auto next = gone(e, *needle.since, place + 1);
    const auto before = place > 0 ? gone(e, *needle.since, place - 1) : next;
    if (!next || !before || *next * *before < 0.0) {
        return impossible;
    }
    const auto [less, more] = std::minmax({std::abs(*next), std::abs(*before)});
    return plainly(less > far && more > farther);
}

bool isOffZero(const Evidence& e, std::size_t i)
{
    return e.pumpOff != nullptr && zeroErrorOf(*e.pumpOff->reading, e.run.setup.cart, i);
}

double holdsOffZero(const Evidence& e, std::size_t place)
{
    return plainly(isOffZero(e, place));
}

/// Too far for a zero error.
double holdsFarOffZero(const Evidence& e, std::size_t place)
{
    return plainly(isOffZero(e, place) && !areZerosIn(*e.pumpOff->reading, e.run.setup.cart)[place]);
}

} // namespace

// clang-format off
const Clue needleStands = {"needle-stands", holdsNeedleStands};
const Clue offZero = {"off-zero", holdsOffZero};
const Clue farOffZero = {"off-zero", holdsFarOffZero};
// clang-format on

} // namespace loopside::run::clue
