// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "app/start_check.h"

#include <chrono>

namespace loopside::app {

StartCheck::StartCheck(Tablet& tablet, store::SqliteJournal& journal) : tablet_{tablet}, journal_{journal}
{
    connect(&tablet, &Tablet::secondPassed, this, &StartCheck::finish);
}

StartCheck::~StartCheck()
{
    if (isBusy()) {
        running_.wait();
    }
}

void StartCheck::begin(const std::string& path)
{
    running_ = std::async(std::launch::async, [path, isStructureSeen = journal_.isStructureSeen()] {
        return store::checkBehindStart(path, isStructureSeen);
    });
}

void StartCheck::finish()
{
    if (!isBusy() || running_.wait_for(std::chrono::seconds(0)) != std::future_status::ready) {
        return;
    }
    const auto checked = running_.get();
    const Done noted = checked.and_then([&](const store::PieceChecked& found) { return noteChecked(journal_, found); });
    if (checked && !checked->faults.empty()) {
        tell(checked->faults.front());
    } else if (!noted) {
        tell(noted.error().sentence);
    }
}

void StartCheck::tell(const std::string& reason)
{
    tablet_.setNotice(tablet_.say({"record-structure", {{"reason", reason}}}));
}

} // namespace loopside::app
