// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "site/preview.h"

#include "site/columns.h"
#include "words/words.h"

#include <catch2/catch.hpp>

#include <algorithm>

using namespace loopside;
using namespace loopside::site;

namespace {

/// One tank, one cart; the catalogue knows one fluid and one element type.
Site someSite()
{
    auto site = siteFrom(R"({"name": "Site", "people": [{"id": "018f3b5e-0001-7000-8000-000000000001", "name": "Ines"}],
        "tanks": [{"name": "Press", "volume": "760 L", "capacity": "900 L", "code": "19/17/14",
                   "fluid": {"kind": "hydraulic", "grade": "ISO VG 46", "vi": 98}}],
        "carts": [{"cart": {"name": "Cart B", "flow": "24 L/min", "gauges": {"unit": "kPa", "span": 700, "graduation": 5}},
                   "stages": [{"kind": "particle", "type": "P10", "change_limit": "170 kPa"},
                              {"kind": "particle", "type": "P3", "change_limit": "240 kPa"}]}],
        "plates": {"Press": "BM-1"}})");
    REQUIRE(site.has_value());
    run::FluidPut turbine{"Turbine 46", site->tanks.front().fluid};
    turbine.fluid.kind = "turbine";
    site->fluids.push_back(turbine);
    site->elementTypes.push_back({.elements = 1, .kind = "water", .type = "W1"});
    return *site;
}

Preview previewIn(const std::string& text, std::string_view kind = "tank", const Site& site = someSite(),
                  const Stock& stock = {})
{
    const auto preview = previewOf("t.csv", text, kind, site, stock);
    CAPTURE(text);
    REQUIRE(preview.has_value());
    return *preview;
}

PreviewRow onlyRow(const std::string& text, std::string_view kind = "tank")
{
    const Preview preview = previewIn(text, kind);
    REQUIRE(preview.rows.size() == 1);
    return preview.rows.front();
}

/// The faults of the one row, as "column value id".
std::vector<std::string> faultsOf(const std::string& text, std::string_view kind = "tank")
{
    std::vector<std::string> faults;
    for (const RowFault& fault : onlyRow(text, kind).faults) {
        faults.push_back(fault.column + " " + fault.value + " " + fault.what.id);
    }
    return faults;
}

using Faults = std::vector<std::string>;

const run::TankPut& tankIn(const PreviewRow& row)
{
    REQUIRE(row.put.has_value());
    return std::get<run::TankPut>(*row.put);
}

/// What became of the site when all good rows were taken.
Site taken(Site site, const Preview& preview)
{
    std::vector<run::Entered<run::RecordPut>> records;
    for (const run::RecordPut& record : preview.command().records) {
        records.push_back({{}, record});
    }
    return withRecords(std::move(site), records);
}

} // namespace

TEST_CASE("a preview says what is new, what changes from what to what, what is the same and what cannot be read")
{
    const Preview preview = previewIn("name,volume_l,code\nPress,740,19/17/14\nWinder,310,\nPress 2,x,\n");
    REQUIRE(preview.rows.size() == 3);
    CHECK(preview.rows[0].fate == RowFate::Changed);
    CHECK(preview.rows[0].changes == std::vector<Change>{{"/volume", "760 L", "740 L"}});
    CHECK(preview.rows[1].fate == RowFate::New);
    CHECK(preview.rows[1].line == 3);
    CHECK(preview.rows[1].changes == std::vector<Change>{{"/volume", "", "310 L"}}); // all that it holds
    CHECK(preview.rows[2].fate == RowFate::Unreadable);
    REQUIRE(preview.rows[2].faults.size() == 1);
    CHECK(preview.rows[2].faults[0].column == "volume_l");
    CHECK(preview.rows[2].faults[0].value == "x");
    CHECK(preview.takes() == 2);
    CHECK(preview.command().records.size() == 2); // the good rows only
    CHECK(onlyRow("name,volume_l\nPress,760\n").fate == RowFate::Same);
}

TEST_CASE("planned jobs come out of a file, each at a tank that is known")
{
    const Preview preview = previewIn("order,tank,cart,turnovers,target_code,due,elements,reason\n"
                                      "WO-1,Press,,7,17/15/12,2026-11-30,4,code too high\n"
                                      "WO-2,Nowhere,,,,,,\n"
                                      "WO-3,Press,,,,30.11.2026,,\n"
                                      "WO-4,Press,No cart,0,,,1.5,\n",
                                      "job");
    REQUIRE(preview.rows.size() == 4);
    REQUIRE(preview.rows[0].put.has_value());
    const auto& job = std::get<run::JobPut>(*preview.rows[0].put).job;
    CHECK(job.tank == "Press");
    CHECK(job.cart.empty());
    CHECK(job.turnovers->toText() == "7");
    CHECK(job.code == "17/15/12");
    CHECK(job.due == "2026-11-30");
    CHECK(preview.rows[1].faults[0].what.id == "file.fault.not-in-catalogue");
    CHECK(preview.rows[2].faults[0].what.id == "fault.day");
    CHECK(preview.rows[3].faults[0].column == "cart");
    CHECK(preview.takes() == 1);
    Site site = someSite();
    site.outOfService.push_back({run::TankPut{site.tanks.front()}, "dismantled"});
    site.tanks.clear();
    const Preview retired = previewIn("order,tank\nWO-1,Press\n", "job", site);
    CHECK(retired.rows[0].faults[0].what.id == "file.fault.not-in-catalogue");
}

TEST_CASE("the same file again changes nothing")
{
    const std::string text = "name;volume_gal;fluid;water_ppm;plate;mixing\n"
                             "Press;200;Turbine 46;120;BM-2;0,7\nWinder;82,5;;;;\n";
    const Site site = someSite();
    const Site after = taken(site, previewIn(text));
    const Preview again = previewIn(text, "tank", after);
    CHECK(again.count(RowFate::Same) == 2);
    CHECK(again.command().records.empty());
    CHECK(after.tanks.front().volume.toText() == "200 gal"); // kept as typed, with its unit
    CHECK(after.tanks.front().fluid.kind == "turbine");
    CHECK(after.plates.at("Press") == "BM-2");
}

TEST_CASE("what a file does not say stays, and a dash takes it back")
{
    const run::TankPut kept = tankIn(onlyRow("name,volume_l,capacity_l\nPress,700,\n"));
    CHECK(kept.tank.capacity->toText() == "900 L");
    CHECK(kept.tank.code == "19/17/14");
    CHECK(kept.plate == "BM-1");
    const PreviewRow row = onlyRow("name,capacity_l,code,plate\nPress,-,-,-\n");
    CHECK_FALSE(tankIn(row).tank.capacity.has_value());
    CHECK(tankIn(row).tank.code.empty());
    CHECK(tankIn(row).plate.empty());
    CHECK(row.changes.size() == 3);
    CHECK(row.changes[0].becomes.empty());
    CHECK(faultsOf("name,volume_l\nPress,-\n") == Faults{"volume_l - file.fault.stays"});
}

TEST_CASE("a unit stands in the column's name or in the field, and is never converted")
{
    CHECK(tankIn(onlyRow("name,volume_gal\nA,55\n")).tank.volume.toText() == "55 gal");
    CHECK(tankIn(onlyRow("name,volume_m3\nA,0.25\n")).tank.volume.toText() == "0.25 m³");
    CHECK(tankIn(onlyRow("name,volume\nA,55 gal\n")).tank.volume.toText() == "55 gal");
    CHECK(tankIn(onlyRow("name,volume_gal\nA,55 gal\n")).tank.volume.toText() == "55 gal");
    CHECK(faultsOf("name,volume_gal\nA,55 L\n") == Faults{"volume_gal 55 L file.fault.unit-differs"});
    CHECK(faultsOf("name,volume\nA,55\n") == Faults{"volume 55 file.fault.no-unit"});
    CHECK(faultsOf("name,volume\nA,55 psi\n") == Faults{"volume 55 psi file.fault.unit"});
    CHECK(faultsOf("name,volume_l,volume_gal\nA,55,14.5\n") == Faults{"volume_gal 14.5 file.fault.twice"});
    CHECK(tankIn(onlyRow("name,volume_l,volume_gal\nA,,14.5\n")).tank.volume.toText() == "14.5 gal");
}

TEST_CASE("a number that reads in two ways is asked about, not guessed")
{
    CHECK(tankIn(onlyRow("name;volume_l\nA;1,5\n")).tank.volume.toText() == "1.5 L");
    CHECK(tankIn(onlyRow("name,volume_l\nA,\"1,5\"\n")).tank.volume.toText() == "1.5 L");
    CHECK(tankIn(onlyRow("name,volume_l\nA,1.234\n")).tank.volume.toText() == "1.234 L"); // a point among commas
    CHECK(faultsOf("name;volume_l\nA;1,234\n") == Faults{"volume_l 1,234 file.fault.two-ways"});
    CHECK(faultsOf("name,volume_l\nA,\"1,234\"\n") == Faults{"volume_l 1,234 file.fault.two-ways"});
    CHECK(faultsOf("name;volume_l\nA;1.234\n") == Faults{"volume_l 1.234 file.fault.two-ways"});
    CHECK(faultsOf("name\tvolume_l\tmixing\nA\t1.234\t0,7\n") == Faults{"volume_l 1.234 file.fault.two-ways"});
    CHECK(faultsOf("name;volume_l\nA;1.234,5\n") == Faults{"volume_l 1.234,5 file.fault.number"});
    const PreviewRow asked = onlyRow("name;volume_l\nA;1,234\n");
    CHECK(asked.faults[0].todo == Message{"file.do.two-ways", {{"thousands", "1234"}, {"fraction", "1,2340"}}});
    CHECK(tankIn(onlyRow("name;volume_l\nA;1,2340\n")).tank.volume.toText() == "1.2340 L"); // as it was asked for
    CHECK(tankIn(onlyRow("name;volume_l\nA;1234\n")).tank.volume.toText() == "1234 L");
}

TEST_CASE("rows of one name are none of them taken")
{
    const Preview preview = previewIn("name,volume_l\nA,1\nB,2\nA,3\n");
    CHECK(preview.rows[0].fate == RowFate::Unreadable);
    CHECK(preview.rows[2].fate == RowFate::Unreadable);
    CHECK(preview.rows[0].faults[0].what == Message{"file.fault.same-name", {{"line", "4"}}});
    CHECK(preview.rows[2].faults[0].what == Message{"file.fault.same-name", {{"line", "2"}}});
    CHECK(preview.command().records.size() == 1);
}

TEST_CASE("what a new record needs and what cannot be is told with its column")
{
    CHECK(faultsOf("name,volume_l\n,55\n") == Faults{"name  file.fault.needed"});
    CHECK(faultsOf("name,code\nA,19/17/14\n") == Faults{"volume_l  file.fault.needed"});
    CHECK(faultsOf("name,volume_gal\nA,\n") == Faults{"volume_gal  file.fault.needed"});
    CHECK(faultsOf("name,volume_l,fluid\nA,5,Sludge\n") == Faults{"fluid Sludge file.fault.fluid"});
    CHECK(faultsOf("name,volume_l,code\nA,5,19-17\n") == Faults{"  fault.code"});
    CHECK(faultsOf("name,volume_l\nPress,950\n") == Faults{"  fault.capacity"}); // above its capacity
    CHECK(faultsOf("name,volume_l,plate\nA,5," + std::string(81, 'x') + "\n").size() == 1);
    const Preview preview = previewIn("name,volume_l,colour\nA,5,red\n");
    CHECK(preview.passedOver == std::vector<std::string>{"colour"});
    const auto refused = previewOf("t.csv", "tank,volume_l\nA,5\n", "tank", someSite(), {});
    REQUIRE_FALSE(refused.has_value());
    CHECK(refused.error().say == Message{"file.no-column", {{"file", "t.csv"}, {"column", "name"}}});
}

TEST_CASE("a fluid has a grade, or viscosities measured at 40 and 100 °C")
{
    const PreviewRow row = onlyRow("name,kind,viscosity_40c_cst,viscosity_100c_cst,density_kg_m3\n"
                                   "Gear 220,gear,220,19.0,890\n",
                                   "fluid");
    CHECK(row.fate == RowFate::New);
    const auto& fluid = std::get<run::FluidPut>(*row.put).fluid;
    REQUIRE(fluid.points.size() == 2);
    CHECK(fluid.points[1].at.toText() == "100 °C");
    CHECK(fluid.points[1].viscosity.toText() == "19.0 cSt");
    CHECK(fluid.density->toText() == "890 kg/m³");
    CHECK(onlyRow("name,grade,vi\nGear 220,ISO VG 220,95\n", "fluid").fate == RowFate::New);
    CHECK(faultsOf("name,grade\nGear,ISO VG 221\n", "fluid") == Faults{"  fault.grade"});
    CHECK(onlyRow("name,kind\nTurbine 46,-\n", "fluid").changes == std::vector<Change>{{"/kind", "turbine", ""}});
}

TEST_CASE("element types come with their stock as counted")
{
    const std::string text = "type,kind,rating_um,change_limit_psi,stock\nP10,particle,10,25,6\nW1,,,,4\n";
    const Preview preview = previewIn(text, "element-type");
    CHECK(preview.rows[0].fate == RowFate::New);
    CHECK(preview.rows[1].fate == RowFate::Changed);
    const auto command = preview.command();
    CHECK(command.records.size() == 1); // nothing but the stock of W1 changes
    REQUIRE(command.stock.size() == 2);
    CHECK(command.stock[0].elements == 6);
    CHECK(std::get<run::ElementTypePut>(command.records[0]).stage.changeLimit->toText() == "25 psi");
    const Preview again = previewIn(text, "element-type", taken(someSite(), preview),
                                    {{"P10", {6, true}}, {"W1", {4, true}}});
    CHECK(again.takes() == 0);
    const Preview fewer = previewIn("type,stock\nW1,3\n", "element-type", someSite(), {{"W1", {4, true}}});
    CHECK(fewer.rows[0].changes == std::vector<Change>{{"/stock", "4", "3"}});
    CHECK(fewer.command().stock[0].elements == -1);
    CHECK(faultsOf("type,stock\nW1,2.5\n", "element-type") == Faults{"stock 2.5 file.fault.whole"});
    CHECK(faultsOf("type,kind\nP9,paper\n", "element-type") == Faults{"kind paper file.fault.choice"});
    CHECK(faultsOf("type\nP9\n", "element-type") == Faults{"  fault.kind"}); // a kind is needed
}

TEST_CASE("an element type comes with its clean ΔP and where it was measured, so that a drop can be corrected")
{
    const std::string header =
        "type,kind,clean_dp_kpa,clean_dp_housing_kpa,clean_at_flow_lpm,clean_at_viscosity_cst,clean_at_density_kg_m3\n";
    const PreviewRow row = onlyRow(header + "P10,particle,16,2,24,46,870\n", "element-type");
    REQUIRE(row.faults.empty());
    const auto& stage = std::get<run::ElementTypePut>(*row.put).stage;
    CHECK(stage.cleanDpHousing->toText() == "2 kPa");
    CHECK(stage.cleanAt->flow.toText() == "24 L/min");
    CHECK(stage.cleanAt->viscosity.toText() == "46 cSt");
    CHECK(stage.cleanAt->density->toText() == "870 kg/m³");
    CHECK(stage.cleanDrop().has_value());
    CHECK(faultsOf(header + "P10,particle,16,,24,,\n", "element-type") == Faults{"  fault.clean-at"});
    CHECK(faultsOf(header + "P10,particle,16,,,46,\n", "element-type") == Faults{"  fault.clean-at"});
    CHECK(faultsOf(header + "P10,particle,16,,0,46,\n", "element-type") == Faults{"  fault.clean-at"});
    CHECK(faultsOf(header + "P10,particle,16,,0,,\n", "element-type") == Faults{"  fault.clean-at"});
    CHECK(faultsOf(header + "P10,particle,16,16,24,46,\n", "element-type") == Faults{"  fault.housing-part"});

    const Site known = taken(someSite(), previewIn(header + "P10,particle,16,2,24,46,870\n", "element-type"));
    const auto after = [&](const std::string& fields) {
        return previewIn(header + "P10,," + fields + "\n", "element-type", known).rows.front();
    };
    CHECK(after(",,,,").fate == RowFate::Same);
    const auto other = std::get<run::ElementTypePut>(*after(",,20,,").put).stage.cleanAt;
    CHECK(other->flow.toText() == "20 L/min");
    CHECK(other->viscosity.toText() == "46 cSt");
    CHECK_FALSE(std::get<run::ElementTypePut>(*after(",,-,-,-").put).stage.cleanAt.has_value());
    CHECK(after(",,-,,").faults.size() == 1); // a viscosity says nothing without its flow
}

TEST_CASE("a tank comes with its shape and level")
{
    const std::string header =
        "name,volume_l,shape,shape_length_mm,shape_width_mm,shape_height_mm,shape_diameter_mm,level_mm\n";
    const auto box = tankIn(onlyRow(header + "A,500,box,1000,800,900,,600\n")).tank;
    REQUIRE(box.shape.has_value());
    CHECK(box.shape->form == "box");
    CHECK(box.shape->width->toText() == "800 mm");
    CHECK(box.level->toText() == "600 mm");
    CHECK(tankIn(onlyRow(header + "A,500,upright,,,1000,900,\n")).tank.shape->shape().has_value());
    CHECK(tankIn(onlyRow(header + "A,500,lying,1000,,,900,\n")).tank.shape->shape().has_value());
    CHECK(faultsOf(header + "A,500,cone,,,,,\n") == Faults{"shape cone file.fault.choice"});
    CHECK(faultsOf(header + "A,500,box,1000,,,,\n") == Faults{"  fault.shape"});
    CHECK(faultsOf(header + "A,500,,1000,800,900,,\n") == Faults{"  fault.shape"});  // of which form?
    CHECK(faultsOf(header + "A,500,,,,,,600\n") == Faults{"  fault.shape-unknown"}); // a level without a shape

    const Site known = taken(someSite(), previewIn(header + "Press,760,box,1500,800,750,,600\n"));
    const auto after = [&](const std::string& fields) {
        return previewIn(header + "Press,," + fields + "\n", "tank", known).rows.front();
    };
    CHECK(after("box,,,,,").fate == RowFate::Same);
    CHECK_FALSE(tankIn(after("-,,,,,-")).tank.shape.has_value());
    CHECK(after("-,,,,,").faults.size() == 1);                                      // its level would say nothing
    CHECK(tankIn(after("upright,,,750,1200,")).tank.shape->length == std::nullopt); // that was of the box
}

TEST_CASE("a cart comes with gauges, hoses and stages, and a known element type brings what is known of it")
{
    const PreviewRow row = onlyRow(
        "name,flow_gpm,gauge_unit,gauge_span,gauge_graduation,suction_hose_bore_in,stage1_kind,"
        "stage1_type,stage1_change_limit_psi,stage2_type\n"
        "Cart D,5,psi,100,2,1.5,particle,P25,25,W1\n",
        "cart");
    CHECK(row.faults.empty());
    const auto& put = std::get<run::CartPut>(*row.put);
    CHECK(put.cart.flow.toText() == "5 gpm");
    REQUIRE(put.cart.gauges.size() == 3);
    CHECK(put.cart.gauges[2].span == Decimal(100, 0));
    CHECK(put.cart.suctionHose.bore->toText() == "1.5 in");
    REQUIRE(put.stages.size() == 2);
    CHECK(put.stages[0].changeLimit->toText() == "25 psi");
    CHECK(put.stages[1].kind == "water");
    CHECK(put.stages[1].elements == 1);

    const PreviewRow changed = onlyRow("name,gauge_span,stage2_change_limit_kpa\nCart B,1000,230\n", "cart");
    CHECK(changed.changes.size() == 4); // three dials and a limit
    CHECK(changed.changes.back() == Change{"/stages/1/change_limit", "240 kPa", "230 kPa"});
    CHECK(faultsOf("name,flow_lpm,gauge_unit\nCart E,20,psi\n", "cart") == Faults{"  fault.no-stages"});
    CHECK(faultsOf("name,flow_lpm,gauge_unit,stage1_kind\nCart E,20,fathom,water\n", "cart")
          == Faults{"gauge_unit fathom file.fault.choice"});
}

TEST_CASE("every fault and what to do about it has words, with the values that are given")
{
    const auto words = words::Words::in("en").value();
    const auto isSaid = [&](const Message& message) {
        const std::string said = words.say(message);
        return said.find('{') == std::string::npos && said.find('[') == std::string::npos;
    };
    for (const auto& [text, kind] : std::vector<std::pair<std::string, std::string>>{
             {"name,volume_l\nA,x\nB,\"1,234\"\nC,5 gal\nD,5 psi\nE,\nF,1\nF,2\nG\n\"H,3\n", "tank"},
             {"name,volume,fluid\nA,5,\nB,5 L,Sludge\nC," + std::string(90, 'x') + ",\nD,0 L,\n", "tank"},
             {"name,volume_l,volume_gal\nA,5,5\n", "tank"},
             {"type,kind,stock\nA,paper,x\n", "element-type"}}) {
        for (const PreviewRow& row : previewIn(text, kind).rows) {
            for (const RowFault& fault : row.faults) {
                CAPTURE(fault.what.id, fault.todo.id);
                CHECK(isSaid(fault.what));
                CHECK(isSaid(fault.todo));
            }
        }
    }
    for (const std::string text : {"", "name\n", "a,a\n1,2\n", "a,\n1,2\n", "\"a\n", "a\n1\n"}) {
        const auto refused = previewOf("t.csv", text, "tank", someSite(), {});
        REQUIRE_FALSE(refused.has_value());
        CHECK(isSaid(refused.error().say));
    }
}

TEST_CASE("every column that a file may have has its row in the formats")
{
    for (const std::string_view file : fileKinds) {
        const auto& members = membersOf(recordKindOf(file).value());
        CHECK(members.front().isNeeded);
        for (const Member& member : members) {
            CAPTURE(member.name);
            CHECK(member.example.rfind(member.name, 0) == 0);
            CHECK((member.example == member.name) == !member.takesUnit);
        }
    }
    CHECK_FALSE(recordKindOf("people").has_value());
}

TEST_CASE("what counted in another unit, or was known of another oil or element, is taken back and shown")
{
    const auto unitAlone = onlyRow("name,gauge_unit\nCart B,psi\n", "cart");
    const auto& cart = std::get<run::CartPut>(*unitAlone.put).cart;
    CHECK_FALSE(cart.gauges[0].span);
    CHECK_FALSE(cart.gauges[0].graduation);
    CHECK(unitAlone.changes.size() == 9); // unit, full scale and graduation of three dials
    const auto withSpan = onlyRow("name,gauge_unit,gauge_span\nCart B,psi,100\n", "cart");
    CHECK(std::get<run::CartPut>(*withSpan.put).cart.gauges[0].span == Decimal(100, 0));
    const auto sameUnit = onlyRow("name,gauge_unit\nCart B,kPa\n", "cart");
    CHECK(sameUnit.fate == RowFate::Same);

    const auto otherType = onlyRow("name,stage1_type\nCart B,Q7\n", "cart");
    const auto& stage = std::get<run::CartPut>(*otherType.put).stages[0];
    CHECK(stage.type == "Q7");
    CHECK(stage.kind == "particle");
    CHECK_FALSE(stage.changeLimit); // that was the limit of P10
    CHECK(std::get<run::CartPut>(*onlyRow("name,stage1_type\nCart B,-\n", "cart").put).stages[0].type.empty());
    CHECK(onlyRow("name,stage3_type\nCart B,-\n", "cart").fate == RowFate::Same);

    const auto otherGrade = onlyRow("name,grade\nPress,ISO VG 68\n");
    CHECK_FALSE(tankIn(otherGrade).tank.fluid.viscosityIndex); // 98 was that of the 46
    CHECK(tankIn(onlyRow("name,grade,vi\nPress,ISO VG 68,95\n")).tank.fluid.viscosityIndex == Decimal(95, 0));
}

TEST_CASE("one of several oils is never guessed, and an oil's own name comes before what others are described as")
{
    Site site = someSite();
    const std::string described = run::fluidText(site.fluids.front().fluid); // "ISO VG 46 turbine"
    run::FluidPut other{"Turbine 46 long life", site.fluids.front().fluid};
    other.fluid.viscosityIndex = Decimal(120, 0);
    site.fluids.push_back(other);
    const auto rowOf = [&](const std::string& name) {
        return previewIn("name,fluid\nPress," + name + "\n", "tank", site).rows.front();
    };
    REQUIRE(rowOf(described).faults.size() == 1);
    CHECK(rowOf(described).faults.front().what.id == "file.fault.fluids");
    CHECK(tankIn(rowOf("Turbine 46 long life")).tank.fluid.viscosityIndex == Decimal(120, 0));
    site.fluids.push_back({described, other.fluid}); // the oil that is really called so
    CHECK(tankIn(rowOf(described)).tank.fluid.viscosityIndex == Decimal(120, 0));
}

TEST_CASE("a number that reads in two ways is asked about as soon as the file has a comma, with a unit behind it too")
{
    const auto rows = previewIn("name\tvolume\nA\t1,5 L\nB\t1.234 L\n").rows;
    const auto unreadable = std::ranges::find(rows, RowFate::Unreadable, &PreviewRow::fate);
    REQUIRE(unreadable != rows.end());
    CHECK(unreadable->faults.front().what.id == "file.fault.two-ways");
    CHECK(tankIn(onlyRow("name\tvolume\nB\t1.234 L\n")).tank.volume.toText() == "1.234 L");
}

TEST_CASE("what has to be known cannot be taken back, and the sentence says what to do instead")
{
    const auto fault = onlyRow("name,volume_l\nPress,-\n").faults.at(0);
    CHECK(fault.what.id == "file.fault.stays");
    const auto words = words::Words::in("en").value();
    CHECK(words.say(fault.todo) == "Give a value, or leave the field empty to keep what is known.");
}
