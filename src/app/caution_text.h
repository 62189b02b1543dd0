// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "app/tablet.h"
#include "run/caution.h"

namespace loopside::app {

/// What a person is cautioned of at `act`, in one paragraph: each caution, then the rules that they yield to, each
/// once. Empty where there is nothing.
/// `said` is one that stands on the page in other words already: its rules alone are told.
[[nodiscard]] QString cautionText(const Tablet& tablet, run::Act act, const run::Circumstances& circumstances,
                                  std::string_view said = {});

/// The same for the run on the screen; with nothing known where there is none.
[[nodiscard]] QString cautionText(const Tablet& tablet, run::Act act, std::string_view said = {});

/// What is known of the run on the screen.
[[nodiscard]] run::Circumstances circumstancesOf(const Tablet& tablet);

} // namespace loopside::app
