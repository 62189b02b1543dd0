// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "app/guide_text.h"
#include "app/row_model.h"
#include "app/tablet.h"

#include <QObject>
#include <QStringList>
#include <QtQml/qqmlregistration.h>

#include <string_view>

namespace loopside::app {

/// The user's guide, in the language of who holds the tablet: its parts as a list, or one of them. It is built into the
/// program and needs no network and no file.
class GuideView : public QObject
{
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("made by the program")

    /// The parts. Rows: name.
    Q_PROPERTY(loopside::app::RowModel* parts READ parts CONSTANT)
    /// Of the part that is read. Rows: kind, mark, text, plain; see GuideLine.
    Q_PROPERTY(loopside::app::RowModel* lines READ lines CONSTANT)
    /// Of the part that is read; empty while the list of them is shown.
    Q_PROPERTY(QString title READ title NOTIFY changed)
    Q_PROPERTY(bool hasNext READ hasNext NOTIFY changed)
    /// Of the part that says what the forecast means.
    Q_PROPERTY(QString forecastTitle READ forecastTitle CONSTANT)

public:
    explicit GuideView(Tablet& tablet, QObject* parent = nullptr);

    [[nodiscard]] RowModel* parts() { return &partRows_; }
    [[nodiscard]] RowModel* lines() { return &lineRows_; }
    [[nodiscard]] QString title() const;
    [[nodiscard]] bool hasNext() const;
    [[nodiscard]] QString forecastTitle() const;

    /// Shows the list of the parts.
    Q_INVOKABLE void openList();
    /// Shows the part of that row; none where there is no such row.
    Q_INVOKABLE void openPart(int row);
    Q_INVOKABLE void openNext();
    /// Shows the part that says what the forecast means.
    void openForecast();

Q_SIGNALS:
    void changed();

private:
    std::string_view markdown_;
    QStringList titles_;
    QList<GuidePart> parts_; ///< Read when the first of them is opened: no start waits for it.
    RowModel partRows_;
    RowModel lineRows_;
    int at_ = -1; ///< The row of the part that is read; -1: the list.
};

/// The guide in `language`, in Markdown; the English one where there is none.
[[nodiscard]] std::string_view guideIn(std::string_view language);

} // namespace loopside::app
