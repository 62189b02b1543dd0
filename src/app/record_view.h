// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "app/editable.h"
#include "app/fields_view.h"
#include "app/history_lines.h"
#include "app/row_model.h"
#include "app/tablet.h"
#include "paper/past_chart.h"
#include "site/clean_at_parts.h"

#include <QObject>
#include <QtQml/qqmlregistration.h>

#include <functional>
#include <map>
#include <optional>
#include <string>
#include <utility>
#include <vector>

namespace loopside::app {

/// A page of the catalogue: what is known of each tank, cart, oil or element type, what became of it, and changing it.
///
/// A change is put into the journal as a whole record: what was typed or chosen takes the place of what held, the rest
/// stays. Runs that are open go on with the record that they were opened with. A record that is out of service stays
/// here, marked.
class RecordView : public QObject
{
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("made by the program")

    /// Those in service, then those out of it. Rows: name, detail (how it stands), isChosen.
    Q_PROPERTY(loopside::app::RowModel* items READ items CONSTANT)
    /// Of the chosen one. Rows: name, value.
    Q_PROPERTY(loopside::app::RowModel* facts READ facts CONSTANT)
    /// What all its work has come to, such as codes and how long elements lasted; empty where nothing does. Rows: name,
    /// value.
    Q_PROPERTY(loopside::app::RowModel* past READ past CONSTANT)
    Q_PROPERTY(bool hasPast READ hasPast NOTIFY changed)
    /// How some of it went over time, each with what it rests on. Rows: title, text (what it rests on, and what is to
    /// be said of it), hasCourse (there is something to draw).
    Q_PROPERTY(loopside::app::RowModel* charts READ charts CONSTANT)
    /// The latest first: runs and jobs, and who changed what when. Rows: amount (empty), text.
    Q_PROPERTY(loopside::app::RowModel* history READ history CONSTANT)
    /// What can be changed, with what holds now beside it.
    Q_PROPERTY(loopside::app::FieldsView* fields READ fields CONSTANT)
    /// The parts of a record that has many fields, such as its gauges; empty if it has few. Rows: name, detail,
    /// isChosen.
    Q_PROPERTY(loopside::app::RowModel* groups READ groups CONSTANT)
    Q_PROPERTY(bool hasGroups READ hasGroups NOTIFY changed)
    /// The fields of the group that is chosen: from `firstField` up to before `behindField`.
    Q_PROPERTY(int firstField READ firstField NOTIFY changed)
    Q_PROPERTY(int behindField READ behindField NOTIFY changed)
    /// What the group has to choose from, such as oils; empty if nothing. Rows: name, detail, isChosen.
    Q_PROPERTY(loopside::app::RowModel* choices READ choices CONSTANT)
    Q_PROPERTY(bool hasChoices READ hasChoices NOTIFY changed)
    Q_PROPERTY(QString choicesTitle READ choicesTitle NOTIFY changed)
    /// Why a record may leave service. Rows: text.
    Q_PROPERTY(loopside::app::RowModel* reasons READ reasons CONSTANT)
    Q_PROPERTY(bool isAskingWhy READ isAskingWhy NOTIFY changed)
    /// What the key says that takes the record out of service or puts it back.
    Q_PROPERTY(QString serviceText READ serviceText NOTIFY changed)
    Q_PROPERTY(QString name READ name NOTIFY changed)
    Q_PROPERTY(bool isChosen READ isChosen NOTIFY changed)
    Q_PROPERTY(bool isEditing READ isEditing NOTIFY changed)
    /// A new one is being told: it needs a name.
    Q_PROPERTY(bool isNew READ isNew NOTIFY changed)
    Q_PROPERTY(QString newText READ newText CONSTANT)
    Q_PROPERTY(QString newName READ newName NOTIFY changed)
    Q_PROPERTY(QString mainText READ mainText NOTIFY changed)
    Q_PROPERTY(QString problem READ problem NOTIFY changed)
    Q_PROPERTY(QString notice READ notice NOTIFY changed)

public:
    [[nodiscard]] RowModel* items() { return &items_; }
    [[nodiscard]] RowModel* facts() { return &facts_; }
    [[nodiscard]] RowModel* past() { return &past_; }
    [[nodiscard]] bool hasPast() const { return past_.rowCount() > 0; }
    [[nodiscard]] RowModel* charts() { return &charts_; }
    /// One of `charts`; one with nothing to draw if there is none.
    [[nodiscard]] paper::PastChart chart(int row) const;
    [[nodiscard]] RowModel* history() { return &history_; }
    [[nodiscard]] FieldsView* fields() { return &fields_; }
    [[nodiscard]] RowModel* groups() { return &groups_; }
    [[nodiscard]] bool hasGroups() const { return groups_.rowCount() > 1; }
    [[nodiscard]] int firstField() const;
    [[nodiscard]] int behindField() const;
    [[nodiscard]] RowModel* choices() { return &choices_; }
    [[nodiscard]] bool hasChoices() const { return choices_.rowCount() > 0; }
    [[nodiscard]] QString choicesTitle() const;
    [[nodiscard]] RowModel* reasons() { return &reasons_; }
    [[nodiscard]] bool isAskingWhy() const { return isAskingWhy_; }
    [[nodiscard]] QString serviceText() const;
    [[nodiscard]] QString name() const;
    [[nodiscard]] bool isChosen() const { return chosen().has_value(); }
    [[nodiscard]] bool isEditing() const { return isEditing_; }
    [[nodiscard]] bool isNew() const { return isNew_; }
    [[nodiscard]] QString newText() const;
    [[nodiscard]] QString newName() const { return newName_; }
    [[nodiscard]] QString mainText() const;
    [[nodiscard]] QString problem() const;
    [[nodiscard]] QString notice() const;

    Q_INVOKABLE void choose(int row);
    Q_INVOKABLE void chooseGroup(int row);
    /// One of `choices`, or none if it was chosen.
    Q_INVOKABLE void pick(int row);
    /// What the active field holds is not known: it is taken back when the change is logged.
    Q_INVOKABLE void forget();
    /// Begins to tell a new one; nothing of it is known yet.
    Q_INVOKABLE void tellNew();
    Q_INVOKABLE void typeName(const QString& name);
    /// The main key: begins to change the chosen one, then logs the change.
    Q_INVOKABLE void goOn();
    /// Leaves the change or the question why; false if there was none to leave. What was typed stays a draft.
    Q_INVOKABLE bool back();
    /// Puts the chosen one back into service, or asks why it is to leave it.
    Q_INVOKABLE void changeService();
    Q_INVOKABLE void because(int reason);

Q_SIGNALS:
    void changed();

protected:
    /// One field of a record as it is typed.
    struct Editable
    {
        FieldsView::Field field;
        std::function<bool(const std::string&)> set; ///< Into the record that is to be put; false if it cannot be read.
        std::function<bool()> takeBack;              ///< What it holds is not known; false if it has to be.
        bool isNeeded = false;                       ///< Of a new one.
        /// Why `set` refuses that text; without it, it is no number.
        std::function<QString(const std::string&)> why = {};
    };

    /// Fields that stand together, and what there is to choose beside them.
    struct Group
    {
        QString name = {};
        std::vector<Editable> fields = {};
        QString choicesTitle = {};
        QList<RowModel::Row> choices = {};  ///< Name, detail.
        std::function<void(int)> pick = {}; ///< Into the record that is to be put.
        bool isChoiceNeeded = false;        ///< Of a new one.
        bool isShape = false; ///< What is chosen decides which groups there are: `begin` asks `pickedIn` for it.
    };

    /// `kind` is one of `run::recordKinds`.
    RecordView(Tablet& tablet, std::string kind, Id drafts, QObject* parent);

    [[nodiscard]] Tablet& tablet() const { return tablet_; }
    void refresh();

    [[nodiscard]] virtual QString stateOf(const run::RecordPut& record) const = 0;
    [[nodiscard]] virtual QList<RowModel::Row> factsOf(const run::RecordPut& record) const = 0;
    /// The id of the words once it is logged: from when it counts.
    [[nodiscard]] virtual const char* loggedWords() const { return "app.record-page.logged"; }
    [[nodiscard]] virtual std::vector<HistoryLine> workOf(const std::string& name) const;
    [[nodiscard]] virtual QList<RowModel::Row> pastOf(const std::string& name) const;
    [[nodiscard]] virtual QList<paper::PastChart> chartsOf(const std::string& name) const;
    /// Takes `record`, or one of which nothing is known if there is none, as the one to be changed, and tells what of
    /// it can be.
    [[nodiscard]] virtual std::vector<Group> begin(const run::RecordPut* record) = 0;
    /// What is chosen in the group of that name, if anything.
    [[nodiscard]] std::optional<int> pickedIn(const QString& group) const;
    virtual void setName(const std::string& name) = 0;
    /// What is odd in `record`, a sentence each: asked once before it is put, and put as typed if a person says so.
    [[nodiscard]] virtual QStringList doubtsAbout(const run::RecordPut& record) const;
    [[nodiscard]] virtual run::RecordPut record() const = 0;

    /// A field for `member`, which stays where it is while it is edited; what it holds stands beside.
    template<class Member>
    [[nodiscard]] static Editable editable(QString name, Member& member, const QStringList& units, bool isKnown,
                                           FieldsView::Field field = {})
    {
        field.name = std::move(name);
        field.units = unitsFor(member, units);
        field.ghost = isKnown ? QString::fromStdString(textIn(member)) : QString();
        return {std::move(field), [&member](const std::string& text) { return readInto(member, text); },
                [&member] { return site::takeBack(member); }};
    }
    /// The fields of a clean ΔP and of where it was measured.
    [[nodiscard]] std::vector<Editable> cleanFields(run::StageRecord& stage, site::CleanAtParts& cleanAt,
                                                    const QStringList& pressures, bool isKnown) const;
    [[nodiscard]] static RowModel::Row choice(const QString& name, const QString& detail = {});

private:
    [[nodiscard]] std::vector<run::RecordPut> records() const;
    [[nodiscard]] std::optional<run::RecordPut> chosen() const;
    [[nodiscard]] bool isOut(const std::string& name) const;
    void showItems();
    void showCharts();
    void showGroups();
    void beginEdit();
    void edit();
    void reshape();
    void log();
    [[nodiscard]] std::vector<FieldsView::Field> fieldsOfParts() const;
    [[nodiscard]] QString missingOfNew() const;
    [[nodiscard]] bool readFields();
    void forgetAsked();
    [[nodiscard]] bool isAsked(const run::RecordPut& put);

    Tablet& tablet_;
    std::string kind_;
    Id drafts_;
    RowModel items_;
    RowModel facts_;
    RowModel past_;
    RowModel charts_;
    QList<paper::PastChart> drawn_;
    RowModel history_;
    RowModel groups_;
    RowModel choices_;
    RowModel reasons_;
    FieldsView fields_;
    std::vector<Group> parts_;
    std::map<QString, int> picked_; ///< By the name of the group.
    std::size_t group_ = 0;
    std::string chosen_;
    bool isEditing_ = false;
    bool isNew_ = false;
    bool isAskingWhy_ = false;
    QString newName_;
    QString notice_;
    QStringList asked_; ///< What is odd and was asked about; empty: nothing.
};

} // namespace loopside::app
