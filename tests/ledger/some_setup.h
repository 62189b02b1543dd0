// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "run/catalogue.h"

#include <string_view>

namespace loopside::test {

inline Decimal number(std::string_view text)
{
    return Decimal::parse(text).value();
}

template<class Q>
units::Typed<Q> typed(std::string_view text)
{
    return units::Typed<Q>::parse(text).value();
}

inline run::GaugeRecord dial(std::string_view unit)
{
    return {units::unitNamed<units::Pressure>(unit).value(), {}, {}, {}};
}

/// Two stages with nothing known that may be unknown.
inline run::Setup bareSetup()
{
    run::Setup setup{.title = {},
                     .tank = {.name = {}, .volume = typed<units::Volume>("400 L"), .fluid = {}},
                     .cart = {.name = {},
                              .flow = typed<units::Flow>("19 L/min"),
                              .lastFluid = {},
                              .gauges = {dial("psi"), dial("psi"), dial("psi")}},
                     .stages = std::vector<run::StageRecord>(2)};
    for (run::StageRecord& stage : setup.stages) {
        stage.kind = "particle";
    }
    return setup;
}

/// A stage with everything known.
inline run::StageRecord fullStage()
{
    run::StageRecord stage;
    stage.elements = 4;
    stage.kind = "water";
    stage.type = "W-10 \"swells\"";
    stage.media = "absorbent";
    stage.seals = "FKM";
    stage.ratingUm = number("10.0");
    stage.beta = number("1000");
    stage.cleanDp = typed<units::Pressure>("0.140 bar");
    stage.cleanDpHousing = typed<units::Pressure>("0.02 bar");
    stage.cleanAt = {{typed<units::Flow>("19.0 L/min"), typed<units::KinematicViscosity>("46.00 cSt"),
                      typed<units::Density>("870 kg/m³")}};
    stage.changeLimit = typed<units::Pressure>("25 psi");
    stage.bypass = typed<units::Pressure>("1.70 bar");
    stage.loaded = number("1.350");
    stage.waterCapacity = typed<units::Volume>("0.5 L");
    return stage;
}

/// Everything known, in mixed units and with trailing zeros.
inline run::Setup fullSetup()
{
    run::Setup setup = bareSetup();
    setup.title = "Ölpflege, Halle 3";
    setup.tank.name = "PH-3";
    setup.tank.volume = typed<units::Volume>("105.70 gal");
    setup.tank.fluid = {.kind = "hydraulic",
                        .grade = "ISO VG 46",
                        .viscosityIndex = number("98.0"),
                        .points = {{typed<units::Temperature>("40.0 °C"), typed<units::KinematicViscosity>("46.0 cSt")},
                                   {typed<units::Temperature>("212 °F"), typed<units::KinematicViscosity>("6.80 cSt")}},
                        .viscosity = std::nullopt,
                        .density = typed<units::Density>("0.870 kg/L")};
    setup.tank.mixing = number("0.70");
    setup.tank.capacity = typed<units::Volume>("130.0 gal");
    setup.tank.shape = run::TankShapeRecord{
        .form = "lying", .length = typed<units::Length>("1.20 m"), .diameter = typed<units::Length>("80.0 cm")};
    setup.tank.level = typed<units::Length>("52 cm");
    setup.tank.water = typed<units::Fraction>("140 ppm");
    setup.tank.code = "20/18/15";
    setup.cart.name = "Grey cart";
    setup.cart.relief = typed<units::Pressure>("100 psi");
    setup.cart.holdUp = typed<units::Volume>("8.0 L");
    setup.cart.lastFluid = "same";
    setup.cart.gauges[0] = {units::unitNamed<units::Pressure>("psi").value(), number("100"), number("1.0"), "B"};
    setup.cart.gauges[1] = {units::unitNamed<units::Pressure>("bar").value(), number("6"), number("0.10"), "1.6"};
    setup.cart.staticHead = typed<units::Pressure>("1.20 psi");
    setup.cart.suctionHose = {typed<units::Length>("32 mm"), typed<units::Length>("3.0 m"),
                              typed<units::Length>("0.5 m")};
    setup.cart.returnHose = {typed<units::Length>("0.75 in"), std::nullopt, std::nullopt};
    setup.cart.lowestFlow = typed<units::Flow>("7.60 L/min");
    setup.cart.suctionLimit = typed<units::Pressure>("5.0 inHg");
    setup.cart.suctionAllowance = number("0.70");
    setup.cart.viscosityCeiling = typed<units::KinematicViscosity>("1620 cSt");
    setup.cart.motor = {typed<units::Power>("0.75 kW"), typed<units::Current>("4.90 A"),
                        typed<units::Voltage>("230 V")};
    setup.cart.circuit = typed<units::Current>("16 A");
    setup.stages[1] = fullStage();
    setup.target = {number("7.0"), "17/15/12", true};
    return setup;
}

} // namespace loopside::test
