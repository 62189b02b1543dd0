// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "app/fields_view.h"
#include "app/row_model.h"
#include "app/tablet.h"
#include "filtration/flush.h"

#include <QObject>
#include <QtQml/qqmlregistration.h>

namespace loopside::app {

/// The flush of a cart, which cleans no tank: plan, batch by batch, close, record.
class FlushView : public QObject
{
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("made by the program")

    Q_PROPERTY(Phase phase READ phase NOTIFY changed)
    /// Rows: name, detail, isChosen.
    Q_PROPERTY(loopside::app::RowModel* carts READ carts CONSTANT)
    Q_PROPERTY(loopside::app::RowModel* fluids READ fluids CONSTANT)
    Q_PROPERTY(loopside::app::RowModel* wanted READ wanted CONSTANT)
    Q_PROPERTY(loopside::app::RowModel* approvers READ approvers CONSTANT)
    /// Left-over and batch.
    Q_PROPERTY(loopside::app::FieldsView* fields READ fields CONSTANT)
    /// What it comes to, or the record. Rows: name, value.
    Q_PROPERTY(loopside::app::RowModel* outcome READ outcome CONSTANT)
    /// Planned and done. Rows: number, volume, rest (of the old oil), isDone.
    Q_PROPERTY(loopside::app::RowModel* batches READ batches CONSTANT)
    /// From which oil to which.
    Q_PROPERTY(QString fromTo READ fromTo NOTIFY changed)
    /// The cautions of coupling, then of pumping, then of uncoupling.
    Q_PROPERTY(QString caution READ caution NOTIFY changed)
    /// How far it is, in a sentence.
    Q_PROPERTY(QString standing READ standing NOTIFY changed)
    Q_PROPERTY(bool isThinEnough READ isThinEnough NOTIFY changed)
    Q_PROPERTY(QString mainText READ mainText NOTIFY changed)
    /// What the main key still needs; empty if nothing.
    Q_PROPERTY(QString problem READ problem NOTIFY changed)

public:
    enum class Phase
    {
        Plan,
        Flushing,
        Closed
    };
    Q_ENUM(Phase)

    explicit FlushView(Tablet& tablet, QObject* parent = nullptr);

    [[nodiscard]] Phase phase() const { return phase_; }
    [[nodiscard]] RowModel* carts() { return &carts_; }
    [[nodiscard]] RowModel* fluids() { return &fluids_; }
    [[nodiscard]] RowModel* wanted() { return &wanted_; }
    [[nodiscard]] RowModel* approvers() { return &approvers_; }
    [[nodiscard]] FieldsView* fields() { return &fields_; }
    [[nodiscard]] RowModel* outcome() { return &outcome_; }
    [[nodiscard]] RowModel* batches() { return &batches_; }
    [[nodiscard]] QString fromTo() const;
    [[nodiscard]] QString caution() const;
    [[nodiscard]] QString standing() const { return standing_; }
    [[nodiscard]] bool isThinEnough() const { return isThinEnough_; }
    [[nodiscard]] QString mainText() const;
    [[nodiscard]] QString problem() const { return problem_; }

    /// Goes on with the flush that is open, or begins to plan one.
    void open();
    void planFor(const std::string& cart);

    Q_INVOKABLE void chooseCart(int row);
    Q_INVOKABLE void chooseFluid(int row);
    Q_INVOKABLE void chooseWanted(int row);
    Q_INVOKABLE void chooseApprover(int row);
    /// Opens the flush, or logs the batch that went through.
    Q_INVOKABLE void goOn();
    Q_INVOKABLE void close(bool elementsRenewed);
    Q_INVOKABLE void planAnother();

Q_SIGNALS:
    void changed();

private:
    /// The numbers of a flush, planned or under way.
    struct Numbers
    {
        units::Volume left;
        std::optional<units::Volume> batch = {};
        units::Fraction wanted;
    };

    void refresh();
    void showPlan();
    void showJob(const run::Job& job);
    void showBatches(const std::vector<run::TypedVolume>& done, const Numbers& numbers);
    void showRecord(const run::Job& job);
    [[nodiscard]] const run::Job* job() const { return tablet_.state().jobOf(job_); }
    [[nodiscard]] QString missing() const;
    [[nodiscard]] std::optional<run::FlushOpened> planned() const;
    [[nodiscard]] QString sayPart(const char* id, units::Fraction part) const;

    Tablet& tablet_;
    RowModel carts_;
    RowModel fluids_;
    RowModel wanted_;
    RowModel approvers_;
    FieldsView fields_;
    RowModel outcome_;
    RowModel batches_;
    Phase phase_ = Phase::Plan;
    Id job_ = {};
    int cart_ = -1;
    int fluid_ = -1;
    int part_ = -1;
    int approver_ = -1;
    QString standing_;
    bool isThinEnough_ = false;
    QString problem_;
};

} // namespace loopside::app
