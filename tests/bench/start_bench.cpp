// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// Figures, not a test: from a journal on disk to the first frame of the Run screen (a run is open), beside an empty
// window. `bench_start [ENTRIES]`, 1 000 000 where none is named. Both in time of the processor and by the clock on the
// wall.

#include "app/app_view.h"
#include "app/demo.h"
#include "app/window.h"
#include "bench/long_journal.h"
#include "bench/measure.h"
#include "paper/face.h"
#include "store/recovery.h"
#include "store/system_clock.h"

#include <QGuiApplication>
#include <QQmlComponent>
#include <QQmlEngine>
#include <QTemporaryDir>
#include <QtQml/qqmlextensionplugin.h>

Q_IMPORT_QML_PLUGIN(Loopside_ModelPlugin)
Q_IMPORT_QML_PLUGIN(Loopside_UiPlugin)

namespace {

using namespace loopside;

void emptyWindow()
{
    QQmlEngine engine;
    QQmlComponent component(&engine);
    component.setData("import QtQuick\nWindow { width: 1280; height: 800; visible: true }", QUrl());
    const std::unique_ptr<QObject> object(component.create());
    auto* window = qobject_cast<QQuickWindow*>(object.get());
    bench::must(window != nullptr && !window->grabWindow().isNull(), "the empty window cannot be drawn");
}

/// What the program holds once it has started.
struct Started
{
    store::SystemClock clock;
    store::SystemRandom random;
    std::unique_ptr<store::SqliteJournal> journal;
    std::unique_ptr<store::DraftStore> drafts;
    std::unique_ptr<app::Tablet> tablet;
    std::unique_ptr<app::AppView> view;
    std::unique_ptr<app::Window> window;
};

/// Says what a step of the start took, by the clock on the wall.
template<class Work>
void step(const char* what, Work work)
{
    std::printf("  %-42s %7.0f ms\n", what, bench::secondsOf(work) * 1e3);
}

/// As the program starts: journal looked at, what is open folded, views, screens, a frame.
void start(Started& started, const std::string& folder)
{
    step("the journal is looked at", [&] {
        auto opened = store::openOrRecover(folder + "/journal.loop", "", started.clock.now().wallMs);
        bench::must(opened.has_value() && !opened->recovered, "the journal cannot be opened");
        started.journal = std::move(opened->journal);
    });
    step("what is open is folded", [&] {
        auto drafts = store::DraftStore::open(folder + "/drafts");
        auto site = app::siteFrom(app::demoSite());
        auto words = words::Words::in("en");
        bench::must(drafts && site && words, "what a start needs is not there");
        started.drafts = *std::move(drafts);
        Id device;
        device.bytes[0] = 1;
        app::Tablet::Parts parts{*started.journal, *started.drafts, started.clock,
                                 started.random,   *site,           *std::move(words)};
        parts.reach = ledger::Reach::OpenFirst;
        auto tablet = app::Tablet::open(std::move(parts), device, ledger::DeviceKey::fromSeed({1}));
        bench::must(tablet.has_value(), "the tablet cannot be started");
        started.tablet = *std::move(tablet);
    });
    step("the views are made", [&] { started.view = std::make_unique<app::AppView>(*started.tablet); });
    step("the screens are made", [&] {
        started.window = std::make_unique<app::Window>(*started.view);
        bench::must(started.window->window() != nullptr, "no window");
    });
    step("the first frame", [&] { bench::must(!started.window->window()->grabWindow().isNull(), "no first frame"); });
}

struct Took
{
    double wallS = 0.0;
    double processorS = 0.0;
};

template<class Work>
Took timeOf(const char* what, Work work)
{
    Took took;
    took.wallS = bench::secondsOf([&] { took.processorS = bench::processorSecondsOf(work); });
    std::printf("%-44s %7.0f ms  %7.0f ms of the processor\n", what, took.wallS * 1e3, took.processorS * 1e3);
    return took;
}

} // namespace

int main(int argc, char** argv)
{
    const std::size_t entries = argc > 1 ? static_cast<std::size_t>(std::max(std::atoi(argv[1]), 1000)) : 1'000'000;
    paper::settleFace();
    const QGuiApplication program(argc, argv);
    const QTemporaryDir folder;
    const std::string path = folder.path().toStdString();
    {
        auto journal = store::SqliteJournal::open(path + "/journal.loop");
        bench::must(journal.has_value(), "the journal cannot be made");
        bench::Filler(**journal).fillTo(entries, 1000);
    }
    emptyWindow(); // the first of a process pays for what both use
    const Took empty = timeOf("an empty window", emptyWindow);
    Started started; // its end is not timed
    const Took full = timeOf(("the program, " + std::to_string(entries) + " entries").c_str(),
                             [&] { start(started, path); });
    step("behind it: the runs that are over",
         [&] { bench::must(started.tablet->takeEarlier(), "the runs that are over cannot be read"); });
    step("behind it, on a thread: more is looked at", [&] {
        bench::must(store::checkBehindStart(path + "/journal.loop", false).has_value(),
                    "the journal cannot be looked at");
    });
    std::printf("%.1f times, %.0f ms more; of the processor %.1f times, %.0f ms more\n", full.wallS / empty.wallS,
                (full.wallS - empty.wallS) * 1e3, full.processorS / empty.processorS,
                (full.processorS - empty.processorS) * 1e3);
    return 0;
}
