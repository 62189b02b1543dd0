// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "app/keeping_view.h"

#include "app/as_shown.h"
#include "app/keeper.h"
#include "app/wording.h"
#include "store/recovery.h"
#include "store/restore_reason.h"

#include <QDateTime>

#include <algorithm>

namespace loopside::app {

namespace {

constexpr std::size_t faultsShown = 5;

const QString note = QStringLiteral("note");
const QString caution = QStringLiteral("caution");

std::string numbered(std::size_t number)
{
    return std::to_string(number);
}

/// Wall clock of a backup, from its name.
std::int64_t wallMsOf(const store::Backup& backup)
{
    QDateTime at = QDateTime::fromString(toQt(backup.at), QStringLiteral("yyyyMMdd'T'HHmmss'Z'"));
    at.setTimeSpec(Qt::UTC);
    return at.toMSecsSinceEpoch();
}

} // namespace

KeepingView::KeepingView(Tablet& tablet, QObject* parent)
    : QObject{parent},
      tablet_{tablet},
      facts_{{"name", "value"}},
      answers_{{"kind", "text"}},
      past_{{"kind", "text"}},
      points_{{"kind", "text"}}
{
    connect(&tablet_, &Tablet::changed, this, &KeepingView::showFacts);
    connect(&tablet_, &Tablet::secondPassed, this, &KeepingView::showAnswers);
    open();
}

void KeepingView::setKeeper(Keeper* keeper)
{
    keeper_ = keeper;
    if (keeper_ != nullptr) {
        connect(&keeper_->backups, &BackupTimer::changed, this, &KeepingView::onKept);
        connect(&keeper_->check, &RecordCheck::changed, this, &KeepingView::onKept);
    }
    open();
}

bool KeepingView::isBusy() const
{
    return keeper_ != nullptr && keeper_->isBusy();
}

bool KeepingView::canBackUp() const
{
    return keeper_ != nullptr && !keeper_->backups.isBusy();
}

bool KeepingView::canCheck() const
{
    return keeper_ != nullptr && !keeper_->check.isBusy();
}

void KeepingView::open()
{
    trouble_.clear();
    onKept();
}

/// A backup or a check begins or is over.
void KeepingView::onKept()
{
    if (!isBusy()) {
        trouble_.clear(); // there is nothing left to wait for
    }
    if (keeper_ != nullptr) {
        auto backups = store::backupsIn(keeper_->folder);
        if (!backups) {
            trouble_ = asShown(tablet_.words().say(backups.error()));
        }
        backups_ = std::move(backups).value_or(std::vector<store::Backup>());
    }
    showFacts();
    showPast();
    showAnswers();
    Q_EMIT changed();
}

QString KeepingView::dayOf(std::int64_t wallMs) const
{
    Stamp at = tablet_.now(); // in the time of the place
    at.wallMs = wallMs;
    return dayText(at);
}

void KeepingView::showFacts()
{
    QList<RowModel::Row> rows;
    if (keeper_ != nullptr) {
        const bool isAny = !backups_.empty();
        rows.append({tablet_.label("app.keeping.entries"), QString::number(tablet_.entriesHere())});
        rows.append({tablet_.label("app.keeping.last"),
                     isAny ? dayOf(wallMsOf(backups_.front())) : tablet_.label("app.keeping.no-backup")});
        rows.append({tablet_.label("app.keeping.in-last"),
                     isAny ? QString::number(backups_.front().last) : QStringLiteral("–")});
        rows.append({tablet_.label("app.keeping.backups"), QString::number(backups_.size())});
        rows.append({tablet_.label("app.keeping.where"), toQt(keeper_->folder)});
    }
    facts_.setRows(std::move(rows));
}

void KeepingView::showPast()
{
    QList<RowModel::Row> rows;
    const auto restores = keeper_ != nullptr ? keeper_->journal.restores().value_or(std::vector<store::Restore>())
                                             : std::vector<store::Restore>();
    for (const store::Restore& restore : restores) {
        std::uint64_t missing = 0;
        for (const ledger::Loss& loss : restore.losses) {
            missing += loss.entries();
        }
        const Message made{missing > 0 ? "app.keeping.made-anew-missing" : "app.keeping.made-anew",
                           {{"day", dayOf(restore.atMs).toStdString()},
                            {"position", std::to_string(restore.position)},
                            {"reason", store::restoreReason(tablet_.words(), restore.why)},
                            {"missing", std::to_string(missing)}}};
        rows.append({missing > 0 ? caution : note, tablet_.say(made)});
    }
    const std::int64_t torn = keeper_ != nullptr ? store::tornWritesOf(keeper_->journal).value_or(0) : 0;
    if (torn > 0) {
        rows.append({note, tablet_.say({"app.keeping.torn", {{"writes", std::to_string(torn)}}})});
    }
    if (keeper_ != nullptr && rows.isEmpty()) {
        rows.append({note, tablet_.label("app.keeping.never")});
    }
    past_.setRows(std::move(rows));
}

RowModel::Row KeepingView::madeRow() const
{
    const BackupTimer::Made& made = *keeper_->backups.made();
    if (!made) {
        return {caution,
                tablet_.say({"backup-failed", {{"reason", store::keepFailure(tablet_.words(), made.error())}}})};
    }
    return {note,
            *made ? tablet_.say({"app.keeping.backup-made", {{"entries", std::to_string((*made)->last)}}})
                  : tablet_.label("app.keeping.backup-has-all")};
}

/// What the last check found: first whether all is well.
QList<RowModel::Row> KeepingView::found() const
{
    const RecordCheck::Found& found = *keeper_->check.found();
    const std::string day = dayText(keeper_->check.at()).toStdString();
    if (!found) {
        return {{caution,
                 tablet_.say({"app.keeping.check-failed",
                              {{"day", day}, {"reason", store::keepFailure(tablet_.words(), found.error())}}})}};
    }
    const auto& faults = found->faults;
    const Message sum{faults.empty() ? "app.keeping.check-whole" : "app.keeping.check-faults",
                      {{"day", day},
                       {"entries", std::to_string(found->entries)},
                       {"attachments", numbered(found->attachments.whole)},
                       {"faults", numbered(faults.size())}}};
    QList<RowModel::Row> rows = {{faults.empty() ? note : caution, tablet_.say(sum)}};
    for (std::size_t i = 0; i < std::min(faults.size(), faultsShown); ++i) {
        rows.append({caution, toQt(faults[i].sentence)});
    }
    if (faults.size() > faultsShown) {
        rows.append(
            {caution, tablet_.say({"app.keeping.more-faults", {{"faults", numbered(faults.size() - faultsShown)}}})});
    }
    if (const auto& orphans = found->attachments.orphans; !orphans.empty()) {
        rows.append({note, tablet_.say({"app.keeping.orphans", {{"files", numbered(orphans.size())}}})});
    }
    if (const auto& leftovers = found->attachments.leftovers; !leftovers.empty()) {
        rows.append({note, tablet_.say({"app.keeping.leftovers", {{"files", numbered(leftovers.size())}}})});
    }
    return rows;
}

void KeepingView::showAnswers()
{
    QList<RowModel::Row> rows;
    if (!trouble_.isEmpty()) {
        rows.append({caution, trouble_});
    }
    if (keeper_ == nullptr) {
        rows.append({note, tablet_.label("app.keeping.nothing-here")});
    } else {
        if (keeper_->backups.isBusy()) {
            rows.append({note, tablet_.label("app.keeping.backup-under-way")});
        } else if (isBackupAsked_) {
            rows.append(madeRow());
        }
        if (keeper_->check.isBusy()) {
            rows.append({note,
                         tablet_.say({"app.keeping.check-under-way",
                                      {{"percent", std::to_string(keeper_->check.percent())}}})});
        } else if (keeper_->check.found()) {
            rows += found();
        }
    }
    answers_.setRows(std::move(rows));
}

void KeepingView::showPoints()
{
    points_.setRows({
        {note, tablet_.say({"app.keeping.point-together", {{"backups", numbered(backups_.size())}}})},
        {note, tablet_.label("app.keeping.point-kept")},
        {note, tablet_.label("app.keeping.point-chain")},
        {note, tablet_.label("app.keeping.point-drafts")},
        {caution, tablet_.label("app.keeping.point-away")},
    });
}

void KeepingView::backUp()
{
    if (canBackUp()) {
        trouble_.clear();
        isBackupAsked_ = true;
        keeper_->backups.begin();
    }
}

void KeepingView::check()
{
    if (canCheck()) {
        trouble_.clear();
        keeper_->check.begin();
    }
}

void KeepingView::refuseBusy()
{
    trouble_ = tablet_.label("app.keeping.wait");
    back();
    showAnswers();
}

void KeepingView::askRestore()
{
    if (keeper_ == nullptr) {
        return;
    }
    if (isBusy()) {
        refuseBusy();
        return;
    }
    open();
    showPoints();
    isAsking_ = true;
    isRead_ = false;
    Q_EMIT changed();
}

void KeepingView::turnRead()
{
    isRead_ = isAsking_ && !isRead_;
    Q_EMIT changed();
}

void KeepingView::restore()
{
    if (!isAsking_ || !isRead_) {
        return;
    }
    if (isBusy()) { // an hour was over in between
        refuseBusy();
        return;
    }
    back();
    Q_EMIT restoreWanted();
}

void KeepingView::back()
{
    isAsking_ = false;
    isRead_ = false;
    Q_EMIT changed();
}

} // namespace loopside::app
