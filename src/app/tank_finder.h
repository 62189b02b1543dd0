// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "app/row_model.h"
#include "app/tablet.h"
#include "position/fix_source.h"

#include <QObject>
#include <QtQml/qqmlregistration.h>

#include <optional>

namespace loopside::app {

/// Which tanks are near by the tablet's position, and keeping it with a run at its start, at its readings and at its
/// end: never between, and never without a run.
///
/// Off until somebody switches it on: a position tells where a person is, so nobody is to find out later that it was
/// kept. Where a tank stands its record tells, or else the runs at it whose tank was confirmed by tag or plate.
class TankFinder : public QObject
{
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("made by the program")

    /// Whether this tablet can tell its position at all.
    Q_PROPERTY(bool isThere READ isThere NOTIFY changed)
    Q_PROPERTY(bool isOn READ isOn NOTIFY changed)
    /// What the position tells, or why it tells nothing.
    Q_PROPERTY(QString text READ text NOTIFY changed)
    /// The tanks it may be at, the nearest first, at most three. Rows: name, detail (how far), isChosen (never).
    Q_PROPERTY(loopside::app::RowModel* nearby READ nearby CONSTANT)
    /// Off and on. Rows: name, detail, isChosen.
    Q_PROPERTY(loopside::app::RowModel* wishes READ wishes CONSTANT)

public:
    explicit TankFinder(Tablet& tablet, QObject* parent = nullptr);
    ~TankFinder() override;

    [[nodiscard]] bool isThere() const { return source_ != nullptr && source_->isThere(); }
    [[nodiscard]] bool isOn() const { return isOn_; }
    [[nodiscard]] QString text() const;
    [[nodiscard]] RowModel* nearby() { return &nearby_; }
    [[nodiscard]] RowModel* wishes() { return &wishes_; }

    /// What tells the position; it outlives this. Null: nothing does.
    void setSource(position::FixSource* source);
    /// Somebody looks for a tank, or no more: without that and without an open run nothing asks for the position.
    void setLooking(bool isLooking);
    /// Keeps the position with the shown run, where it is on, known and the run is open.
    void record();

    /// 0: off, 1: on. Kept on this tablet.
    Q_INVOKABLE void chooseWish(int row);
    /// A tank of `nearby`.
    Q_INVOKABLE void choose(int row);

Q_SIGNALS:
    void changed();
    /// That tank is meant, by its row; `isOnly`: by the position it can be no other.
    void chosen(int tank, bool isOnly);

private:
    void refresh();
    void turn();
    [[nodiscard]] run::TanksAround around() const;

    Tablet& tablet_;
    position::FixSource* source_ = nullptr;
    RowModel nearby_;
    RowModel wishes_;
    std::vector<int> listed_ = {};
    bool isOn_ = false;
    bool isLooking_ = false;
};

} // namespace loopside::app
