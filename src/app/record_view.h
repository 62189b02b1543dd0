// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "app/fields_view.h"
#include "app/history_lines.h"
#include "app/row_model.h"
#include "app/tablet.h"

#include <QObject>
#include <QtQml/qqmlregistration.h>

#include <functional>
#include <optional>
#include <vector>

namespace loopside::app {

/// A page of the catalogue: what is known of each tank or cart, what became of it, and changing it.
///
/// A change is put into the journal as a whole record: what was typed takes the place of what held, the rest stays.
/// Runs that are open go on with the record that they were opened with.
class RecordView : public QObject
{
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("made by the program")

    /// Rows: name, detail (how it stands), isChosen.
    Q_PROPERTY(loopside::app::RowModel* items READ items CONSTANT)
    /// Of the chosen one. Rows: name, value.
    Q_PROPERTY(loopside::app::RowModel* facts READ facts CONSTANT)
    /// The latest first: runs and jobs, and who changed what when. Rows: amount (empty), text.
    Q_PROPERTY(loopside::app::RowModel* history READ history CONSTANT)
    /// What can be changed, with what holds now beside it.
    Q_PROPERTY(loopside::app::FieldsView* fields READ fields CONSTANT)
    /// Oils to choose from while it is changed; empty where there is none to choose. Rows: name, detail, isChosen.
    Q_PROPERTY(loopside::app::RowModel* fluids READ fluids CONSTANT)
    Q_PROPERTY(bool hasFluids READ hasFluids NOTIFY changed)
    Q_PROPERTY(QString name READ name NOTIFY changed)
    Q_PROPERTY(bool isChosen READ isChosen NOTIFY changed)
    Q_PROPERTY(bool isEditing READ isEditing NOTIFY changed)
    /// Whether a new one can be told here.
    Q_PROPERTY(bool canBeNew READ canBeNew CONSTANT)
    /// A new one is being told: it needs a name.
    Q_PROPERTY(bool isNew READ isNew NOTIFY changed)
    Q_PROPERTY(QString newName READ newName NOTIFY changed)
    Q_PROPERTY(QString mainText READ mainText NOTIFY changed)
    Q_PROPERTY(QString problem READ problem NOTIFY changed)
    Q_PROPERTY(QString notice READ notice NOTIFY changed)

public:
    [[nodiscard]] RowModel* items() { return &items_; }
    [[nodiscard]] RowModel* facts() { return &facts_; }
    [[nodiscard]] RowModel* history() { return &history_; }
    [[nodiscard]] FieldsView* fields() { return &fields_; }
    [[nodiscard]] RowModel* fluids() { return &fluids_; }
    [[nodiscard]] bool hasFluids() const { return fluids_.rowCount() > 0; }
    [[nodiscard]] QString name() const;
    [[nodiscard]] bool isChosen() const { return row_ >= 0; }
    [[nodiscard]] bool isEditing() const { return isEditing_; }
    [[nodiscard]] virtual bool canBeNew() const = 0;
    [[nodiscard]] bool isNew() const { return isNew_; }
    [[nodiscard]] QString newName() const { return newName_; }
    [[nodiscard]] QString mainText() const;
    [[nodiscard]] QString problem() const;
    [[nodiscard]] QString notice() const;

    Q_INVOKABLE void choose(int row);
    Q_INVOKABLE void chooseFluid(int row);
    /// Begins to tell a new one; nothing of it is known yet.
    Q_INVOKABLE void tellNew();
    Q_INVOKABLE void typeName(const QString& name);
    /// The main key: begins to change the chosen one, then logs the change.
    Q_INVOKABLE void goOn();
    /// Leaves the change; false if there was none to leave. What was typed stays a draft.
    Q_INVOKABLE bool back();

Q_SIGNALS:
    void changed();

protected:
    /// One field of a record as it is typed.
    struct Editable
    {
        FieldsView::Field field;
        std::function<bool(const std::string&)> set; ///< Into the record that is to be put; false if it cannot be read.
    };

    RecordView(Tablet& tablet, Id drafts, QObject* parent);

    [[nodiscard]] Tablet& tablet() const { return tablet_; }
    [[nodiscard]] int row() const { return row_; }
    void refresh();

    [[nodiscard]] virtual std::vector<std::string> names() const = 0;
    [[nodiscard]] virtual QString stateOf(const std::string& name) const = 0;
    [[nodiscard]] virtual QList<RowModel::Row> factsOf(int row) const = 0;
    [[nodiscard]] virtual std::vector<HistoryLine> historyOf(const std::string& name) const = 0;
    /// Takes the record of `row`, or below 0 one of which nothing is known, as the one to be changed, and tells what of
    /// it can be. The first field of a new one is needed.
    [[nodiscard]] virtual std::vector<Editable> begin(int row) = 0;
    virtual void setName(const std::string& name) = 0;
    [[nodiscard]] virtual run::RecordPut record() const = 0;
    /// Sets the fluid that was chosen; a cart has none.
    virtual void setFluid(const run::FluidRecord& fluid) = 0;
    [[nodiscard]] virtual bool hasFluid() const = 0;

private:
    void showItems();
    void showFluids();
    void edit();
    void log();
    [[nodiscard]] QString missingOfNew() const;
    [[nodiscard]] bool readFields();

    Tablet& tablet_;
    Id drafts_;
    RowModel items_;
    RowModel facts_;
    RowModel history_;
    RowModel fluids_;
    FieldsView fields_;
    std::vector<Editable> editables_;
    int row_ = -1;
    int fluid_ = -1;
    bool isEditing_ = false;
    bool isNew_ = false;
    QString newName_;
    QString notice_;
};

} // namespace loopside::app
