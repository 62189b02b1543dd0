// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// A run with past loadings behind it: early, with a range, with a set in doubt, at its limit, after the changeover.

#include "app/tour.h"
#include "run/alert.h"

#include <algorithm>
#include <cmath>

namespace loopside::app {

namespace {

using std::chrono::minutes;

constexpr int downstreamKpa = 85;
constexpr int returnKpa = 30;

run::GaugeTyped shown(int kilopascal)
{
    return {Decimal(kilopascal, 0), std::nullopt};
}

/// What an invented element of that life shows, to the 5 kPa of the dials.
int dropAt(double minute, double life)
{
    return 5 * static_cast<int>(std::lround((20.0 + 150.0 * std::pow(minute / life, 2.5)) / 5.0));
}

run::ReadingLogged setAt(double minute, double life)
{
    return {{shown(downstreamKpa + dropAt(minute, life)), shown(downstreamKpa), shown(returnKpa)},
            nullptr,
            run::TypedTemperature::parse("38 C").value(),
            std::nullopt};
}

} // namespace

bool Tour::forecasts()
{
    return pastLoadings() && forecastRun();
}

/// A run that wore out three sets of elements: what later forecasts learn from.
bool Tour::pastLoadings()
{
    Tablet& tablet = stage_.tablet;
    if (!tablet.openRun(forecastSetup("40"))) {
        return false;
    }
    for (const double life : {100.0, 118.0, 132.0}) {
        bool isFine = tablet.say(run::Said(run::ModeChanged{run::Mode::Filtering, std::nullopt}));
        for (double minute = 5.0; minute < life + 8.0; minute += 8.0) {
            stage_.clock.moveTo(stage_.clock.time() + minutes(minute > 5.0 ? 8 : 5));
            isFine = tablet.say(run::Said(setAt(minute, life))) && isFine;
        }
        isFine = tablet.say(run::Said(run::AlertAcknowledged{run::AlertId::StageAtLimit, 1, ""})) && isFine;
        isFine = tablet.say(run::Said(run::ModeChanged{run::Mode::Stopped, std::nullopt})) && isFine;
        stage_.clock.moveTo(stage_.clock.time() + minutes(10));
        if (!isFine || !tablet.say(run::Said(run::ElementsChanged{1, 2, {}}))) {
            return false;
        }
    }
    return tablet.submit(run::CloseRun{tablet.shown()->id, run::Ending::StoppedEarly, "elements used up"});
}

bool Tour::forecastRun()
{
    constexpr double life = 112.0;
    Tablet& tablet = stage_.tablet;
    if (!tablet.openRun(forecastSetup("5"))) {
        return false;
    }
    const auto open = std::count_if(tablet.state().runs.begin(), tablet.state().runs.end(),
                                    [](const auto& item) { return item.second.phase != run::Phase::Closed; });
    stage_.view.showRun(static_cast<int>(open) - 1); // ids rise with time
    stage_.view.choosePerson(1);                     // hours have passed since somebody touched it
    const run::RunTime start = stage_.clock.time();
    const auto read = [&](int minute, const run::ReadingLogged& set) {
        passTime(start + minutes(minute));
        return tablet.say(run::Said(set));
    };
    bool isFine = tablet.say(run::Said(run::ModeChanged{run::Mode::Filtering, std::nullopt}));
    for (const int minute : {2, 5, 10, 15}) {
        isFine = read(minute, setAt(minute, life)) && isFine;
    }
    tell();
    isFine = picture(QStringLiteral("13-forecast-early")) && isFine;
    for (const int minute : {30, 45, 60, 70}) {
        isFine = read(minute, setAt(minute, life)) && isFine;
    }
    tell();
    isFine = picture(QStringLiteral("13-forecast-range")) && isFine;

    run::ReadingLogged swapped = setAt(78, life);
    std::swap(swapped.gauges[0], swapped.gauges[1]);
    isFine = read(78, swapped) && picture(QStringLiteral("13-forecast-doubt")) && isFine;
    stage_.view.run()->answer(QStringLiteral("again"));
    for (const int minute : {80, 90, 100, 112}) {
        isFine = read(minute, setAt(minute, life)) && isFine;
    }
    tell();
    const run::Said seen = run::AlertAcknowledged{run::AlertId::StageAtLimit, 1, "nearly done"};
    isFine = tablet.say(seen) && picture(QStringLiteral("13-forecast-at-limit")) && isFine;

    passTime(start + minutes(114));
    isFine = tablet.say(run::Said(run::ModeChanged{run::Mode::Stopped, std::nullopt})) && isFine;
    passTime(start + minutes(120));
    isFine = tablet.say(run::Said(run::ElementsChanged{1, 2, {}})) && isFine;
    passTime(start + minutes(122));
    isFine = tablet.say(run::Said(run::ModeChanged{run::Mode::Filtering, std::nullopt})) && isFine;
    for (const int minute : {5, 10, 20, 35}) {
        isFine = read(122 + minute, setAt(minute, life)) && isFine;
    }
    tell();
    return picture(QStringLiteral("13-forecast-not-before-target")) && isFine;
}

run::Setup Tour::forecastSetup(const char* turnovers) const
{
    const Site& site = stage_.tablet.site();
    run::Setup setup{"", site.tanks[0], site.carts[0].cart, site.carts[0].stages, {}};
    setup.stages[0].type = "invented 10 µm";
    setup.stages[1].type = "invented 3 µm";
    setup.target.turnovers = Decimal::parse(turnovers).value();
    return setup;
}

} // namespace loopside::app
