// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "app/alert_view.h"
#include "app/cart_view.h"
#include "app/changeover_view.h"
#include "app/close_out_view.h"
#include "app/element_view.h"
#include "app/file_view.h"
#include "app/fluid_view.h"
#include "app/flush_view.h"
#include "app/guide_view.h"
#include "app/hand_on_view.h"
#include "app/handover_view.h"
#include "app/job_view.h"
#include "app/keeping_view.h"
#include "app/kit_view.h"
#include "app/link_view.h"
#include "app/logged_view.h"
#include "app/notes_view.h"
#include "app/other_tank.h"
#include "app/pad_view.h"
#include "app/people_view.h"
#include "app/practice_view.h"
#include "app/row_model.h"
#include "app/run_view.h"
#include "app/service_view.h"
#include "app/setup_view.h"
#include "app/shift_view.h"
#include "app/stock_view.h"
#include "app/tablet.h"
#include "app/take_over_view.h"
#include "app/tank_finder.h"
#include "app/tank_view.h"
#include "app/transfer_view.h"

#include <QObject>
#include <QTimer>
#include <QtQml/qqmlregistration.h>

namespace loopside::app {

/// The window: which place of work is shown, who holds the tablet, which runs are open. The root of all views.
class AppView : public QObject
{
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("made by the program")

    Q_PROPERTY(Page page READ page NOTIFY pageChanged)
    /// day, night or sun.
    Q_PROPERTY(QString theme READ theme NOTIFY themeChanged)
    Q_PROPERTY(loopside::app::RunView* run READ run CONSTANT)
    Q_PROPERTY(loopside::app::PadView* pad READ pad CONSTANT)
    Q_PROPERTY(loopside::app::SetupView* setup READ setup CONSTANT)
    Q_PROPERTY(loopside::app::OtherTank* otherTank READ otherTank CONSTANT)
    Q_PROPERTY(loopside::app::TankFinder* finder READ finder CONSTANT)
    Q_PROPERTY(loopside::app::AlertView* alert READ alert CONSTANT)
    Q_PROPERTY(loopside::app::ChangeoverView* changeover READ changeover CONSTANT)
    Q_PROPERTY(loopside::app::CloseOutView* closeOut READ closeOut CONSTANT)
    Q_PROPERTY(loopside::app::NotesView* notes READ notes CONSTANT)
    Q_PROPERTY(loopside::app::FlushView* flush READ flush CONSTANT)
    Q_PROPERTY(loopside::app::TransferView* transfer READ transfer CONSTANT)
    Q_PROPERTY(loopside::app::ShiftView* shift READ shift CONSTANT)
    Q_PROPERTY(loopside::app::StockView* stock READ stock CONSTANT)
    Q_PROPERTY(loopside::app::ServiceView* service READ service CONSTANT)
    Q_PROPERTY(loopside::app::TankView* tanks READ tanks CONSTANT)
    Q_PROPERTY(loopside::app::CartView* carts READ carts CONSTANT)
    Q_PROPERTY(loopside::app::FluidView* fluids READ fluids CONSTANT)
    Q_PROPERTY(loopside::app::ElementView* elements READ elements CONSTANT)
    Q_PROPERTY(loopside::app::JobView* jobs READ jobs CONSTANT)
    Q_PROPERTY(loopside::app::FileView* file READ file CONSTANT)
    Q_PROPERTY(loopside::app::PeopleView* wishes READ wishes CONSTANT)
    Q_PROPERTY(loopside::app::LoggedView* logged READ logged CONSTANT)
    Q_PROPERTY(loopside::app::KitView* kit READ kit CONSTANT)
    Q_PROPERTY(loopside::app::KeepingView* keeping READ keeping CONSTANT)
    Q_PROPERTY(loopside::app::GuideView* guide READ guide CONSTANT)
    Q_PROPERTY(loopside::app::HandoverView* handover READ handover CONSTANT)
    Q_PROPERTY(loopside::app::TakeOverView* takeOver READ takeOver CONSTANT)
    Q_PROPERTY(loopside::app::HandOnView* handOn READ handOn CONSTANT)
    Q_PROPERTY(loopside::app::LinkView* link READ link CONSTANT)
    Q_PROPERTY(loopside::app::PracticeView* practice READ practice CONSTANT)
    /// Whose screens these are; null on the real ones.
    Q_PROPERTY(loopside::app::ExerciseView* exercise READ exercise CONSTANT)

    /// Open runs, then open jobs. Rows: tank, dueText, level (ok, caution, limit, stop), levelText, isShown.
    Q_PROPERTY(loopside::app::RowModel* chips READ chips CONSTANT)
    Q_PROPERTY(QString person READ person NOTIFY personChanged)
    /// The keys stand at the left, for who holds the tablet.
    Q_PROPERTY(bool isLeftHanded READ isLeftHanded NOTIFY personChanged)
    /// How large who holds the tablet wants text, 1 to 2, and whether nothing is to flash or move.
    Q_PROPERTY(double textScale READ textScale NOTIFY personChanged)
    Q_PROPERTY(bool isStill READ isStill NOTIFY personChanged)
    /// Rows: name, isHolding.
    Q_PROPERTY(loopside::app::RowModel* people READ people CONSTANT)
    /// What program this is. Rows: name, value.
    Q_PROPERTY(loopside::app::RowModel* about READ about CONSTANT)
    /// True after an hour without a touch, and when somebody asks for it: who holds the tablet?
    Q_PROPERTY(bool asksWho READ asksWho NOTIFY personChanged)
    /// Why the last command did not happen, as a plain sentence; empty if it did.
    Q_PROPERTY(QString trouble READ trouble NOTIFY troubleChanged)
    /// That nothing was logged, where `trouble` tells why; else empty.
    Q_PROPERTY(QString troubleTitle READ troubleTitle NOTIFY troubleChanged)
    Q_PROPERTY(QString clockText READ clockText NOTIFY secondPassed)

public:
    enum class Page
    {
        SetUp,
        Run,
        Changeover,
        CloseOut,
        Flush,
        Transfer,
        Shift,
        Stock,
        Tanks,
        Carts,
        People,
        Fluids,
        Elements,
        Jobs,
        File,
        Logged,
        Practice,
        Keeping,
        Handover,
        Settings,
        Kit,
        Guide,
        TakeOver,
        HandOn,
        Link
    };
    Q_ENUM(Page)

    explicit AppView(Tablet& tablet, QObject* parent = nullptr);

    [[nodiscard]] Page page() const { return page_; }
    [[nodiscard]] QString theme() const { return theme_; }
    [[nodiscard]] RunView* run() { return &run_; }
    [[nodiscard]] PadView* pad() { return &pad_; }
    [[nodiscard]] SetupView* setup() { return &setup_; }
    [[nodiscard]] OtherTank* otherTank() { return &otherTank_; }
    [[nodiscard]] TankFinder* finder() { return &finder_; }
    [[nodiscard]] AlertView* alert() { return &alert_; }
    [[nodiscard]] ChangeoverView* changeover() { return &changeover_; }
    [[nodiscard]] CloseOutView* closeOut() { return &closeOut_; }
    [[nodiscard]] NotesView* notes() { return &notes_; }
    [[nodiscard]] FlushView* flush() { return &flush_; }
    [[nodiscard]] RowModel* about() { return &about_; }
    [[nodiscard]] TransferView* transfer() { return &transfer_; }
    [[nodiscard]] ShiftView* shift() { return &shift_; }
    [[nodiscard]] StockView* stock() { return &stock_; }
    [[nodiscard]] ServiceView* service() { return &service_; }
    [[nodiscard]] TankView* tanks() { return &tanks_; }
    [[nodiscard]] CartView* carts() { return &carts_; }
    [[nodiscard]] FluidView* fluids() { return &fluids_; }
    [[nodiscard]] ElementView* elements() { return &elements_; }
    [[nodiscard]] JobView* jobs() { return &jobs_; }
    [[nodiscard]] FileView* file() { return &file_; }
    [[nodiscard]] PeopleView* wishes() { return &wishes_; }
    [[nodiscard]] LoggedView* logged() { return &logged_; }
    [[nodiscard]] KitView* kit() { return &kit_; }
    [[nodiscard]] KeepingView* keeping() { return &keeping_; }
    [[nodiscard]] GuideView* guide() { return &guide_; }
    [[nodiscard]] HandoverView* handover() { return &handover_; }
    [[nodiscard]] TakeOverView* takeOver() { return &takeOver_; }
    [[nodiscard]] HandOnView* handOn() { return &handOn_; }
    [[nodiscard]] LinkView* link() { return &link_; }
    [[nodiscard]] PracticeView* practice() { return &practice_; }
    [[nodiscard]] ExerciseView* exercise() const { return exercise_; }
    /// Whose screens are shown from here: those of the exercise that is under way, or these.
    [[nodiscard]] AppView& onScreen();
    /// Before anything is shown.
    void setExercise(ExerciseView* exercise) { exercise_ = exercise; }
    /// Shows a page; a change of a record that was begun on the one before stays as a draft.
    void go(Page page);
    /// The changeover of a stage of the shown run.
    void openChangeover(int stage);
    [[nodiscard]] bool isLeftHanded() const { return tablet_.wants().isLeftHanded; }
    [[nodiscard]] double textScale() const { return tablet_.wants().textPercent / 100.0; }
    [[nodiscard]] bool isStill() const { return tablet_.wants().isStill; }
    [[nodiscard]] RowModel* chips() { return &chips_; }
    [[nodiscard]] QString person() const { return tablet_.person(); }
    [[nodiscard]] RowModel* people() { return &people_; }
    [[nodiscard]] bool asksWho() const { return asksWho_; }
    [[nodiscard]] QString trouble() const { return tablet_.trouble(); }
    [[nodiscard]] QString troubleTitle() const
    {
        return tablet_.isNothingLogged() ? tablet_.label("label.not-logged") : QString();
    }
    [[nodiscard]] QString clockText() const;

    /// The words of a fixed label, such as "label.log".
    Q_INVOKABLE QString label(const QString& id) const;
    Q_INVOKABLE void showRun(int chip);
    /// Shows the run of that id, of an earlier day too.
    Q_INVOKABLE void showRunOf(const QString& run);
    Q_INVOKABLE void showShift();
    Q_INVOKABLE void showSetUp();
    Q_INVOKABLE void showStock();
    Q_INVOKABLE void showTanks();
    Q_INVOKABLE void showCarts();
    Q_INVOKABLE void showPeople();
    /// What was logged of the shown run.
    Q_INVOKABLE void showLogged();
    /// The same, where that entry is put right: the id of one that was logged.
    Q_INVOKABLE void putRight(const QString& entry);
    Q_INVOKABLE void backToRun();
    /// A tag was read: goes to the run at that tank, or chooses tank or cart in set-up; at the tank of the shown run it
    /// is logged, and that of another tank takes the screen. Anything else is told, and changes nothing.
    Q_INVOKABLE void takeTag(const QString& code);
    /// The bottles of the shown run, and back to where somebody came from.
    Q_INVOKABLE void showKit();
    Q_INVOKABLE void leaveKit();
    Q_INVOKABLE void showFluids();
    Q_INVOKABLE void showElements();
    Q_INVOKABLE void showJobs();
    Q_INVOKABLE void showFile();
    Q_INVOKABLE void showPractice();
    Q_INVOKABLE void showKeeping();
    Q_INVOKABLE void showHandover();
    Q_INVOKABLE void showSettings();
    /// Where a run of another tablet is taken over, with the code that was typed before.
    Q_INVOKABLE void showTakeOver();
    /// Where the shown run is handed on.
    Q_INVOKABLE void showHandOn();
    /// From the page that asks whether two runs are one: back to where somebody came from.
    Q_INVOKABLE void leaveLink();
    /// The user's guide, the list of its parts or what it says of the forecast; and back to where somebody came from.
    Q_INVOKABLE void showGuide();
    Q_INVOKABLE void showGuideOfForecast();
    Q_INVOKABLE void leaveGuide();
    Q_INVOKABLE void openCloseOut();
    Q_INVOKABLE void showFlush();
    /// The flush of the cart that was chosen, or that pumped waste.
    Q_INVOKABLE void flushCart();
    Q_INVOKABLE void showTransfer();
    Q_INVOKABLE void stepTheme();
    Q_INVOKABLE void askWho();
    Q_INVOKABLE void choosePerson(int row);
    Q_INVOKABLE void dismissTrouble();
    /// A touch or a key: the hour of idleness begins anew.
    Q_INVOKABLE void touched();

Q_SIGNALS:
    void pageChanged();
    void themeChanged();
    void personChanged();
    void troubleChanged();
    void secondPassed();
    /// Another language is spoken from now on: all views are to be made anew.
    void languageChanged();

private:
    void connectHands();
    void takeTankTag(std::size_t tank, const QString& code);
    /// Theme and language of who holds the tablet now.
    void takeWishes();
    void refreshChips();
    [[nodiscard]] RowModel::Row chipOf(const run::RunState& run) const;
    [[nodiscard]] RowModel::Row chipOf(const run::Job& job) const;
    void refreshPeople();
    void onSecond();
    void showWhatOverflows();

    Tablet& tablet_;
    RunView run_;
    PadView pad_;
    SetupView setup_;
    OtherTank otherTank_;
    TankFinder finder_;
    AlertView alert_;
    ChangeoverView changeover_;
    CloseOutView closeOut_;
    NotesView notes_;
    FlushView flush_;
    TransferView transfer_;
    ShiftView shift_;
    StockView stock_;
    ServiceView service_;
    TankView tanks_;
    CartView carts_;
    FluidView fluids_;
    ElementView elements_;
    JobView jobs_;
    FileView file_;
    PeopleView wishes_;
    LoggedView logged_;
    KitView kit_;
    KeepingView keeping_;
    HandoverView handover_;
    TakeOverView takeOver_;
    HandOnView handOn_;
    LinkView link_;
    GuideView guide_;
    PracticeView practice_;
    ExerciseView* exercise_ = nullptr;
    RowModel chips_;
    RowModel people_;
    RowModel about_;
    QTimer seconds_;
    Page page_ = Page::Shift;
    Page kitFrom_ = Page::Run;        ///< From which the bottles were shown.
    Page linkFrom_ = Page::Shift;     ///< From which it was asked whether two runs are one.
    Page guideFrom_ = Page::Settings; ///< From which the guide was shown.
    run::PersonRecord taken_;         ///< The wishes that the screen follows.
    QString theme_ = QStringLiteral("day");
    bool asksWho_ = false;
    Id overflowShown_ = {};
    std::uint64_t touchedAtNs_ = 0;
};

} // namespace loopside::app
