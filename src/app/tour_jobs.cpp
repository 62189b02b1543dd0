// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "app/tour.h"

namespace loopside::app {

bool Tour::jobs()
{
    return transfer() && flush();
}

bool Tour::transfer()
{
    using std::chrono::seconds;
    TransferView* transfer = stage_.view.transfer();
    stage_.view.showTransfer();
    transfer->chooseTank(1);
    transfer->chooseCart(1);
    type(*transfer->fields(), 0, "205");
    type(*transfer->fields(), 1, "60");
    type(*transfer->fields(), 2, "160");
    isFine_ = picture(QStringLiteral("11-waste-plan")) && isFine_;
    transfer->goOn();
    type(*transfer->plate(), 0, "107");
    transfer->chooseValve(1);
    isFine_ = picture(QStringLiteral("11-waste-wrong-tank")) && isFine_;
    type(*transfer->plate(), 0, "221");
    transfer->chooseValve(0);
    isFine_ = picture(QStringLiteral("11-waste-points")) && isFine_;
    look();
    transfer->points()->answer(QStringLiteral("done"));
    look();
    transfer->points()->answer(QStringLiteral("skipped"));
    isFine_ = picture(QStringLiteral("11-waste-why")) && isFine_;
    transfer->points()->because(1);
    lookThrough(*transfer->points());
    isFine_ = picture(QStringLiteral("11-waste-confirmed")) && isFine_;
    transfer->goOn();
    passTime(stage_.clock.time() + seconds(200));
    isFine_ = picture(QStringLiteral("11-waste-running")) && isFine_;
    passTime(stage_.clock.time() + seconds(800));
    isFine_ = picture(QStringLiteral("11-waste-overdue")) && isFine_;
    transfer->goOn();
    type(*transfer->moved(), 0, "128");
    isFine_ = picture(QStringLiteral("11-waste-how-much")) && isFine_;
    transfer->goOn();
    isFine_ = picture(QStringLiteral("11-waste-record")) && isFine_;
    return transfer->phase() == TransferView::Phase::Stopped;
}

bool Tour::flush()
{
    FlushView* flush = stage_.view.flush();
    stage_.view.flushCart();
    flush->chooseFluid(0);
    type(*flush->fields(), 0, "1.5");
    type(*flush->fields(), 1, "10");
    flush->chooseWanted(0);
    flush->chooseApprover(2);
    isFine_ = picture(QStringLiteral("12-flush-plan")) && isFine_;
    flush->goOn();
    type(*flush->fields(), 1, "10");
    isFine_ = picture(QStringLiteral("12-flush-first")) && isFine_;
    flush->goOn();
    type(*flush->fields(), 1, "9");
    flush->goOn();
    type(*flush->fields(), 1, "10");
    flush->goOn();
    isFine_ = picture(QStringLiteral("12-flush-under-way")) && isFine_;
    touch("flushClose");
    isFine_ = picture(QStringLiteral("12-flush-close")) && isFine_;
    touch("elementsRenewed");
    isFine_ = picture(QStringLiteral("12-flush-record")) && isFine_;
    return flush->phase() == FlushView::Phase::Closed;
}

} // namespace loopside::app
