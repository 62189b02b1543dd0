// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// What the runs at a tank have left behind, over all of them: turnovers, codes, how long elements lasted, how fast dirt
// gets in between runs.

#pragma once

#include "run/state.h"

#include <optional>
#include <string>
#include <vector>

namespace loopside::run {

/// A cleanliness code that was told, the oil of which was drawn at `drawn`.
struct CodeTold
{
    std::string code;
    Stamp drawn;
    Id run = {};
};

/// A water content that was told, as reported.
struct WaterTold
{
    std::string water;
    Stamp drawn;
    Id run = {};
};

/// A loading of elements at the tank that is over.
struct ElementLife
{
    std::string type;        ///< Empty: not told.
    double litres = 0.0;     ///< Of oil as dirty as at its start, until the limit or until it was cut short.
    bool isCutShort = false; ///< The limit was not reached: it would have lasted longer.
    Stamp begun = {};        ///< Of its run.
    Id run = {};
    std::optional<double> halfWay = {}; ///< The corrected ΔP at half of its load ÷ that at its end; of whole ones.
};

/// How the oil changed between the last sample of a run, drawn after filtering, and the first of the next, drawn
/// before.
struct Ingress
{
    enum class Verdict
    {
        Dirtier,
        NotProven,  ///< No further apart than two tests of one oil may be.
        CannotTell, ///< No two runs with such samples, or their codes cannot be held against each other.
        Cleaner,    ///< Between runs: something else was done with the oil, or a sample misleads.
    };

    Verdict verdict = Verdict::CannotTell;
    std::string from = {}; ///< The codes; empty where it cannot be told.
    std::string to = {};
    double days = 0.0;     ///< Between the two samples.
    int numbers = 0;       ///< By how many scale numbers the worst size rose.
    bool isOfTank = false; ///< Both samples show the tank; one behind the filters may look cleaner than it is.
    Stamp at = {};         ///< When the later of the two was drawn.
};

/// What a run made of the oil, told by a sample of the tank before and one after.
struct CleanedBy
{
    std::string from; ///< The codes.
    std::string to;
    double turnovers = 0.0; ///< Best value, of the whole run: the last sample is drawn at its end.
};

struct TankPast
{
    int runs = 0;           ///< That are closed.
    double turnovers = 0.0; ///< Of all of them, best value.
    double filtered_l = 0.0;
    std::vector<CodeTold> codes;           ///< The latest first.
    std::vector<ElementLife> lives;        ///< In the order of the runs.
    Ingress ingress;                       ///< Between the latest two runs that tell it.
    std::vector<WaterTold> waters = {};    ///< The latest first.
    std::vector<Ingress> ingresses = {};   ///< Between all runs that tell it, the first first.
    std::vector<CleanedBy> cleanings = {}; ///< Of the runs that tell it, the first first.
};

/// What closed runs at the tank of that name tell. Practice and runs that were moved to another tank do not count.
[[nodiscard]] TankPast pastOf(const State& state, const std::string& tank);

} // namespace loopside::run
