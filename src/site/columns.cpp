// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "site/columns.h"

#include "base/text.h"
#include "run/place_typed.h"
#include "site/clean_at_parts.h"
#include "site/typed_in.h"

#include <algorithm>
#include <cctype>
#include <utility>

namespace loopside::site {

namespace {

constexpr std::size_t longestText = 80;
constexpr int stagesMax = 4;

std::string lower(std::string_view text)
{
    std::string all(text);
    std::transform(all.begin(), all.end(), all.begin(),
                   [](unsigned char letter) { return static_cast<char>(std::tolower(letter)); });
    std::replace(all.begin(), all.end(), '/', '_');
    return all;
}

/// The unit that a column's name ends with: its symbol in lower case, an underscore for a stroke.
template<class Q>
const units::NamedUnit<Q>* unitOfColumn(std::string_view ending)
{
    for (const units::NamedUnit<Q>& unit : units::namedUnits<Q>()) {
        std::string_view others = unit.otherSymbols;
        bool isIt = lower(unit.symbol) == ending;
        while (!isIt && !others.empty()) {
            const auto blank = others.find(' ');
            isIt = lower(others.substr(0, blank)) == ending;
            others.remove_prefix(blank == std::string_view::npos ? others.size() : blank + 1);
        }
        if (isIt) {
            return &unit;
        }
    }
    return nullptr;
}

FieldFault faultOf(const char* id, std::vector<Message::Argument> arguments = {},
                   std::vector<Message::Argument> todoArguments = {})
{
    return {{std::string("file.fault.") + id, std::move(arguments)},
            {std::string("file.do.") + id, std::move(todoArguments)}};
}

/// "1.234" where points may stand for thousands.
bool pointReadsInTwoWays(const std::string& text)
{
    std::string withComma = text;
    std::replace(withComma.begin(), withComma.end(), '.', ',');
    return text.find('.') != std::string::npos && text.find(',') == std::string::npos && readsInTwoWays(withComma);
}

/// What is wrong with a number, if it is none or two.
std::optional<FieldFault> numberFault(const std::string& number, bool pointMayGroup)
{
    if (readsInTwoWays(number) || (pointMayGroup && pointReadsInTwoWays(number))) {
        std::string thousands = number;
        std::erase_if(thousands, [](char sign) { return sign == ',' || sign == '.'; });
        return faultOf("two-ways", {}, {{"thousands", thousands}, {"fraction", number + "0"}});
    }
    return Decimal::parse(number) ? std::nullopt : std::optional(faultOf("number"));
}

template<class Q>
std::optional<FieldFault> readQuantity(const Cell& cell, std::optional<units::Typed<Q>>& into)
{
    const std::string number = numberIn(cell.text);
    if (auto fault = numberFault(number, cell.pointMayGroup)) {
        return fault;
    }
    const auto* columnUnit = unitOfColumn<Q>(cell.unit);
    if (number == cell.text) {
        if (columnUnit == nullptr) {
            return faultOf("no-unit");
        }
        into.emplace(Decimal::parse(number).value(), *columnUnit);
        return std::nullopt;
    }
    const auto typed = units::Typed<Q>::parse(cell.text);
    if (!typed) {
        return faultOf("unit", {{"kind", std::string(units::kindName<Q>())}});
    }
    if (columnUnit != nullptr && columnUnit != &typed->unit()) {
        return faultOf("unit-differs", {{"unit", std::string(columnUnit->symbol)}});
    }
    into = *typed;
    return std::nullopt;
}

template<class Q>
std::optional<FieldFault> readCell(const Cell& cell, std::optional<units::Typed<Q>>& member)
{
    return readQuantity(cell, member);
}

template<class Q>
std::optional<FieldFault> readCell(const Cell& cell, units::Typed<Q>& member)
{
    std::optional<units::Typed<Q>> read;
    auto fault = readQuantity(cell, read);
    member = read.value_or(member);
    return fault;
}

std::optional<FieldFault> readCell(const Cell& cell, std::optional<Decimal>& member)
{
    auto fault = numberFault(cell.text, cell.pointMayGroup);
    return fault || readInto(member, cell.text) ? fault : std::optional(faultOf("number"));
}

std::optional<FieldFault> readCell(const Cell& cell, std::string& member)
{
    const bool hasControl = std::any_of(cell.text.begin(), cell.text.end(),
                                        [](unsigned char sign) { return sign < 0x20 || sign == 0x7F; });
    if (hasControl || cell.text.size() > longestText) {
        return faultOf("text", {}, {{"most", std::to_string(longestText)}});
    }
    member = cell.text;
    return std::nullopt;
}

std::optional<FieldFault> readCell(const Cell& cell, int& member)
{
    return readInto(member, cell.text) ? std::nullopt : std::optional(faultOf("whole"));
}

template<class Member>
struct UnitCheck
{
    static std::function<bool(std::string_view)> of() { return {}; }
};

template<class Q>
struct UnitCheck<units::Typed<Q>>
{
    static std::function<bool(std::string_view)> of()
    {
        return [](std::string_view ending) { return unitOfColumn<Q>(ending) != nullptr; };
    }
};

template<class Q>
struct UnitCheck<std::optional<units::Typed<Q>>> : UnitCheck<units::Typed<Q>>
{
};

/// A column that fills what `get` finds in the draft.
template<class Get>
Member column(std::string name, Get get, std::string example = {})
{
    using Value = std::remove_reference_t<decltype(get(std::declval<Draft&>()))>;
    return {.name = name,
            .takesUnit = UnitCheck<Value>::of(),
            .read = [get](Draft& draft, const Cell& cell, const Site&) -> std::optional<FieldFault> {
                if (cell.text == "-") {
                    return takeBack(get(draft)) ? std::nullopt : std::optional(faultOf("stays"));
                }
                return readCell(cell, get(draft));
            },
            .example = example.empty() ? std::move(name) : std::move(example)};
}

/// A column that fills what `get` finds in a thing of several parts, which is there as a whole or not at all. `partsIn`
/// takes it apart, `put` puts it together.
template<class PartsIn, class Put, class Get>
Member partColumn(std::string name, PartsIn partsIn, Put put, Get get, const char* unit = "")
{
    using Parts = decltype(partsIn(std::declval<Draft&>()));
    using Value = std::remove_reference_t<decltype(get(std::declval<Parts&>()))>;
    const auto read = [=](Draft& draft, const Cell& cell, const Site&) -> std::optional<FieldFault> {
        Parts parts = partsIn(draft);
        const bool isTakenBack = cell.text == "-";
        auto fault = isTakenBack && takeBack(get(parts)) ? std::nullopt : readCell(cell, get(parts));
        put(draft, parts);
        return fault;
    };
    return {.name = name, .takesUnit = UnitCheck<Value>::of(), .read = read, .example = name + unit};
}

template<class Get>
Member neededColumn(std::string name, Get get, std::string example)
{
    Member member = column(std::move(name), get, std::move(example));
    member.isNeeded = true;
    return member;
}

/// One of a few words.
template<class Get>
Member choiceColumn(std::string name, Get get, std::vector<std::string> choices)
{
    std::string all;
    for (const std::string& choice : choices) {
        all += (all.empty() ? "" : ", ") + choice;
    }
    return {.name = name,
            .takesUnit = {},
            .read = [get, choices = std::move(choices), all](Draft& draft, const Cell& cell,
                                                             const Site&) -> std::optional<FieldFault> {
                if (std::find(choices.begin(), choices.end(), cell.text) == choices.end()) {
                    return faultOf("choice", {}, {{"choices", all}});
                }
                get(draft) = cell.text;
                return std::nullopt;
            },
            .example = name};
}

/// A measured viscosity at a temperature, such as "40 °C".
template<class Get>
Member viscosityColumn(std::string name, const char* at, Get fluidOf)
{
    const auto temperature = run::TypedTemperature::parse(at).value();
    const auto read = [fluidOf, temperature](Draft& draft, const Cell& cell, const Site&) -> std::optional<FieldFault> {
        std::optional<run::TypedViscosity> viscosity;
        std::optional<FieldFault> fault = cell.text == "-" ? std::nullopt : readQuantity(cell, viscosity);
        if (fault) {
            return fault;
        }
        auto& points = fluidOf(draft).points;
        const auto isIt = [&](const run::FluidRecord::Point& point) { return point.at == temperature; };
        const auto point = std::find_if(points.begin(), points.end(), isIt);
        if (!viscosity) {
            std::erase_if(points, isIt);
        } else if (point != points.end()) {
            point->viscosity = *viscosity;
        } else {
            points.push_back({temperature, *viscosity});
        }
        return std::nullopt;
    };
    return {.name = name, .takesUnit = UnitCheck<run::TypedViscosity>::of(), .read = read, .example = name + "_cst"};
}

/// Another grade is another oil: what was measured of the one before does not hold for it.
template<class Get>
Member gradeColumn(Get fluidOf)
{
    Member member = column("grade", [fluidOf](Draft& d) -> auto& { return fluidOf(d).grade; });
    member.read = [fluidOf, read = member.read](Draft& draft, const Cell& cell, const Site& site) {
        const std::string before = fluidOf(draft).grade;
        auto fault = read(draft, cell, site);
        if (fluidOf(draft).grade != before) {
            fluidOf(draft).points.clear();
            fluidOf(draft).viscosityIndex.reset();
        }
        return fault;
    };
    return member;
}

template<class Get>
void addFluid(std::vector<Member>& members, const std::string& kindName, Get fluid)
{
    members.push_back(column(kindName, [fluid](Draft& d) -> auto& { return fluid(d).kind; }));
    members.push_back(gradeColumn(fluid));
    members.push_back(column("vi", [fluid](Draft& d) -> auto& { return fluid(d).viscosityIndex; }));
    members.push_back(viscosityColumn("viscosity_40c", "40 °C", fluid));
    members.push_back(viscosityColumn("viscosity_100c", "100 °C", fluid));
    members.push_back(column("density", [fluid](Draft& d) -> auto& { return fluid(d).density; }, "density_kg_m3"));
}

/// The oil of a tank by the name that the catalogue or another tank has it under.
Member fluidColumn()
{
    const auto read = [](Draft& draft, const Cell& cell, const Site& site) -> std::optional<FieldFault> {
        if (run::fluidText(draft.tank.tank.fluid) == cell.text) {
            return std::nullopt;
        }
        const auto known = knownFluids(site);
        const auto named = std::ranges::find(known, cell.text, &run::FluidPut::name);
        const auto described = [&](const run::FluidPut& fluid) { return run::fluidText(fluid.fluid) == cell.text; };
        const auto found = named != known.end() ? named : std::ranges::find_if(known, described);
        if (found == known.end()) {
            return faultOf("fluid");
        }
        const bool isOne = named != known.end() || std::ranges::all_of(known, [&](const run::FluidPut& fluid) {
                               return !described(fluid) || fluid.fluid == found->fluid;
                           });
        if (!isOne) {
            return faultOf("fluids");
        }
        draft.tank.tank.fluid = found->fluid;
        return std::nullopt;
    };
    return {.name = "fluid", .takesUnit = {}, .read = read, .example = "fluid"};
}

/// The inside of a tank. Another form is another tank: what was measured of the one before does not hold for it.
void addShape(std::vector<Member>& members)
{
    using Shape = run::TankShapeRecord;
    const auto shapeIn = [](Draft& d) { return d.tank.tank.shape.value_or(Shape{}); };
    const auto put = [](Draft& d, const Shape& shape) {
        d.tank.tank.shape = shape == Shape{} ? std::nullopt : std::optional(shape);
    };
    const std::vector<std::string> forms = {"box", "upright", "lying"};
    const auto readForm = [=](Draft& draft, const Cell& cell, const Site&) -> std::optional<FieldFault> {
        if (cell.text != "-" && std::ranges::find(forms, cell.text) == forms.end()) {
            return faultOf("choice", {}, {{"choices", "box, upright, lying"}});
        }
        const std::string form = cell.text == "-" ? std::string() : cell.text;
        if (shapeIn(draft).form != form) {
            put(draft, {.form = form});
        }
        return std::nullopt;
    };
    members.push_back({.name = "shape", .takesUnit = {}, .read = readForm, .example = "shape"});
    const auto add = [&](const char* name, auto get) { members.push_back(partColumn(name, shapeIn, put, get, "_mm")); };
    add("shape_length", [](Shape& s) -> auto& { return s.length; });
    add("shape_width", [](Shape& s) -> auto& { return s.width; });
    add("shape_height", [](Shape& s) -> auto& { return s.height; });
    add("shape_diameter", [](Shape& s) -> auto& { return s.diameter; });
}

/// A latitude or longitude, kept as it is written.
template<class Get>
Member coordinateColumn(const char* name, run::Axis axis, Get get)
{
    Member member = column(name, get);
    member.read = [get, axis, read = member.read](Draft& draft, const Cell& cell,
                                                  const Site& site) -> std::optional<FieldFault> {
        const auto coordinate = cell.text == "-" ? run::Coordinate{} : run::coordinateIn(cell.text, axis);
        return coordinate ? read(draft, cell, site)
                          : std::optional(FieldFault{coordinate.error().say, {"file.do.place", {}}});
    };
    return member;
}

std::vector<Member> tankMembers()
{
    std::vector<Member> members = {
        neededColumn(
            "name", [](Draft& d) -> auto& { return d.tank.tank.name; }, "name"),
        neededColumn("volume", [](Draft& d) -> auto& { return d.tank.tank.volume; }, "volume_l"), fluidColumn()};
    addFluid(members, "fluid_kind", [](Draft& d) -> auto& { return d.tank.tank.fluid; });
    members.push_back(column("capacity", [](Draft& d) -> auto& { return d.tank.tank.capacity; }, "capacity_l"));
    addShape(members);
    members.push_back(column("level", [](Draft& d) -> auto& { return d.tank.tank.level; }, "level_mm"));
    members.push_back(column("mixing", [](Draft& d) -> auto& { return d.tank.tank.mixing; }));
    members.push_back(column("water", [](Draft& d) -> auto& { return d.tank.tank.water; }, "water_ppm"));
    members.push_back(column("code", [](Draft& d) -> auto& { return d.tank.tank.code; }));
    members.push_back(column("plate", [](Draft& d) -> auto& { return d.tank.plate; }));
    members.push_back(
        coordinateColumn("latitude", run::Axis::Latitude, [](Draft& d) -> auto& { return d.tank.tank.latitude; }));
    members.push_back(
        coordinateColumn("longitude", run::Axis::Longitude, [](Draft& d) -> auto& { return d.tank.tank.longitude; }));
    return members;
}

std::vector<Member> fluidMembers()
{
    std::vector<Member> members = {neededColumn("name", [](Draft& d) -> auto& { return d.fluid.name; }, "name")};
    addFluid(members, "kind", [](Draft& d) -> auto& { return d.fluid.fluid; });
    return members;
}

/// The columns of a stage, each name with `prefix` in front.
template<class Get>
void addStage(std::vector<Member>& members, const std::string& prefix, Get stage)
{
    const auto add = [&](const char* name, auto get, const char* unit = "") {
        members.push_back(
            column(prefix + name, [stage, get](Draft& d) -> auto& { return get(stage(d)); }, prefix + name + unit));
    };
    using Stage = run::StageRecord;
    add("elements", [](Stage& s) -> auto& { return s.elements; });
    members.push_back(
        choiceColumn(prefix + "kind", [stage](Draft& d) -> auto& { return stage(d).kind; }, {"particle", "water"}));
    add("media", [](Stage& s) -> auto& { return s.media; });
    add("seals", [](Stage& s) -> auto& { return s.seals; });
    add("rating_um", [](Stage& s) -> auto& { return s.ratingUm; });
    add("beta", [](Stage& s) -> auto& { return s.beta; });
    add("clean_dp", [](Stage& s) -> auto& { return s.cleanDp; }, "_kpa");
    add("clean_dp_housing", [](Stage& s) -> auto& { return s.cleanDpHousing; }, "_kpa");
    const auto addCleanAt = [&](const char* name, auto get, const char* unit) {
        members.push_back(partColumn(
            prefix + name, [stage](Draft& d) { return CleanAtParts::of(stage(d).cleanAt); },
            [stage](Draft& d, const CleanAtParts& parts) { stage(d).cleanAt = parts.whole(); }, get, unit));
    };
    addCleanAt("clean_at_flow", [](CleanAtParts& at) -> auto& { return at.flow; }, "_lpm");
    addCleanAt("clean_at_viscosity", [](CleanAtParts& at) -> auto& { return at.viscosity; }, "_cst");
    addCleanAt("clean_at_density", [](CleanAtParts& at) -> auto& { return at.density; }, "_kg_m3");
    add("change_limit", [](Stage& s) -> auto& { return s.changeLimit; }, "_kpa");
    add("bypass", [](Stage& s) -> auto& { return s.bypass; }, "_kpa");
    add("water_capacity", [](Stage& s) -> auto& { return s.waterCapacity; }, "_l");
}

std::vector<Member> elementMembers()
{
    std::vector<Member> members = {
        neededColumn("type", [](Draft& d) -> auto& { return d.element.stage.type; }, "type")};
    addStage(members, "", [](Draft& d) -> auto& { return d.element.stage; });
    members.push_back({.name = "stock",
                       .takesUnit = {},
                       .read = [](Draft& draft, const Cell& cell, const Site&) -> std::optional<FieldFault> {
                           return cell.text == "-" ? std::optional(faultOf("whole"))
                                                   : readCell(cell, draft.stock.emplace());
                       },
                       .example = "stock"});
    return members;
}

run::StageRecord& stageAt(Draft& draft, std::size_t stage)
{
    auto& stages = draft.cart.stages;
    if (stages.size() <= stage) {
        stages.resize(stage + 1);
    }
    return stages[stage];
}

/// The element type of a stage: one that the catalogue knows brings all that is known of it.
Member stageTypeColumn(int number)
{
    const auto at = static_cast<std::size_t>(number - 1);
    const auto read = [at](Draft& draft, const Cell& cell, const Site& site) -> std::optional<FieldFault> {
        if (cell.text == "-" && draft.cart.stages.size() <= at) {
            return std::nullopt; // nothing is known of a stage that is not there
        }
        run::StageRecord& stage = stageAt(draft, at);
        const std::string type = cell.text == "-" ? std::string() : cell.text;
        if (stage.type == type) {
            return std::nullopt;
        }
        run::StageRecord other{
            .elements = stage.elements, .kind = stage.kind, .type = {}}; // what was known was of another type
        if (auto fault = readCell({type, cell.unit, cell.pointMayGroup}, other.type)) {
            return fault;
        }
        if (const auto known = recordNamed(site, "element-type", type)) {
            other = std::get<run::ElementTypePut>(*known).stage;
        }
        stage = other;
        return std::nullopt;
    };
    const std::string name = "stage" + std::to_string(number) + "_type";
    return {.name = name, .takesUnit = {}, .read = read, .example = name};
}

/// What all gauges of a cart have alike.
template<class Get>
Member gaugesColumn(std::string name, Get get)
{
    return {.name = name,
            .takesUnit = {},
            .read = [get](Draft& draft, const Cell& cell, const Site&) -> std::optional<FieldFault> {
                for (run::GaugeRecord& gauge : draft.cart.cart.gauges) {
                    auto fault = cell.text == "-" && takeBack(get(gauge)) ? std::nullopt : readCell(cell, get(gauge));
                    if (fault) {
                        return fault;
                    }
                }
                return std::nullopt;
            },
            .example = name};
}

Member gaugeUnitColumn()
{
    return {.name = "gauge_unit",
            .takesUnit = {},
            .read = [](Draft& draft, const Cell& cell, const Site&) -> std::optional<FieldFault> {
                const auto unit = units::unitNamed<units::Pressure>(cell.text);
                if (!unit) {
                    return faultOf("choice", {}, {{"choices", "psi, kPa, bar"}});
                }
                for (run::GaugeRecord& gauge : draft.cart.cart.gauges) {
                    if (gauge.unit != *unit) { // its numbers counted in the unit before
                        gauge.span.reset();
                        gauge.graduation.reset();
                    }
                    gauge.unit = *unit;
                }
                return std::nullopt;
            },
            .isNeeded = true,
            .example = "gauge_unit"};
}

std::vector<Member> cartMembers()
{
    std::vector<Member> members = {
        neededColumn(
            "name", [](Draft& d) -> auto& { return d.cart.cart.name; }, "name"),
        neededColumn(
            "flow", [](Draft& d) -> auto& { return d.cart.cart.flow; }, "flow_lpm"),
        gaugeUnitColumn(),
        gaugesColumn("gauge_span", [](run::GaugeRecord& g) -> auto& { return g.span; }),
        gaugesColumn("gauge_graduation", [](run::GaugeRecord& g) -> auto& { return g.graduation; }),
        gaugesColumn("gauge_grade", [](run::GaugeRecord& g) -> auto& { return g.grade; })};
    const auto add = [&](const char* name, auto get, const char* unit = "") {
        members.push_back(
            column(name, [get](Draft& d) -> auto& { return get(d.cart.cart); }, std::string(name) + unit));
    };
    using Cart = run::CartRecord;
    add("lowest_flow", [](Cart& c) -> auto& { return c.lowestFlow; }, "_lpm");
    add("relief", [](Cart& c) -> auto& { return c.relief; }, "_kpa");
    add("hold_up", [](Cart& c) -> auto& { return c.holdUp; }, "_l");
    add("last_fluid", [](Cart& c) -> auto& { return c.lastFluid; });
    add("static_head", [](Cart& c) -> auto& { return c.staticHead; }, "_kpa");
    add("suction_limit", [](Cart& c) -> auto& { return c.suctionLimit; }, "_kpa");
    add("suction_allowance", [](Cart& c) -> auto& { return c.suctionAllowance; });
    add("viscosity_ceiling", [](Cart& c) -> auto& { return c.viscosityCeiling; }, "_cst");
    add("suction_hose_bore", [](Cart& c) -> auto& { return c.suctionHose.bore; }, "_mm");
    add("suction_hose_length", [](Cart& c) -> auto& { return c.suctionHose.length; }, "_m");
    add("suction_hose_lift", [](Cart& c) -> auto& { return c.suctionHose.lift; }, "_m");
    add("return_hose_bore", [](Cart& c) -> auto& { return c.returnHose.bore; }, "_mm");
    add("return_hose_length", [](Cart& c) -> auto& { return c.returnHose.length; }, "_m");
    add("return_hose_lift", [](Cart& c) -> auto& { return c.returnHose.lift; }, "_m");
    add("motor_power", [](Cart& c) -> auto& { return c.motor.power; }, "_kw");
    add("motor_current", [](Cart& c) -> auto& { return c.motor.current; }, "_a");
    add("motor_voltage", [](Cart& c) -> auto& { return c.motor.voltage; }, "_v");
    add("circuit", [](Cart& c) -> auto& { return c.circuit; }, "_a");
    for (int number = 1; number <= stagesMax; ++number) {
        members.push_back(stageTypeColumn(number));
        const auto at = static_cast<std::size_t>(number - 1);
        addStage(members, "stage" + std::to_string(number) + "_",
                 [at](Draft& d) -> run::StageRecord& { return stageAt(d, at); });
    }
    return members;
}

/// The name of a record that is in service, so that a job can be begun.
template<class Get>
Member namedColumn(std::string name, std::string kind, Get get, bool isNeeded)
{
    Member member = column(std::move(name), get);
    member.isNeeded = isNeeded;
    member.read = [kind = std::move(kind), read = member.read](Draft& draft, const Cell& cell, const Site& site) {
        const bool isThere = recordNamed(site, kind, cell.text) && outOfServiceOf(site, kind, cell.text) == nullptr;
        return isThere || cell.text == "-" ? read(draft, cell, site) : std::optional(faultOf("not-in-catalogue"));
    };
    return member;
}

std::vector<Member> jobMembers()
{
    std::vector<Member> members = {
        neededColumn(
            "order", [](Draft& d) -> auto& { return d.job.job.order; }, "order"),
        namedColumn(
            "tank", "tank", [](Draft& d) -> auto& { return d.job.job.tank; }, true),
        namedColumn("cart", "cart", [](Draft& d) -> auto& { return d.job.job.cart; }, false)};
    const auto add = [&](const char* name, auto get) {
        members.push_back(column(name, [get](Draft& d) -> auto& { return get(d.job.job); }));
    };
    using Job = run::JobRecord;
    add("reason", [](Job& j) -> auto& { return j.reason; });
    add("turnovers", [](Job& j) -> auto& { return j.turnovers; });
    add("target_code", [](Job& j) -> auto& { return j.code; });
    add("target_source", [](Job& j) -> auto& { return j.source; });
    add("due", [](Job& j) -> auto& { return j.due; });
    add("elements", [](Job& j) -> auto& { return j.elements; });
    return members;
}

run::TypedVolume noVolume()
{
    return run::TypedVolume::parse("0 L").value();
}

} // namespace

Draft::Draft()
    : tank{{.name = {}, .volume = noVolume(), .fluid = {}}, {}},
      cart{{.name = {}, .flow = run::TypedFlow::parse("0 L/min").value(), .lastFluid = {}, .gauges = {{}}}, {}}
{
}

Result<std::string> recordKindOf(std::string_view fileKind)
{
    for (std::size_t i = 0; i < fileKinds.size(); ++i) {
        if (fileKinds[i] == fileKind) {
            constexpr std::array<std::string_view, fileKinds.size()> kinds = {"tank", "fluid", "element-type", "cart",
                                                                              "job"};
            return std::string(kinds[i]);
        }
    }
    return fail(Errc::NotFound,
                "\"" + quotable(fileKind)
                    + "\" is no kind of records; there are tanks, fluids, elements, carts and jobs");
}

const std::vector<Member>& membersOf(std::string_view recordKind)
{
    static const std::vector<Member> tanks = tankMembers();
    static const std::vector<Member> carts = cartMembers();
    static const std::vector<Member> fluids = fluidMembers();
    static const std::vector<Member> elements = elementMembers();
    static const std::vector<Member> jobs = jobMembers();
    return recordKind == "tank" ? tanks
        : recordKind == "cart"  ? carts
        : recordKind == "fluid" ? fluids
        : recordKind == "job"   ? jobs
                                : elements;
}

} // namespace loopside::site
