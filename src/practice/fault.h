// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// What can go wrong on command, for training and for the tests of the diagnosis.

#pragma once

#include "base/result.h"
#include "units/quantity.h"

#include <cstdint>
#include <optional>
#include <span>
#include <string_view>
#include <vector>

namespace loopside::practice {

enum class FaultKind : std::uint8_t
{
    StageTorn,         ///< Stage. Size: resistance of the hole ÷ that of the clean stage. Lets go part of its dirt.
    StageBypassOpen,   ///< Stage that has a bypass valve: it stays open.
    ValveInBypass,     ///< The cart's valve stands in bypass; whoever sets the mode puts it right.
    StrainerBlocking,  ///< Size: share of the flow that is lost in the end.
    ReturnKinked,      ///< Size: kPa at the rated flow.
    ReturnShut,        ///< Nothing gets out; the relief valve takes the flow.
    ReturnOff,         ///< The return hose is off or out of the oil: nothing behind the last stage.
    PrimeLost,         ///< The pump turns and moves nothing.
    Aeration,          ///< Size: half the swing of every needle ÷ what it shows.
    GaugeStuck,        ///< Gauge: shows what it last showed.
    GaugeOffset,       ///< Gauge. Size: share of its span, on top of its standing error; may be below 0.
    HalfChangedPair,   ///< Stage: at the next change one element less is renewed than is said.
    ElementMissing,    ///< Stage: a seat is empty or a seal out of place.
    ElementNotFlowing, ///< Stage: one of several elements gets no oil.
    WrongElement,      ///< Stage. Size: clean drop of what was fitted ÷ that of the right type.
    WrongOil,          ///< Size: viscosity of what is in the tank ÷ that of the oil told.
    ThermometerOff,    ///< Size: °C too much.
    DirtStirred,       ///< The machine starts and stirs what had settled.
    DirtSlug,          ///< Size: mg/L of silt that gets into the tank.
    WaterSlug,         ///< Size: ppm of water that gets into the tank.
    SlowLeak,          ///< Stage. Size: conductance past the elements in the end ÷ that of the clean stage.
};

struct Fault
{
    FaultKind kind;
    int place = 0;                            ///< Stage or gauge, from 1; 0 where the kind has none.
    std::optional<double> size = {};          ///< As the kind says; none: `typicalSize`.
    std::optional<units::Duration> over = {}; ///< Grows to its size in this time; none: `typicalOver`.
};

/// What a fault is about.
enum class FaultPlace : std::uint8_t
{
    Whole,
    Stage,
    Gauge
};

/// What is known of a kind. The sizes are our choice, after the worked scenes of practice.
struct FaultNature
{
    FaultKind kind;
    std::string_view name; ///< Such as "stage-torn".
    FaultPlace place;
    double typicalSize;
    units::Duration typicalOver; ///< 0: at once.
};

/// All kinds, in the order of `FaultKind`.
[[nodiscard]] std::span<const FaultNature> faultNatures();

[[nodiscard]] const FaultNature& natureOf(FaultKind kind);

/// The kind of that name; NotFound with the names in the sentence otherwise.
[[nodiscard]] Result<FaultKind> faultNamed(std::string_view name);

/// The faults that stand, each from its moment on.
class FaultsStanding
{
public:
    void add(const Fault& fault, units::Duration at);
    void putRight(FaultKind kind, int place);

    /// The size that it has grown to; nothing if no such fault stands. The last one of a kind and place counts.
    [[nodiscard]] std::optional<double> size(FaultKind kind, int place, units::Duration now) const;
    [[nodiscard]] bool isNone() const { return standing_.empty(); }
    [[nodiscard]] bool has(FaultKind kind, int place = 0) const;

private:
    struct Standing
    {
        Fault fault;
        units::Duration since;
    };

    [[nodiscard]] const Standing* find(FaultKind kind, int place) const;

    std::vector<Standing> standing_;
};

} // namespace loopside::practice
