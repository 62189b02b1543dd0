// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "app/record_view.h"

#include "app/as_shown.h"
#include "app/wanted_units.h"
#include "app/wording.h"

#include <algorithm>
#include <array>

namespace loopside::app {

namespace {

constexpr const char* newNameDraft = "new.name";
constexpr const char* notKnown = "-"; ///< In a field: what it holds is to be taken back.

std::vector<const char*> leavingReasons(const std::string& kind)
{
    if (kind == "job") {
        return {"not-needed", "done-otherwise", "by-mistake"};
    }
    return {"dismantled", "sold", "broken", "by-mistake"};
}

} // namespace

RecordView::RecordView(Tablet& tablet, std::string kind, Id drafts, QObject* parent)
    : QObject{parent},
      tablet_{tablet},
      kind_{std::move(kind)},
      drafts_{drafts},
      items_{{"name", "detail", "isChosen"}},
      facts_{{"name", "value"}},
      past_{{"name", "value"}},
      charts_{{"title", "text", "hasCourse"}},
      history_{{"amount", "text", "run"}},
      groups_{{"name", "detail", "isChosen"}},
      choices_{{"name", "detail", "isChosen"}},
      reasons_{{"text"}},
      fields_{{FieldsView::Field{}}}
{
    QList<RowModel::Row> reasons;
    for (const char* reason : leavingReasons(kind_)) {
        reasons.append({tablet_.say({std::string("app.leaving.") + reason, {}})});
    }
    reasons_.setRows(std::move(reasons));
    connect(&fields_, &FieldsView::changed, this, &RecordView::forgetAsked);
    connect(&tablet_, &Tablet::changed, this, &RecordView::refresh);
    connect(&tablet_, &Tablet::personChanged, this, &RecordView::refresh);
}

RowModel::Row RecordView::choice(const QString& name, const QString& detail)
{
    return {name, detail};
}

std::vector<RecordView::Editable> RecordView::cleanFields(run::StageRecord& stage, site::CleanAtParts& cleanAt,
                                                          const QStringList& pressures, bool isKnown) const
{
    const auto name = [&](const char* id) { return tablet_.label(id); };
    return {
        editable(name("record.clean_dp"), stage.cleanDp, pressures, isKnown),
        editable(name("record.clean_dp_housing"), stage.cleanDpHousing, pressures, isKnown),
        editable(name("record.clean_at.flow"), cleanAt.flow, {QStringLiteral("L/min"), QStringLiteral("gpm")}, isKnown),
        editable(name("record.clean_at.viscosity"), cleanAt.viscosity, {QStringLiteral("cSt")}, isKnown),
        editable(name("record.clean_at.density"), cleanAt.density, {QStringLiteral("kg/m³"), QStringLiteral("g/mL")},
                 isKnown)};
}

std::optional<int> RecordView::pickedIn(const QString& group) const
{
    const auto picked = picked_.find(group);
    return picked == picked_.end() ? std::nullopt : std::optional(picked->second);
}

std::vector<run::RecordPut> RecordView::records() const
{
    return site::recordsOf(tablet_.site(), kind_);
}

std::optional<run::RecordPut> RecordView::chosen() const
{
    return chosen_.empty() ? std::nullopt : site::recordNamed(tablet_.site(), kind_, chosen_);
}

bool RecordView::isOut(const std::string& name) const
{
    return site::outOfServiceOf(tablet_.site(), kind_, name) != nullptr;
}

std::vector<HistoryLine> RecordView::workOf(const std::string&) const
{
    return {};
}

QList<RowModel::Row> RecordView::pastOf(const std::string&) const
{
    return {};
}

QList<paper::PastChart> RecordView::chartsOf(const std::string&) const
{
    return {};
}

paper::PastChart RecordView::chart(int row) const
{
    return row >= 0 && row < drawn_.size() ? drawn_[row] : paper::PastChart{};
}

void RecordView::showCharts()
{
    drawn_ = isChosen() ? chartsOf(chosen_) : QList<paper::PastChart>();
    QList<RowModel::Row> rows;
    for (const paper::PastChart& chart : drawn_) {
        QStringList lines = {chart.behind, chart.noCourse, chart.hollowText};
        lines.removeAll(QString());
        rows.append({chart.title, lines.join(QStringLiteral(". ")), chart.hasCourse()});
    }
    charts_.setRows(std::move(rows));
}

QStringList RecordView::doubtsAbout(const run::RecordPut&) const
{
    return {};
}

QString RecordView::name() const
{
    return isNew_ ? newText() : toQt(chosen_);
}

QString RecordView::newText() const
{
    return tablet_.say({"app.record-page.new-" + kind_, {}});
}

void RecordView::refresh()
{
    showItems();
    showGroups();
    const auto record = chosen();
    QList<RowModel::Row> facts = record ? factsOf(*record) : QList<RowModel::Row>();
    for (RowModel::Row& fact : facts) {
        fact[0] = asHead(fact[0].toString());
    }
    facts_.setRows(std::move(facts));
    past_.setRows(record ? pastOf(chosen_) : QList<RowModel::Row>());
    showCharts();
    std::vector<HistoryLine> lines;
    if (record) {
        lines = workOf(chosen_);
        const auto changes = changesOf(tablet_, kind_, chosen_);
        lines.insert(lines.end(), changes.begin(), changes.end());
    }
    history_.setRows(historyRows(std::move(lines)));
    Q_EMIT changed();
}

void RecordView::showItems()
{
    QList<RowModel::Row> rows;
    for (const run::RecordPut& record : records()) {
        const std::string name = site::nameOf(record);
        const auto* out = site::outOfServiceOf(tablet_.site(), kind_, name);
        rows.append(
            {toQt(name),
             out == nullptr ? stateOf(record) : tablet_.say({"app.history.out-of-service", {{"why", out->why}}}),
             name == chosen_});
    }
    items_.setRows(std::move(rows));
}

void RecordView::showGroups()
{
    QList<RowModel::Row> groups;
    QList<RowModel::Row> choices;
    if (isEditing_) {
        for (const Group& part : parts_) {
            groups.append({part.name, QString(), groups.size() == static_cast<int>(group_)});
        }
        const auto picked = pickedIn(parts_[group_].name);
        for (const RowModel::Row& row : parts_[group_].choices) {
            choices.append({row[0], row[1], picked == static_cast<int>(choices.size())});
        }
    }
    groups_.setRows(std::move(groups));
    choices_.setRows(std::move(choices));
}

int RecordView::firstField() const
{
    int first = 0;
    for (std::size_t i = 0; i < group_ && i < parts_.size(); ++i) {
        first += static_cast<int>(parts_[i].fields.size());
    }
    return first;
}

int RecordView::behindField() const
{
    return firstField() + (group_ < parts_.size() ? static_cast<int>(parts_[group_].fields.size()) : 0);
}

QString RecordView::choicesTitle() const
{
    return group_ < parts_.size() ? asHead(parts_[group_].choicesTitle) : QString();
}

QString RecordView::serviceText() const
{
    if (kind_ == "job") {
        return tablet_.label(isOut(chosen_) ? "app.planned.again" : "app.planned.withdraw");
    }
    return tablet_.label(isOut(chosen_) ? "app.record-page.into-service" : "app.record-page.out-of-service");
}

QString RecordView::mainText() const
{
    return tablet_.label(!asked_.isEmpty() ? "app.kit.log-so"
                             : isNew_      ? "app.record-page.log-new"
                             : isEditing_  ? "app.record-page.log"
                                           : "app.record-page.change");
}

QString RecordView::problem() const
{
    if (isNew_) {
        return missingOfNew();
    }
    if (!isChosen()) {
        return tablet_.label("app.record-page.choose");
    }
    if (isAskingWhy_) {
        return tablet_.label("app.record-page.choose-why");
    }
    if (isEditing_ && fields_.areEmpty() && picked_.empty()) {
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
    if (wanted.empty()) {
        return tablet_.label("app.record-page.name");
    }
    if (site::recordNamed(tablet_.site(), kind_, wanted)) {
        return tablet_.label("app.record-page.taken");
    }
    int field = 0;
    for (std::size_t i = 0; i < parts_.size(); ++i) {
        for (const Editable& editable : parts_[i].fields) {
            if (editable.isNeeded && (fields_.isEmpty(field) || fields_.text(field) == QLatin1String(notKnown))) {
                return tablet_.say({"app.record-page.need", {{"field", editable.field.name.toStdString()}}});
            }
            ++field;
        }
        if (parts_[i].isChoiceNeeded && !pickedIn(parts_[i].name)) {
            return tablet_.say({"app.record-page.need-choice", {{"choice", parts_[i].choicesTitle.toStdString()}}});
        }
    }
    return {};
}

void RecordView::tellNew()
{
    if (!isEditing_) {
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
    const auto all = records();
    if (!isEditing_ && row >= 0 && row < static_cast<int>(all.size())) {
        chosen_ = site::nameOf(all[static_cast<std::size_t>(row)]);
        isAskingWhy_ = false; // that was about another record
        notice_.clear();
        refresh();
    }
}

void RecordView::chooseGroup(int row)
{
    if (row >= 0 && row < static_cast<int>(parts_.size())) {
        group_ = static_cast<std::size_t>(row);
        fields_.select(firstField());
        refresh();
    }
}

void RecordView::pick(int row)
{
    if (row < 0 || group_ >= parts_.size() || row >= parts_[group_].choices.size()) {
        return;
    }
    forgetAsked();
    const QString& group = parts_[group_].name;
    if (pickedIn(group) == row) {
        picked_.erase(group);
    } else {
        picked_[group] = row;
    }
    if (parts_[group_].isShape) {
        reshape();
    }
    refresh();
}

void RecordView::forget()
{
    if (isEditing_) {
        fields_.replace(QLatin1String(notKnown));
    }
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
    const bool wasInside = isEditing_ || isAskingWhy_;
    isEditing_ = false;
    isNew_ = false;
    isAskingWhy_ = false;
    picked_.clear();
    notice_.clear();
    asked_.clear();
    refresh();
    return wasInside;
}

void RecordView::changeService()
{
    if (isEditing_ || !isChosen()) {
        return;
    }
    if (isOut(chosen_)) {
        tablet_.submit(run::PutRecord{run::RecordServiced{kind_, chosen_, true, {}}});
    } else {
        isAskingWhy_ = true;
        Q_EMIT changed();
    }
}

void RecordView::because(int reason)
{
    if (isAskingWhy_ && reason >= 0 && reason < reasons_.rowCount()) {
        const std::string why = reasons_.rows()[reason][0].toString().toStdString();
        isAskingWhy_ = false;
        tablet_.submit(run::PutRecord{run::RecordServiced{kind_, chosen_, false, why}});
        Q_EMIT changed();
    }
}

void RecordView::beginEdit()
{
    const auto record = chosen();
    parts_ = begin(isNew_ || !record ? nullptr : &*record);
}

std::vector<FieldsView::Field> RecordView::fieldsOfParts() const
{
    std::vector<FieldsView::Field> fields;
    for (const Group& part : parts_) {
        for (const Editable& editable : part.fields) {
            fields.push_back(editable.field);
            fields.back().name = asHead(fields.back().name);
        }
    }
    preferUnits(fields, tablet_.wants());
    return fields;
}

void RecordView::edit()
{
    picked_.clear();
    beginEdit();
    isEditing_ = true;
    group_ = 0;
    fields_.setFields(fieldsOfParts());
    const bool wasTyped = fields_.keepIn(tablet_.drafts(), drafts_, isNew_ ? QString() : name());
    const bool wasNamed = isNew_ && !newName_.isEmpty();
    notice_ = wasTyped || wasNamed ? tablet_.label("app.pad.offered-again") : QString();
    refresh();
}

/// Other groups, as somebody chose; what is typed stays.
void RecordView::reshape()
{
    beginEdit();
    fields_.reshape(fieldsOfParts());
    fields_.select(firstField());
}

/// Into the record that is to be put. What is typed and cannot be read stays where it is, with its sentence.
bool RecordView::readFields()
{
    bool isReadable = true;
    int i = 0;
    for (const Group& part : parts_) {
        for (const Editable& editable : part.fields) {
            const QString unit = fields_.unit(i);
            const QString text = unit.isEmpty() ? fields_.text(i) : fields_.text(i) + QLatin1Char(' ') + unit;
            QString trouble;
            if (fields_.text(i) == QLatin1String(notKnown)) {
                trouble = editable.takeBack() ? QString() : tablet_.label("app.record-page.has-to-be-known");
            } else if (!fields_.isEmpty(i) && !editable.set(text.toStdString())) {
                trouble = editable.why ? editable.why(text.toStdString()) : tablet_.label("app.pad.not-a-number");
            }
            fields_.setProblem(i, trouble);
            notice_ = trouble.isEmpty() ? notice_ : trouble;
            isReadable = isReadable && trouble.isEmpty();
            ++i;
        }
    }
    return isReadable;
}

/// Something was touched: what is odd is asked anew.
void RecordView::forgetAsked()
{
    if (!asked_.isEmpty()) {
        asked_.clear();
        notice_.clear();
    }
    Q_EMIT changed();
}

/// True if something odd in it is to be answered first: the main key pressed once more is the answer.
bool RecordView::isAsked(const run::RecordPut& put)
{
    const bool isAnswered = !asked_.isEmpty();
    asked_ = isAnswered ? QStringList() : doubtsAbout(put);
    if (!asked_.isEmpty()) {
        notice_ = asked_.join(QLatin1Char('\n'));
        Q_EMIT changed();
    }
    return !asked_.isEmpty();
}

void RecordView::log()
{
    beginEdit();
    for (const Group& part : parts_) {
        const auto picked = pickedIn(part.name);
        if (picked && part.pick) {
            part.pick(*picked); // first: what is typed counts for more
        }
    }
    if (!readFields()) {
        Q_EMIT changed();
        return;
    }
    if (isNew_) {
        setName(newName_.trimmed().toStdString());
    }
    const run::RecordPut put = record();
    if (isAsked(put)) {
        return;
    }
    if (tablet_.submit(run::PutRecord{put})) {
        if (isNew_) {
            typeName({});
            chosen_ = site::nameOf(put);
        }
        fields_.clear();
        back();
        notice_ = tablet_.label(loggedWords());
        Q_EMIT changed();
    }
}

} // namespace loopside::app
