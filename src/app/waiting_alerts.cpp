// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "app/waiting_alerts.h"

#include "run/alert.h"

#include <algorithm>

namespace loopside::app {

std::vector<WaitingAlert> waitingAlerts(const run::State& state, const Id& shown)
{
    std::vector<WaitingAlert> waiting;
    for (const auto& [id, run] : state.runs) {
        for (const run::Alert& alert : run.alerts) {
            const bool isOver = alert.state == run::AlertState::Returned;
            if (alert.state == run::AlertState::Unacknowledged || (isOver && alert.id == run::AlertId::StopNow)) {
                waiting.push_back({id, &alert});
            }
        }
    }
    const auto keyOf = [&](const WaitingAlert& one) {
        return std::pair(run::priorityOf(one.alert->id), one.run == shown);
    };
    std::ranges::stable_sort(waiting, std::greater{}, keyOf);
    return waiting;
}

bool takesTheScreen(const run::Alert& alert)
{
    return alert.id == run::AlertId::StageAtLimit || alert.id == run::AlertId::StopNow;
}

} // namespace loopside::app
