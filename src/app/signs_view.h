// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "app/row_model.h"
#include "app/tablet.h"

#include <QObject>
#include <QtQml/qqmlregistration.h>

#include <set>

namespace loopside::app {

/// What somebody sees or hears at the cart and no gauge shows: foam, haze, a whine, clicking, a leak.
class SignsView : public QObject
{
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("made by the program")

    /// Rows: name, detail (how to know it), isChosen.
    Q_PROPERTY(loopside::app::RowModel* signs READ signs CONSTANT)
    Q_PROPERTY(bool canLog READ canLog NOTIFY changed)

public:
    explicit SignsView(Tablet& tablet, QObject* parent = nullptr);

    [[nodiscard]] RowModel* signs() { return &signs_; }
    [[nodiscard]] bool canLog() const { return !seen_.empty(); }

    /// Nothing is ticked when the sheet opens.
    Q_INVOKABLE void open();
    Q_INVOKABLE void toggle(int row);
    /// True if it is in the journal.
    Q_INVOKABLE bool log();

Q_SIGNALS:
    void changed();

private:
    void refresh();

    Tablet& tablet_;
    RowModel signs_;
    std::set<int> seen_;
};

} // namespace loopside::app
