// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "app/row_model.h"
#include "app/tablet.h"

#include <QObject>
#include <QtQml/qqmlregistration.h>

#include <string>
#include <variant>
#include <vector>

namespace loopside::app {

/// Where a shift begins: today's runs, open jobs, how tanks and carts stand, what is on this tablet only.
class ShiftView : public QObject
{
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("made by the program")

    /// What somebody has to say of runs (handed to this tablet, one run or two), then open runs, the gravest first,
    /// then open jobs, then planned ones, the first due first, then what was closed today, the latest first. Rows: name
    /// (tank or cart), detail (with what, how far, when to read), sign, signText, isLoud (somebody has to act), isOpen.
    Q_PROPERTY(loopside::app::RowModel* work READ work CONSTANT)
    /// In use first. Rows: name, value (what goes on there, else what is known).
    Q_PROPERTY(loopside::app::RowModel* tanks READ tanks CONSTANT)
    Q_PROPERTY(loopside::app::RowModel* carts READ carts CONSTANT)
    Q_PROPERTY(QString siteName READ siteName CONSTANT)
    /// What of it is what: the runs and jobs that were open today, then all the rest. Rows: name, value.
    Q_PROPERTY(loopside::app::RowModel* onlyHere READ onlyHere CONSTANT)
    /// "Still only on this tablet: 112 entries."
    Q_PROPERTY(QString onlyHereText READ onlyHereText NOTIFY changed)

public:
    explicit ShiftView(Tablet& tablet, QObject* parent = nullptr);

    [[nodiscard]] RowModel* work() { return &work_; }
    [[nodiscard]] RowModel* tanks() { return &tanks_; }
    [[nodiscard]] RowModel* carts() { return &carts_; }
    [[nodiscard]] RowModel* onlyHere() { return &onlyHere_; }
    [[nodiscard]] QString siteName() const { return QString::fromStdString(tablet_.site().name); }
    [[nodiscard]] QString onlyHereText() const;

    /// Goes to the run or job of that row of `work`.
    Q_INVOKABLE void open(int row);

Q_SIGNALS:
    void changed();
    void runWanted(const loopside::Id& run);
    void flushWanted();
    void transferWanted();
    void jobWanted(const loopside::run::JobRecord& job);
    /// It was handed to this tablet.
    void takeOverWanted(const loopside::Id& run);
    /// Somebody is to say whether these are one.
    void linkWanted(const loopside::run::RunPair& pair);

private:
    void refresh();
    void showWork();
    void showOnlyHere();
    void addOffered(QList<RowModel::Row>& rows);
    void addLinks(QList<RowModel::Row>& rows);
    void addRuns(QList<RowModel::Row>& rows);
    void addJobs(QList<RowModel::Row>& rows);
    void addPlanned(QList<RowModel::Row>& rows);
    void addClosed(QList<RowModel::Row>& rows);
    [[nodiscard]] QString progressOf(const run::RunState& run) const;
    [[nodiscard]] QString oneWithText(const run::RunState& run) const;
    [[nodiscard]] QString timesText(const run::RunState& run) const;
    [[nodiscard]] RowModel::Row rowOf(const run::Job& job) const;

    Tablet& tablet_;
    RowModel work_;
    RowModel tanks_;
    RowModel carts_;
    RowModel onlyHere_;
    struct Offered
    {
        Id run = {};
    };
    /// A run or job that was begun, the order of a planned one, or what is asked of runs.
    using Place = std::variant<Id, std::string, Offered, run::RunPair>;
    std::vector<Place> places_; ///< Of the rows of `work_`.
};

} // namespace loopside::app
