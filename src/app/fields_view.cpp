// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "app/fields_view.h"

#include <utility>

namespace loopside::app {

FieldsView::FieldsView(std::vector<Field> fields, QObject* parent)
    : QObject{parent}, fields_{std::move(fields)}, rows_{{"name", "text", "unit", "isActive", "hasUnits", "problem"}}
{
    show();
}

void FieldsView::show()
{
    QList<RowModel::Row> rows;
    for (const Field& field : fields_) {
        rows.append({field.name, field.text, field.units.value(field.unit), rows.size() == active_,
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

void FieldsView::clear()
{
    for (Field& field : fields_) {
        field.text.clear();
        field.problem.clear();
    }
    active_ = 0;
    show();
}

void FieldsView::select(int field)
{
    if (field != active_ && field >= 0 && field < static_cast<int>(fields_.size())) {
        active_ = field;
        show();
    }
}

void FieldsView::key(const QString& sign)
{
    Field& field = at(active_);
    const QString typed = sign == QStringLiteral(",") ? QStringLiteral(".") : sign;
    const bool isNumber = typed.size() == 1
        && (typed[0].isDigit() || typed == field.point || (typed == QStringLiteral("-") && field.text.isEmpty()));
    const bool isLetter = field.takesLetters && typed.size() == 1
        && (typed[0].isLetterOrNumber() || typed[0] == QLatin1Char('-'));
    if ((isNumber || isLetter) && field.text.size() < field.longest) {
        field.text += typed;
        show();
    }
}

void FieldsView::backspace()
{
    at(active_).text.chop(1);
    show();
}

void FieldsView::stepUnit(int field)
{
    if (at(field).units.size() > 1) {
        at(field).unit = (at(field).unit + 1) % static_cast<int>(at(field).units.size());
        show();
    }
}

} // namespace loopside::app
