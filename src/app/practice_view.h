// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "app/exercise_view.h"

#include <map>

namespace loopside::app {

/// The page of the twelve exercises, and the door into one and out of it.
///
/// Nobody practises while a real cart pumps or an alert of one waits: who practises looks at needles, alerts and a
/// clock that look like the real ones, and must not take the one for the other. Should it come to that during an
/// exercise, the exercise is over and the real screens are back.
class PracticeView : public QObject
{
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("made by the program")

    /// Null while nobody practises.
    Q_PROPERTY(loopside::app::ExerciseView* exercise READ exercise NOTIFY exerciseChanged)
    /// Rows: name, detail (how hard, how it went), isChosen.
    Q_PROPERTY(loopside::app::RowModel* exercises READ exercises CONSTANT)
    Q_PROPERTY(QString title READ title NOTIFY changed)
    Q_PROPERTY(QString task READ task NOTIFY changed)
    /// Why nobody can practise now, or what became of the last exercise; empty if there is nothing to say.
    Q_PROPERTY(QString problem READ problem NOTIFY changed)
    Q_PROPERTY(bool canStart READ canStart NOTIFY changed)

public:
    explicit PracticeView(Tablet& tablet, QObject* parent = nullptr);
    ~PracticeView() override;

    [[nodiscard]] ExerciseView* exercise() const { return exercise_.get(); }
    [[nodiscard]] RowModel* exercises() { return &exercises_; }
    [[nodiscard]] QString title() const;
    [[nodiscard]] QString task() const;
    [[nodiscard]] QString problem() const;
    [[nodiscard]] bool canStart() const;
    /// Of the exercises that are begun from now on.
    void setTheme(const QString& theme) { theme_ = theme; }

    Q_INVOKABLE void choose(int row);
    Q_INVOKABLE void start();
    /// The same exercise anew, with other numbers.
    Q_INVOKABLE void again();
    /// Back to the real screens.
    Q_INVOKABLE void leave();

Q_SIGNALS:
    void changed();
    void exerciseChanged();

private:
    void refresh();
    void watch();
    void keepResult();

    Tablet& tablet_;
    RowModel exercises_;
    std::unique_ptr<ExerciseView> exercise_;
    std::map<int, QString> results_; ///< By number; of this start of the program.
    int chosen_ = 1;
    QString problem_;
    QString theme_ = QStringLiteral("day");
};

} // namespace loopside::app
