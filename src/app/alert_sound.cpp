// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "app/alert_sound.h"

#include "app/waiting_alerts.h"

#include <algorithm>

namespace loopside::app {

AlertSound::AlertSound(const Tablet& tablet, Sound& sound, QObject* parent)
    : QObject{parent}, tablet_{tablet}, sound_{sound}
{
    connect(&tablet_, &Tablet::changed, this, &AlertSound::refresh);
    refresh();
}

AlertSound::~AlertSound()
{
    sound_.stop();
}

void AlertSound::refresh()
{
    std::set<Raised> waiting;
    std::optional<run::Priority> gravest;
    bool isLowNew = false;
    for (const auto& [id, alert] : waitingAlerts(tablet_.state(), Id{})) {
        const run::Priority priority = run::priorityOf(alert->id);
        const Raised raised{id, alert->id, alert->stage, alert->since};
        if (priority == run::Priority::Low) {
            isLowNew = isLowNew || !known_.contains(raised);
        } else {
            gravest = std::max(gravest, std::optional(priority));
        }
        waiting.insert(raised);
    }
    known_ = std::move(waiting);
    playWhatGoesOn(gravest);
    if (isLowNew && !sounding_) {
        sound_.play(run::Priority::Low);
    }
}

void AlertSound::playWhatGoesOn(std::optional<run::Priority> gravest)
{
    if (gravest == sounding_) {
        return;
    }
    sounding_ = gravest;
    if (gravest) {
        sound_.play(*gravest);
    } else {
        sound_.stop();
    }
}

} // namespace loopside::app
