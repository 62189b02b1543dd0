// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "app/fields_view.h"
#include "app/row_model.h"
#include "app/tablet.h"

#include <QObject>
#include <QtQml/qqmlregistration.h>

namespace loopside::app {

/// The stock of elements, type by type: what is there, what came in, was counted or used elsewhere, and every move.
///
/// One stock for the site: the journal knows no shelf. A move is never changed; a count puts right what is wrong.
class StockView : public QObject
{
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("made by the program")

    /// Every type of the catalogue, and that a cart holds or that was ever moved. Rows: name, detail (how many),
    /// isChosen.
    Q_PROPERTY(loopside::app::RowModel* types READ types CONSTANT)
    /// Of the type that is chosen. Rows: name, value.
    Q_PROPERTY(loopside::app::RowModel* facts READ facts CONSTANT)
    /// What can be told. Rows: name, detail (empty), isChosen.
    Q_PROPERTY(loopside::app::RowModel* kinds READ kinds CONSTANT)
    /// The latest first. Rows: amount, text.
    Q_PROPERTY(loopside::app::RowModel* moves READ moves CONSTANT)
    /// How many elements.
    Q_PROPERTY(loopside::app::FieldsView* fields READ fields CONSTANT)
    /// What the chosen kind means.
    Q_PROPERTY(QString kindText READ kindText NOTIFY changed)
    Q_PROPERTY(QString typeName READ typeName NOTIFY changed)
    /// What the main key logs, with its number, as soon as there is one.
    Q_PROPERTY(QString mainText READ mainText NOTIFY changed)
    Q_PROPERTY(QString problem READ problem NOTIFY changed)
    /// That something was typed before, or that it was logged; empty if neither.
    Q_PROPERTY(QString notice READ notice NOTIFY changed)

public:
    explicit StockView(Tablet& tablet, QObject* parent = nullptr);

    [[nodiscard]] RowModel* types() { return &types_; }
    [[nodiscard]] RowModel* facts() { return &facts_; }
    [[nodiscard]] RowModel* kinds() { return &kinds_; }
    [[nodiscard]] RowModel* moves() { return &moves_; }
    [[nodiscard]] FieldsView* fields() { return &fields_; }
    [[nodiscard]] QString typeName() const { return toQtName(); }
    [[nodiscard]] QString kindText() const;
    [[nodiscard]] QString mainText() const;
    [[nodiscard]] QString problem() const;
    [[nodiscard]] QString notice() const;

    Q_INVOKABLE void chooseType(int row);
    Q_INVOKABLE void chooseKind(int row);
    Q_INVOKABLE void log();

Q_SIGNALS:
    void changed();

private:
    enum class Kind
    {
        None = -1,
        Received,
        Counted,
        UsedElsewhere
    };

    void refresh();
    void showTypes();
    void showFacts();
    void showMoves();
    [[nodiscard]] QString toQtName() const;
    [[nodiscard]] const std::string& type() const;
    [[nodiscard]] run::StockStanding standing(const std::string& type) const;
    [[nodiscard]] QString stockText(const std::string& type) const;
    /// The number as typed; nothing if it is no whole number of elements.
    [[nodiscard]] std::optional<int> typed() const;
    /// What the stock moves by; nothing as long as something is missing.
    [[nodiscard]] std::optional<int> moved() const;
    [[nodiscard]] QString moveText(const run::Entered<run::StockMoved>& move) const;

    Tablet& tablet_;
    RowModel types_;
    RowModel facts_;
    RowModel kinds_;
    RowModel moves_;
    FieldsView fields_;
    std::vector<std::string> names_;
    int type_ = -1;
    Kind kind_ = Kind::None;
    QString notice_;
};

} // namespace loopside::app
