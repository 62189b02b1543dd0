// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "app/fields_view.h"
#include "app/row_model.h"
#include "app/tablet.h"

#include <QObject>
#include <QtQml/qqmlregistration.h>

#include <vector>

namespace loopside::app {

/// What was logged of the shown run, the latest first, and putting it right: new values, not to count at all, or the
/// whole run at another tank. Each is an entry of its own with a reason; what was logged stays as it was.
class LoggedView : public QObject
{
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("made by the program")

    /// Rows: name (what was said, as it holds now), detail (when, by whom, what became of it), isChosen.
    Q_PROPERTY(loopside::app::RowModel* entries READ entries CONSTANT)
    /// What can be done with the chosen one. Rows: name, detail (empty), isChosen.
    Q_PROPERTY(loopside::app::RowModel* remedies READ remedies CONSTANT)
    /// Modes or tanks to choose from where the remedy needs one. Rows: name, detail, isChosen.
    Q_PROPERTY(loopside::app::RowModel* choices READ choices CONSTANT)
    /// Rows: name, detail (empty), isChosen.
    Q_PROPERTY(loopside::app::RowModel* reasons READ reasons CONSTANT)
    /// New values: each gauge and the oil of a set, the elements of a change.
    Q_PROPERTY(loopside::app::FieldsView* fields READ fields CONSTANT)
    Q_PROPERTY(bool hasFields READ hasFields NOTIFY changed)
    /// The remedy is another tank, and `choices` are tanks.
    Q_PROPERTY(bool isMoving READ isMoving NOTIFY changed)
    /// How the chosen one was logged and what was changed since, the latest first. Rows: amount (empty), text.
    Q_PROPERTY(loopside::app::RowModel* history READ history CONSTANT)
    /// The chosen one, or the tank.
    Q_PROPERTY(QString title READ title NOTIFY changed)
    /// The id of the chosen one; empty if none is.
    Q_PROPERTY(QString chosen READ chosen NOTIFY changed)
    /// What the remedy means.
    Q_PROPERTY(QString remedyText READ remedyText NOTIFY changed)
    Q_PROPERTY(QString mainText READ mainText NOTIFY changed)
    /// What the main key still needs; empty if nothing.
    Q_PROPERTY(QString problem READ problem NOTIFY changed)
    Q_PROPERTY(QString notice READ notice NOTIFY changed)

public:
    explicit LoggedView(Tablet& tablet, QObject* parent = nullptr);

    [[nodiscard]] RowModel* entries() { return &entries_; }
    [[nodiscard]] RowModel* remedies() { return &remedies_; }
    [[nodiscard]] RowModel* choices() { return &choices_; }
    [[nodiscard]] RowModel* reasons() { return &reasons_; }
    [[nodiscard]] FieldsView* fields() { return &fields_; }
    [[nodiscard]] bool hasFields() const;
    [[nodiscard]] bool isMoving() const { return remedy_ == Remedy::OtherTank; }
    [[nodiscard]] RowModel* history() { return &history_; }
    [[nodiscard]] QString title() const;
    [[nodiscard]] QString chosen() const;
    [[nodiscard]] QString remedyText() const;
    [[nodiscard]] QString mainText() const;
    [[nodiscard]] QString problem() const;
    [[nodiscard]] QString notice() const;

    /// Nothing chosen; what is shown is what stands now.
    void open();
    /// With that entry chosen, and to be changed.
    void openAt(const Id& entry);

    Q_INVOKABLE void chooseEntry(int row);
    Q_INVOKABLE void chooseRemedy(int row);
    Q_INVOKABLE void choose(int row);
    Q_INVOKABLE void chooseReason(int row);
    Q_INVOKABLE void log();

Q_SIGNALS:
    void changed();

private:
    enum class Remedy
    {
        None = -1,
        Change,
        Strike,
        OtherTank
    };

    void refresh();
    void showEntries();
    void showChoices();
    void showHistory();
    void beginFields();
    [[nodiscard]] const run::Fact* fact() const;
    [[nodiscard]] QString entryDetail(const run::Fact& fact) const;
    [[nodiscard]] QString whyLine(const run::Fact& amendment, const run::Amended& what) const;
    [[nodiscard]] bool takesChange(const run::Event& event) const;
    /// What the change says; nothing as long as something is missing.
    [[nodiscard]] std::optional<run::Amended> amendment() const;
    [[nodiscard]] bool readSet(const run::ReadingLogged& set, run::Amended& into) const;
    [[nodiscard]] std::optional<run::RunMoved> move() const;
    [[nodiscard]] std::vector<const run::TankRecord*> otherTanks() const;
    [[nodiscard]] std::string why() const;

    Tablet& tablet_;
    RowModel entries_;
    RowModel remedies_;
    RowModel choices_;
    RowModel reasons_;
    RowModel history_;
    FieldsView fields_;
    std::vector<Id> listed_;
    Id entry_ = {}; ///< All zero: none is chosen.
    Remedy remedy_ = Remedy::None;
    int choice_ = -1;
    int reason_ = -1;
    QString notice_;
};

} // namespace loopside::app
