// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "app/app_view.h"

#include "app/alert_rows.h"
#include "app/wording.h"
#include "run/alert.h"
#include "run/job.h"

#include <algorithm>
#include <array>

namespace loopside::app {

namespace {

constexpr std::uint64_t idleNs = 3'600'000'000'000U; // an hour

/// How a chip shows a run: a sign, and the id of its word.
struct ChipLevel
{
    std::string_view sign = "ok";
    const char* word = "app.level.ok";
};

/// The worst that stands for a run, an alert or what was found.
ChipLevel levelOf(const run::RunState& run, const run::Standing& standing, bool wasStopped)
{
    const auto stands = [&](run::AlertId id) {
        return std::any_of(run.alerts.begin(), run.alerts.end(),
                           [&](const run::Alert& alert) { return alert.id == id; });
    };
    const run::FindingLevel found = standing.findings.empty() ? run::FindingLevel::Note
                                                              : standing.findings.front().level;
    if (stands(run::AlertId::StopNow) || found == run::FindingLevel::Stop) {
        return {"stop", "app.level.stop"};
    }
    if (stands(run::AlertId::StageAtLimit)) {
        return {"limit", "app.level.limit"};
    }
    if (stands(run::AlertId::ReadingOverdue)) {
        return {"caution", "app.overdue"};
    }
    if (stands(run::AlertId::StageNearLimit)) {
        return {"caution", "app.level.caution"};
    }
    return found == run::FindingLevel::Caution || wasStopped ? ChipLevel{"caution", "app.level.found"} : ChipLevel{};
}

} // namespace

AppView::AppView(Tablet& tablet, QObject* parent)
    : QObject{parent},
      tablet_{tablet},
      run_{tablet},
      pad_{tablet},
      setup_{tablet},
      alert_{tablet},
      changeover_{tablet},
      closeOut_{tablet},
      flush_{tablet},
      transfer_{tablet},
      chips_{{"tank", "dueText", "level", "levelText", "isShown"}},
      people_{{"name", "isHolding"}}
{
    connect(&tablet_, &Tablet::changed, this, &AppView::refreshChips);
    connect(&tablet_, &Tablet::secondPassed, this, &AppView::refreshChips);
    connect(&tablet_, &Tablet::secondPassed, this, &AppView::secondPassed);
    connect(&tablet_, &Tablet::personChanged, this, &AppView::refreshPeople);
    connect(&tablet_, &Tablet::troubleChanged, this, &AppView::troubleChanged);
    connect(&setup_, &SetupView::started, this, [this] { go(Page::Run); });
    connect(&alert_, &AlertView::changeoverWanted, this, [this](int stage) {
        changeover_.open(stage);
        go(Page::Changeover);
    });
    connect(&alert_, &AlertView::pumpStopped, this, [this](bool wasShown) {
        if (!wasShown || (page_ != Page::Changeover && page_ != Page::CloseOut)) {
            go(Page::Run);
        }
    });
    connect(&changeover_, &ChangeoverView::finished, this, [this] { go(Page::Run); });
    connect(&closeOut_, &CloseOutView::finished, this, [this] { go(Page::Run); });
    connect(&pad_, &PadView::logged, &changeover_, &ChangeoverView::gaugesLogged);
    connect(&seconds_, &QTimer::timeout, this, &AppView::onSecond);
    seconds_.start(std::chrono::seconds(1));
    touchedAtNs_ = tablet_.now().monoNs;
    page_ = tablet_.shown() == nullptr ? Page::SetUp : Page::Run;
    refreshChips();
    refreshPeople();
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
    page_ = page;
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

RowModel::Row AppView::chipOf(const run::RunState& run) const
{
    const auto& standing = tablet_.standing(run);
    QString due = QStringLiteral("–");
    if (standing.due) {
        const auto left = std::chrono::duration_cast<std::chrono::minutes>(*standing.due - standing.now).count();
        due = tablet_.say(
            {left < 0 ? "app.chip.overdue" : "app.chip.due", {{"minutes", std::to_string(std::abs(left))}}});
    }
    const bool wasStopped = !stopSinceLastSet(tablet_, run).isEmpty();
    const ChipLevel level = levelOf(run, standing, wasStopped);
    const bool isShown = tablet_.shown() != nullptr && tablet_.shown()->id == run.id;
    const bool isGrave = level.sign == "limit" || level.sign == "stop";
    const bool isLate = standing.due && standing.now > *standing.due && !isGrave;
    const QString levelText = tablet_.label(isLate ? "app.overdue" : level.word);
    return {toQt(run.setup.tank.name), due, toQt(level.sign), levelText, isShown};
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
