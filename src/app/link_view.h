// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "app/row_model.h"
#include "app/tablet.h"

#include <QObject>
#include <QtQml/qqmlregistration.h>

namespace loopside::app {

/// Asks whether two runs of one cart at one tank are one, and shows what they come to as one, with what their authors
/// say differently. An answer may be given anew; the latest counts.
class LinkView : public QObject
{
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("made by the program")

    Q_PROPERTY(QString title READ title NOTIFY changed)
    Q_PROPERTY(QString oneTitle READ oneTitle NOTIFY changed)
    Q_PROPERTY(QString otherTitle READ otherTitle NOTIFY changed)
    /// Of each of the two. Rows: name, value.
    Q_PROPERTY(loopside::app::RowModel* one READ one CONSTANT)
    Q_PROPERTY(loopside::app::RowModel* other READ other CONSTANT)
    /// What is asked or was answered, what both come to, where they differ. Rows: kind, text.
    Q_PROPERTY(loopside::app::RowModel* notes READ notes CONSTANT)
    /// Rows: text, say, isMain.
    Q_PROPERTY(loopside::app::RowModel* keys READ keys CONSTANT)

public:
    explicit LinkView(Tablet& tablet, QObject* parent = nullptr);

    [[nodiscard]] QString title() const;
    [[nodiscard]] QString oneTitle() const { return titleOf(pair_.first); }
    [[nodiscard]] QString otherTitle() const { return titleOf(pair_.second); }
    [[nodiscard]] RowModel* one() { return &one_; }
    [[nodiscard]] RowModel* other() { return &other_; }
    [[nodiscard]] RowModel* notes() { return &notes_; }
    [[nodiscard]] RowModel* keys() { return &keys_; }

    void open(const run::RunPair& pair);
    /// With the first run that `run` is one with.
    void openOf(const Id& run);
    Q_INVOKABLE void press(const QString& say);

Q_SIGNALS:
    void changed();
    void answered();

private:
    void refresh();
    void showUnion(const run::RunState& run);
    void answer(bool isOne);
    [[nodiscard]] QString titleOf(const Id& run) const;
    [[nodiscard]] QList<RowModel::Row> rowsOf(const run::RunState& run) const;

    Tablet& tablet_;
    RowModel one_;
    RowModel other_;
    RowModel notes_;
    RowModel keys_;
    QList<RowModel::Row> noteRows_;
    run::RunPair pair_ = {};
};

} // namespace loopside::app
