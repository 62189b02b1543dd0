// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "app/record_check.h"

#include <algorithm>
#include <chrono>
#include <utility>

namespace loopside::app {

RecordCheck::RecordCheck(Tablet& tablet, std::string path) : tablet_{tablet}, path_{std::move(path)}
{
    connect(&tablet, &Tablet::secondPassed, this, &RecordCheck::finish);
}

RecordCheck::~RecordCheck()
{
    watch_.isToEnd = true;
    if (isBusy()) {
        running_.wait();
    }
}

void RecordCheck::begin()
{
    if (isBusy()) {
        return;
    }
    watch_.looked = 0;
    watch_.entries = 0;
    running_ = std::async(std::launch::async, [this] { return store::verifyWhole(path_, watch_); });
    Q_EMIT changed();
}

int RecordCheck::percent() const
{
    const std::uint64_t entries = std::max<std::uint64_t>(watch_.entries, 1);
    return static_cast<int>(std::min<std::uint64_t>(watch_.looked * 100 / entries, 99));
}

void RecordCheck::finish()
{
    if (isBusy() && running_.wait_for(std::chrono::seconds(0)) == std::future_status::ready) {
        found_ = running_.get();
        at_ = tablet_.now();
        Q_EMIT changed();
    }
}

} // namespace loopside::app
