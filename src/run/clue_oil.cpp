// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// What all losses together say of the oil, see oil_fit.h.

#include "run/clue_parts.h"

namespace loopside::run::clue {

namespace {

double thicker(const Evidence& e, double bound)
{
    return e.oil.empty() ? impossible : asDeviates(chanceThicker(e.oil, bound));
}

double thinner(const Evidence& e, double bound)
{
    return e.oil.empty() ? impossible : asDeviates(1.0 - chanceThicker(e.oil, bound));
}

} // namespace

// clang-format off
const Clue allThick = {"all-thick", [](const E& e, Place) { return thicker(e, 1.25); }};
const Clue allThicker = {"all-thick", [](const E& e, Place) { return thicker(e, 1.08); }};
const Clue allThin = {"all-thin", [](const E& e, Place) { return thinner(e, 0.72); }};
// clang-format on

} // namespace loopside::run::clue
