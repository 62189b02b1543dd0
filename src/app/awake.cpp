// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "app/awake.h"

#include <algorithm>
#include <utility>

namespace loopside::app {

namespace {

/// Dark enough for eyes that are used to the night, bright enough to read (chosen by us).
constexpr double nightBrightness = 0.25;

bool hasOpenWork(const run::State& state)
{
    return std::ranges::any_of(state.runs, [](const auto& run) { return run.second.phase != run::Phase::Closed; })
        || std::ranges::any_of(state.jobs, [](const auto& job) { return job.second.isOpen(); });
}

} // namespace

Awake::Awake(Tablet& tablet, Display& display, QObject* parent) : QObject{parent}, tablet_{tablet}, display_{display}
{
    connect(&tablet_, &Tablet::changed, this, &Awake::refresh);
    refresh();
}

Awake::~Awake()
{
    if (isKept_) {
        display_.letSleep();
    }
}

void Awake::refresh()
{
    const bool isWanted = hasOpenWork(tablet_.state());
    if (isWanted && !isKept_) {
        isKept_ = display_.keepOn(tablet_.label("app.awake.why"));
    } else if (!isWanted && isKept_) {
        display_.letSleep();
        isKept_ = false;
    }
}

void Awake::setTheme(const QString& theme)
{
    if (theme != std::exchange(theme_, theme)) {
        display_.setBrightness(theme == QLatin1String("night") ? nightBrightness : 1.0);
    }
}

} // namespace loopside::app
