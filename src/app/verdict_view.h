// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "app/row_model.h"
#include "run/start.h"
#include "words/planned.h"

#include <QObject>
#include <QtQml/qqmlregistration.h>

namespace loopside::app {

/// The shape of `Sign` for how an item fits, and the id of its word.
[[nodiscard]] QString fitSign(run::Fit fit);
[[nodiscard]] std::string fitText(run::Fit fit);

/// May the pump be started? The verdict as a shape and a word, its reason in one sentence, and what it rests on.
class VerdictView : public QObject
{
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("made by the program")

    /// A shape of `Sign`: ok, slower, warm, no-go, unknown; later while there is nothing to judge.
    Q_PROPERTY(QString sign READ sign NOTIFY changed)
    /// Which colours it is shown in: ok, caution, danger or none.
    Q_PROPERTY(QString level READ level NOTIFY changed)
    Q_PROPERTY(QString word READ word NOTIFY changed)
    Q_PROPERTY(QString reason READ reason NOTIFY changed)
    /// From how warm it goes. Rows: text.
    Q_PROPERTY(loopside::app::RowModel* goFrom READ goFrom CONSTANT)
    /// What is taken because it is not known, in one line; and with where it is from, a row each. Rows: text.
    Q_PROPERTY(QString assumedShort READ assumedShort NOTIFY changed)
    Q_PROPERTY(loopside::app::RowModel* assumed READ assumed CONSTANT)
    /// Every item. Rows: name, expected, allowed, text, fraction (of what is allowed, 0 to 1), sign, signText,
    /// isLimiting.
    Q_PROPERTY(loopside::app::RowModel* items READ items CONSTANT)
    /// What can be done where it does not go. Rows: text.
    Q_PROPERTY(loopside::app::RowModel* options READ options CONSTANT)

public:
    explicit VerdictView(const words::Words& words, QObject* parent = nullptr);

    [[nodiscard]] QString sign() const { return sign_; }
    [[nodiscard]] QString level() const { return level_; }
    [[nodiscard]] QString word() const { return word_; }
    [[nodiscard]] QString reason() const { return reason_; }
    [[nodiscard]] RowModel* goFrom() { return &goFrom_; }
    [[nodiscard]] QString assumedShort() const { return assumedShort_; }
    [[nodiscard]] RowModel* assumed() { return &assumed_; }
    [[nodiscard]] RowModel* items() { return &items_; }
    [[nodiscard]] RowModel* options() { return &options_; }

    /// Nothing to judge yet; `why` says what is missing.
    void showNothing(const QString& why);
    void show(const run::StartJudged& start, const run::CartRecord& cart, const words::TemperatureUnit& unit);
    /// The figures may fit, but whether cart and tablet are allowed in the area was left out: nothing is shown as if it
    /// were.
    void holdBackForArea();

Q_SIGNALS:
    void changed();

private:
    void showItems(const run::StartJudged& start);
    void showOptions(const run::StartJudged& start, const run::CartRecord& cart, const words::TemperatureUnit& unit);

    const words::Words& words_;
    QString sign_;
    QString level_;
    QString word_;
    QString reason_;
    QString assumedShort_;
    RowModel goFrom_;
    RowModel assumed_;
    RowModel items_;
    RowModel options_;
};

} // namespace loopside::app
