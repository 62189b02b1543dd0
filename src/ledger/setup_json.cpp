// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "ledger/setup_json.h"

#include <nlohmann/json.hpp>

namespace loopside::ledger {

namespace {

using Json = nlohmann::ordered_json;
using units::Pressure;

template<class Typed>
Json textOf(const std::optional<Typed>& typed)
{
    return typed ? Json(typed->toText()) : Json();
}

Json shapeJson(const std::optional<run::TankShapeRecord>& shape)
{
    return shape ? Json{{"form", shape->form},
                        {"length", textOf(shape->length)},
                        {"width", textOf(shape->width)},
                        {"height", textOf(shape->height)},
                        {"diameter", textOf(shape->diameter)}}
                 : Json();
}

Json gaugeJson(const run::GaugeRecord& gauge)
{
    return {{"unit", std::string(gauge.unit->symbol)},
            {"span", textOf(gauge.span)},
            {"graduation", textOf(gauge.graduation)},
            {"grade", gauge.grade}};
}

Json hoseJson(const run::HoseRecord& hose)
{
    return {{"bore", textOf(hose.bore)}, {"length", textOf(hose.length)}, {"lift", textOf(hose.lift)}};
}

run::GaugeRecord readGauge(const JsonReader& gauge)
{
    gauge.onlyKeys({"unit", "span", "graduation", "grade"});
    run::GaugeRecord record;
    record.unit = gauge.at("unit").unit<Pressure>();
    record.span = gauge.decimalIfThere("span");
    record.graduation = gauge.decimalIfThere("graduation");
    record.grade = gauge.textOr("grade");
    return record;
}

std::vector<run::GaugeRecord> readGauges(const JsonReader& gauges, std::size_t stages)
{
    if (!gauges.isArray()) {
        return {stages + 1, readGauge(gauges)};
    }
    std::vector<run::GaugeRecord> all;
    for (const JsonReader& gauge : gauges.items()) {
        all.push_back(readGauge(gauge));
    }
    return all;
}

run::HoseRecord readHose(const JsonReader& hose)
{
    hose.onlyKeys({"bore", "length", "lift"});
    return {hose.quantityIfThere<units::Length>("bore"), hose.quantityIfThere<units::Length>("length"),
            hose.quantityIfThere<units::Length>("lift")};
}

run::MotorRecord readMotor(const JsonReader& motor)
{
    motor.onlyKeys({"power", "current", "voltage"});
    return {motor.quantityIfThere<units::Power>("power"), motor.quantityIfThere<units::Current>("current"),
            motor.quantityIfThere<units::Voltage>("voltage")};
}

run::TankShapeRecord readShape(const JsonReader& shape)
{
    shape.onlyKeys({"form", "length", "width", "height", "diameter"});
    return {shape.at("form").text(), shape.quantityIfThere<units::Length>("length"),
            shape.quantityIfThere<units::Length>("width"), shape.quantityIfThere<units::Length>("height"),
            shape.quantityIfThere<units::Length>("diameter")};
}

run::CleanAt readCleanAt(const JsonReader& at)
{
    at.onlyKeys({"flow", "viscosity", "density"});
    return {at.at("flow").quantity<units::Flow>(), at.at("viscosity").quantity<units::KinematicViscosity>(),
            at.quantityIfThere<units::Density>("density")};
}

run::FluidRecord::Point readPoint(const JsonReader& point)
{
    point.onlyKeys({"at", "viscosity"});
    return {point.at("at").quantity<units::Temperature>(), point.at("viscosity").quantity<units::KinematicViscosity>()};
}

std::string readStageKind(const JsonReader& kind)
{
    const std::string text = kind.text();
    if (text != "particle" && text != "water") {
        kind.refuse("a stage is of the kind particle or water");
    }
    return text;
}

} // namespace

run::FluidRecord readFluid(const JsonReader& fluid)
{
    fluid.onlyKeys({"kind", "grade", "vi", "points", "viscosity", "density"});
    run::FluidRecord record;
    record.kind = fluid.textOr("kind");
    record.grade = fluid.textOr("grade");
    record.viscosityIndex = fluid.decimalIfThere("vi");
    if (const auto points = fluid.find("points")) {
        for (const JsonReader& point : points->items()) {
            record.points.push_back(readPoint(point));
        }
        if (record.points.size() > 2) {
            points->refuse("a viscosity line needs two points, not " + std::to_string(record.points.size()));
        }
    }
    record.viscosity = fluid.quantityIfThere<units::KinematicViscosity>("viscosity");
    record.density = fluid.quantityIfThere<units::Density>("density");
    return record;
}

run::TankRecord readTank(const JsonReader& tank)
{
    tank.onlyKeys(
        {"name", "volume", "fluid", "mixing", "capacity", "shape", "level", "water", "code", "latitude", "longitude"});
    return {.name = tank.textOr("name"),
            .volume = tank.at("volume").quantity<units::Volume>(),
            .fluid = readFluid(tank.at("fluid")),
            .mixing = tank.decimalIfThere("mixing"),
            .capacity = tank.quantityIfThere<units::Volume>("capacity"),
            .shape = tank.ifThere("shape", readShape),
            .level = tank.quantityIfThere<units::Length>("level"),
            .water = tank.quantityIfThere<units::Fraction>("water"),
            .code = tank.textOr("code"),
            .latitude = tank.textOr("latitude"),
            .longitude = tank.textOr("longitude")};
}

run::CartRecord readCart(const JsonReader& cart, std::size_t stages)
{
    cart.onlyKeys({"name", "flow", "relief", "hold_up", "last_fluid", "gauges", "static_head", "suction_hose",
                   "return_hose", "lowest_flow", "suction_limit", "suction_allowance", "viscosity_ceiling", "motor",
                   "circuit"});
    run::CartRecord record{.name = cart.textOr("name"),
                           .flow = cart.at("flow").quantity<units::Flow>(),
                           .relief = cart.quantityIfThere<Pressure>("relief"),
                           .holdUp = cart.quantityIfThere<units::Volume>("hold_up"),
                           .lastFluid = cart.textOr("last_fluid"),
                           .gauges = readGauges(cart.at("gauges"), stages),
                           .staticHead = cart.quantityIfThere<Pressure>("static_head")};
    record.suctionHose = cart.ifThere("suction_hose", readHose).value_or(run::HoseRecord{});
    record.returnHose = cart.ifThere("return_hose", readHose).value_or(run::HoseRecord{});
    record.lowestFlow = cart.quantityIfThere<units::Flow>("lowest_flow");
    record.suctionLimit = cart.quantityIfThere<Pressure>("suction_limit");
    record.suctionAllowance = cart.decimalIfThere("suction_allowance");
    record.viscosityCeiling = cart.quantityIfThere<units::KinematicViscosity>("viscosity_ceiling");
    record.motor = cart.ifThere("motor", readMotor).value_or(run::MotorRecord{});
    record.circuit = cart.quantityIfThere<units::Current>("circuit");
    return record;
}

run::StageRecord readStage(const JsonReader& stage)
{
    stage.onlyKeys({"elements", "kind", "type", "media", "seals", "rating_um", "beta", "clean_dp", "clean_dp_housing",
                    "clean_at", "change_limit", "bypass", "loaded", "water_capacity", "spare_sets"});
    run::StageRecord record;
    record.elements = stage.ifThere("elements", [](const JsonReader& n) { return n.integer(1, 12); }).value_or(2);
    record.kind = stage.ifThere("kind", readStageKind).value_or("particle");
    record.type = stage.textOr("type");
    record.media = stage.textOr("media");
    record.seals = stage.textOr("seals");
    record.ratingUm = stage.decimalIfThere("rating_um");
    record.beta = stage.decimalIfThere("beta");
    record.cleanDp = stage.quantityIfThere<Pressure>("clean_dp");
    record.cleanDpHousing = stage.quantityIfThere<Pressure>("clean_dp_housing");
    record.cleanAt = stage.ifThere("clean_at", readCleanAt);
    record.changeLimit = stage.quantityIfThere<Pressure>("change_limit");
    record.bypass = stage.quantityIfThere<Pressure>("bypass");
    record.loaded = stage.decimalIfThere("loaded");
    record.waterCapacity = stage.quantityIfThere<units::Volume>("water_capacity");
    record.spareSets = stage.ifThere("spare_sets", [](const JsonReader& n) { return n.integer(0, 999); });
    return record;
}

run::Target readTarget(const JsonReader& target)
{
    target.onlyKeys({"turnovers", "code", "counter_on_site"});
    return {target.decimalIfThere("turnovers"), target.textOr("code"),
            target.ifThere("counter_on_site", [](const JsonReader& on) { return on.boolean(); }).value_or(false)};
}

run::Setup readSetup(const JsonReader& object)
{
    const auto stages = object.at("stages").items();
    run::Setup setup{
        object.textOr("title"), readTank(object.at("tank")), readCart(object.at("cart"), stages.size()), {}};
    for (const JsonReader& stage : stages) {
        setup.stages.push_back(readStage(stage));
    }
    setup.target = object.ifThere("target", readTarget).value_or(run::Target{});
    setup.job = object.textOr("job");
    setup.isPractice =
        object.ifThere("practice", [](const JsonReader& flag) { return flag.boolean(); }).value_or(false);
    if (const auto fault = run::faultIn(setup)) {
        JsonReader(object.value(), object.place().empty() ? fault->place : object.place() + "." + fault->place)
            .refuse(fault->sentence);
    }
    return setup;
}

nlohmann::ordered_json fluidJson(const run::FluidRecord& fluid)
{
    Json points = Json::array();
    for (const auto& point : fluid.points) {
        points.push_back({{"at", point.at.toText()}, {"viscosity", point.viscosity.toText()}});
    }
    return {{"kind", fluid.kind},
            {"grade", fluid.grade},
            {"vi", textOf(fluid.viscosityIndex)},
            {"points", points},
            {"viscosity", textOf(fluid.viscosity)},
            {"density", textOf(fluid.density)}};
}

nlohmann::ordered_json tankJson(const run::TankRecord& tank)
{
    Json json = {{"name", tank.name},
                 {"volume", tank.volume.toText()},
                 {"fluid", fluidJson(tank.fluid)},
                 {"mixing", textOf(tank.mixing)},
                 {"capacity", textOf(tank.capacity)},
                 {"shape", shapeJson(tank.shape)},
                 {"level", textOf(tank.level)},
                 {"water", textOf(tank.water)},
                 {"code", tank.code}};
    if (!tank.latitude.empty() || !tank.longitude.empty()) { // older versions read no tank with a place
        json["latitude"] = tank.latitude;
        json["longitude"] = tank.longitude;
    }
    return json;
}

nlohmann::ordered_json cartJson(const run::CartRecord& cart)
{
    Json gauges = Json::array();
    for (const auto& gauge : cart.gauges) {
        gauges.push_back(gaugeJson(gauge));
    }
    return {{"name", cart.name},
            {"flow", cart.flow.toText()},
            {"relief", textOf(cart.relief)},
            {"hold_up", textOf(cart.holdUp)},
            {"last_fluid", cart.lastFluid},
            {"gauges", gauges},
            {"static_head", textOf(cart.staticHead)},
            {"suction_hose", hoseJson(cart.suctionHose)},
            {"return_hose", hoseJson(cart.returnHose)},
            {"lowest_flow", textOf(cart.lowestFlow)},
            {"suction_limit", textOf(cart.suctionLimit)},
            {"suction_allowance", textOf(cart.suctionAllowance)},
            {"viscosity_ceiling", textOf(cart.viscosityCeiling)},
            {"motor",
             {{"power", textOf(cart.motor.power)},
              {"current", textOf(cart.motor.current)},
              {"voltage", textOf(cart.motor.voltage)}}},
            {"circuit", textOf(cart.circuit)}};
}

nlohmann::ordered_json stageJson(const run::StageRecord& stage)
{
    Json cleanAt;
    if (stage.cleanAt) {
        cleanAt = {{"flow", stage.cleanAt->flow.toText()},
                   {"viscosity", stage.cleanAt->viscosity.toText()},
                   {"density", textOf(stage.cleanAt->density)}};
    }
    return {{"elements", stage.elements},
            {"kind", stage.kind},
            {"type", stage.type},
            {"media", stage.media},
            {"seals", stage.seals},
            {"rating_um", textOf(stage.ratingUm)},
            {"beta", textOf(stage.beta)},
            {"clean_dp", textOf(stage.cleanDp)},
            {"clean_dp_housing", textOf(stage.cleanDpHousing)},
            {"clean_at", cleanAt},
            {"change_limit", textOf(stage.changeLimit)},
            {"bypass", textOf(stage.bypass)},
            {"loaded", textOf(stage.loaded)},
            {"water_capacity", textOf(stage.waterCapacity)},
            {"spare_sets", stage.spareSets ? Json(*stage.spareSets) : Json()}};
}

nlohmann::ordered_json setupJson(const run::Setup& setup)
{
    Json stages = Json::array();
    for (const auto& stage : setup.stages) {
        stages.push_back(stageJson(stage));
    }
    const Json target = {{"turnovers", textOf(setup.target.turnovers)},
                         {"code", setup.target.code},
                         {"counter_on_site", setup.target.counterOnSite}};
    Json json = {{"title", setup.title},
                 {"tank", tankJson(setup.tank)},
                 {"cart", cartJson(setup.cart)},
                 {"stages", stages},
                 {"target", target}};
    if (!setup.job.empty()) {
        json["job"] = setup.job;
    }
    if (setup.isPractice) {
        json["practice"] = true;
    }
    return json;
}

} // namespace loopside::ledger
