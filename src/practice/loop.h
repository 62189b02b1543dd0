// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// The flow round the loop and the pressures in it, at one moment: pump with slip, relief valve, stages, way back.
//
//   displaced = flow + slip(P₁) + relief(P₁)        P₁ = static head + way back(flow) + drops of the stages(flow)
//
// Source: slip ∝ pressure ÷ dynamic viscosity (filtration/pump.h), the relief valve and the bypass valves as straight
//   lines above their setting (override: from a hydraulics handbook, from memory), the hose as in filtration/pipe.h.
// Validity: the suction side only as a share of flow that is lost; no inertia, every moment is steady.

#pragma once

#include "practice/stage.h"

#include <vector>

namespace loopside::practice {

struct Loop
{
    units::Flow displaced = {}; ///< 0 or more.
    double slipPerPascal = 0.0; ///< m³/(s·Pa).
    std::optional<units::Pressure> relief = {};
    double reliefResistance = 0.0; ///< Pa·s/m³, above the setting.
    units::Pressure staticHead = {};
    std::optional<filtration::Pipe> hose = {};
    double kink = 0.0;                  ///< Pa·s²/m⁶.
    std::vector<StagePath> stages = {}; ///< The stages that the oil passes; none in bypass mode.
};

/// What flows and how it presses.
struct LoopFlow
{
    units::Flow flow; ///< Through the stages and back.
    bool relieved = false;
    std::vector<StageFlow> stages = {};
    std::vector<units::Pressure> gauges = {}; ///< One more than there are stages in the loop.
};

/// The moment at which pump and resistances agree.
[[nodiscard]] LoopFlow solve(const Loop& loop, const OilNow& oil);

} // namespace loopside::practice
