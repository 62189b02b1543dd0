// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// The clues that patterns are made of. Each looks at one thing and says by how many standard uncertainties it holds
// (uncertain.h): above 0 rather yes than no, `impossible` where it cannot be told. A clue that is plainly so or not, a
// sign that was heard, a limit that was reached, holds beyond any doubt or not at all.
//
// `place` counts from 0: a stage, a gauge, or nothing.
//
// Source: the first split of a diagnosis and the table of patterns are common practice, no source; the thresholds are
// our choice and stand with the clues (DEVELOPERS.md has those that matter).

#pragma once

#include "run/evidence.h"

#include <string_view>

namespace loopside::run {

struct Clue
{
    std::string_view says; ///< The sentence because.<says>; empty: it goes without saying.
    double (*holds)(const Evidence& evidence, std::size_t place);
};

namespace clue {

// The loop as a whole.
extern const Clue oilThinner; ///< By temperature, since the base.
extern const Clue oilThicker;
extern const Clue pressuresFell; ///< Before the stages, since the base.
extern const Clue pressuresRose;
extern const Clue nothingFlows;        ///< All gauges at static head, where there was pressure.
extern const Clue nothingFlowsAtFirst; ///< The same against what clean elements would cost.
extern const Clue filtersCostNothing;  ///< All stages together, against the last reference.
extern const Clue filtersCostNothingAtFirst;
extern const Clue filtersKept;
extern const Clue filtersFell;
extern const Clue filtersLess;
extern const Clue headKept;
extern const Clue headNotHigh;
extern const Clue headLeft; ///< Rather kept than gone as with the pump off; holds where that is not known.
extern const Clue headNotLeft;
extern const Clue headCannotTell; ///< Whether it went with the filters: too little of it, then or now.
extern const Clue headMoves;      ///< There is flow behind the last stage.
extern const Clue headRose;
extern const Clue headTells;     ///< It is no weak witness now.
extern const Clue headRoseAlone; ///< More than the filters did.
extern const Clue headFarUp;
extern const Clue headGone;
extern const Clue headNotRisen;  ///< Since the base, beyond oil.
extern const Clue headLow;       ///< Since the base, beyond oil.
extern const Clue aStageFellToo; ///< Since the base, beyond oil.
extern const Clue flowLost;      ///< A tenth or more.
extern const Clue pressureLow;
extern const Clue atRelief;
extern const Clue nearRelief; ///< Nine tenths of its setting, in the digits as read.
extern const Clue allThick;   ///< Stages and return hose cost more than this oil would make them.
extern const Clue allThicker; ///< A little.
extern const Clue allThin;
extern const Clue allStepUp;
extern const Clue noneLoaded;
extern const Clue oneNearLimit;
extern const Clue needlesSwing;
extern const Clue correctedScatters;
extern const Clue foam;
extern const Clue whine;
extern const Clue clicking;

// One stage.
extern const Clue fellSuddenly;
extern const Clue fellAlone;
extern const Clue belowBase; ///< Less than its elements cost at first: dirt would not go, a hole lets less remain.
extern const Clue driftedDown;
extern const Clue driftedAlone;
extern const Clue headNormal;
extern const Clue loadedByClean; ///< P(loading > 1.5), against clean elements.
extern const Clue loadedByBase;  ///< The same since its base.
extern const Clue atSetting;     ///< Of its bypass valve; stays while it is within 7 % of it.
extern const Clue flatAfterRise;
extern const Clue limitOverSetting;
extern const Clue isWater;
extern const Clue swellsFast;
extern const Clue notForCold;
extern const Clue toldHalf;    ///< Fewer elements were changed than there are.
extern const Clue moreThanNew; ///< After a changeover, by this run's own gauges.
extern const Clue looksHalf;   ///< 2/(1 + 1/f), f the loading of what was there before.
extern const Clue looksShut;   ///< n/(n − 1) of n elements.
extern const Clue highFromFirst;
extern const Clue lowFromFirst;
extern const Clue isFresh;   ///< Begins only in the first minutes: later it may be dirt.
extern const Clue stillHigh; ///< In this set too: of the first minutes a needle may be misread.
extern const Clue stillLow;
extern const Clue othersAsClean;
extern const Clue headAsHose; ///< Not low against the return hose; holds where that is not known.
extern const Clue atLimit;
extern const Clue nearLimit; ///< 80 % of it.
extern const Clue overLimitIfCold;
extern const Clue isLast;
extern const Clue lastRises;
extern const Clue lastRisesFar;
extern const Clue firstStays;
extern const Clue oilCooled;
extern const Clue belowZero; ///< The gauge behind shows more than the one before.

// One gauge.
extern const Clue needleStands;
extern const Clue offZero;
extern const Clue farOffZero;

} // namespace clue

} // namespace loopside::run
