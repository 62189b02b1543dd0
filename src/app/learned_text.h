// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "app/tablet.h"

namespace loopside::app {

/// What earlier runs teach of the run that `setup` begins, a line each with what it rests on: how long elements last at
/// the tank, how it mixes, how fast dirt gets in, what the cart's dials show of clean elements. Empty where no run was
/// closed at the tank.
[[nodiscard]] QString learnedText(const Tablet& tablet, const run::Setup& setup);

} // namespace loopside::app
