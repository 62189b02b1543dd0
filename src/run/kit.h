// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// The bottles that a run wants, and which of them were drawn: one before much is filtered, one of the same place at the
// end, and, where somebody wants to know whether the stages hold, one from behind each stage.
//
// What a bottle proves is told by proof.h; here it only matters that it is there. Source: common practice.

#pragma once

#include "run/samples.h"

#include <optional>
#include <string_view>
#include <vector>

namespace loopside::run {

/// In turnovers: until then a bottle of the tank shows it as it was. The cart may circulate one before; ours.
inline constexpr double firstBottleUntil = 1.5;

/// In turnovers: no more may be filtered behind the last bottle for it to show the end; ours.
inline constexpr double lastBottleWithin = 0.5;

enum class KitPart
{
    Before,  ///< The tank before it was filtered.
    Between, ///< Behind a stage that is not the last one.
    Behind,  ///< Behind the last stage.
    After,   ///< The tank at the end.
};

enum class KitState
{
    Drawn,
    Wanted, ///< It is time for it.
    Helps,  ///< Nothing hangs on it; with it the stages can be told apart.
    Later,
    Over, ///< Its time is past: it would show something else now.
};

[[nodiscard]] std::string_view nameOf(KitPart part);
[[nodiscard]] std::string_view nameOf(KitState state);

struct KitBottle
{
    KitPart part = KitPart::Before;
    KitState state = KitState::Wanted;
    std::optional<int> port = {};          ///< Where it is drawn, 0 is the tank; none: tank or the first port.
    std::optional<std::size_t> drawn = {}; ///< Place among the samples.
};

/// In the order in which they are drawn. `samples` as of samplesOf; `standing` with or without the forecast.
[[nodiscard]] std::vector<KitBottle> kitOf(const RunState& run, const Standing& standing,
                                           const std::vector<SampleSeen>& samples);

/// Since when the oil has circulated up to now without a stop, by filter or bypass; none while the pump stands.
[[nodiscard]] std::optional<RunTime> circulatingSince(const Standing& standing);

} // namespace loopside::run
