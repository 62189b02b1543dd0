// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "app/row_model.h"

#include <utility>

namespace loopside::app {

RowModel::RowModel(QList<QByteArray> names, QObject* parent) : QAbstractListModel{parent}, names_{std::move(names)} {}

void RowModel::setRows(QList<Row> rows)
{
    if (rows.size() != rows_.size()) {
        beginResetModel();
        rows_ = std::move(rows);
        endResetModel();
        return;
    }
    for (qsizetype i = 0; i < rows.size(); ++i) {
        if (rows[i] != rows_[i]) {
            rows_[i] = std::move(rows[i]);
            const QModelIndex changed = index(static_cast<int>(i));
            Q_EMIT dataChanged(changed, changed);
        }
    }
}

int RowModel::rowCount(const QModelIndex& parent) const
{
    return parent.isValid() ? 0 : static_cast<int>(rows_.size());
}

QVariant RowModel::data(const QModelIndex& index, int role) const
{
    const int column = role - Qt::UserRole;
    if (!checkIndex(index, CheckIndexOption::IndexIsValid) || column < 0 || column >= names_.size()) {
        return {};
    }
    return rows_[index.row()].value(column);
}

QHash<int, QByteArray> RowModel::roleNames() const
{
    QHash<int, QByteArray> roles;
    for (qsizetype i = 0; i < names_.size(); ++i) {
        roles.insert(Qt::UserRole + static_cast<int>(i), names_[i]);
    }
    return roles;
}

} // namespace loopside::app
