// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "store/system_clock.h"

namespace loopside::app {

using store::SystemClock;
using store::SystemRandom;

} // namespace loopside::app
