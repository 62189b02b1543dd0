// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "app/awake.h"

#include <algorithm>
#include <cmath>
#include <utility>

namespace loopside::app {

namespace {

/// Dark enough for eyes that are used to the night, bright enough to read (chosen by us).
constexpr double nightBrightness = 0.25;
/// A lamp has steps: what is read may be this far from what was set.
constexpr double lampStep = 0.02;

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
    putLightBack();
    if (isKept_) {
        display_.letSleep();
    }
}

void Awake::refresh()
{
    const bool isWanted = isPractising_ || hasOpenWork(tablet_.state());
    if (isWanted && !isKept_) {
        isKept_ = display_.keepOn(tablet_.label("app.awake.why"));
    } else if (!isWanted && isKept_) {
        display_.letSleep();
        isKept_ = false;
    }
    if (!isWanted) {
        putLightBack();
    } else if (!found_) {
        refreshLight();
    }
}

void Awake::setTheme(const QString& theme)
{
    if (theme != std::exchange(theme_, theme) && (isPractising_ || hasOpenWork(tablet_.state()))) {
        refreshLight();
    }
}

void Awake::setPractising(bool isPractising)
{
    isPractising_ = isPractising;
    refresh();
}

/// What cannot be put back is not touched.
void Awake::refreshLight()
{
    const auto now = display_.brightness();
    const double wanted = theme_ == QLatin1String("night") ? nightBrightness : 1.0;
    if (theme_.isEmpty() || !now || !display_.setBrightness(wanted)) {
        return;
    }
    found_ = found_.value_or(*now);
    given_ = wanted;
}

void Awake::putLightBack()
{
    const auto now = found_ ? display_.brightness() : std::nullopt;
    if (now && std::abs(*now - given_) <= lampStep) {
        display_.setBrightness(*found_);
    }
    found_.reset();
}

} // namespace loopside::app
