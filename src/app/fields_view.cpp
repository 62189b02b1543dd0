// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "app/fields_view.h"

#include "app/wording.h"

#include <algorithm>
#include <utility>

namespace loopside::app {

FieldsView::FieldsView(std::vector<Field> fields, QObject* parent)
    : QObject{parent},
      fields_{std::move(fields)},
      rows_{{"name", "ghost", "text", "unit", "isActive", "hasUnits", "problem"}}
{
    show();
}

void FieldsView::show()
{
    QList<RowModel::Row> rows;
    for (const Field& field : fields_) {
        const QString& beside = field.isOffered && !offered_.isEmpty() ? offered_ : field.ghost;
        rows.append({field.name, beside, field.text, field.units.value(field.unit), rows.size() == active_,
                     field.units.size() > 1, field.problem});
    }
    rows_.setRows(std::move(rows));
    Q_EMIT changed();
}

void FieldsView::setProblem(int field, const QString& problem)
{
    if (at(field).problem != problem) {
        at(field).problem = problem;
        show();
    }
}

void FieldsView::setUnit(int field, const QString& unit)
{
    const auto found = at(field).units.indexOf(unit);
    if (found >= 0 && found != at(field).unit) {
        at(field).unit = static_cast<int>(found);
        show();
    }
}

void FieldsView::replace(const QString& text)
{
    at(active_).text = text;
    store(active_);
    show();
}

void FieldsView::clear()
{
    for (int field = 0; field < count(); ++field) {
        at(field).text.clear();
        at(field).problem.clear();
        store(field);
    }
    active_ = 0;
    show();
}

bool FieldsView::areEmpty() const
{
    return std::ranges::all_of(fields_, [](const Field& field) { return field.text.isEmpty(); });
}

void FieldsView::setFields(std::vector<Field> fields)
{
    drafts_ = nullptr;
    before_.clear();
    fields_ = std::move(fields);
    active_ = 0;
    show();
}

bool FieldsView::keepIn(store::DraftStore& drafts, const Id& id, const QString& place, const QString& offered)
{
    drafts_ = &drafts;
    draftId_ = id;
    place_ = place;
    offered_ = offered;
    offerDrafts();
    show();
    return !areEmpty();
}

void FieldsView::reshape(std::vector<Field> fields)
{
    for (int i = 0; i < count(); ++i) {
        before_.insert_or_assign(keyOf(i), at(i));
    }
    fields_ = std::move(fields);
    active_ = 0;
    if (drafts_ != nullptr) {
        offerDrafts();
    }
    for (int i = 0; i < count(); ++i) {
        if (const auto was = before_.find(keyOf(i)); was != before_.end()) {
            at(i).text = was->second.text;
            at(i).isOffered = was->second.isOffered;
            at(i).unit = std::max(0, static_cast<int>(at(i).units.indexOf(was->second.units.value(was->second.unit))));
        }
    }
    show();
}

void FieldsView::offerDrafts()
{
    const auto kept = drafts_->of(draftId_).value_or(std::map<std::string, std::string>{});
    for (int i = 0; i < count(); ++i) {
        const auto draft = [&](const char* part) {
            const auto found = kept.find(draftName(i, part));
            return found == kept.end() ? QString() : QString::fromStdString(found->second);
        };
        at(i).text = draft("text");
        at(i).isOffered = !at(i).text.isEmpty();
        if (const auto unit = at(i).units.indexOf(draft("unit")); unit >= 0 && !at(i).text.isEmpty()) {
            at(i).unit = static_cast<int>(unit);
        }
    }
}

QString FieldsView::keyOf(int field) const
{
    return at(field).key.isEmpty() ? QString::number(field) : at(field).key;
}

std::string FieldsView::draftName(int field, const char* part) const
{
    return QStringLiteral("%1.%2.%3").arg(place_, keyOf(field), QLatin1String(part)).toStdString();
}

void FieldsView::store(int field)
{
    at(field).isOffered = false;
    if (drafts_ != nullptr) {
        isKept_ = drafts_->put(draftId_, draftName(field, "text"), text(field).toStdString()).has_value()
            && drafts_->put(draftId_, draftName(field, "unit"), unit(field).toStdString()).has_value();
    }
}

void FieldsView::select(int field)
{
    if (field != active_ && field >= 0 && field < static_cast<int>(fields_.size())) {
        active_ = field;
        show();
    }
}

QString FieldsView::point() const
{
    const Field& field = at(active_);
    return field.canBeBelowZero && field.text.isEmpty() ? minusKey : field.point;
}

void FieldsView::key(const QString& sign)
{
    Field& field = at(active_);
    const bool isSign = sign.size() == 1 && field.alsoTakes.contains(sign);
    const QString typed = sign == minusKey       ? QStringLiteral("-")
        : sign == QStringLiteral(",") && !isSign ? QStringLiteral(".")
                                                 : sign;
    const bool isNumber = typed.size() == 1
        && (typed[0].isDigit() || typed == field.point || (typed == QStringLiteral("-") && field.text.isEmpty()));
    const bool isLetter = field.takesLetters && typed.size() == 1
        && (typed[0].isLetterOrNumber() || typed[0] == QLatin1Char('-')
            || (typed[0] == QLatin1Char(' ') && !field.text.isEmpty()));
    if ((isNumber || isLetter || isSign) && field.text.size() < field.longest) {
        field.text += typed;
        store(active_);
        show();
    }
}

void FieldsView::backspace()
{
    at(active_).text.chop(1);
    store(active_);
    show();
}

void FieldsView::stepUnit(int field)
{
    if (at(field).units.size() > 1) {
        at(field).unit = (at(field).unit + 1) % static_cast<int>(at(field).units.size());
        store(field);
        show();
    }
}

} // namespace loopside::app
