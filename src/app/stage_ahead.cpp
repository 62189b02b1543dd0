// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "app/stage_ahead.h"

#include "app/as_shown.h"
#include "app/wording.h"
#include "run/level.h"
#include "words/outlook_told.h"

#include <tuple>

namespace loopside::app {

namespace {

/// What is sooner, or else more likely before the target; a time that is not known is later than any.
bool isSooner(const run::Outlook& a, const run::Outlook& b)
{
    const auto keyOf = [](const run::Outlook& outlook) {
        constexpr auto never = run::RunTime::max();
        return std::tuple(outlook.limitAt.t50.value_or(never), outlook.limitAt.t10.value_or(never),
                          -outlook.pBeforeTarget.value_or(0.0));
    };
    return keyOf(a) < keyOf(b);
}

template<class Wanted>
const run::Outlook* soonest(const run::Standing& standing, Wanted isWanted)
{
    const run::Outlook* first = nullptr;
    for (const run::Outlook& outlook : standing.outlooks) {
        if (isWanted(outlook) && (first == nullptr || isSooner(outlook, *first))) {
            first = &outlook;
        }
    }
    return first;
}

} // namespace

StageAhead stageAheadOf(const words::Words& words, const run::RunState& run, const run::Standing& standing,
                        std::size_t stage)
{
    StageAhead ahead;
    if (stage >= standing.outlooks.size() || run.phase == run::Phase::Closed) {
        return ahead; // nothing lies ahead of a run that is over
    }
    const run::Outlook& outlook = standing.outlooks[stage];
    ahead.state = toQt(run::nameOf(outlook.state));
    ahead.label = asShown(run::tellsTimes(outlook, standing) ? words::outlookLabel(words, outlook, run)
                                                             : words.say("outlook.label.not-filtering"));
    ahead.sentence = asShown(run::tellsTimes(outlook, standing) ? words::outlookBrief(words, outlook, run)
                                                                : words.say("outlook.not-filtering"));
    ahead.isCaution = run::isCautionAhead(outlook, standing);
    const auto& limit = run.setup.stages[stage].changeLimit;
    if (limit && !outlook.band.empty()) {
        ahead.low = outlook.band.back().low / limit->value();
        ahead.high = outlook.band.back().high / limit->value();
    }
    return ahead;
}

const run::Outlook* firstToReach(const run::Standing& standing)
{
    return soonest(standing, [](const run::Outlook& outlook) { return !outlook.band.empty(); });
}

const run::Outlook* firstCaution(const run::Standing& standing)
{
    return soonest(standing, [&](const run::Outlook& outlook) {
        return run::isCautionAhead(outlook, standing) && run::tellsTimes(outlook, standing);
    });
}

} // namespace loopside::app
