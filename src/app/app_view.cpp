// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "app/app_view.h"

#include "app/about.h"
#include "app/run_level.h"
#include "app/run_name.h"
#include "app/wording.h"
#include "ledger/tank_look.h"
#include "run/job.h"

#include <algorithm>
#include <array>

namespace loopside::app {

namespace {

constexpr std::uint64_t idleNs = 3'600'000'000'000U; // an hour

} // namespace

AppView::AppView(Tablet& tablet, QObject* parent)
    : QObject{parent},
      tablet_{tablet},
      run_{tablet},
      pad_{tablet},
      setup_{tablet},
      otherTank_{tablet},
      finder_{tablet},
      alert_{tablet},
      changeover_{tablet},
      closeOut_{tablet},
      notes_{tablet},
      flush_{tablet},
      transfer_{tablet},
      shift_{tablet},
      stock_{tablet},
      service_{tablet},
      tanks_{tablet},
      carts_{tablet},
      fluids_{tablet},
      elements_{tablet},
      jobs_{tablet},
      file_{tablet},
      wishes_{tablet},
      logged_{tablet},
      kit_{tablet},
      keeping_{tablet},
      handover_{tablet},
      takeOver_{tablet},
      handOn_{tablet},
      link_{tablet},
      guide_{tablet},
      practice_{tablet},
      chips_{{"tank", "dueText", "level", "levelText", "isShown"}},
      people_{{"name", "isHolding"}},
      about_{{"name", "value"}}
{
    connect(&tablet_, &Tablet::changed, this, &AppView::refreshChips);
    connect(&tablet_, &Tablet::secondPassed, this, &AppView::refreshChips);
    connect(&tablet_, &Tablet::secondPassed, this, &AppView::secondPassed);
    connect(&tablet_, &Tablet::personChanged, this, &AppView::refreshPeople);
    connect(&tablet_, &Tablet::troubleChanged, this, &AppView::troubleChanged);
    connect(&setup_, &SetupView::started, this, [this] {
        finder_.record();
        go(Page::Run);
    });
    connect(&pad_, &PadView::logged, &finder_, &TankFinder::record);
    connect(&closeOut_, &CloseOutView::closing, &finder_, &TankFinder::record);
    connect(&otherTank_, &OtherTank::isOther, this, [this](const Id& run) {
        tablet_.show(run);
        go(Page::Run);
    });
    connect(&finder_, &TankFinder::chosen, &setup_, &SetupView::chooseNearby);
    connect(&alert_, &AlertView::changeoverWanted, this, &AppView::openChangeover);
    connect(&alert_, &AlertView::modeRecorded, this, [this](bool wasShown) {
        if (!wasShown || (page_ != Page::Changeover && page_ != Page::CloseOut)) {
            go(Page::Run);
        }
    });
    connect(&shift_, &ShiftView::runWanted, this, [this](const Id& run) {
        tablet_.show(run);
        go(Page::Run);
    });
    connect(&shift_, &ShiftView::jobWanted, this, [this](const run::JobRecord& job) {
        setup_.beginFor(job);
        go(Page::SetUp);
    });
    connect(&shift_, &ShiftView::flushWanted, this, &AppView::showFlush);
    connect(&shift_, &ShiftView::transferWanted, this, &AppView::showTransfer);
    connect(&changeover_, &ChangeoverView::finished, this, [this] { go(Page::Run); });
    connect(&closeOut_, &CloseOutView::finished, this, [this] { go(Page::Run); });
    connect(&closeOut_, &CloseOutView::kitWanted, this, &AppView::showKit);
    connectHands();
    connect(this, &AppView::themeChanged, &practice_, [this] { practice_.setTheme(theme_); });
    connect(&pad_, &PadView::logged, &changeover_, &ChangeoverView::gaugesLogged);
    connect(&seconds_, &QTimer::timeout, this, &AppView::onSecond);
    seconds_.start(std::chrono::seconds(1));
    touchedAtNs_ = tablet_.now().monoNs;
    page_ = tablet_.shown() == nullptr ? Page::Shift : Page::Run;
    about_.setRows(aboutRows(tablet_));
    refreshChips();
    refreshPeople();
}

void AppView::connectHands()
{
    const auto showRun = [this](const Id& run) {
        tablet_.show(run);
        go(Page::Run);
    };
    const auto showLink = [this] {
        linkFrom_ = page_;
        go(Page::Link);
    };
    connect(&shift_, &ShiftView::takeOverWanted, this, [this](const Id& run) {
        takeOver_.openOffered(run);
        go(Page::TakeOver);
    });
    connect(&shift_, &ShiftView::linkWanted, this, [this, showLink](const run::RunPair& pair) {
        link_.open(pair);
        showLink();
    });
    connect(&handOn_, &HandOnView::linkWanted, this, [this, showLink](const Id& run) {
        link_.openOf(run);
        showLink();
    });
    connect(&link_, &LinkView::answered, this, &AppView::leaveLink);
    connect(&handOn_, &HandOnView::finished, this, [this] { go(Page::Run); });
    connect(&handOn_, &HandOnView::endWanted, this, &AppView::openCloseOut);
    connect(&closeOut_, &CloseOutView::handOnWanted, this, &AppView::showHandOn);
    connect(&takeOver_, &TakeOverView::runWanted, this, showRun);
    connect(&takeOver_, &TakeOverView::hubWanted, this, &AppView::showHandover);
    connect(&takeOver_, &TakeOverView::codeWanted, &handover_, &HandoverView::fetch);
    connect(&takeOver_, &TakeOverView::setUpWanted, this, &AppView::showSetUp);
}

QString AppView::clockText() const
{
    return app::clockText(tablet_.now());
}

QString AppView::label(const QString& id) const
{
    return tablet_.say({id.toStdString(), {}});
}

void AppView::go(Page page)
{
    if (page != page_) { // a change that was begun stays as a draft: the record may be another when somebody comes back
        for (RecordView* record :
             {static_cast<RecordView*>(&tanks_), static_cast<RecordView*>(&carts_), static_cast<RecordView*>(&fluids_),
              static_cast<RecordView*>(&elements_), static_cast<RecordView*>(&jobs_)}) {
            record->back();
        }
        notes_.close(); // nothing listens or looks on unseen
        setup_.tankCheck()->stopCamera();
        keeping_.back();
        kit_.leave();
    }
    page_ = page;
    finder_.setLooking(page == Page::SetUp);
    Q_EMIT pageChanged();
}

void AppView::refreshChips()
{
    QList<RowModel::Row> rows;
    for (const auto& [id, run] : tablet_.state().runs) {
        if (run.phase != run::Phase::Closed) {
            rows.append(chipOf(run));
        }
    }
    for (const auto& [id, job] : tablet_.state().jobs) {
        if (job.isOpen()) {
            rows.append(chipOf(job));
        }
    }
    chips_.setRows(std::move(rows));
}

/// The tank; where several runs of it are open, first by which cart, or which run if that is the same as well.
RowModel::Row AppView::chipOf(const run::RunState& run) const
{
    const RunLevel level = runLevelOf(tablet_, run);
    const bool isShown = tablet_.shown() != nullptr && tablet_.shown()->id == run.id;
    const bool saysLate = level.isLate && !level.isGrave; // then the time alone is enough
    const auto& standing = tablet_.standing(run);
    return {runName(tablet_, run),
            saysLate ? lateTextOf(tablet_, standing.now - *standing.due) : dueTextOf(tablet_, run), level.sign,
            level.word, isShown};
}

RowModel::Row AppView::chipOf(const run::Job& job) const
{
    if (job.flush() != nullptr) {
        return {toQt(job.cart()), QString(), QStringLiteral("flush"), tablet_.label("app.chip.flush"), false};
    }
    const auto standing = run::jobStanding(job, tablet_.jobTime(job));
    const auto& transfer = *standing.transfer;
    const QString due = !transfer.stopAt ? QStringLiteral("–")
        : transfer.isStopOverdue         ? tablet_.label("app.chip.stop-now")
                                         : minutesText(*transfer.stopAt - standing.now);
    return {toQt(job.transfer()->tank), due, transfer.isStopOverdue ? QStringLiteral("stop") : QStringLiteral("waste"),
            tablet_.label("app.chip.waste"), false};
}

void AppView::refreshPeople()
{
    QList<RowModel::Row> rows;
    for (const SitePerson& person : tablet_.site().people) {
        rows.append({toQt(person.name), rows.size() == tablet_.personIndex()});
    }
    people_.setRows(std::move(rows));
    takeWishes();
    Q_EMIT personChanged();
}

void AppView::showRun(int chip)
{
    int row = 0;
    for (const auto& [id, run] : tablet_.state().runs) {
        if (run.phase != run::Phase::Closed && row++ == chip) {
            tablet_.show(id);
            go(Page::Run);
            return;
        }
    }
    for (const auto& [id, job] : tablet_.state().jobs) {
        if (job.isOpen() && row++ == chip) {
            job.flush() != nullptr ? showFlush() : showTransfer();
            return;
        }
    }
}

void AppView::showRunOf(const QString& run)
{
    const auto id = idFromText(run.toStdString());
    if (id && tablet_.state().runOf(*id) != nullptr) {
        tablet_.show(*id);
        go(Page::Run);
    }
}

void AppView::showFlush()
{
    flush_.open();
    go(Page::Flush);
}

void AppView::flushCart()
{
    flush_.planFor(page_ == Page::Transfer ? transfer_.cart() : setup_.cartName());
    go(Page::Flush);
}

void AppView::showTransfer()
{
    transfer_.open();
    go(Page::Transfer);
}

void AppView::showShift()
{
    go(Page::Shift);
}

void AppView::showLogged()
{
    logged_.open();
    go(Page::Logged);
}

void AppView::showKit()
{
    kitFrom_ = page_ == Page::CloseOut ? Page::CloseOut : Page::Run;
    go(Page::Kit);
    kit_.open();
}

void AppView::leaveKit()
{
    kitFrom_ == Page::CloseOut ? openCloseOut() : go(Page::Run);
}

void AppView::putRight(const QString& entry)
{
    if (const auto id = idFromText(entry.toStdString())) {
        logged_.openAt(*id);
        go(Page::Logged);
    }
}

void AppView::backToRun()
{
    go(Page::Run);
}

AppView& AppView::onScreen()
{
    return practice_.exercise() == nullptr ? *this : *practice_.exercise()->app();
}

void AppView::takeTag(const QString& code)
{
    if (&onScreen() != this) {
        Tablet& practising = onScreen().tablet_;
        practising.setTrouble(practising.label("app.practice.no-tag"));
        return;
    }
    const Tagged tagged = taggedIn(tablet_.site(), code.toStdString());
    if (page_ == Page::Transfer && transfer_.phase() == TransferView::Phase::Confirm) {
        transfer_.takeTag(code);
    } else if (page_ == Page::SetUp && setup_.hasTank() && !tagged.cart) {
        setup_.tankCheck()->takeTag(code, run::LookBy::Reader);
    } else if (page_ == Page::Kit && !tagged.tank && !tagged.cart) {
        kit_.takeTag(code);
    } else if (tagged.tank) {
        takeTankTag(*tagged.tank, code);
    } else if (page_ == Page::TakeOver && !tagged.cart) {
        takeOver_.takeCode(code);
    } else if (tagged.cart && (page_ == Page::SetUp || page_ == Page::Shift)) {
        setup_.chooseCart(static_cast<int>(*tagged.cart));
        setup_.show(static_cast<int>(SetupView::Step::Cart));
        go(Page::SetUp);
    } else {
        tablet_.setTrouble(
            tablet_.say({tagged.cart ? "app.tag.of-cart" : "app.tag.unknown", {{"tag", code.toStdString()}}}));
    }
}

/// A tag never changes which run is shown while another one is worked at: it might be read from the wrong place.
void AppView::takeTankTag(std::size_t tank, const QString& code)
{
    const std::string& name = tablet_.site().tanks[tank].name;
    const auto* shown = tablet_.shown();
    const bool isOpen = shown != nullptr && shown->phase != run::Phase::Closed;
    const bool isAtRun = page_ == Page::Run
        || (isOpen && (page_ == Page::Changeover || page_ == Page::CloseOut || page_ == Page::Kit));
    if (isAtRun && shown != nullptr && shown->setup.tank.name == name) {
        if (tablet_.say(ledger::asKept(run::TankLook{
                .by = run::LookBy::Reader, .read = code.toStdString(), .expected = name, .fits = true}))) {
            pad_.tell(tablet_.say({"app.tag.logged", {{"tank", name}}}));
        }
        return;
    }
    if (isAtRun && isOpen) {
        otherTank_.takeTag(code, tank);
        return;
    }
    const auto& runs = tablet_.state().runs;
    const auto open = std::ranges::find_if(runs, [&](const auto& run) {
        return run.second.phase != run::Phase::Closed && run.second.setup.tank.name == name;
    });
    if (open != runs.end()) {
        tablet_.show(open->first);
        go(Page::Run);
    } else {
        setup_.chooseTank(static_cast<int>(tank));
        setup_.tankCheck()->takeTag(code, run::LookBy::Reader);
        setup_.show(static_cast<int>(SetupView::Step::Tank));
        go(Page::SetUp);
    }
}

void AppView::showStock()
{
    go(Page::Stock);
}

void AppView::showTanks()
{
    go(Page::Tanks);
}

void AppView::showCarts()
{
    go(Page::Carts);
}

void AppView::showFluids()
{
    go(Page::Fluids);
}

void AppView::showElements()
{
    go(Page::Elements);
}

void AppView::showJobs()
{
    go(Page::Jobs);
}

void AppView::showFile()
{
    file_.open();
    go(Page::File);
}

void AppView::openChangeover(int stage)
{
    changeover_.open(stage);
    go(Page::Changeover);
}

void AppView::showPractice()
{
    go(Page::Practice);
}

void AppView::showKeeping()
{
    keeping_.open();
    go(Page::Keeping);
}

void AppView::showHandover()
{
    go(Page::Handover);
}

void AppView::showTakeOver()
{
    takeOver_.open();
    go(Page::TakeOver);
}

void AppView::showHandOn()
{
    asksWho_ = false;
    handOn_.open();
    go(Page::HandOn);
    Q_EMIT personChanged();
}

void AppView::leaveLink()
{
    linkFrom_ == Page::HandOn ? showHandOn() : showShift();
}

/// Begins with the wishes of who holds the tablet.
void AppView::showSettings()
{
    wishes_.open();
    go(Page::Settings);
}

void AppView::showGuide()
{
    guideFrom_ = page_ == Page::Guide ? guideFrom_ : page_;
    guide_.openList();
    go(Page::Guide);
}

void AppView::showGuideOfForecast()
{
    showGuide();
    guide_.openForecast();
}

void AppView::leaveGuide()
{
    go(guideFrom_);
}

void AppView::showPeople()
{
    wishes_.open();
    go(Page::People);
}

/// The theme key still turns the theme for now; who comes next, or another wish, brings the wished one back.
void AppView::takeWishes()
{
    const run::PersonRecord& wants = tablet_.wants();
    if (wants == taken_) {
        return;
    }
    taken_ = wants;
    if (!wants.theme.empty() && theme_ != toQt(wants.theme)) {
        theme_ = toQt(wants.theme);
        Q_EMIT themeChanged();
    }
    if (!wants.language.empty() && wants.language != tablet_.language() && tablet_.speak(wants.language)) {
        Q_EMIT languageChanged();
    }
}

void AppView::showSetUp()
{
    go(Page::SetUp);
}

void AppView::openCloseOut()
{
    closeOut_.open();
    go(Page::CloseOut);
}

void AppView::stepTheme()
{
    constexpr std::array<const char*, 3> themes = {"day", "night", "sun"};
    const auto now = std::find(themes.begin(), themes.end(), theme_.toStdString());
    const auto next = now == themes.end() || now + 1 == themes.end() ? themes.begin() : now + 1;
    theme_ = QString::fromLatin1(*next);
    Q_EMIT themeChanged();
}

void AppView::askWho()
{
    asksWho_ = true;
    Q_EMIT personChanged();
}

void AppView::choosePerson(int row)
{
    touched();
    asksWho_ = false; // this touch is the answer
    tablet_.setPerson(row);
}

void AppView::dismissTrouble()
{
    tablet_.clearTrouble();
}

void AppView::touched()
{
    const std::uint64_t now = tablet_.now().monoNs;
    if (now - touchedAtNs_ > idleNs && !asksWho_) {
        askWho();
    }
    touchedAtNs_ = now;
}

void AppView::onSecond()
{
    tablet_.tick();
    showWhatOverflows();
}

/// A container that runs over does not wait until somebody looks.
void AppView::showWhatOverflows()
{
    for (const auto& [id, job] : tablet_.state().jobs) {
        const auto transfer = run::jobStanding(job, tablet_.jobTime(job)).transfer;
        if (transfer && transfer->isStopOverdue && overflowShown_ != id) {
            overflowShown_ = id;
            showTransfer();
        }
    }
}

} // namespace loopside::app
