// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// Figures, not a test: how long the Run screen with 200 readings takes to stand and to draw, beside an empty window.

#include "app/app_view.h"
#include "app/demo.h"
#include "app/face.h"
#include "app/tour.h"
#include "app/window.h"
#include "ledger/memory_journal.h"

#include <QElapsedTimer>
#include <QGuiApplication>
#include <QImage>
#include <QQmlComponent>
#include <QQmlEngine>
#include <QTemporaryDir>
#include <QtQml/qqmlextensionplugin.h>

#include <algorithm>
#include <cstdio>
#include <vector>

Q_IMPORT_QML_PLUGIN(Loopside_ModelPlugin)
Q_IMPORT_QML_PLUGIN(Loopside_UiPlugin)

namespace {

using namespace loopside;

constexpr int frames = 100;
constexpr int readings = 200;

double medianMs(std::vector<double> times)
{
    std::sort(times.begin(), times.end());
    return times[times.size() / 2];
}

/// Draws the window anew, after what `change` does.
template<class Change>
double frameMs(QQuickWindow& window, Change change)
{
    std::vector<double> times;
    for (int i = 0; i < frames; ++i) {
        QElapsedTimer timer;
        timer.start();
        change();
        QCoreApplication::processEvents();
        if (window.grabWindow().isNull()) {
            return -1.0;
        }
        times.push_back(static_cast<double>(timer.nsecsElapsed()) / 1e6);
    }
    return medianMs(std::move(times));
}

/// A run with many readings, one a minute.
void fill(app::Tablet& tablet, app::TourClock& clock)
{
    const app::Site& site = tablet.site();
    const auto target = Decimal::parse("7");
    tablet.openRun({"", site.tanks[0], site.carts[0].cart, site.carts[0].stages, {*target, {}, false}});
    tablet.say(run::Said(run::ModeChanged{run::Mode::Filtering, std::nullopt}));
    for (int i = 0; i < readings; ++i) {
        clock.moveTo(clock.time() + std::chrono::minutes(1));
        const auto number = [](int value) { return run::GaugeTyped{Decimal(value, 0), std::nullopt}; };
        const auto oil = run::TypedTemperature::parse("30 C");
        tablet.say(run::Said(
            run::ReadingLogged{{number(150 + i / 10), number(110), number(40)}, nullptr, *oil, std::nullopt}));
    }
}

/// How the shown run stands, with its forecasts or with those of before.
double standingMs(const app::Tablet& tablet, bool isForecastAfresh)
{
    const run::RunState& run = *tablet.shown();
    const auto outlooks = run::standingOf(run, tablet.runTime(run)).outlooks;
    std::vector<double> times;
    for (int i = 0; i < frames; ++i) {
        auto known = isForecastAfresh ? std::vector<run::Outlook>() : outlooks;
        QElapsedTimer timer;
        timer.start();
        const auto standing = run::standingOf(run, tablet.runTime(run), std::move(known));
        times.push_back(static_cast<double>(timer.nsecsElapsed()) / 1e6);
    }
    return medianMs(std::move(times));
}

void print(const char* what, double milliseconds)
{
    std::printf("%-52s %8.2f ms\n", what, milliseconds);
}

} // namespace

int main(int argc, char** argv)
{
    app::settleFace();
    QGuiApplication program(argc, argv);
    QElapsedTimer timer;

    timer.start();
    QQmlEngine engine;
    QQmlComponent component(&engine);
    component.setData("import QtQuick\nWindow { width: 1280; height: 800; visible: true }", QUrl());
    std::unique_ptr<QObject> object(component.create());
    auto* empty = qobject_cast<QQuickWindow*>(object.get());
    if (empty == nullptr || empty->grabWindow().isNull()) {
        return 1;
    }
    const double emptyStart = static_cast<double>(timer.nsecsElapsed()) / 1e6;
    const double emptyFrame = frameMs(*empty, [] {});

    const auto site = app::siteFrom(app::demoSite());
    auto words = words::Words::in("en");
    QTemporaryDir folder;
    auto drafts = store::DraftStore::open((folder.path() + QStringLiteral("/drafts.sqlite")).toStdString());
    if (!site || !words || !drafts) {
        return 1;
    }
    ledger::MemoryJournal journal;
    app::TourClock clock;
    SeededRandom random(1);
    Id device;
    device.bytes[0] = 1;
    auto tablet = app::Tablet::open({journal, **drafts, clock, random, *site, *std::move(words)}, device,
                                    ledger::DeviceKey::fromSeed({1}));
    if (!tablet) {
        return 1;
    }
    fill(**tablet, clock);

    timer.restart();
    app::AppView view(**tablet);
    app::Window window(view);
    if (window.window() == nullptr || window.window()->grabWindow().isNull()) {
        return 1;
    }
    const double fullStart = static_cast<double>(timer.nsecsElapsed()) / 1e6;
    const double fullFrame = frameMs(*window.window(), [&] { (*tablet)->tick(); });
    const double changedFrame = frameMs(*window.window(), [&] { Q_EMIT(*tablet)->changed(); });

    print("empty window: engine, load, first frame", emptyStart);
    print("Run screen, 200 readings: views, load, first frame", fullStart);
    print("empty window: a frame", emptyFrame);
    print("Run screen: a frame after a second passed", fullFrame);
    print("Run screen: a frame after a reading (all afresh)", changedFrame);
    print("a standing with its forecasts", standingMs(**tablet, true));
    print("a standing with the forecasts of before", standingMs(**tablet, false));
    std::printf("ratios: start %.1f, frame %.1f, frame after a reading %.1f\n", fullStart / emptyStart,
                fullFrame / emptyFrame, changedFrame / emptyFrame);
    return 0;
}
