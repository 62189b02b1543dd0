// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "app/row_model.h"
#include "app/tablet.h"

#include <QObject>
#include <QtQml/qqmlregistration.h>

namespace loopside::app {

/// The entry pad: one field per gauge, then the oil temperature. What is typed is stored at every key and survives a
/// kill; it is logged only by `goOn` on a complete set. Nothing is ever filled in.
class PadView : public QObject
{
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("made by the program")

    /// Rows: name, text, ghost, unit, isActive, spoken, problem.
    Q_PROPERTY(loopside::app::RowModel* fields READ fields CONSTANT)
    Q_PROPERTY(int active READ active NOTIFY changed)
    Q_PROPERTY(bool cannotRead READ cannotRead NOTIFY changed)
    Q_PROPERTY(bool swings READ swings NOTIFY changed)
    Q_PROPERTY(bool isComplete READ isComplete NOTIFY changed)
    /// What the main key does now: "Next: G2" or "Log reading".
    Q_PROPERTY(QString mainText READ mainText NOTIFY changed)
    /// What the key left of the 0 types: the point, or a minus where nothing stands yet; no number begins with a point.
    Q_PROPERTY(QString point READ point NOTIFY changed)
    /// "now", or "10 min ago" where the set was read earlier.
    Q_PROPERTY(QString readText READ readText NOTIFY changed)
    /// A plain sentence about what was typed or what happened to it; empty if there is none.
    Q_PROPERTY(QString notice READ notice NOTIFY changed)
    Q_PROPERTY(bool noticeIsProblem READ noticeIsProblem NOTIFY changed)

public:
    explicit PadView(Tablet& tablet, QObject* parent = nullptr);

    [[nodiscard]] RowModel* fields() { return &rows_; }
    [[nodiscard]] int active() const { return active_; }
    [[nodiscard]] bool cannotRead() const;
    [[nodiscard]] bool swings() const;
    [[nodiscard]] bool isComplete() const;
    [[nodiscard]] QString mainText() const;
    [[nodiscard]] QString point() const;
    [[nodiscard]] QString readText() const;
    [[nodiscard]] QString notice() const { return notice_; }
    [[nodiscard]] bool noticeIsProblem() const { return noticeIsProblem_; }

    /// A key of the pad: 0 to 9, "." or "-".
    /// Shows `sentence` where the pad tells what it did.
    void tell(const QString& sentence) { say(sentence, false); }

    Q_INVOKABLE void key(const QString& pressed);
    Q_INVOKABLE void backspace();
    Q_INVOKABLE void select(int field);
    Q_INVOKABLE void toggleCannotRead();
    /// Low and high end of a needle that swings: the first press asks for the high end.
    Q_INVOKABLE void toggleSwings();
    /// Steps through now, 5, 10 and 15 minutes ago.
    Q_INVOKABLE void stepReadEarlier();
    /// The main key: to the next empty field, or logs the set.
    Q_INVOKABLE void goOn();

Q_SIGNALS:
    void changed();
    void logged();

private:
    struct Field
    {
        QString low;
        QString high;
        bool hasHigh = false;
        bool cannotRead = false;

        [[nodiscard]] bool isFilled() const;
    };

    void load();
    void store();
    void refresh();
    void say(const QString& sentence, bool isProblem);
    void log();
    [[nodiscard]] int gaugeCount() const;
    [[nodiscard]] bool isComplete(int field) const;
    [[nodiscard]] QString nameOf(int field) const;
    [[nodiscard]] QString unitOf(int field) const;
    [[nodiscard]] QString ghostOf(int field) const;
    [[nodiscard]] int firstEmpty() const;
    void takeOilUnit();
    [[nodiscard]] QString problemOf(int field) const;

    Tablet& tablet_;
    RowModel rows_;
    QList<Field> typed_;
    Id run_;
    /// Of the oil field: the one that is wanted, as long as nothing stands in it.
    const units::NamedUnit<units::Temperature>* oilUnit_ = nullptr;
    int active_ = 0;
    bool advancedByItself_ = false;
    int agoMinutes_ = 0;
    QString notice_;
    bool noticeIsProblem_ = false;
};

} // namespace loopside::app
