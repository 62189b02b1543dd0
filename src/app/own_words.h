// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "app/tablet.h"

#include <QObject>
#include <QString>
#include <QtQml/qqmlregistration.h>

namespace loopside::app {

/// A line of own words that is typed and not logged yet. It is stored as it is typed, for what it is about, and stands
/// there again after the sheet or the program was left. What cannot be stored is told once, and stands on the screen
/// all the same.
class OwnWords : public QObject
{
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("made by the program")

    Q_PROPERTY(QString text READ text WRITE setText NOTIFY changed)

public:
    /// Kept among the drafts `page`.
    OwnWords(Tablet& tablet, const Id& page, QObject* parent = nullptr);

    /// Takes up what was typed about `subject`.
    void about(const std::string& subject);

    [[nodiscard]] const QString& text() const { return text_; }
    void setText(const QString& text);
    /// They were logged, or something else was.
    void clear() { setText({}); }

Q_SIGNALS:
    void changed();

private:
    Tablet& tablet_;
    Id page_;
    std::string subject_;
    QString text_;
    bool isTold_ = false;
};

} // namespace loopside::app
