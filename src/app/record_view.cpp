// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "app/record_view.h"

#include "app/job_words.h"
#include "app/wanted_units.h"
#include "app/wording.h"

#include <algorithm>

namespace loopside::app {

namespace {

constexpr const char* newNameDraft = "new.name";

} // namespace

RecordView::RecordView(Tablet& tablet, Id drafts, QObject* parent)
    : QObject{parent},
      tablet_{tablet},
      drafts_{drafts},
      items_{{"name", "detail", "isChosen"}},
      facts_{{"name", "value"}},
      history_{{"amount", "text"}},
      fluids_{{"name", "detail", "isChosen"}},
      fields_{{FieldsView::Field{}}}
{
    connect(&fields_, &FieldsView::changed, this, &RecordView::changed);
    connect(&tablet_, &Tablet::changed, this, &RecordView::refresh);
    connect(&tablet_, &Tablet::personChanged, this, &RecordView::refresh);
}

QString RecordView::name() const
{
    return isNew_    ? tablet_.label("app.record-page.new")
        : isChosen() ? toQt(names()[static_cast<std::size_t>(row_)])
                     : QString();
}

void RecordView::refresh()
{
    showItems();
    showFluids();
    facts_.setRows(isChosen() ? factsOf(row_) : QList<RowModel::Row>());
    history_.setRows(isChosen() ? historyRows(historyOf(name().toStdString())) : QList<RowModel::Row>());
    Q_EMIT changed();
}

void RecordView::showItems()
{
    QList<RowModel::Row> rows;
    for (const std::string& name : names()) {
        rows.append({toQt(name), stateOf(name), rows.size() == row_});
    }
    items_.setRows(std::move(rows));
}

void RecordView::showFluids()
{
    QList<RowModel::Row> rows;
    if (isEditing_ && hasFluid()) {
        for (const SiteFluid& fluid : fluidsOf(tablet_.site())) {
            rows.append({toQt(fluid.text), QString(), rows.size() == fluid_});
        }
    }
    fluids_.setRows(std::move(rows));
}

QString RecordView::mainText() const
{
    return tablet_.label(isEditing_ ? "app.record-page.log" : "app.record-page.change");
}

QString RecordView::problem() const
{
    if (isNew_) {
        return missingOfNew();
    }
    if (!isChosen()) {
        return tablet_.label("app.record-page.choose");
    }
    if (!isEditing_) {
        return {};
    }
    if (fields_.areEmpty() && fluid_ < 0) {
        return tablet_.label("app.record-page.type");
    }
    return {};
}

/// A draft that was not kept stands in nobody's way, but is told.
QString RecordView::notice() const
{
    return fields_.isKept() ? notice_ : tablet_.label("app.pad.draft-not-stored");
}

QString RecordView::missingOfNew() const
{
    const std::string wanted = newName_.trimmed().toStdString();
    const auto known = names();
    if (wanted.empty()) {
        return tablet_.label("app.record-page.name");
    }
    if (std::ranges::find(known, wanted) != known.end()) {
        return tablet_.label("app.record-page.taken");
    }
    if (fields_.isEmpty(0)) {
        return tablet_.say({"app.record-page.need", {{"field", editables_.front().field.name.toStdString()}}});
    }
    return hasFluid() && fluid_ < 0 ? tablet_.label("app.record-page.need-fluid") : QString();
}

void RecordView::tellNew()
{
    if (canBeNew() && !isEditing_) {
        isNew_ = true;
        auto drafts = tablet_.drafts().of(drafts_).value_or(std::map<std::string, std::string>{});
        newName_ = toQt(drafts[newNameDraft]);
        edit();
    }
}

void RecordView::typeName(const QString& name)
{
    if (isNew_ && name != newName_) {
        newName_ = name;
        const bool isKept = tablet_.drafts().put(drafts_, newNameDraft, name.toStdString()).has_value();
        notice_ = isKept ? QString() : tablet_.label("app.pad.draft-not-stored");
        Q_EMIT changed();
    }
}

void RecordView::choose(int row)
{
    if (!isEditing_ && row >= 0 && row < items_.rowCount()) {
        row_ = row;
        notice_.clear();
        refresh();
    }
}

void RecordView::chooseFluid(int row)
{
    fluid_ = row == fluid_ ? -1 : row;
    refresh();
}

void RecordView::goOn()
{
    if (!problem().isEmpty()) {
        return;
    }
    if (isEditing_) {
        log();
    } else {
        edit();
    }
}

bool RecordView::back()
{
    const bool wasEditing = isEditing_;
    isEditing_ = false;
    isNew_ = false;
    fluid_ = -1;
    notice_.clear();
    refresh();
    return wasEditing;
}

void RecordView::edit()
{
    editables_ = begin(isNew_ ? -1 : row_);
    std::vector<FieldsView::Field> fields;
    for (const Editable& editable : editables_) {
        fields.push_back(editable.field);
    }
    isEditing_ = true;
    fluid_ = -1;
    fields_.setFields(std::move(fields));
    preferUnits(fields_, tablet_.wants());
    const bool wasTyped = fields_.keepIn(tablet_.drafts(), drafts_, isNew_ ? QString() : name());
    const bool wasNamed = isNew_ && !newName_.isEmpty();
    notice_ = wasTyped || wasNamed ? tablet_.label("app.pad.offered-again") : QString();
    refresh();
}

/// Into the record that is to be put. What is typed and cannot be read stays where it is, with its sentence.
bool RecordView::readFields()
{
    bool isReadable = true;
    for (int i = 0; i < fields_.count(); ++i) {
        const QString unit = fields_.unit(i);
        const QString text = unit.isEmpty() ? fields_.text(i) : fields_.text(i) + QLatin1Char(' ') + unit;
        const bool isRead = fields_.isEmpty(i) || editables_[static_cast<std::size_t>(i)].set(text.toStdString());
        fields_.setProblem(i, isRead ? QString() : tablet_.label("app.pad.not-a-number"));
        isReadable = isReadable && isRead;
    }
    return isReadable;
}

void RecordView::log()
{
    editables_ = begin(isNew_ ? -1 : row_);
    if (!readFields()) {
        notice_ = tablet_.label("app.pad.not-a-number");
        Q_EMIT changed();
        return;
    }
    if (fluid_ >= 0) {
        setFluid(fluidsOf(tablet_.site())[static_cast<std::size_t>(fluid_)].record);
    }
    if (isNew_) {
        setName(newName_.trimmed().toStdString());
    }
    const bool wasNew = isNew_;
    if (tablet_.submit(run::PutRecord{record()})) {
        if (wasNew) {
            typeName({});
            row_ = static_cast<int>(names().size()) - 1;
        }
        fields_.clear();
        back();
        notice_ = tablet_.label("app.record-page.logged");
        Q_EMIT changed();
    }
}

} // namespace loopside::app
