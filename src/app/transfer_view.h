// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "app/checklist_view.h"
#include "app/fields_view.h"
#include "app/mounted_media.h"
#include "app/record_out.h"
#include "app/row_model.h"
#include "app/tablet.h"
#include "filtration/transfer.h"

#include <QObject>
#include <QtQml/qqmlregistration.h>

#include <functional>

namespace loopside::app {

/// Spent oil to waste, which cleans no tank: where from and into what, the source confirmed a second time, a countdown
/// to the time to stop, the litres as read, the label.
class TransferView : public QObject
{
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("made by the program")

    /// The cautions of pumping into the container, then of uncoupling from it.
    Q_PROPERTY(QString caution READ caution NOTIFY changed)
    Q_PROPERTY(Phase phase READ phase NOTIFY changed)
    /// Rows: name, detail, isChosen.
    Q_PROPERTY(loopside::app::RowModel* tanks READ tanks CONSTANT)
    Q_PROPERTY(loopside::app::RowModel* carts READ carts CONSTANT)
    /// The oil on the plate, to confirm the source by. Rows: name, detail, isChosen.
    Q_PROPERTY(loopside::app::RowModel* fluids READ fluids CONSTANT)
    /// The valve as somebody saw it: bypass or filter. Rows: name, detail, isChosen.
    Q_PROPERTY(loopside::app::RowModel* valves READ valves CONSTANT)
    /// What is looked at before the pump starts.
    Q_PROPERTY(loopside::app::ChecklistView* points READ points CONSTANT)
    /// Capacity, what it holds, litres to move.
    Q_PROPERTY(loopside::app::FieldsView* fields READ fields CONSTANT)
    Q_PROPERTY(loopside::app::FieldsView* plate READ plate CONSTANT)
    Q_PROPERTY(loopside::app::FieldsView* moved READ moved CONSTANT)
    /// What it comes to, or the record. Rows: name, value.
    Q_PROPERTY(loopside::app::RowModel* outcome READ outcome CONSTANT)
    /// The lines of the container's label. Rows: text.
    Q_PROPERTY(loopside::app::RowModel* label READ label CONSTANT)
    /// The keys that write that label as a PDF, once the pump stands. Rows: text, say.
    Q_PROPERTY(loopside::app::RowModel* labelKeys READ labelKeys CONSTANT)
    /// What became of it; empty where nobody asked.
    Q_PROPERTY(QString labelsText READ labelsText NOTIFY changed)
    /// From which tank.
    Q_PROPERTY(QString source READ source NOTIFY changed)
    /// What is wrong and not only missing: another tank, elements spent on waste.
    Q_PROPERTY(QString warning READ warning NOTIFY changed)
    /// The source is another tank than the chosen one.
    Q_PROPERTY(bool isWrongTank READ isWrongTank NOTIFY changed)
    Q_PROPERTY(QString countdown READ countdown NOTIFY ticked)
    /// Of the time to stop, what is left: 0 to 1.
    Q_PROPERTY(qreal timeLeft READ timeLeft NOTIFY ticked)
    Q_PROPERTY(bool isOverdue READ isOverdue NOTIFY ticked)
    Q_PROPERTY(QString mainText READ mainText NOTIFY changed)
    /// What the main key still needs; empty if nothing.
    Q_PROPERTY(QString problem READ problem NOTIFY changed)

public:
    enum class Phase
    {
        Plan,
        Confirm,
        Running,
        Measure, ///< The pump stands; how much was moved is asked for.
        Stopped
    };
    Q_ENUM(Phase)

    explicit TransferView(Tablet& tablet, QObject* parent = nullptr);

    [[nodiscard]] QString caution() const;
    [[nodiscard]] Phase phase() const { return phase_; }
    [[nodiscard]] RowModel* tanks() { return &tanks_; }
    [[nodiscard]] RowModel* carts() { return &carts_; }
    [[nodiscard]] RowModel* fluids() { return &fluids_; }
    [[nodiscard]] RowModel* valves() { return &valves_; }
    [[nodiscard]] ChecklistView* points() { return &points_; }
    [[nodiscard]] FieldsView* fields() { return &fields_; }
    [[nodiscard]] FieldsView* plate() { return &plate_; }
    [[nodiscard]] FieldsView* moved() { return &moved_; }
    [[nodiscard]] RowModel* outcome() { return &outcome_; }
    [[nodiscard]] RowModel* label() { return &label_; }
    [[nodiscard]] RowModel* labelKeys() { return &labelKeys_; }
    [[nodiscard]] QString labelsText() const;
    [[nodiscard]] QString source() const;
    [[nodiscard]] QString warning() const;
    [[nodiscard]] bool isWrongTank() const;
    [[nodiscard]] QString countdown() const;
    [[nodiscard]] qreal timeLeft() const;
    [[nodiscard]] bool isOverdue() const;
    [[nodiscard]] QString mainText() const;
    [[nodiscard]] QString problem() const { return problem_; }

    /// What writes labels; null: nothing does, as in an exercise. Outlives the view, or is taken away before.
    void setRecords(RecordOut* records);
    /// Where sticks are looked for; without it those that are mounted.
    void lookAt(std::function<QStringList()> media);
    /// The cart of the transfer that was stopped last.
    [[nodiscard]] std::string cart() const;

    /// Goes on with the transfer that is open, or begins to plan one.
    void open();

    /// A tag that was read at the tank stands for the signs of its plate that would be typed.
    void takeTag(const QString& code);

    Q_INVOKABLE void chooseTank(int row);
    Q_INVOKABLE void chooseCart(int row);
    Q_INVOKABLE void chooseFluid(int row);
    Q_INVOKABLE void chooseValve(int row);
    /// Plan → confirm → the pump runs → the pump stands → the litres as read.
    Q_INVOKABLE void goOn();
    /// The litres cannot be read.
    Q_INVOKABLE void leaveUnread();
    Q_INVOKABLE void writeLabel(const QString& say);
    Q_INVOKABLE void back();
    Q_INVOKABLE void planAnother();

Q_SIGNALS:
    void changed();
    void ticked();

private:
    void refresh();
    bool look(const run::CheckAnswered& answered);
    /// The points are to be looked at anew.
    void lookAnew();
    void showPoints();
    [[nodiscard]] run::Circumstances circumstances() const;
    void showOutcome();
    void showRecord(const run::Job& job);
    [[nodiscard]] QString movedText(const run::Job* known) const;
    void showLabel();
    void start();
    void stop(std::optional<run::TypedVolume> moved);
    [[nodiscard]] const run::Job* job() const { return tablet_.state().jobOf(job_); }
    [[nodiscard]] std::optional<run::RunTime> stopAt() const;
    [[nodiscard]] const run::TankRecord* tank() const;
    [[nodiscard]] const run::CartRecord* chosenCart() const;
    [[nodiscard]] std::optional<filtration::Transfer> planned() const;
    [[nodiscard]] bool plateFits() const;
    [[nodiscard]] bool fluidFits() const;
    [[nodiscard]] bool isOnlyTankWithItsFluid() const;
    [[nodiscard]] bool isSourceConfirmed() const;
    [[nodiscard]] QString missingOfPlan() const;
    [[nodiscard]] QString missingOfConfirm() const;

    Tablet& tablet_;
    RowModel tanks_;
    RowModel carts_;
    RowModel fluids_;
    RowModel valves_;
    ChecklistView points_;
    FieldsView fields_;
    FieldsView plate_;
    FieldsView moved_;
    RowModel outcome_;
    RowModel label_;
    RowModel labelKeys_;
    RecordOut* records_ = nullptr;
    std::function<QStringList()> media_ = mountedMedia;
    Phase phase_ = Phase::Plan;
    Id job_ = {};
    int tank_ = -1;
    int cart_ = -1;
    int fluid_ = -1;
    int valve_ = -1;
    std::vector<run::CheckAnswered> looked_ = {};
    KeptAnswers kept_;
    Stamp stoppedAt_ = {};
    QString problem_;
};

} // namespace loopside::app
