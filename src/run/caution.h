// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// What a person is cautioned of where the act is: one table of all cautions. Screens show what `cautionsAt` says and
// have none of their own. The words stand in the catalogues as `caution.<id>`, the rules that each yields to as
// `caution.rule.<rule>`: a caution never stands alone, site procedure, local code and licensed people come before it.
//
// Nothing here declares anything to be in order: a caution that is not shown says nothing.

#pragma once

#include "run/catalogue.h"

#include <array>
#include <optional>
#include <span>
#include <string_view>
#include <vector>

namespace loopside::run {

struct RunState;
struct Standing;

/// What a person is about to do, or does, at the cart.
enum class Act
{
    AskPermit,    ///< Asks for permit and isolation.
    AskOwner,     ///< Asks the machine's owner.
    Area,         ///< Goes to work in the area.
    LookAround,   ///< Looks at the machine and its oil.
    Power,        ///< Plugs the cart in.
    HookUp,       ///< Couples the hoses.
    Couple,       ///< Couples the hoses of a flush, or those to a container.
    Start,        ///< Starts the pump.
    Read,         ///< Reads the gauges while the oil circulates.
    Sample,       ///< Opens a sample port.
    Isolate,      ///< Works at a cart that was under pressure a moment ago.
    RestCheck,    ///< Reads the gauges with no pressure.
    OpenHousing,  ///< Opens a housing.
    Disconnect,   ///< Uncouples the hoses.
    CleanUp,      ///< Takes oil and rags away.
    MoveCart,     ///< Takes the cart away.
    Flush,        ///< Pumps oil through a cart to flush it.
    PlanTransfer, ///< Chooses the container for spent oil.
    Transfer      ///< Pumps spent oil.
};

inline constexpr std::array<Act, 19> acts = {
    Act::AskPermit, Act::AskOwner, Act::Area,   Act::LookAround,   Act::Power,     Act::HookUp,      Act::Couple,
    Act::Start,     Act::Read,     Act::Sample, Act::Isolate,      Act::RestCheck, Act::OpenHousing, Act::Disconnect,
    Act::CleanUp,   Act::MoveCart, Act::Flush,  Act::PlanTransfer, Act::Transfer};

/// Oil above this burns skin. Common practice, no source.
inline constexpr units::Temperature hotOil = 60.0 * units::celsius;

/// What is known where the act is.
struct Circumstances
{
    std::optional<TypedTemperature> oil = {};     ///< Measured last.
    std::optional<TypedPressure> staticHead = {}; ///< What the cart's gauges show with no pressure.
    bool clicks = false;                          ///< Clicking was told since the pump was last told to stand.
    bool leaks = false;                           ///< A leak was told since then.
};

/// On what a caution hangs besides the act.
enum class When
{
    Always,
    OilIsHot,
    Clicks,
    Leaks,
    HeadIsKnown,
    HeadIsUnknown
};

struct CautionRow
{
    std::string_view id;
    std::vector<Act> acts;
    When when;
    std::vector<std::string_view> rules; ///< Which rules it yields to.
    std::string_view source;             ///< Where it comes from; "common practice" where nobody wrote it down.
};

/// The whole table, in the order in which cautions are told.
[[nodiscard]] std::span<const CautionRow> cautionTable();

/// One caution as it is told.
struct Caution
{
    std::string_view id;
    Message says;
    std::vector<Message> rules;
};

[[nodiscard]] std::vector<Caution> cautionsAt(Act act, const Circumstances& circumstances);

/// What is known of a run: the oil of its last reading, what was seen or heard since the pump last stood. Nobody tells
/// that a sign is gone: it is taken to stay until the pump stands.
[[nodiscard]] Circumstances circumstancesOf(const RunState& run, const Standing& standing);

} // namespace loopside::run
