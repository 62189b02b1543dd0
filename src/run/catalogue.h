// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// What is known before a run: tank, fluid, cart, stages, target. All of it as a person typed it, with its unit.
//
// A run keeps a copy (`Setup`) of what it was started with, so that an old run is never judged by new limits.

#pragma once

#include "base/decimal.h"
#include "base/id.h"
#include "filtration/clean_drop.h"
#include "filtration/gauge.h"
#include "filtration/tank.h"
#include "oil/fluid.h"
#include "units/typed.h"

#include <optional>
#include <string>
#include <utility>
#include <vector>

namespace loopside::run {

using TypedPressure = units::Typed<units::Pressure>;
using TypedVolume = units::Typed<units::Volume>;
using TypedFlow = units::Typed<units::Flow>;
using TypedLength = units::Typed<units::Length>;
using TypedTemperature = units::Typed<units::Temperature>;
using TypedViscosity = units::Typed<units::KinematicViscosity>;
using TypedDensity = units::Typed<units::Density>;
using TypedFraction = units::Typed<units::Fraction>;
using TypedPower = units::Typed<units::Power>;
using TypedCurrent = units::Typed<units::Current>;
using TypedVoltage = units::Typed<units::Voltage>;
using PressureUnit = units::NamedUnit<units::Pressure>;

/// An oil: a grade with its viscosity index, one measured point with a viscosity index, two measured points, or one
/// viscosity that does not depend on temperature.
struct FluidRecord
{
    struct Point
    {
        TypedTemperature at;
        TypedViscosity viscosity;
        friend bool operator==(const Point&, const Point&) = default;
    };

    std::string kind;  ///< gear, hydraulic, turbine, circulating, …; free text.
    std::string grade; ///< As typed, such as "ISO VG 46"; empty if unknown.
    std::optional<Decimal> viscosityIndex = {};
    std::vector<Point> points = {}; ///< None, one with a viscosity index, or two.
    std::optional<TypedViscosity> viscosity = {};
    std::optional<TypedDensity> density = {}; ///< At 15 °C.

    [[nodiscard]] oil::FluidProperties properties() const;
    friend bool operator==(const FluidRecord&, const FluidRecord&) = default;
};

/// The inside of a tank: a box with length, width and height, or a cylinder with its diameter that stands upright with
/// a height or lies with a length.
struct TankShapeRecord
{
    std::string form; ///< box, upright or lying.
    std::optional<TypedLength> length = {};
    std::optional<TypedLength> width = {};
    std::optional<TypedLength> height = {};
    std::optional<TypedLength> diameter = {};

    /// Nothing if a length that the form needs is missing.
    [[nodiscard]] std::optional<filtration::TankShape> shape() const;
    friend bool operator==(const TankShapeRecord&, const TankShapeRecord&) = default;
};

/// Any vessel of oil.
struct TankRecord
{
    std::string name;
    TypedVolume volume; ///< The oil in it, not the nameplate.
    FluidRecord fluid;
    std::optional<Decimal> mixing = {};       ///< Mixing factor, above 0 to 1.
    std::optional<TypedVolume> capacity = {}; ///< To the brim.
    std::optional<TankShapeRecord> shape = {};
    std::optional<TypedLength> level = {};   ///< Of the oil above the bottom, as read.
    std::optional<TypedFraction> water = {}; ///< Last known, by mass.
    std::string code = {};                   ///< Last known ISO 4406 code; empty if none.
    std::string latitude = {};               ///< Where it stands, as written (run/place_typed.h); empty: not told.
    std::string longitude = {};

    friend bool operator==(const TankRecord&, const TankRecord&) = default;
};

/// One dial. Span and graduation count in `unit`.
struct GaugeRecord
{
    const PressureUnit* unit = nullptr;
    std::optional<Decimal> span = {};
    std::optional<Decimal> graduation = {};
    std::string grade; ///< Accuracy grade as printed on the dial, empty if unknown.

    /// The dial as `filtration` sees it. An unknown grade counts as none.
    [[nodiscard]] filtration::Gauge gauge() const;
    friend bool operator==(const GaugeRecord&, const GaugeRecord&) = default;
};

struct HoseRecord
{
    std::optional<TypedLength> bore = {};
    std::optional<TypedLength> length = {};
    std::optional<TypedLength> lift = {};

    friend bool operator==(const HoseRecord&, const HoseRecord&) = default;
};

/// What drives the pump, from its plate.
struct MotorRecord
{
    std::optional<TypedPower> power = {};     ///< Rated, at the shaft.
    std::optional<TypedCurrent> current = {}; ///< Full load.
    std::optional<TypedVoltage> voltage = {};

    friend bool operator==(const MotorRecord&, const MotorRecord&) = default;
};

/// Pump, valve, N stages in series, N + 1 gauges.
struct CartRecord
{
    std::string name;
    TypedFlow flow; ///< Rated.
    std::optional<TypedPressure> relief = {};
    std::optional<TypedVolume> holdUp = {};
    std::string lastFluid;           ///< Such as "ISO VG 46 hydraulic", or "same" as in the tank; empty if unknown.
    std::vector<GaugeRecord> gauges; ///< One more than there are stages.
    std::optional<TypedPressure> staticHead = {}; ///< What every gauge shows with the pump off.
    HoseRecord suctionHose = {};
    HoseRecord returnHose = {};
    std::optional<TypedFlow> lowestFlow = {};            ///< The least that the pump can be set to.
    std::optional<TypedPressure> suctionLimit = {};      ///< Below the atmosphere, at the pump's inlet.
    std::optional<Decimal> suctionAllowance = {};        ///< Above 0 to 1, see filtration/suction.h.
    std::optional<TypedViscosity> viscosityCeiling = {}; ///< Thickest oil that the pump may be started in.
    MotorRecord motor = {};
    std::optional<TypedCurrent> circuit = {}; ///< Rating of the circuit that feeds it.

    friend bool operator==(const CartRecord&, const CartRecord&) = default;
};

/// Where a clean ΔP was measured.
struct CleanAt
{
    TypedFlow flow;
    TypedViscosity viscosity;
    std::optional<TypedDensity> density = {};

    friend bool operator==(const CleanAt&, const CleanAt&) = default;
};

/// The elements of one stage; stage 1 is the first that the oil meets.
struct StageRecord
{
    int elements = 2;
    std::string kind;       ///< particle or water.
    std::string type;       ///< Element type, free text, empty if unknown.
    std::string media = {}; ///< Such as glass, cellulose; free text, empty if unknown.
    std::string seals = {}; ///< Such as NBR, FKM; free text, empty if unknown.
    std::optional<Decimal> ratingUm = {};
    std::optional<Decimal> beta = {};
    std::optional<TypedPressure> cleanDp = {};
    std::optional<TypedPressure> cleanDpHousing = {};
    std::optional<CleanAt> cleanAt = {};
    std::optional<TypedPressure> changeLimit = {};
    std::optional<TypedPressure> bypass =
        {};                             ///< Bypass setting of elements or housing; none: no bypass valve or unknown.
    std::optional<Decimal> loaded = {}; ///< Corrected ÷ clean when the run began; none: new.
    std::optional<TypedVolume> waterCapacity = {}; ///< Of one element.
    std::optional<int> spareSets = {};             ///< Whole sets at hand when the run begins; none: nobody counted.

    /// Clean ΔP with the conditions it holds at, if both are known.
    [[nodiscard]] std::optional<filtration::CleanDrop> cleanDrop() const;
    friend bool operator==(const StageRecord&, const StageRecord&) = default;
};

/// What ends the run.
struct Target
{
    std::optional<Decimal> turnovers = {};
    std::string code;           ///< ISO 4406 code, empty if none.
    bool counterOnSite = false; ///< A code keeps the run open only where it can be counted here.

    friend bool operator==(const Target&, const Target&) = default;
};

/// Everything a run is judged by.
struct Setup
{
    std::string title;
    TankRecord tank;
    CartRecord cart;
    std::vector<StageRecord> stages;
    Target target = {};
    std::string job = {};    ///< The planned job that it does, by its order; empty: none.
    bool isPractice = false; ///< A simulated cart: nothing is learned from it.

    friend bool operator==(const Setup&, const Setup&) = default;
};

/// A job that is planned: what somebody wants done to the oil of a tank.
struct JobRecord
{
    std::string order; ///< Its name, such as the number of the work order.
    std::string tank;
    std::string cart = {};                 ///< Empty: any.
    std::string reason = {};               ///< Free text.
    std::optional<Decimal> turnovers = {}; ///< Target; none: told when it is begun.
    std::string code = {};                 ///< Target, ISO 4406; empty: none.
    std::string source = {};               ///< Where the target comes from, free text.
    std::string due = {};                  ///< Day, such as 2026-11-30; empty: none.
    std::optional<Decimal> elements = {};  ///< Reserved for it, a whole number.

    friend bool operator==(const JobRecord&, const JobRecord&) = default;
};

/// What a person wants: units that computed and converted quantities are told in, and how the screen looks. No name:
/// that stands outside the journal, where it can be erased.
struct PersonRecord
{
    Id id = {};
    const PressureUnit* pressure = nullptr;                            ///< Null: as typed.
    const units::NamedUnit<units::Volume>* volume = nullptr;           ///< Null: as typed.
    const units::NamedUnit<units::Temperature>* temperature = nullptr; ///< Null: as typed.
    std::string language = {};                                         ///< Such as "en"; empty: the tablet's.
    std::string theme = {};                                            ///< day, night or sun; empty: the tablet's.
    bool isLeftHanded = false;                                         ///< The keys stand at the left.
    int textPercent = 100;                                             ///< How large text is; 100 to 200.
    bool isStill = false;                                              ///< Nothing flashes or moves.

    friend bool operator==(const PersonRecord&, const PersonRecord&) = default;
};

/// What about one field of a set-up cannot be, and where it stands ("cart.flow", "stages[0].change_limit").
struct SetupFault
{
    std::string place;
    std::string sentence; ///< For programs, without the place; `say` is for people and names the field itself.
    Message say;
};

/// A cart without stages.
[[nodiscard]] SetupFault noStages();

/// What of `setup` cannot be: the first fault, or nothing. Odd is allowed, impossible is not.
[[nodiscard]] std::optional<SetupFault> faultIn(const Setup& setup);
[[nodiscard]] std::optional<SetupFault> faultIn(const TankRecord& tank);
[[nodiscard]] std::optional<SetupFault> faultIn(const FluidRecord& fluid);
[[nodiscard]] std::optional<SetupFault> faultIn(const StageRecord& stage);
[[nodiscard]] std::optional<SetupFault> faultIn(const JobRecord& job);
[[nodiscard]] std::optional<SetupFault> faultIn(const CartRecord& cart, const std::vector<StageRecord>& stages);

} // namespace loopside::run
