// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "app/row_model.h"
#include "app/tablet.h"
#include "ledger/handed.h"

#include <QObject>
#include <QtQml/qqmlregistration.h>

#include <optional>
#include <variant>
#include <vector>

namespace loopside::app {

/// Hands the shown run on: to a person at the same tablet, where both say so, to another tablet, or to nobody, where
/// the pump is asked for. Shows what who takes it on has to know.
class HandOnView : public QObject
{
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("made by the program")

    Q_PROPERTY(QString title READ title NOTIFY changed)
    /// Rows: name, value.
    Q_PROPERTY(loopside::app::RowModel* facts READ facts CONSTANT)
    /// Rows: kind, text.
    Q_PROPERTY(loopside::app::RowModel* notes READ notes CONSTANT)
    /// To whom it may be handed; empty once somebody was named. Rows: name, detail, isChosen.
    Q_PROPERTY(loopside::app::RowModel* receivers READ receivers CONSTANT)
    /// How who takes it on reads the valve; empty before that. Rows: name, detail, isChosen.
    Q_PROPERTY(loopside::app::RowModel* valves READ valves CONSTANT)
    /// Rows: text, say, isMain.
    Q_PROPERTY(loopside::app::RowModel* keys READ keys CONSTANT)
    /// Above the list of `receivers`, or the keys of the valve.
    Q_PROPERTY(QString question READ question NOTIFY changed)

public:
    explicit HandOnView(Tablet& tablet, QObject* parent = nullptr);

    [[nodiscard]] QString title() const;
    [[nodiscard]] RowModel* facts() { return &facts_; }
    [[nodiscard]] RowModel* notes() { return &notes_; }
    [[nodiscard]] RowModel* receivers() { return &receivers_; }
    [[nodiscard]] RowModel* valves() { return &valves_; }
    [[nodiscard]] RowModel* keys() { return &keys_; }
    [[nodiscard]] QString question() const { return question_; }

    void open();
    Q_INVOKABLE void chooseReceiver(int row);
    Q_INVOKABLE void chooseValve(int row);
    Q_INVOKABLE void press(const QString& say);

Q_SIGNALS:
    void changed();
    /// It is in other hands, or nobody takes it: the run is shown again.
    void finished();
    void endWanted();
    void linkWanted(const loopside::Id& run);

private:
    struct Person
    {
        int index = 0; ///< Among the people of the site.
        Id id = {};
    };
    struct OtherTablet
    {
        Id device = {}; ///< None: one of which nothing is here.
    };
    struct Nobody
    {
    };
    using Receiver = std::variant<Person, OtherTablet, Nobody>;

    void refresh();
    void listReceivers();
    void showChoice(const run::RunState& run);
    void showNobody(const run::RunState& run);
    void showOffer(const run::RunState& run, const ledger::Offer& offer);
    void showLink(const run::RunState& run);
    void hand();
    void keep();
    void take();
    void tell(const char* kind, const Message& message);
    void addKey(const Message& label, const char* say, bool isMain);
    [[nodiscard]] const run::RunState* openRun() const;
    [[nodiscard]] const Receiver* chosen() const;

    Tablet& tablet_;
    RowModel facts_;
    RowModel notes_;
    RowModel receivers_;
    RowModel valves_;
    RowModel keys_;
    QList<RowModel::Row> noteRows_;
    QList<RowModel::Row> keyRows_;
    std::vector<Receiver> listed_;
    int receiver_ = -1;
    std::optional<run::Mode> valve_;
    QString question_;
};

} // namespace loopside::app
