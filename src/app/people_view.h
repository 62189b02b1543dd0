// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "app/row_model.h"
#include "app/tablet.h"

#include <QObject>
#include <QtQml/qqmlregistration.h>

namespace loopside::app {

/// The people who may hold the tablet, and what each of them wants: units, language, theme, hand, size of the text,
/// whether anything flashes or moves.
///
/// What is wanted is put into the journal as a whole record, with the person's id and no name. A name stands in the
/// site file alone, where it can be erased: a new person, another name and leaving service are put there, without an
/// entry.
class PeopleView : public QObject
{
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("made by the program")

    /// Those in service, then those out of it. Rows: name, detail (holds the tablet; how many entries today), isChosen.
    Q_PROPERTY(loopside::app::RowModel* people READ people CONSTANT)
    /// Rows of each: name, detail, isChosen.
    Q_PROPERTY(loopside::app::RowModel* pressures READ pressures CONSTANT)
    Q_PROPERTY(loopside::app::RowModel* volumes READ volumes CONSTANT)
    Q_PROPERTY(loopside::app::RowModel* temperatures READ temperatures CONSTANT)
    Q_PROPERTY(loopside::app::RowModel* languages READ languages CONSTANT)
    Q_PROPERTY(loopside::app::RowModel* themes READ themes CONSTANT)
    Q_PROPERTY(loopside::app::RowModel* hands READ hands CONSTANT)
    Q_PROPERTY(loopside::app::RowModel* textSizes READ textSizes CONSTANT)
    Q_PROPERTY(loopside::app::RowModel* motions READ motions CONSTANT)
    /// Who changed it when, the latest first. Rows: amount (empty), text.
    Q_PROPERTY(loopside::app::RowModel* history READ history CONSTANT)
    Q_PROPERTY(QString name READ name NOTIFY changed)
    /// A name is being typed: that of a new person, or another one of the chosen.
    Q_PROPERTY(bool isNaming READ isNaming NOTIFY changed)
    Q_PROPERTY(QString typedName READ typedName NOTIFY changed)
    /// What the key says that takes the chosen one out of service or puts them back.
    Q_PROPERTY(QString serviceText READ serviceText NOTIFY changed)
    Q_PROPERTY(QString mainText READ mainText NOTIFY changed)
    Q_PROPERTY(QString problem READ problem NOTIFY changed)
    Q_PROPERTY(QString notice READ notice NOTIFY changed)

public:
    explicit PeopleView(Tablet& tablet, QObject* parent = nullptr);

    [[nodiscard]] RowModel* people() { return &people_; }
    [[nodiscard]] RowModel* pressures() { return &pressures_; }
    [[nodiscard]] RowModel* volumes() { return &volumes_; }
    [[nodiscard]] RowModel* temperatures() { return &temperatures_; }
    [[nodiscard]] RowModel* languages() { return &languages_; }
    [[nodiscard]] RowModel* themes() { return &themes_; }
    [[nodiscard]] RowModel* hands() { return &hands_; }
    [[nodiscard]] RowModel* textSizes() { return &textSizes_; }
    [[nodiscard]] RowModel* motions() { return &motions_; }
    [[nodiscard]] RowModel* history() { return &history_; }
    [[nodiscard]] QString name() const;
    [[nodiscard]] bool isNaming() const { return naming_ != Naming::Nobody; }
    [[nodiscard]] QString typedName() const { return typedName_; }
    [[nodiscard]] QString serviceText() const;
    [[nodiscard]] QString mainText() const;
    [[nodiscard]] QString problem() const;
    [[nodiscard]] QString notice() const { return notice_; }

    /// Begins with who holds the tablet.
    void open();
    Q_INVOKABLE void choose(int row);
    Q_INVOKABLE void choosePressure(int row);
    Q_INVOKABLE void chooseVolume(int row);
    Q_INVOKABLE void chooseTemperature(int row);
    Q_INVOKABLE void chooseLanguage(int row);
    Q_INVOKABLE void chooseTheme(int row);
    Q_INVOKABLE void chooseHand(int row);
    Q_INVOKABLE void chooseTextSize(int row);
    Q_INVOKABLE void chooseMotion(int row);
    /// The main key: stores the name that is typed, else logs the wishes.
    Q_INVOKABLE void log();
    Q_INVOKABLE void tellNew();
    Q_INVOKABLE void rename();
    Q_INVOKABLE void typeName(const QString& name);
    Q_INVOKABLE void changeService();
    /// Leaves the name that is being typed, which stays a draft; false if there was none to leave.
    Q_INVOKABLE bool back();

Q_SIGNALS:
    void changed();

private:
    enum class Naming
    {
        Nobody,
        New,
        Chosen
    };

    void refresh();
    void beginNaming(Naming naming);
    void storeName();
    [[nodiscard]] std::string nameDraft() const;
    [[nodiscard]] QString nameProblem() const;
    [[nodiscard]] bool isOut() const;
    void showPeople();
    void showChoices();
    void showHistory();
    [[nodiscard]] const SitePerson& person() const;
    /// In runs, jobs, the stock and the catalogue; what the tablet told by itself is not counted.
    [[nodiscard]] int entriesToday(const Id& person) const;

    Tablet& tablet_;
    RowModel people_;
    RowModel pressures_;
    RowModel volumes_;
    RowModel temperatures_;
    RowModel languages_;
    RowModel themes_;
    RowModel hands_;
    RowModel textSizes_;
    RowModel motions_;
    RowModel history_;
    Id chosen_ = {};
    Naming naming_ = Naming::Nobody;
    QString typedName_;
    run::PersonRecord wants_; ///< As chosen, not yet logged.
    QString notice_;
};

} // namespace loopside::app
