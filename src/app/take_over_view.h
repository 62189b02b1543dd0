// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "app/own_words.h"
#include "app/row_model.h"
#include "app/tablet.h"

#include <QObject>
#include <QtQml/qqmlregistration.h>

#include <optional>
#include <vector>

namespace loopside::app {

/// Takes a run over that another tablet has: by the six signs that it shows, or because it was handed to this tablet.
/// Where the entries of the run are not here, it says so, keeps what was typed and says what to do.
class TakeOverView : public QObject
{
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("made by the program")

    /// What was typed so far, a draft until the run is taken over.
    Q_PROPERTY(QString code READ code NOTIFY changed)
    /// "Three signs more", what stands in the way, what was found, what to heed. Rows: kind, text.
    Q_PROPERTY(loopside::app::RowModel* notes READ notes CONSTANT)
    /// Where several runs show the code. Rows: name, detail, isChosen.
    Q_PROPERTY(loopside::app::RowModel* found READ found CONSTANT)
    /// What who takes it on has to know. Rows: name, value.
    Q_PROPERTY(loopside::app::RowModel* facts READ facts CONSTANT)
    /// How the valve was read at the cart; empty where nothing is to be taken over. Rows: name, detail, isChosen.
    Q_PROPERTY(loopside::app::RowModel* valves READ valves CONSTANT)
    /// Rows: text, say, isMain.
    Q_PROPERTY(loopside::app::RowModel* keys READ keys CONSTANT)
    /// A run is looked at: no more signs are typed.
    Q_PROPERTY(bool hasRun READ hasRun NOTIFY changed)
    /// It was handed to this tablet: no code is asked for.
    Q_PROPERTY(bool isOffered READ isOffered NOTIFY changed)

public:
    explicit TakeOverView(Tablet& tablet, QObject* parent = nullptr);

    [[nodiscard]] QString code() const { return code_.text(); }
    [[nodiscard]] RowModel* notes() { return &notes_; }
    [[nodiscard]] RowModel* found() { return &found_; }
    [[nodiscard]] RowModel* facts() { return &facts_; }
    [[nodiscard]] RowModel* valves() { return &valves_; }
    [[nodiscard]] RowModel* keys() { return &keys_; }
    [[nodiscard]] bool hasRun() const { return run() != nullptr; }
    [[nodiscard]] bool isOffered() const { return isOffered_; }

    /// Asks for a code; what was typed before stands there.
    void open();
    /// Shows `run`, which was handed to this tablet.
    void openOffered(const Id& run);
    /// A code that was read or pasted whole takes the place of what was typed.
    Q_INVOKABLE void takeCode(const QString& code);
    /// A sign that stands in no code changes nothing and is told.
    Q_INVOKABLE void type(const QString& sign);
    Q_INVOKABLE void backspace();
    Q_INVOKABLE void chooseRun(int row);
    Q_INVOKABLE void chooseValve(int row);
    Q_INVOKABLE void press(const QString& say);

Q_SIGNALS:
    void changed();
    /// The run is shown from now on: taken over, or to look at.
    void runWanted(const loopside::Id& run);
    void hubWanted();
    /// The hub is to be asked for the runs that show it.
    void codeWanted(const QString& code);
    void setUpWanted();

private:
    void look();
    void refresh();
    void showFound();
    void showRun(const run::RunState& run);
    void addKey(const char* label, const char* say, bool isMain);
    void tell(const char* kind, const Message& message);
    void take();
    [[nodiscard]] const run::RunState* run() const { return tablet_.state().runOf(run_); }
    [[nodiscard]] bool canTake() const;
    [[nodiscard]] bool isOfferedHere(const run::RunState& run) const;

    Tablet& tablet_;
    OwnWords code_;
    RowModel notes_;
    RowModel found_;
    RowModel facts_;
    RowModel valves_;
    RowModel keys_;
    QList<RowModel::Row> noteRows_;
    QList<RowModel::Row> keyRows_;
    std::vector<Id> runs_; ///< That show the code.
    Id run_ = {};          ///< The one that is looked at; none: none, or not chosen yet.
    Id sinceSeen_ = {};    ///< By which entry that one was in the hands that are shown.
    std::optional<run::Mode> valve_;
    QString wrongSign_;
    bool isOffered_ = false;
    bool isAsked_ = false; ///< The hub, for this code.
    bool isMoved_ = false; ///< Somebody else took it while it was looked at here.
};

} // namespace loopside::app
