// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "app/row_model.h"
#include "app/tablet.h"
#include "store/backup.h"

#include <QObject>
#include <QtQml/qqmlregistration.h>

#include <vector>

namespace loopside::app {

struct Keeper;

/// What is kept of the tablet's record and where, what became of it, and three things to do: make a backup, check all
/// of it, put it together anew. The last has a second step, which says what happens and asks whether that was read.
class KeepingView : public QObject
{
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("made by the program")

    /// Rows: name, value.
    Q_PROPERTY(loopside::app::RowModel* facts READ facts CONSTANT)
    /// What became of what was asked for, or is under way. Rows: kind, text.
    Q_PROPERTY(loopside::app::RowModel* answers READ answers CONSTANT)
    /// Earlier restores and torn writes. Rows: kind, text.
    Q_PROPERTY(loopside::app::RowModel* past READ past CONSTANT)
    /// What a restore does, point by point. Rows: kind, text.
    Q_PROPERTY(loopside::app::RowModel* points READ points CONSTANT)
    Q_PROPERTY(bool canBackUp READ canBackUp NOTIFY changed)
    Q_PROPERTY(bool canCheck READ canCheck NOTIFY changed)
    Q_PROPERTY(bool canAsk READ canAsk NOTIFY changed)
    /// The second step of a restore is open.
    Q_PROPERTY(bool isAsking READ isAsking NOTIFY changed)
    /// Somebody said to have read what it does.
    Q_PROPERTY(bool isRead READ isRead NOTIFY changed)

public:
    explicit KeepingView(Tablet& tablet, QObject* parent = nullptr);

    [[nodiscard]] RowModel* facts() { return &facts_; }
    [[nodiscard]] RowModel* answers() { return &answers_; }
    [[nodiscard]] RowModel* past() { return &past_; }
    [[nodiscard]] RowModel* points() { return &points_; }
    [[nodiscard]] bool canBackUp() const;
    [[nodiscard]] bool canCheck() const;
    [[nodiscard]] bool canAsk() const { return keeper_ != nullptr; }
    [[nodiscard]] bool isAsking() const { return isAsking_; }
    [[nodiscard]] bool isRead() const { return isRead_; }
    /// Whether a backup or a check is under way.
    [[nodiscard]] bool isBusy() const;

    /// Who keeps the record; null: this is not the tablet's record, as in an exercise. Outlives the view.
    void setKeeper(Keeper* keeper);
    /// Looks afresh at the folder of backups and at the journal.
    void open();
    Q_INVOKABLE void backUp();
    Q_INVOKABLE void check();
    /// Opens the second step of a restore, or says why not.
    Q_INVOKABLE void askRestore();
    /// Somebody read what it does; said again, takes that back.
    Q_INVOKABLE void turnRead();
    /// Asks the program to put the record together anew, where it was said that the points were read.
    Q_INVOKABLE void restore();
    /// Closes the second step.
    Q_INVOKABLE void back();

Q_SIGNALS:
    void changed();
    /// The program is to let go of the journal and put it together anew.
    void restoreWanted();

private:
    void showFacts();
    void showPast();
    void showAnswers();
    void showPoints();
    void onKept();
    void refuseBusy();
    [[nodiscard]] QList<RowModel::Row> found() const;
    [[nodiscard]] RowModel::Row madeRow() const;
    [[nodiscard]] QString dayOf(std::int64_t wallMs) const;

    Tablet& tablet_;
    Keeper* keeper_ = nullptr;
    RowModel facts_;
    RowModel answers_;
    RowModel past_;
    RowModel points_;
    std::vector<store::Backup> backups_; ///< The youngest first.
    QString trouble_;                    ///< Why something was refused, or could not be looked at.
    bool isBackupAsked_ = false;
    bool isAsking_ = false;
    bool isRead_ = false;
};

} // namespace loopside::app
