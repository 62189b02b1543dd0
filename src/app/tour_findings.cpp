// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// What the gauges say, scene by scene: a short run each, up to the set that raises a finding, an alert or a question.

#include "app/demo.h"
#include "app/tour.h"
#include "app/wording.h"

#include <algorithm>

namespace loopside::app {

namespace {

template<class List>
bool holds(const List& list, const std::string& id)
{
    return id.empty() || std::ranges::any_of(list, [&](const auto& one) { return one.id == id; });
}

} // namespace

bool Tour::findings()
{
    const auto scenes = readScenes(demoScenes());
    if (!scenes) {
        return complainOf(toQt(scenes.error().sentence));
    }
    return std::ranges::all_of(*scenes, [this](const Scene& scene) { return playScene(scene) && showScene(scene); });
}

/// Up to its last entry. What takes the screen before that is acknowledged.
bool Tour::playScene(const Scene& scene)
{
    Tablet& tablet = stage_.tablet;
    const run::RunTime start = stage_.clock.time();
    if (!tablet.openRun(scene.story.setup)) {
        return false;
    }
    const auto open = std::ranges::count_if(tablet.state().runs,
                                            [](const auto& item) { return item.second.phase != run::Phase::Closed; });
    stage_.view.showRun(static_cast<int>(open) - 1); // ids rise with time
    for (const story::StoryEntry& entry : scene.story.entries) {
        if (stage_.view.alert()->isUp()) {
            stage_.view.alert()->because(0);
        }
        passTime(start + entry.entered);
        const auto ago = (entry.entered - entry.seen).count();
        for (const story::Step& step : entry.steps) {
            if (!tablet.say(std::get<run::Said>(step), {ago, ago > 0 ? "said" : ""})) {
                return false;
            }
        }
    }
    return true;
}

/// Pictures of the alert, if one is due, of the Run screen, and of the reasons. The run is closed then.
bool Tour::showScene(const Scene& scene)
{
    const QString name = toQt(scene.name);
    const auto& standing = stage_.tablet.standing(*stage_.tablet.shown());
    const bool isAlert = stage_.view.alert()->isUp();
    tell();
    if (!holds(standing.findings, scene.finding) || !holds(standing.questions, scene.question)
        || isAlert == scene.alert.empty()) {
        return complainOf(name + QStringLiteral(" shows something else"));
    }
    bool isFine = !isAlert || pictureAlert(name);
    if (!scene.finding.empty() && !stage_.view.run()->lineHasReasons()) {
        stage_.view.run()->answer(QStringLiteral("yes")); // to whether a jump is what the gauges show
    }
    isFine = picture(QStringLiteral("14-") + name) && isFine;
    if (scene.question == run::unwatchedGap) {
        stage_.view.run()->answer(QStringLiteral("part"));
        isFine = picture(QStringLiteral("14-") + name + QStringLiteral("-part")) && isFine;
        stage_.view.run()->part()->back();
    }
    if (stage_.view.run()->lineHasReasons()) {
        touch("why");
        isFine = picture(QStringLiteral("14-") + name + QStringLiteral("-reasons")) && isFine;
        touch(isAlert ? "alertLog" : "findingBack");
    }
    if (isAlert) {
        isFine = picture(QStringLiteral("14-") + name + QStringLiteral("-alerts")) && isFine;
        isFine = (scene.name != "cold-oil" || pictureService()) && isFine;
        touch("logBack");
    }
    const Id run = stage_.tablet.shown()->id;
    return stage_.tablet.submit(run::CloseRun{run, run::Ending::StoppedEarly, "the scene is over"}) && isFine;
}

bool Tour::pictureAlert(const QString& name)
{
    AlertView* alert = stage_.view.alert();
    bool isFine = picture(QStringLiteral("14-alert-") + name);
    alert->keepRunning();
    isFine = picture(QStringLiteral("14-alert-") + name + QStringLiteral("-why")) && isFine;
    alert->back();
    if (alert->level() == QStringLiteral("stop")) {
        alert->stopped();
    } else if (alert->offersBypass()) {
        isFine = pictureBypass(name) && isFine;
    } else {
        alert->because(0);
    }
    return isFine;
}

/// The run goes on for now; the bypass is set from the reasons of what the gauges say.
bool Tour::pictureBypass(const QString& name)
{
    stage_.view.alert()->because(0);
    RowModel& findings = *stage_.view.run()->findings();
    const int role = findings.roleNames().key("asksBypass");
    int row = 0;
    while (row < findings.rowCount() && !findings.data(findings.index(row), role).toBool()) {
        ++row;
    }
    touch("why");
    for (int next = 0; next < row; ++next) {
        touch("findingNext");
    }
    const bool isFine = picture(QStringLiteral("14-") + name + QStringLiteral("-bypass"));
    touch(qPrintable(QStringLiteral("findingBypass%1").arg(row)));
    stage_.view.run()->confirmMode();
    return isFine && stage_.tablet.standing(*stage_.tablet.shown()).mode == run::Mode::Bypassing;
}

bool Tour::pictureService()
{
    touch("toService");
    touch("service0");
    bool isFine = picture(QStringLiteral("14-service-why"));
    touch("serviceReason0");
    isFine = picture(QStringLiteral("14-service-out")) && isFine;
    touch("service0");
    touch("serviceBack");
    return isFine;
}

bool Tour::complainOf(const QString& sentence)
{
    stage_.tablet.setTrouble(sentence);
    return false;
}

} // namespace loopside::app
