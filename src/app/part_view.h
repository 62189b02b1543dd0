// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "app/fields_view.h"
#include "app/tablet.h"

#include <QObject>
#include <QtQml/qqmlregistration.h>

namespace loopside::app {

/// For how many of the minutes that nobody watched the oil went through the filters, as a person says. What is typed is
/// a draft until it is logged, of the gap that it is about.
class PartView : public QObject
{
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("made by the program")

    Q_PROPERTY(bool isUp READ isUp NOTIFY changed)
    /// "Nothing was entered for 70 min. How many of them was it filtering?"
    Q_PROPERTY(QString text READ text NOTIFY changed)
    /// Why what was typed cannot be; empty if it can.
    Q_PROPERTY(QString problem READ problem NOTIFY changed)
    Q_PROPERTY(loopside::app::FieldsView* fields READ fields CONSTANT)

public:
    explicit PartView(Tablet& tablet, QObject* parent = nullptr);

    [[nodiscard]] bool isUp() const { return isUp_; }
    [[nodiscard]] QString text() const { return text_; }
    [[nodiscard]] QString problem() const { return problem_; }
    [[nodiscard]] FieldsView* fields() { return &fields_; }

    /// Asks about the gap that `question` asks about (run::unwatchedGap).
    void ask(const run::Question& question);
    /// Answers the question with the minutes typed; says why not where they are no number or more than there were.
    Q_INVOKABLE void log();
    Q_INVOKABLE void back();

Q_SIGNALS:
    void changed();

private:
    Tablet& tablet_;
    FieldsView fields_;
    bool isUp_ = false;
    QString text_;
    QString problem_;
    Id of_ = {};
    QString minutes_; ///< That nobody watched.
};

} // namespace loopside::app
