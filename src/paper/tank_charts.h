// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "paper/past_chart.h"
#include "run/tank_past.h"
#include "words/words.h"

#include <QList>

namespace loopside::paper {

/// How codes (of each size), water, the lives of its elements (of the three types used last) and the dirt that gets in
/// between runs went at a tank, each with the runs behind it; one of which there are fewer than two points says so and
/// draws nothing. None at all where no run was closed there.
[[nodiscard]] QList<PastChart> tankCharts(const words::Words& words, const run::TankPast& past);

} // namespace loopside::paper
