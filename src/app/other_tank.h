// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "app/wrong_tank.h"
#include "run/right_tank.h"

#include <optional>
#include <string>

namespace loopside::app {

/// The tag of another tank was read while the run of the screen is open. Where a run is open at that tank, it can be
/// shown: somebody has walked there. Else either the cart is at the tank of the run and the tag was read elsewhere, or
/// the run is at the other tank and moves there, with a reason. What does not fit is kept with the run.
class OtherTank final : public WrongTank
{
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("made by the program")

public:
    explicit OtherTank(Tablet& tablet, QObject* parent = nullptr);

    [[nodiscard]] bool isMismatch() const override { return look_.has_value(); }
    [[nodiscard]] QString mismatchTitle() const override;
    [[nodiscard]] QString mismatchText() const override;
    [[nodiscard]] QString rightText() const override;
    [[nodiscard]] QString wrongText() const override;
    [[nodiscard]] bool wantsReason() const override { return !openThere(); }
    [[nodiscard]] QString askText() const override;

    /// `code` was read; it is the tag of tank `of` of the site, which is not that of the shown run.
    void takeTag(const QString& code, std::size_t of);

    Q_INVOKABLE void goToRight() override;
    Q_INVOKABLE void goOnBecause(const QString& why) override;
    Q_INVOKABLE void askWhy() override;

Q_SIGNALS:
    /// The run at the other tank is wanted.
    void isOther(const loopside::Id& run);

private:
    [[nodiscard]] std::optional<Id> openThere() const;
    bool say(const Id& run, const run::Said& what) const;
    bool moveRun(const std::string& why, const run::TankLook& there);

    Tablet& tablet_;
    std::optional<run::TankLook> look_ = {}; ///< That nobody has answered.
    Id run_ = {};                            ///< Of which it is.
    Id person_ = {};
    Stamp at_ = {};
    int moved_ = 0; ///< How many of the entries that move the run are logged: where one fails, it goes on from there.
};

} // namespace loopside::app
