// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "app/tablet.h"

#include <QObject>
#include <QTimer>

namespace loopside::app {

/// Finds out that the device was suspended, or that the open program stood still: looks at the monotonic clock every
/// second, and where more than a minute lies between two looks, nobody could be reminded meanwhile and the open runs
/// note it. A minute: less is no reminder missed. While the program is closed nobody looks, and nothing is noted of it.
class SleepWatch : public QObject
{
    Q_OBJECT

public:
    /// `tablet` outlives it.
    explicit SleepWatch(Tablet& tablet, QObject* parent = nullptr);

    /// Called every second.
    void look();

private:
    Tablet& tablet_;
    std::uint64_t lastNs_;
    QTimer timer_;
};

} // namespace loopside::app
