// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "filtration/limits.h"
#include "run/life_learned.h"
#include "run/place_learned.h"
#include "run/start.h"
#include "run/suit.h"
#include "run/tank_plan.h"

#include <optional>
#include <string>
#include <vector>

namespace loopside::run {

/// What this cart's dials showed of such clean elements, as it would be today.
struct CleanByDials
{
    units::Pressure least; ///< 5 % and 95 % of what is likely.
    units::Pressure most;
    int sets; ///< Of elements behind it.
};

/// What of the stage's elements a run is likely to use up.
struct UsedUp
{
    ElementsBand elements;
    int lives; ///< Whole ones at this tank behind it.
};

/// What can be told of one stage before the start.
struct StagePlan
{
    std::optional<units::Pressure> cleanDp;   ///< At today's viscosity and the cart's rated flow: what its dials are
                                              ///< likely to show where `setsForClean` sets taught it, else as told.
    std::optional<CleanByDials> byDials = {}; ///< Then.
    std::optional<UsedUp> usedUp = {};        ///< Up to the target in turnovers, where any life was whole.
    std::string why;                          ///< Why not, where it is not known.
    std::optional<double> room = {};          ///< Change limit ÷ expected ΔP: how often it fits.
    std::vector<filtration::LimitFinding> limits = {}; ///< What its change limit stands against.
    std::optional<int> sets =
        {}; ///< Sets of elements that the run takes, the fitted one counted; nothing: cannot tell.
};

/// How long until the model of filtration/clean_up.h is at the target code. Where nobody learned what gets in, nothing
/// does: at least so long.
struct CodePlan
{
    std::optional<double> turnovers = {};
    std::optional<units::Duration> run = {}; ///< At the cart's rated flow.
    std::string why = {};                    ///< Why not, where it cannot be told.
    int runs = 0; ///< That taught how the tank mixes; 0: by what was told of it, or is usual.
    int gaps = 0; ///< Between runs, that taught what gets in, in the size that decides; 0: nothing is taken to.
    std::optional<units::Duration> runLeast = {}; ///< By the ends of what they taught, which is wide with few of them;
    std::optional<units::Duration> runMost = {};  ///< none with none of them; the longer none where it never ends.
};

/// What a set-up comes to before the pump starts.
struct Plan
{
    units::Duration turnover;                           ///< Volume ÷ rated flow.
    std::optional<units::Duration> run;                 ///< For the target in turnovers, if there is one.
    std::optional<units::KinematicViscosity> viscosity; ///< Today's.
    std::string viscosityWhy;                           ///< Why not, where it is not known.
    std::optional<std::string> caution = {};            ///< Where the formulas do not hold for this oil.
    std::vector<StagePlan> stages;
    TankPlan tank = {};
    std::optional<CodePlan> code = {};                  ///< If the target has a code.
    std::optional<filtration::WaterBalance> water = {}; ///< If the tank's water is known.
    std::vector<filtration::Suit> suits = {};
    StartJudged start = {};
};

/// What runs that are over taught, as a run by the set-up would be opened with it.
struct Taught
{
    std::vector<LoadingLearned> loadings = {}; ///< learning.h.
    PlaceLearned place = {};                   ///< tank_learned.h.
};

/// Plans `setup`, which must have no fault, at the oil temperature `oil`, by what was `taught` where anything was.
[[nodiscard]] Plan planOf(const Setup& setup, std::optional<units::Temperature> oil, const Taught& taught = {});

/// How well a tank is mixed, above 0 to 1; of one of which nobody told, as for hoses that lie nobody knows how.
[[nodiscard]] double mixingFactorOf(const TankRecord& tank);

} // namespace loopside::run
