// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "app/row_model.h"
#include "app/tablet.h"
#include "site/preview.h"

#include <QObject>
#include <QStringList>
#include <QtQml/qqmlregistration.h>

#include <functional>
#include <optional>
#include <string>
#include <vector>

namespace loopside::app {

/// Records and results of a laboratory from a file: which files there are, what one of them would change, row by row,
/// and taking its good rows. Nothing is stored before the main key is touched; then all good rows of records are, or
/// none, and of results one by one.
class FileView : public QObject
{
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("made by the program")

    /// What a file can hold. Rows: name, detail (empty), isChosen.
    Q_PROPERTY(loopside::app::RowModel* kinds READ kinds CONSTANT)
    /// Those of the folder of the tablet, then those of each stick. Rows: name, detail (when it was changed, and on
    /// which stick it is), isChosen.
    Q_PROPERTY(loopside::app::RowModel* files READ files CONSTANT)
    /// What cannot be read first, then what changes, what is new, what is the same. Rows: sign, title (row, what
    /// becomes of it, name), text (changes, or what is wrong and what to do).
    Q_PROPERTY(loopside::app::RowModel* rows READ rows CONSTANT)
    /// Where files are looked for, and that there are none.
    Q_PROPERTY(QString folderText READ folderText NOTIFY changed)
    /// How many rows are new, change and so on; empty without a preview.
    Q_PROPERTY(QString summary READ summary NOTIFY changed)
    Q_PROPERTY(QString mainText READ mainText NOTIFY changed)
    Q_PROPERTY(QString problem READ problem NOTIFY changed)
    Q_PROPERTY(QString notice READ notice NOTIFY changed)

public:
    explicit FileView(Tablet& tablet, QObject* parent = nullptr);

    [[nodiscard]] RowModel* kinds() { return &kinds_; }
    [[nodiscard]] RowModel* files() { return &files_; }
    [[nodiscard]] RowModel* rows() { return &rows_; }
    [[nodiscard]] QString folderText() const;
    [[nodiscard]] QString summary() const;
    [[nodiscard]] QString mainText() const;
    [[nodiscard]] QString problem() const;
    [[nodiscard]] QString notice() const { return notice_; }

    /// Looks for files anew.
    void open();
    /// Where sticks are looked for; without it those that are mounted. Nothing is written there.
    void lookAt(std::function<QStringList()> media);

    Q_INVOKABLE void chooseKind(int row);
    Q_INVOKABLE void chooseFile(int row);
    /// The main key: takes the good rows.
    Q_INVOKABLE void take();

Q_SIGNALS:
    void changed();

private:
    /// A file that can be chosen.
    struct Found
    {
        QString path;
        QString name;
        QString detail;
    };

    void look();
    void lookIn(const QString& folder, const QString& stick);
    void preview();
    [[nodiscard]] Result<site::Preview> previewOf(const std::string& file, std::string text) const;
    void refresh();
    [[nodiscard]] RowModel::Row rowOf(const site::PreviewRow& row) const;
    [[nodiscard]] QString textOf(const site::RowFault& fault) const;

    Tablet& tablet_;
    RowModel kinds_;
    RowModel files_;
    RowModel rows_;
    std::function<QStringList()> media_;
    std::vector<Found> found_;
    QString file_; ///< The path of the chosen one.
    int kind_ = -1;
    std::optional<site::Preview> preview_;
    QString trouble_; ///< Why the file as a whole cannot be read.
    QString notice_;
};

} // namespace loopside::app
