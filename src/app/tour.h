// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "app/eye.h"
#include "app/scene.h"
#include "app/window.h"

#include <QString>

namespace loopside::app {

/// A clock that a tour moves by hand.
class TourClock final : public Clock
{
public:
    [[nodiscard]] Stamp now() override;
    void moveTo(run::RunTime time) { now_ = time; }
    [[nodiscard]] run::RunTime time() const { return now_; }

private:
    run::RunTime now_{0};
};

/// Plays a story through the views as a person would press the keys: set-up, pad, mode keys, alert, changeover,
/// close-out. Prints what the technician is told and shows every screen to an eye.
class Tour
{
public:
    struct Stage
    {
        Tablet& tablet;
        AppView& view;
        Window& window;
        TourClock& clock;
        Eye& eye;
    };

    Tour(const Stage& stage, const story::Story& story);

    /// False if a command was refused, the eye did not like what it saw or QML complained; the reason is on standard
    /// error.
    [[nodiscard]] bool play();

private:
    /// The pages of the site, before the first run and with several, in tour_site.cpp.
    bool site();
    bool stock();
    bool catalogue();
    bool file();
    void pressures(ElementView& types);
    bool oils();
    bool plan();
    bool people();
    void guide();
    /// What is kept of the record, in tour_keeping.cpp.
    bool keeping();
    bool record();
    /// The bottles of a run, in tour_kit.cpp.
    bool kit();
    /// Without a hub and with one that does not answer, in tour_handover.cpp.
    bool handover();
    /// An exercise, in tour_practice.cpp.
    bool practise();
    bool shift();
    /// Runs that go from hand to hand, in tour_hands.cpp.
    bool hands();
    bool handOn();
    bool link(const Id& first, run::Setup setup);
    [[nodiscard]] Id runElsewhere(run::Setup setup);
    bool leftHanded();
    bool otherTank();
    /// Set up in tour_set_up.cpp: a start that does not go, then the one of the story.
    bool setUp();
    bool setUpAgainst();
    bool pictureStillSo();
    bool wrongTank();
    bool setUpStory();
    /// A flush and a transfer to waste, in tour_jobs.cpp.
    bool jobs();
    bool flush();
    bool transfer();
    /// A run with past loadings behind it, in tour_forecast.cpp.
    bool forecasts();
    bool pastLoadings();
    bool forecastRun();
    [[nodiscard]] run::Setup forecastSetup(const char* turnovers) const;
    /// Cautions of a run and its notes, in tour_notes.cpp.
    bool notes();
    bool noteWays();
    bool putRight();
    /// Findings, alerts and questions, each with a short run of its own, in tour_findings.cpp.
    bool findings();
    bool playScene(const Scene& scene);
    bool showScene(const Scene& scene);
    bool pictureAlert(const QString& name);
    bool pictureBypass(const QString& name);
    bool pictureService();
    /// Makes it the reason why the tour failed.
    bool complainOf(const QString& sentence);
    void lookThrough(ChecklistView& points);
    /// The time that it takes to look at something.
    void look();
    /// Chooses tank and cart by name; false if the site has them not.
    bool choose(const std::string& tank, const std::string& cart);
    /// Touches the key of that name.
    void touch(const char* key) const;
    static void type(FieldsView& fields, int field, const char* text);
    bool enter(const story::StoryEntry& entry);
    bool say(const run::Said& said);
    bool read(const run::ReadingLogged& reading);
    bool change(const run::ElementsChanged& changed);
    bool changeMode(run::Mode mode);
    void passTime(run::RunTime until);
    void tell();
    /// Shows the eye what stands on the screen now.
    bool picture(const QString& name);

    Stage stage_;
    const story::Story& story_;
    bool isFine_ = true;
};

} // namespace loopside::app
