// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// The bottles of the run before its end: one is drawn, its result is typed, something odd is asked about.

#include "app/tour.h"
#include "app/wording.h"

namespace loopside::app {

bool Tour::kit()
{
    KitView* kit = stage_.view.kit();
    stage_.view.showKit();
    isFine_ = picture(QStringLiteral("08-kit")) && isFine_;
    if (!kit->isDrawing()) {
        kit->choose(kit->bottles()->rowCount() - 1);
    }
    kit->draw()->choosePlace(0);
    kit->draw()->pressTimer();
    passTime(stage_.clock.time() + std::chrono::seconds(25));
    kit->draw()->tag()->setText(QStringLiteral("B-104"));
    type(*kit->fields(), 0, "41");
    type(*kit->fields(), 1, "250");
    isFine_ = picture(QStringLiteral("08-kit-draw")) && isFine_;
    kit->draw()->pressTimer();
    kit->goOn();
    if (!kit->isDrawn()) {
        return complainOf(kit->doubtText());
    }
    type(*kit->fields(), 0, "18/16/13");
    type(*kit->fields(), 4, "9000");
    kit->result()->chooseMethod(0);
    kit->goOn();
    isFine_ = picture(QStringLiteral("08-kit-odd")) && isFine_;
    kit->fields()->select(4);
    for (int digits = 0; digits < 2; ++digits) {
        kit->fields()->backspace();
    }
    kit->goOn();
    isFine_ = picture(QStringLiteral("08-kit-result")) && isFine_;
    stage_.view.leaveKit();
    return kit->doubtText().isEmpty();
}

} // namespace loopside::app
