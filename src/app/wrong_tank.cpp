// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "app/wrong_tank.h"

namespace loopside::app {

WrongTank::WrongTank(Tablet& tablet, const Id& drafts, QObject* parent)
    : QObject{parent}, reasons_{{"text"}}, reasonWords_{tablet, drafts}
{
}

} // namespace loopside::app
