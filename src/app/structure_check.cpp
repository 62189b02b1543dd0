// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "app/structure_check.h"

#include "store/whole_check.h"

#include <chrono>

namespace loopside::app {

StructureCheck::StructureCheck(Tablet& tablet) : tablet_{tablet}
{
    connect(&tablet, &Tablet::secondPassed, this, &StructureCheck::finish);
}

StructureCheck::~StructureCheck()
{
    if (isBusy()) {
        running_.wait();
    }
}

void StructureCheck::begin(const std::string& path)
{
    running_ = std::async(std::launch::async, [path] { return store::checkStructureOf(path); });
}

void StructureCheck::finish()
{
    if (!isBusy() || running_.wait_for(std::chrono::seconds(0)) != std::future_status::ready) {
        return;
    }
    if (const Done seen = running_.get(); !seen) {
        tablet_.setNotice(tablet_.say({"record-structure", {{"reason", seen.error().sentence}}}));
    }
}

} // namespace loopside::app
