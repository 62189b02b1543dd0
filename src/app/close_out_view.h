// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "app/checklist_view.h"
#include "app/mounted_media.h"
#include "app/record_out.h"
#include "app/row_model.h"
#include "app/tablet.h"

#include <QObject>
#include <QtQml/qqmlregistration.h>

#include <functional>

namespace loopside::app {

/// Close-out: after sample while the oil circulates, shut-down, totals, disconnect checks, sign-off.
class CloseOutView : public QObject
{
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("made by the program")

    Q_PROPERTY(bool isOpen READ isOpen NOTIFY changed)
    Q_PROPERTY(QString title READ title NOTIFY changed)
    /// Rows: number, text, state (done, now, later), stateText.
    Q_PROPERTY(loopside::app::RowModel* steps READ steps CONSTANT)
    /// The keys of the step that stands now. Rows: text, say, isMain.
    Q_PROPERTY(loopside::app::RowModel* keys READ keys CONSTANT)
    /// Totals, plan against actual. Rows: name, value.
    Q_PROPERTY(loopside::app::RowModel* totals READ totals CONSTANT)
    /// The caution of the step that stands now; empty if there is none.
    Q_PROPERTY(QString caution READ caution NOTIFY changed)
    /// True while the points of disconnecting and putting back are asked for, and the points.
    Q_PROPERTY(bool wantsLook READ wantsLook NOTIFY changed)
    Q_PROPERTY(loopside::app::ChecklistView* points READ points CONSTANT)
    /// That turnovers prove nothing without a count.
    /// What the low end of the turnovers leaves out and why, a line for each reason; empty if nothing.
    Q_PROPERTY(QString leftOutText READ leftOutText NOTIFY changed)
    Q_PROPERTY(QString proofText READ proofText NOTIFY changed)
    Q_PROPERTY(bool isSigned READ isSigned NOTIFY changed)
    /// What became of the record as a PDF; empty where nobody asked for it.
    Q_PROPERTY(QString recordText READ recordText NOTIFY changed)
    /// Of it: note or caution.
    Q_PROPERTY(QString recordSign READ recordSign NOTIFY changed)

public:
    explicit CloseOutView(Tablet& tablet, QObject* parent = nullptr);

    [[nodiscard]] bool isOpen() const { return isOpen_; }
    [[nodiscard]] QString title() const;
    [[nodiscard]] RowModel* steps() { return &steps_; }
    [[nodiscard]] RowModel* keys() { return &keys_; }
    [[nodiscard]] RowModel* totals() { return &totals_; }
    [[nodiscard]] QString leftOutText() const;
    [[nodiscard]] QString proofText() const;
    [[nodiscard]] bool isSigned() const;
    [[nodiscard]] QString recordText() const;
    [[nodiscard]] QString recordSign() const;
    [[nodiscard]] QString caution() const;
    [[nodiscard]] bool wantsLook() const;
    [[nodiscard]] ChecklistView* points() { return &points_; }

    /// What writes records; null: nothing does, as in an exercise. Outlives the view, or is taken away before.
    void setRecords(RecordOut* records);
    /// Where sticks are looked for; without it those that are mounted.
    void lookAt(std::function<QStringList()> media);

    Q_INVOKABLE void open();
    Q_INVOKABLE void press(const QString& say);
    Q_INVOKABLE void leave();

Q_SIGNALS:
    void changed();
    void finished();
    /// The run is about to be closed.
    void closing();
    /// The run is not to be ended but handed on.
    void handOnWanted();
    /// The bottles of the run are to be shown.
    void kitWanted();

private:
    enum class Step
    {
        Sample,
        Stop,
        Disconnect,
        Sign,
        Done
    };

    [[nodiscard]] Step step() const;
    void refresh();
    void refreshKeys();
    void refreshTotals();
    void addRecordKeys(QList<RowModel::Row>& keys) const;
    [[nodiscard]] bool checked(std::string_view check) const;
    [[nodiscard]] std::string signer() const;

    Tablet& tablet_;
    RowModel steps_;
    RowModel keys_;
    RowModel totals_;
    ChecklistView points_;
    RecordOut* records_ = nullptr;
    std::function<QStringList()> media_ = mountedMedia;
    bool isOpen_ = false;
};

} // namespace loopside::app
