// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// Figures, not a test: how long the Run screen with many readings (`bench_screen [READINGS [PAST [MINUTES]]]`, 1000
// where none is said, in a run that learned from PAST loadings of earlier elements, 0 where none are said) takes to
// stand and to draw, beside an empty window, how long a trend of 10 000 points takes to draw, and what a shift of
// MINUTES, eight hours where none are said, adds to the memory.

#include "app/app_view.h"
#include "app/demo.h"
#include "app/tour.h"
#include "app/window.h"
#include "bench/measure.h"
#include "paper/face.h"
#include "paper/trend.h"
#include "store/sqlite_journal.h"

#include <QElapsedTimer>
#include <QGuiApplication>
#include <QImage>
#include <QQmlComponent>
#include <QQmlEngine>
#include <QTemporaryDir>
#include <QtQml/qqmlextensionplugin.h>

#include <cmath>
#include <cstdio>
#include <vector>

Q_IMPORT_QML_PLUGIN(Loopside_ModelPlugin)
Q_IMPORT_QML_PLUGIN(Loopside_UiPlugin)

namespace {

using namespace loopside;

constexpr int frames = 100;
constexpr int trendPoints = 10'000;
constexpr int warmUpMinutes = 15;
constexpr int wholeShiftMinutes = 8 * 60;

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
    return bench::medianOf(std::move(times));
}

/// A run that filters, with no reading yet.
void begin(app::Tablet& tablet)
{
    const app::Site& site = tablet.site();
    const auto target = Decimal::parse("7");
    tablet.openRun({"", site.tanks[0], site.carts[0].cart, site.carts[0].stages, {*target, {}, false}});
    tablet.say(run::Said(run::ModeChanged{run::Mode::Filtering, std::nullopt}));
}

void read(app::Tablet& tablet, int first)
{
    const auto number = [](int value) { return run::GaugeTyped{Decimal(value, 0), std::nullopt}; };
    const auto oil = run::TypedTemperature::parse("30 C");
    tablet.say(run::Said(run::ReadingLogged{{number(first), number(110), number(40)}, nullptr, *oil, std::nullopt}));
}

/// A reading a minute.
void fill(app::Tablet& tablet, app::TourClock& clock, int readings)
{
    for (int i = 0; i < readings; ++i) {
        clock.moveTo(clock.time() + std::chrono::minutes(1));
        read(tablet, 150 + i / 50);
    }
}

/// A run that wears out `loadings` sets of elements of its first stage: what later runs learn from.
void wearOut(app::Tablet& tablet, app::TourClock& clock, int loadings)
{
    constexpr int limitIsPassed = 300; // kPa at the first gauge
    begin(tablet);
    for (int loading = 0; loading < loadings; ++loading) {
        tablet.say(run::Said(run::ModeChanged{run::Mode::Filtering, std::nullopt}));
        for (int first = 130; first <= limitIsPassed; first += 10 + loading) {
            clock.moveTo(clock.time() + std::chrono::minutes(5));
            read(tablet, first);
        }
        tablet.say(run::Said(run::ModeChanged{run::Mode::Stopped, std::nullopt}));
        clock.moveTo(clock.time() + std::chrono::minutes(10));
        tablet.say(run::Said(run::ElementsChanged{1, 2, {}}));
    }
    tablet.submit(run::CloseRun{tablet.shown()->id, run::Ending::Abandoned, "worn out"});
}

/// Two stages whose raw ΔP and loading have a point each six seconds.
paper::Trend longTrend()
{
    paper::Trend trend;
    trend.unit = QStringLiteral("psi");
    trend.endMinute = trendPoints / 10.0;
    for (const double limit : {25.0, 35.0}) {
        paper::TrendStage stage;
        stage.limit = limit;
        for (int i = 0; i < trendPoints; ++i) {
            const double minute = i / 10.0;
            const double share = static_cast<double>(i) / trendPoints;
            const double noise = 0.3 * std::sin(i * 0.7);
            stage.raw.append(QPointF(minute, limit * (0.3 + 0.5 * share) + noise));
            stage.loading.append(QPointF(minute, 1.0 + share + 0.02 * noise));
        }
        trend.stages.append(stage);
    }
    return trend;
}

double trendMs()
{
    const paper::Trend trend = longTrend();
    const paper::TrendStyle style{Qt::white,
                                  Qt::black,
                                  Qt::gray,
                                  Qt::gray,
                                  Qt::red,
                                  Qt::lightGray,
                                  {Qt::blue, Qt::darkGreen},
                                  QStringLiteral("B612")};
    QImage sheet(900, 400, QImage::Format_ARGB32_Premultiplied);
    std::vector<double> times;
    for (int i = 0; i < frames; ++i) {
        times.push_back(1e3 * bench::processorSecondsOf([&] {
                            QPainter painter(&sheet);
                            paper::paintTrend(painter, QRectF(sheet.rect()), trend, style);
                        }));
    }
    return bench::medianOf(std::move(times));
}

/// As a shift goes: time passes second by second, a frame is drawn each minute, a reading comes every five, somebody
/// looks at other pages. What the memory grew by after it had warmed up, MB.
double shiftGrowthMb(app::Tablet& tablet, app::AppView& view, QQuickWindow& window, app::TourClock& clock,
                     int shiftMinutes)
{
    using Page = app::AppView::Page;
    double before = 0.0;
    for (int minute = 0; minute < warmUpMinutes + shiftMinutes; ++minute) {
        if (minute == warmUpMinutes) {
            before = bench::ownMb();
        }
        for (int second = 0; second < 60; ++second) {
            clock.moveTo(clock.time() + std::chrono::seconds(1));
            tablet.tick();
            QCoreApplication::processEvents();
        }
        if (minute % 5 == 0) {
            read(tablet, 150 + minute / 30);
        }
        view.go(minute % 5 == 2 ? Page::Shift : Page::Run);
        QCoreApplication::processEvents();
        QCoreApplication::sendPostedEvents(nullptr, QEvent::DeferredDelete); // the loop of a program does this
        if (window.grabWindow().isNull()) {
            return -1.0;
        }
    }
    return bench::ownMb() - before;
}

/// How the shown run stands when a second has passed: all afresh, or from the standing before.
double standingMs(const app::Tablet& tablet, bool isAfresh)
{
    const run::RunState& run = *tablet.shown();
    auto standing = run::standingOf(run, tablet.runTime(run));
    std::vector<double> times;
    for (int i = 0; i < frames; ++i) {
        const run::RunTime later = tablet.runTime(run) + std::chrono::seconds(i);
        QElapsedTimer timer;
        timer.start();
        standing = isAfresh ? run::standingOf(run, later) : run::standingLater(run, later, std::move(standing));
        times.push_back(static_cast<double>(timer.nsecsElapsed()) / 1e6);
    }
    return bench::medianOf(std::move(times));
}

void print(const char* what, double milliseconds)
{
    std::printf("%-52s %8.2f ms\n", what, milliseconds);
}

} // namespace

int main(int argc, char** argv)
{
    paper::settleFace();
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
    auto journal = store::SqliteJournal::open((folder.path() + QStringLiteral("/journal.loop")).toStdString());
    if (!journal) {
        return 1;
    }
    app::TourClock clock;
    SeededRandom random(1);
    Id device;
    device.bytes[0] = 1;
    auto tablet = app::Tablet::open({**journal, **drafts, clock, random, *site, *std::move(words)}, device,
                                    ledger::DeviceKey::fromSeed({1}));
    if (!tablet) {
        return 1;
    }
    const int past = argc > 2 ? std::max(std::atoi(argv[2]), 0) : 0;
    if (past > 0) {
        wearOut(**tablet, clock, past);
    }
    begin(**tablet);
    const int readings = argc > 1 ? std::max(std::atoi(argv[1]), 1) : 1000;
    fill(**tablet, clock, readings);

    const std::size_t learnedFrom = (*tablet)->shown()->past.size();
    timer.restart();
    app::AppView view(**tablet);
    app::Window window(view);
    if (window.window() == nullptr || window.window()->grabWindow().isNull()) {
        return 1;
    }
    const double fullStart = static_cast<double>(timer.nsecsElapsed()) / 1e6;
    const double fullFrame = frameMs(*window.window(), [&] { (*tablet)->tick(); });
    const double changedFrame = frameMs(*window.window(), [&] { Q_EMIT(*tablet)->changed(); });

    std::printf("past loadings the run learned from: %zu\n", learnedFrom);
    print("empty window: engine, load, first frame", emptyStart);
    print(("Run screen, " + std::to_string(readings) + " readings: views, load, first frame").c_str(), fullStart);
    print("empty window: a frame", emptyFrame);
    print("Run screen: a frame after a second passed", fullFrame);
    print("Run screen: a frame after a reading (all afresh)", changedFrame);
    print("a trend of 10 000 points, two stages, painted", trendMs());
    print("how the run stands, afresh", standingMs(**tablet, true));
    print("how the run stands, a second later", standingMs(**tablet, false));
    std::printf("ratios: start %.1f, frame %.1f, frame after a reading %.1f\n", fullStart / emptyStart,
                fullFrame / emptyFrame, changedFrame / emptyFrame);
    (*tablet)->submit(run::CloseRun{(*tablet)->shown()->id, run::Ending::Abandoned, "measured"});
    begin(**tablet); // a shift has a hundred readings, not a thousand
    const int minutes = argc > 3 ? std::max(std::atoi(argv[3]), 1) : wholeShiftMinutes;
    std::printf("a shift of %.1f h: %+.1f MB\n", minutes / 60.0,
                shiftGrowthMb(**tablet, view, *window.window(), clock, minutes));
    return 0;
}
