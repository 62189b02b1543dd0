// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "app/own_words.h"
#include "app/row_model.h"
#include "app/tablet.h"

#include <QObject>
#include <QtQml/qqmlregistration.h>

namespace loopside::app {

/// A look that does not fit takes the whole screen until somebody says what is so. There are two ways on and no third,
/// the second with a reason where something is wrong that others have to know.
class WrongTank : public QObject
{
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("made by the program")

    /// A look does not fit, and nobody has said yet what is so.
    Q_PROPERTY(bool isMismatch READ isMismatch NOTIFY changed)
    Q_PROPERTY(QString mismatchTitle READ mismatchTitle NOTIFY changed)
    Q_PROPERTY(QString mismatchText READ mismatchText NOTIFY changed)
    /// The keys of the two ways.
    Q_PROPERTY(QString rightText READ rightText NOTIFY changed)
    Q_PROPERTY(QString wrongText READ wrongText NOTIFY changed)
    /// The second way wants to know why; what is asked then.
    Q_PROPERTY(bool wantsReason READ wantsReason NOTIFY changed)
    Q_PROPERTY(QString askText READ askText NOTIFY changed)
    /// Why it is gone on with. Rows: text.
    Q_PROPERTY(loopside::app::RowModel* reasons READ reasons CONSTANT)
    Q_PROPERTY(loopside::app::OwnWords* reasonWords READ reasonWords CONSTANT)

public:
    [[nodiscard]] virtual bool isMismatch() const = 0;
    [[nodiscard]] virtual QString mismatchTitle() const = 0;
    [[nodiscard]] virtual QString mismatchText() const = 0;
    [[nodiscard]] virtual QString rightText() const = 0;
    [[nodiscard]] virtual QString wrongText() const = 0;
    [[nodiscard]] virtual bool wantsReason() const { return true; }
    [[nodiscard]] virtual QString askText() const = 0;
    [[nodiscard]] RowModel* reasons() { return &reasons_; }
    [[nodiscard]] OwnWords* reasonWords() { return &reasonWords_; }

    /// The first way.
    Q_INVOKABLE virtual void goToRight() = 0;
    /// The second way, for this reason; without one where none is wanted.
    Q_INVOKABLE virtual void goOnBecause(const QString& why) = 0;
    /// Takes up the words typed about this mismatch.
    Q_INVOKABLE virtual void askWhy() = 0;

Q_SIGNALS:
    void changed();

protected:
    /// The words of a reason are kept among `drafts` as they are typed.
    WrongTank(Tablet& tablet, const Id& drafts, QObject* parent);

    RowModel reasons_;
    OwnWords reasonWords_;
};

} // namespace loopside::app
