// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "app/sleep_watch.h"

#include <chrono>
#include <utility>

namespace loopside::app {

SleepWatch::SleepWatch(Tablet& tablet, QObject* parent) : QObject{parent}, tablet_{tablet}, lastNs_{tablet.now().monoNs}
{
    connect(&timer_, &QTimer::timeout, this, &SleepWatch::look);
    timer_.start(std::chrono::seconds(1));
}

void SleepWatch::look()
{
    const std::uint64_t nowNs = tablet_.now().monoNs;
    const std::chrono::nanoseconds passed(nowNs - std::exchange(lastNs_, nowNs));
    if (passed > std::chrono::minutes(1)) {
        tablet_.noteSlept(std::chrono::duration_cast<std::chrono::milliseconds>(passed));
    }
}

} // namespace loopside::app
