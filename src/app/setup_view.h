// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "app/checklist_view.h"
#include "app/fields_view.h"
#include "app/row_model.h"
#include "app/setup_words.h"
#include "app/tablet.h"
#include "app/tank_check.h"
#include "app/verdict_view.h"
#include "run/plan.h"

#include <QObject>
#include <QSet>
#include <QtQml/qqmlregistration.h>

namespace loopside::app {

/// Set up: one decision a step, each with its reason; the verdict beside them all the time; then the run starts.
class SetupView : public QObject
{
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("made by the program")

    Q_PROPERTY(Step step READ step NOTIFY changed)
    /// The steps in order. Rows: name, detail, sign, signText, isNow.
    Q_PROPERTY(loopside::app::RowModel* steps READ steps CONSTANT)
    /// What the step decides, and why, in a sentence each.
    Q_PROPERTY(QString question READ question NOTIFY changed)
    Q_PROPERTY(QString reason READ reason NOTIFY changed)
    /// What is known at this step. Rows: name, value.
    Q_PROPERTY(loopside::app::RowModel* facts READ facts CONSTANT)
    /// What this step has to heed. Rows: kind (a shape of `Sign`), text.
    Q_PROPERTY(loopside::app::RowModel* notes READ notes CONSTANT)

    /// Rows: name, detail, isChosen.
    Q_PROPERTY(loopside::app::RowModel* tanks READ tanks CONSTANT)
    Q_PROPERTY(loopside::app::RowModel* carts READ carts CONSTANT)
    Q_PROPERTY(loopside::app::RowModel* placements READ placements CONSTANT)
    Q_PROPERTY(loopside::app::RowModel* targets READ targets CONSTANT)
    /// Whether the chosen tank is the right one.
    Q_PROPERTY(loopside::app::TankCheck* tankCheck READ tankCheck CONSTANT)
    /// Rows: title, expected, allowed, fraction (expected ÷ limit), kind, kindText.
    Q_PROPERTY(loopside::app::RowModel* stages READ stages CONSTANT)
    /// What is looked at before the pump starts.
    Q_PROPERTY(loopside::app::ChecklistView* hosePoints READ hosePoints CONSTANT)
    Q_PROPERTY(loopside::app::ChecklistView* areaPoints READ areaPoints CONSTANT)
    /// The cautions of coupling the hoses.
    Q_PROPERTY(QString hoseCaution READ hoseCaution NOTIFY changed)
    Q_PROPERTY(loopside::app::FieldsView* oil READ oil CONSTANT)
    Q_PROPERTY(loopside::app::FieldsView* code READ code CONSTANT)
    Q_PROPERTY(bool counterOnSite READ counterOnSite NOTIFY changed)
    /// The cart has to be flushed before it pumps clean oil.
    Q_PROPERTY(bool wantsFlush READ wantsFlush NOTIFY changed)

    /// What earlier runs at the tank and with the cart teach, each with what it rests on; empty where there are none.
    Q_PROPERTY(QString learnedText READ learnedText NOTIFY changed)
    Q_PROPERTY(loopside::app::VerdictView* verdict READ verdict CONSTANT)
    /// The key that takes the slower flow, where the verdict is to go slower; else empty.
    Q_PROPERTY(QString slowerText READ slowerText NOTIFY changed)
    Q_PROPERTY(bool takesSlower READ takesSlower NOTIFY changed)
    /// Nothing but a name and a reason starts this.
    Q_PROPERTY(bool wantsOverride READ wantsOverride NOTIFY changed)
    /// Who starts it against the verdict and why, as one sentence; empty if nobody does.
    Q_PROPERTY(QString overrideText READ overrideText NOTIFY changed)
    /// Reasons to choose from. Rows: text.
    Q_PROPERTY(loopside::app::RowModel* overrideReasons READ overrideReasons CONSTANT)
    /// A reason in own words, a draft until the run starts.
    Q_PROPERTY(loopside::app::OwnWords* overrideWords READ overrideWords CONSTANT)

    /// The key to go on: its words, and whether it starts the run.
    Q_PROPERTY(QString nextText READ nextText NOTIFY changed)
    Q_PROPERTY(bool canGoOn READ canGoOn NOTIFY changed)
    Q_PROPERTY(bool isReady READ isReady NOTIFY changed)
    /// What this step, or the start, still needs; empty if nothing.
    Q_PROPERTY(QString problem READ problem NOTIFY changed)

public:
    enum class Step
    {
        Tank,
        Cart,
        Elements,
        Oil,
        Hoses,
        Target,
        Verdict,
        Area
    };
    Q_ENUM(Step)

    explicit SetupView(Tablet& tablet, QObject* parent = nullptr);

    [[nodiscard]] Step step() const { return step_; }
    [[nodiscard]] RowModel* steps() { return &steps_; }
    [[nodiscard]] QString question() const;
    [[nodiscard]] QString reason() const;
    [[nodiscard]] RowModel* facts() { return &facts_; }
    [[nodiscard]] RowModel* notes() { return &notes_; }
    [[nodiscard]] RowModel* tanks() { return &tanks_; }
    [[nodiscard]] TankCheck* tankCheck() { return &tankCheck_; }
    [[nodiscard]] bool hasTank() const { return choice_.tank >= 0; }
    [[nodiscard]] RowModel* carts() { return &carts_; }
    [[nodiscard]] RowModel* placements() { return &placements_; }
    [[nodiscard]] RowModel* targets() { return &targets_; }
    [[nodiscard]] RowModel* stages() { return &stages_; }
    [[nodiscard]] ChecklistView* hosePoints() { return &hosePoints_; }
    [[nodiscard]] ChecklistView* areaPoints() { return &areaPoints_; }
    [[nodiscard]] FieldsView* oil() { return &oil_; }
    [[nodiscard]] FieldsView* code() { return &code_; }
    [[nodiscard]] bool counterOnSite() const { return choice_.counterOnSite; }
    [[nodiscard]] bool wantsFlush() const { return wantsFlush_; }
    [[nodiscard]] QString learnedText() const { return learned_; }
    [[nodiscard]] VerdictView* verdict() { return &verdict_; }
    [[nodiscard]] QString hoseCaution() const;
    [[nodiscard]] QString slowerText() const;
    [[nodiscard]] bool takesSlower() const { return choice_.takesSlower; }
    [[nodiscard]] bool wantsOverride() const;
    [[nodiscard]] QString overrideText() const;
    [[nodiscard]] RowModel* overrideReasons() { return &overrideReasons_; }
    [[nodiscard]] OwnWords* overrideWords() { return &overrideWords_; }
    [[nodiscard]] QString nextText() const;
    [[nodiscard]] bool canGoOn() const { return isReady() || problemOf(step_).isEmpty(); }
    [[nodiscard]] bool isReady() const;
    [[nodiscard]] QString problem() const { return problemOf(step_); }

    /// A set-up for a job that is planned: its tank, cart and target are chosen. What was typed stays.
    void beginFor(const run::JobRecord& job);

    /// The cart that is chosen; empty if none is.
    [[nodiscard]] std::string cartName() const { return setup_ ? setup_->cart.name : std::string(); }

    Q_INVOKABLE void chooseTank(int row);
    /// By the tablet's position, which `isOnly` can be no other's.
    void chooseNearby(int row, bool isOnly);
    Q_INVOKABLE void chooseCart(int row);
    Q_INVOKABLE void choosePlacement(int row);
    Q_INVOKABLE void chooseTarget(int row);
    Q_INVOKABLE void toggleCounter();
    Q_INVOKABLE void takeSlower();
    /// Somebody is about to start against the verdict: takes up the words typed about this tank and cart.
    Q_INVOKABLE void askOverride();
    /// Somebody starts against the verdict: the person's row, and a reason.
    Q_INVOKABLE void startAgainst(int person, const QString& why);
    Q_INVOKABLE void show(int step);
    /// The next step that needs somebody; starts the run where none does.
    Q_INVOKABLE void goOn();

Q_SIGNALS:
    void changed();
    void started();

private:
    /// Of the checklist before the start: that the area allows cart and tablet.
    static constexpr const char* areaPoint = "setup-area";
    /// What somebody decided so far, but for what is typed.
    struct Choice
    {
        int tank = -1;
        int cart = -1;
        int placement = -1;
        int target = -1;
        bool counterOnSite = false;
        bool takesSlower = false;
        QString by = {}; ///< The name of who starts against the verdict.
        Id byId = {};
        QString why = {};
        std::optional<run::JobRecord> job = {}; ///< Planned, that this run does.
    };
    /// A point of a checklist as it was answered, kept until there is a run to write it to.
    struct Looked
    {
        run::CheckAnswered answered;
        Id person;
        Stamp at;
    };
    void refresh();
    bool look(const run::CheckAnswered& answered);
    bool sayWhatWasLookedAt();
    /// What the points of that list are about: the tank, or tank and cart.
    [[nodiscard]] std::string lookedAt(run::Checklist list) const;
    /// The points of that list are to be looked at anew.
    void lookAnew(run::Checklist list);
    void showPoints();
    /// What was decided about the verdict no longer holds.
    void decideAnew();
    void judge();
    void learn();
    void showChoices();
    void showStages();
    void showSteps();
    void showFacts();
    [[nodiscard]] std::optional<run::Setup> chosen() const;
    /// What there is to choose as a target, with that of the job.
    [[nodiscard]] std::vector<Decimal> turnoversOffered() const;
    [[nodiscard]] std::optional<run::TypedTemperature> oilTemperature() const;
    [[nodiscard]] const units::NamedUnit<units::Temperature>& temperatureUnit() const;
    [[nodiscard]] QList<Heed> heedOf(Step step) const;
    [[nodiscard]] QString codeTimeText(const run::CodePlan& code) const;
    [[nodiscard]] filtration::SuitLevel levelOf(Step step) const;
    /// What `step` still needs before the run can start; empty if nothing.
    [[nodiscard]] QString problemOf(Step step) const;
    [[nodiscard]] bool needsSomebody(Step step) const;
    [[nodiscard]] std::optional<Step> nextStep() const;
    [[nodiscard]] QString detailOf(Step step) const;
    [[nodiscard]] run::StartTold told() const;
    void start();

    Tablet& tablet_;
    QString learned_;
    run::Taught taught_ = {};
    std::string learnedOf_; ///< What they were made of.
    RowModel steps_;
    RowModel facts_;
    RowModel notes_;
    RowModel tanks_;
    TankCheck tankCheck_;
    RowModel carts_;
    RowModel placements_;
    RowModel targets_;
    RowModel stages_;
    ChecklistView hosePoints_;
    ChecklistView areaPoints_;
    RowModel overrideReasons_;
    FieldsView oil_;
    FieldsView code_;
    VerdictView verdict_;
    Step step_ = Step::Tank;
    Choice choice_ = {};
    std::vector<Looked> looked_ = {};
    KeptAnswers kept_;
    OwnWords overrideWords_;
    QSet<int> seen_ = {}; ///< Steps whose cautions somebody had before the eyes.
    std::optional<run::Setup> setup_;
    std::optional<run::Plan> plan_;
    QString fault_;
    bool wantsFlush_ = false;
};

} // namespace loopside::app
