// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "practice/practice_cart.h"

namespace loopside::test {

/// A cart with nothing wrong and nothing random: 400 L of VG 46 at 30 °C that neither warms nor cools, 20 L/min without
/// slip, two stages of two clean elements (2 and 4 psi at 46 cSt), limits of 25 and 35 psi, no dirt, a return hose of
/// 19 mm × 3 m, a static head of 1 psi, a relief valve at 100 psi, dials of 0 to 100 psi in hundredths without error.
[[nodiscard]] practice::Scenario plain();

/// `scenario` with so much of every size in the tank, for stages that hold all of it back from stage `holding` on.
[[nodiscard]] practice::Scenario dirty(practice::Scenario scenario, double mgPerL, int holding);

/// The cart of `scenario`, filtering.
[[nodiscard]] practice::PracticeCart running(const practice::Scenario& scenario);

/// What it does not do in a test fails the test.
void advance(practice::PracticeCart& cart, double minutes);
void inflict(practice::PracticeCart& cart, practice::FaultKind kind, int place = 0, std::optional<double> size = {});
void change(practice::PracticeCart& cart, int stage, int elements);

} // namespace loopside::test
