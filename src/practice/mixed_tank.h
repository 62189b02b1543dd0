// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// The dirt and water in a mixed tank while a cart takes some of it out.
//
//   V·dc/dt = R − Q·m·E·c        R: what gets in, Q: flow, m: mixing factor, E: share that the stages keep
//
// Each step is solved as a whole (Q and E held), so that its length matters only where they change. What is taken out
// and what stays adds up to what was there and came in. Source: mass balance, as in filtration/clean_up.h.

#pragma once

#include "units/quantity.h"

namespace loopside::practice {

/// One kind of dirt, or water, in the tank.
struct MixedContent
{
    double perLitre;       ///< In any unit of mass, from 0.
    double cameIn = 0.0;   ///< In this step, in that unit.
    double takenOut = 0.0; ///< In this step.
};

/// The step of `duration` from `perLitre`. `throughFlow`: Q·m, `share`: E from 0 to 1, `ingressPerMinute` from 0.
[[nodiscard]] MixedContent mixedStep(double perLitre, units::Volume tank, units::Flow throughFlow, double share,
                                     double ingressPerMinute, units::Duration duration);

} // namespace loopside::practice
