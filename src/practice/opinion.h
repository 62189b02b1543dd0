// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// What somebody who practises may think is the matter, and where they may go and look. Both are said as points of a
// checklist (run::CheckAnswered), so that they stand in the journal of the practice beside everything else.

#pragma once

#include "practice/fault.h"

#include <optional>
#include <span>
#include <string>
#include <string_view>

namespace loopside::practice {

enum class Thought : std::uint8_t
{
    NothingWrong,
    CannotTell,
    ColdOil,
    StageFull,    ///< Stage.
    StageLeaks,   ///< Stage: torn, or a bypass valve that stands open; the gauges do not tell which.
    WrongElement, ///< Stage.
    WaterInOil,
    ValveInBypass,
    ReturnRestricted,
    SuctionStarved,
    AirInOil,
    GaugeStuck, ///< Gauge.
    GaugeOffset ///< Gauge.
};

struct ThoughtNature
{
    Thought thought;
    std::string_view name; ///< Such as "cold-oil".
    FaultPlace place;
};

/// All of them, in the order of `Thought`.
[[nodiscard]] std::span<const ThoughtNature> thoughts();

struct Opinion
{
    Thought thought;
    int place = 0; ///< Stage or gauge, from 1; 0 where the thought has none.

    friend bool operator==(const Opinion&, const Opinion&) = default;
};

/// "gauge-stuck 2", "cold-oil".
[[nodiscard]] std::string textOf(const Opinion& opinion);

/// The opinion of such a text; nothing for any other.
[[nodiscard]] std::optional<Opinion> opinionOf(std::string_view text);

/// "Gauge 2 is stuck", to be said.
[[nodiscard]] Message sentenceOf(const Opinion& opinion);

/// Where one goes and looks.
enum class Spot : std::uint8_t
{
    ReturnHose,
    Suction,
    Valve,
    Gauges,
    Oil,
    Elements
};

/// Their names, in the order of `Spot`, such as "return-hose".
[[nodiscard]] std::span<const std::string_view> spotNames();
[[nodiscard]] std::optional<Spot> spotNamed(std::string_view name);

/// The points of the checklist by which both are said.
inline constexpr std::string_view thinkCheck = "practice-think";
inline constexpr std::string_view lookCheck = "practice-look";

} // namespace loopside::practice
