// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "app/tablet.h"
#include "run/alert.h"

#include <QObject>

#include <optional>
#include <set>
#include <tuple>

namespace loopside::app {

/// The door to what can be heard. One sound at a time; where nothing can be heard, nothing happens.
class Sound
{
public:
    virtual ~Sound() = default;

    /// Begins the sound of `priority` in place of what sounds now.
    virtual void play(run::Priority priority) = 0;
    virtual void stop() = 0;
};

/// Makes alerts heard, those of every run: the gravest that waits for somebody (waiting_alerts.h). High and medium go
/// on until somebody acknowledges or silences them; low is heard once, when it is raised.
class AlertSound : public QObject
{
    Q_OBJECT

public:
    /// Both outlive this.
    AlertSound(const Tablet& tablet, Sound& sound, QObject* parent = nullptr);
    ~AlertSound() override;

private:
    /// Run, alert, stage and since when.
    using Raised = std::tuple<Id, run::AlertId, std::optional<int>, run::RunTime>;

    void refresh();
    void playWhatGoesOn(std::optional<run::Priority> gravest);

    const Tablet& tablet_;
    Sound& sound_;
    std::set<Raised> known_;
    std::optional<run::Priority> sounding_; ///< What goes on until it is stopped.
};

} // namespace loopside::app
