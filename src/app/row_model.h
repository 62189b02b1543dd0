// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include <QAbstractListModel>
#include <QByteArray>
#include <QList>
#include <QVariant>
#include <QtQml/qqmlregistration.h>

namespace loopside::app {

/// A short list for QML: every row has the same named values. Rows that stay are updated, not made anew.
class RowModel : public QAbstractListModel
{
    Q_OBJECT
    QML_ANONYMOUS

public:
    using Row = QList<QVariant>;

    /// `names` are the roles, in the order of the values in a row.
    explicit RowModel(QList<QByteArray> names, QObject* parent = nullptr);

    void setRows(QList<Row> rows);
    [[nodiscard]] const QList<Row>& rows() const { return rows_; }

    [[nodiscard]] int rowCount(const QModelIndex& parent = {}) const override;
    [[nodiscard]] QVariant data(const QModelIndex& index, int role) const override;
    [[nodiscard]] QHash<int, QByteArray> roleNames() const override;

private:
    QList<QByteArray> names_;
    QList<Row> rows_;
};

} // namespace loopside::app
