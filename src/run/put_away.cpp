// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "run/put_away.h"

#include <algorithm>

namespace loopside::run {

namespace {

template<class... Some>
bool isOneOf(const Event& event)
{
    return (std::holds_alternative<Some>(event) || ...);
}

} // namespace

bool isOfMoment(const Event& event)
{
    return isOneOf<ReadingLogged, SignsSeen, Noted, QuestionAnswered, AlertRaised, AlertCleared, AlertAcknowledged,
                   AlertShelved, AlertServiced, CheckAnswered, StartTold>(event);
}

void putAway(RunState& run)
{
    std::erase_if(run.facts, [](const Fact& fact) { return isOfMoment(fact.original); });
    run.facts.shrink_to_fit();
    run.alerts = {};
    run.past = {};
    run.place = {};
    run.isPutAway = true;
}

} // namespace loopside::run
