// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "app/wording.h"
#include "app_bench.h"
#include "held.h"
#include "oil/fluid_family.h"
#include "run/plan.h"

#include <catch2/catch.hpp>

#include <set>

using namespace loopside;
using namespace loopside::test;

namespace {

enum TankField
{
    Volume,
    Capacity,
    Mixing,
    Water,
    Code,
    Plate
};

constexpr int StageOneLimit = 8; ///< Of a cart: behind the fields of its pump.
constexpr int FieldsOfStage = 9;
constexpr int FirstGauge = StageOneLimit + 2 * FieldsOfStage; ///< Full scale, graduation and grade of each.

/// Of an element type: behind what it is made of.
enum PressureField
{
    TypeLimit = 6,
    TypeBypass,
    TypeClean,
    TypeHousing,
    TypeFlow,
    TypeViscosity,
    TypeDensity
};

/// Of a tank: behind its oil; then where it stands.
enum ShapeField
{
    Length = Plate + 1,
    Width,
    Height,
    Diameter,
    Level,
    Latitude,
    Longitude
};

/// Takes the chosen one out of service for the first of the reasons.
void retire(app::RecordView& record)
{
    record.changeService();
    REQUIRE(record.isAskingWhy());
    CHECK(record.problem() == text("Touch the reason.")); // nothing else can be begun meanwhile
    record.because(0);
}

QStringList namesIn(const app::RowModel& rows)
{
    QStringList names;
    for (const auto& row : rows.rows()) {
        names.append(row[0].toString());
    }
    return names;
}

} // namespace

TEST_CASE("a change of a tank is put whole: what was typed, and the rest as it was")
{
    AppBench bench;
    app::RecordView& tanks = *bench.app()->tanks();
    tanks.choose(0);
    const auto before = bench.tablet().site().tanks[0];
    tanks.goOn();
    type(tanks, Volume, "740");
    tanks.goOn();
    CHECK(bench.entries(QStringLiteral("tank-put")) == 1);
    const auto& after = bench.tablet().site().tanks[0];
    CHECK(after.volume.toText() == "740 L");
    CHECK(after.fluid == before.fluid);
    CHECK(after.shape == before.shape);
    CHECK(bench.tablet().site().plates.at(before.name) == "BM-HY-012");
    const QString line = tanks.history()->rows()[0][1].toString();
    CHECK(line.contains(text("Ines")));
    CHECK(line.endsWith(held("Volume of oil: 760~L → 740~L"))); // and nothing else changed
}

TEST_CASE("what was put holds after a restart, and an open run keeps what it was opened with")
{
    AppBench bench;
    const auto& site = bench.tablet().site();
    REQUIRE(bench.tablet().openRun({{}, site.tanks[0], site.carts[0].cart, site.carts[0].stages, {}}));
    app::RecordView& carts = *bench.app()->carts();
    carts.choose(0);
    carts.goOn();
    carts.chooseGroup(1);
    type(carts, StageOneLimit, "150");
    carts.goOn();
    bench.restart();
    CHECK(bench.tablet().site().carts[0].stages[0].changeLimit->toText() == "150 kPa");
    CHECK(bench.tablet().shown()->setup.stages[0].changeLimit->toText() == "170 kPa");
    bench.app()->carts()->choose(0);
    CHECK(bench.app()->carts()->history()->rows()[0][1].toString().contains(
        held("Stage 1 change limit: 170~kPa → 150~kPa")));
}

TEST_CASE("what cannot be is refused in a sentence, and stays where it was typed")
{
    AppBench bench;
    app::RecordView& tanks = *bench.app()->tanks();
    tanks.choose(0);
    tanks.goOn();
    type(tanks, Volume, "950"); // its capacity is 900 L
    tanks.goOn();
    CHECK(bench.entries(QStringLiteral("tank-put")) == 0);
    CHECK(bench.app()->trouble().contains(held("cannot hold 950~L")));
    CHECK(tanks.isEditing());
    CHECK(tanks.fields()->text(Volume) == text("950"));
}

TEST_CASE("a place is kept as it is written, the direction by a letter or by the key, and the page says how it is read")
{
    AppBench bench;
    app::RecordView& tanks = *bench.app()->tanks();
    tanks.choose(0);
    tanks.goOn();
    type(tanks, Latitude, "48.2082");
    tanks.fields()->stepUnit(Latitude);
    CHECK(tanks.fields()->unit(Latitude) == text("N"));
    type(tanks, Longitude, "16 22 25.7 E");
    tanks.goOn();
    REQUIRE(bench.entries(QStringLiteral("tank-put")) == 1);
    const auto& tank = bench.tablet().site().tanks[0];
    CHECK(tank.latitude == "48.2082 N");
    CHECK(tank.longitude == "16 22 25.7 E");
    const QString place = tanks.facts()->rows().back()[1].toString();
    CHECK(place.contains(text("48.20820° N 16.37381° E"))); // 16 + 22/60 + 25.7/3600
    bench.restart();
    CHECK(bench.tablet().site().tanks[0].longitude == "16 22 25.7 E");
}

TEST_CASE("a place that cannot be is told in a sentence, and stays where it was typed")
{
    AppBench bench;
    app::RecordView& tanks = *bench.app()->tanks();
    tanks.choose(0);
    tanks.goOn();
    type(tanks, Latitude, "91");
    type(tanks, Longitude, "16 61");
    tanks.goOn();
    CHECK(bench.entries(QStringLiteral("tank-put")) == 0);
    CHECK(tanks.fields()->rows()->rows()[Latitude].back().toString().contains(text("A latitude goes to 90°")));
    CHECK(tanks.fields()->rows()->rows()[Longitude].back().toString().contains(text("stay below 60")));
    CHECK(tanks.fields()->text(Latitude) == text("91"));
}

TEST_CASE("what is odd in a place is asked once, asked anew when something is touched, and kept as typed")
{
    AppBench bench;
    app::RecordView& tanks = *bench.app()->tanks();
    tanks.choose(0);
    tanks.goOn();
    type(tanks, Latitude, "48.2082");
    tanks.goOn();
    CHECK(bench.entries(QStringLiteral("tank-put")) == 0);
    CHECK(tanks.notice().contains(text("alone tells no place")));
    CHECK(tanks.mainText() == text("It is so: log it"));
    type(tanks, Volume, "740");
    CHECK(tanks.mainText() == text("Log the change"));
    tanks.goOn();
    CHECK(bench.entries(QStringLiteral("tank-put")) == 0);
    tanks.goOn();
    CHECK(bench.entries(QStringLiteral("tank-put")) == 1);
    CHECK(bench.tablet().site().tanks[0].latitude == "48.2082");
    tanks.goOn(); // what holds is not asked about again
    type(tanks, Volume, "750");
    tanks.goOn();
    CHECK(bench.entries(QStringLiteral("tank-put")) == 2);
}

TEST_CASE("a tank without a closed run has no charts, one with some says what they rest on")
{
    AppBench bench;
    app::RecordView& tanks = *bench.app()->tanks();
    tanks.choose(0);
    CHECK(tanks.charts()->rowCount() == 0);
    const auto& site = bench.tablet().site();
    REQUIRE(bench.tablet().openRun({{}, site.tanks[0], site.carts[0].cart, site.carts[0].stages, {}}));
    for (const char* bottle : {"A", "B"}) {
        bench.pass(60);
        REQUIRE(bench.tablet().say(run::Said(run::SampleDrawn{bottle, 0})));
        REQUIRE(bench.tablet().say(
            run::Said(run::ResultEntered{.sample = bottle, .code = "19/17/14", .water = {}, .viscosity = {}})));
    }
    REQUIRE(bench.tablet().submit(run::CloseRun{bench.tablet().shown()->id, run::Ending::StoppedEarly, "over"}));
    REQUIRE(tanks.charts()->rowCount() == 4);
    CHECK(tanks.charts()->rows()[0][1].toString() == text("Bottles: 2, from runs: 1"));
    CHECK(tanks.charts()->rows()[0][2].toBool());
    CHECK(tanks.charts()->rows()[1][1].toString().contains(text("Nothing is told yet")));
    CHECK_FALSE(tanks.charts()->rows()[1][2].toBool());
}

TEST_CASE("a run is planned with what a sample told last, and what the record says stands beside it")
{
    AppBench bench;
    const auto& site = bench.tablet().site();
    const auto factsOf = [&] {
        bench.app()->showSetUp();
        bench.app()->setup()->chooseTank(0);
        QStringList facts;
        for (const app::RowModel::Row& row : bench.app()->setup()->facts()->rows()) {
            facts.append(row[0].toString() + text(": ") + row[1].toString());
        }
        return facts;
    };
    REQUIRE(site.tanks[0].code == "19/17/14");
    CHECK(factsOf().contains(text("Last code: 19/17/14")));
    REQUIRE(bench.tablet().openRun({{}, site.tanks[0], site.carts[0].cart, site.carts[0].stages, {}}));
    REQUIRE(bench.tablet().say(run::Said(run::SampleDrawn{"A", 0})));
    REQUIRE(bench.tablet().say(
        run::Said(run::ResultEntered{.sample = "A", .code = "18/16/13", .water = {}, .viscosity = {}})));
    const QString day = app::dateText(bench.tablet().now());
    REQUIRE(bench.tablet().submit(run::CloseRun{bench.tablet().shown()->id, run::Ending::StoppedEarly, "over"}));
    const QStringList facts = factsOf();
    const auto last = facts.indexOf(text("Last code: 18/16/13 (") + day + text(")"));
    REQUIRE(last >= 0);
    CHECK(facts[last + 1] == text("Code in the record: 19/17/14"));
    CHECK(facts.contains(text("Last water: ") + app::toQt(site.tanks[0].water->toText()))); // no sample told of it
}

TEST_CASE("no number is said to be none")
{
    AppBench bench;
    app::RecordView& tanks = *bench.app()->tanks();
    tanks.choose(0);
    tanks.goOn();
    type(tanks, Mixing, ".");
    tanks.goOn();
    CHECK(bench.entries(QStringLiteral("tank-put")) == 0);
    CHECK(tanks.notice().contains(text("not a number")));
}

TEST_CASE("a change that is half typed survives a kill and is offered again, never put")
{
    AppBench bench;
    bench.app()->tanks()->choose(1);
    bench.app()->tanks()->goOn();
    type(*bench.app()->tanks(), Capacity, "35");
    bench.restart();
    CHECK(bench.entries(QStringLiteral("tank-put")) == 0);
    app::RecordView& tanks = *bench.app()->tanks();
    tanks.choose(0);
    tanks.goOn();
    CHECK(tanks.fields()->areEmpty()); // it was typed for another tank
    tanks.back();
    tanks.choose(1);
    tanks.goOn();
    CHECK(tanks.fields()->text(Capacity) == text("35"));
    CHECK(tanks.notice().contains(text("Typed before, not logged")));
}

TEST_CASE("no field is filled before somebody types, what holds stands beside")
{
    AppBench bench;
    app::RecordView& tanks = *bench.app()->tanks();
    tanks.choose(0);
    tanks.goOn();
    CHECK(tanks.fields()->areEmpty());
    CHECK(tanks.fields()->rows()->rows()[Volume][1].toString() == text("760 L"));
    CHECK_FALSE(tanks.problem().isEmpty());
    tanks.goOn();
    CHECK(bench.entries(QStringLiteral("tank-put")) == 0);
}

TEST_CASE("a new tank needs a name of its own, a volume and an oil, and nothing of it is made up")
{
    AppBench bench;
    app::RecordView& tanks = *bench.app()->tanks();
    tanks.tellNew();
    CHECK(tanks.mainText() == text("Log what is new"));
    CHECK(tanks.problem() == text("Type its name."));
    tanks.typeName(text("Winder gearbox"));
    CHECK(tanks.problem() == text("There is one of that name already."));
    tanks.typeName(text("Vacuum pump"));
    CHECK(tanks.problem() == text("Type: Volume of oil."));
    type(tanks, Volume, "60");
    CHECK(tanks.problem() == text("Choose: Oil."));
    tanks.pick(1);
    bench.restart(); // killed before it is put
    CHECK(bench.entries(QStringLiteral("tank-put")) == 0);
    app::RecordView& again = *bench.app()->tanks();
    again.tellNew();
    CHECK(again.newName() == text("Vacuum pump"));
    CHECK(again.fields()->text(Volume) == text("60"));
    again.pick(1);
    again.goOn();
    REQUIRE(bench.tablet().site().tanks.size() == 6);
    const auto& tank = bench.tablet().site().tanks.back();
    CHECK(tank.name == "Vacuum pump");
    CHECK(tank.volume.toText() == "60 L");
    CHECK(tank.fluid == bench.tablet().site().tanks[1].fluid);
    CHECK_FALSE(tank.mixing.has_value());
    CHECK(again.name() == text("Vacuum pump"));
    CHECK(again.history()->rows()[0][1].toString().endsWith(text("new")));
    again.tellNew();
    CHECK(again.newName().isEmpty());
    CHECK(again.fields()->areEmpty());
}

TEST_CASE("another oil is chosen whole")
{
    AppBench bench;
    app::RecordView& tanks = *bench.app()->tanks();
    tanks.choose(4); // the store tote, with the oil of the press
    tanks.goOn();
    tanks.pick(1);
    tanks.goOn();
    CHECK(bench.tablet().site().tanks[4].fluid == bench.tablet().site().tanks[1].fluid);
}

TEST_CASE("what a field holds can be taken back, and the entry before stays")
{
    AppBench bench;
    app::RecordView& tanks = *bench.app()->tanks();
    tanks.choose(0);
    tanks.goOn();
    tanks.fields()->select(Water);
    tanks.forget();
    tanks.fields()->select(Plate);
    tanks.forget();
    tanks.goOn();
    CHECK(bench.entries(QStringLiteral("tank-put")) == 1);
    CHECK_FALSE(bench.tablet().site().tanks[0].water.has_value());
    CHECK(bench.tablet().site().plates.count("Press hydraulic unit") == 0);
    CHECK(bench.tablet().siteAsBegun().tanks[0].water.has_value());
    const QString line = tanks.history()->rows()[0][1].toString();
    CHECK(line.endsWith(held("Last water: 120~ppm → –; Plate: BM-HY-012 → –")));
}

TEST_CASE("what has to be known cannot be taken back, and stays where it is")
{
    AppBench bench;
    app::RecordView& tanks = *bench.app()->tanks();
    tanks.choose(0);
    tanks.goOn();
    tanks.fields()->select(Volume);
    tanks.forget();
    tanks.goOn();
    CHECK(bench.entries(QStringLiteral("tank-put")) == 0);
    CHECK(tanks.notice().startsWith(text("This has to be known")));
    CHECK(tanks.isEditing());
}

TEST_CASE("out of service a tank is kept and marked, offered in no set-up, and can come back")
{
    AppBench bench;
    app::RecordView& tanks = *bench.app()->tanks();
    tanks.choose(1);
    CHECK(tanks.serviceText() == text("Take it out of service"));
    retire(tanks);
    CHECK_FALSE(tanks.isAskingWhy());
    CHECK(bench.tablet().site().tanks.size() == 4);
    CHECK(tanks.name() == text("Winder gearbox")); // it is still the one that is looked at
    CHECK(tanks.items()->rows().last()[1].toString() == text("out of service: dismantled"));
    CHECK(tanks.history()->rows()[0][1].toString().contains(text("out of service: dismantled")));
    CHECK_FALSE(namesIn(*bench.app()->setup()->tanks()).contains(text("Winder gearbox")));
    CHECK_FALSE(namesIn(*bench.app()->transfer()->tanks()).contains(text("Winder gearbox")));
    bench.restart();
    app::RecordView& again = *bench.app()->tanks();
    again.choose(4);
    CHECK(again.serviceText() == text("Put it back into service"));
    again.changeService();
    CHECK(namesIn(*bench.app()->setup()->tanks()).contains(text("Winder gearbox")));
}

TEST_CASE("a set-up keeps its tank by name when another leaves service, and loses it when it leaves itself")
{
    AppBench bench;
    app::SetupView& setup = *bench.app()->setup();
    setup.chooseTank(2);
    app::RecordView& tanks = *bench.app()->tanks();
    tanks.choose(0);
    retire(tanks);
    CHECK(setup.tanks()->rows()[1][0].toString() == text("Dryer circulating oil"));
    CHECK(setup.tanks()->rows()[1][2].toBool());
    tanks.choose(1);
    REQUIRE(tanks.name() == text("Dryer circulating oil"));
    retire(tanks);
    for (const auto& row : setup.tanks()->rows()) {
        CHECK_FALSE(row[2].toBool());
    }
}

TEST_CASE("the dials of a cart are changed with the unit that they are typed in")
{
    AppBench bench;
    app::RecordView& carts = *bench.app()->carts();
    carts.choose(0);
    carts.goOn();
    CHECK(namesIn(*carts.groups())
          == QStringList{text("Pump and motor"), text("Stage 1"), text("Stage 2"), text("Gauges"), text("Hoses"),
                         text("Oil in it")});
    carts.chooseGroup(3);
    CHECK(carts.firstField() == FirstGauge);
    CHECK(carts.behindField() == FirstGauge + 9);
    CHECK(carts.fields()->rows()->rows()[FirstGauge + 1].contains(text("5 kPa"))); // no number without its unit
    type(carts, FirstGauge, "10");
    while (carts.fields()->unit(FirstGauge) != text("bar")) {
        carts.fields()->stepUnit(FirstGauge);
    }
    type(carts, FirstGauge + 1, "0.2");
    carts.goOn();
    const auto& gauges = bench.tablet().site().carts[0].cart.gauges;
    CHECK(gauges[0].unit->symbol == "bar");
    CHECK(gauges[0].span->toText() == "10");
    CHECK(gauges[0].graduation->toText() == "0.2");
    CHECK(gauges[1].unit->symbol == "kPa"); // one dial was changed
    CHECK(carts.history()->rows()[0][1].toString().contains(
        QString::fromUtf8("Gauge 1 full scale: 700 → 10; Gauge 1 graduation: 5 → 0.2")));
}

TEST_CASE("a new cart needs flow, dials and elements that are known")
{
    AppBench bench;
    app::RecordView& carts = *bench.app()->carts();
    carts.tellNew();
    carts.typeName(text("Cart D"));
    type(carts, 0, "20");
    CHECK(carts.problem() == text("Choose: Its elements."));
    for (const int stage : {1, 2}) {
        carts.chooseGroup(stage);
        CHECK(namesIn(*carts.choices()).contains(text("P25 glass")));
        carts.pick(stage == 1 ? 2 : 1);
    }
    CHECK(carts.problem().contains(text("Gauge 1 full scale")));
    for (const int gauge : {0, 1, 2}) {
        type(carts, FirstGauge + 3 * gauge, "100");
    }
    carts.goOn();
    CHECK(bench.app()->trouble().isEmpty());
    REQUIRE(bench.tablet().site().carts.size() == 3);
    const auto& cart = bench.tablet().site().carts[2];
    CHECK(cart.cart.name == "Cart D");
    CHECK(cart.stages[0].type == "P25 glass");
    CHECK(cart.stages[1].type == "P3 glass");
    CHECK_FALSE(cart.stages[1].spareSets.has_value());
    CHECK(cart.cart.gauges.size() == 3);
    CHECK(namesIn(*bench.app()->setup()->carts()).contains(text("Cart D")));
}

TEST_CASE("a new oil by its grade is offered for tanks")
{
    AppBench bench;
    app::RecordView& fluids = *bench.app()->fluids();
    CHECK(fluids.items()->rowCount() == 0);
    fluids.tellNew();
    fluids.typeName(text("Turbine 32"));
    CHECK(fluids.problem() == text("Choose: kind of oil."));
    fluids.pick(2);
    type(fluids, 0, "32");
    type(fluids, 1, "105");
    fluids.goOn();
    CHECK(bench.entries(QStringLiteral("fluid-put")) == 1);
    REQUIRE(bench.tablet().site().fluids.size() == 1);
    CHECK(bench.tablet().site().fluids[0].fluid.grade == "ISO VG 32");
    CHECK(bench.tablet().site().fluids[0].fluid.kind == "turbine");
    app::RecordView& tanks = *bench.app()->tanks();
    tanks.choose(0);
    tanks.goOn();
    CHECK(tanks.choices()->rows()[0][0].toString() == text("Turbine 32"));
    tanks.pick(0);
    tanks.goOn();
    CHECK(bench.tablet().site().tanks[0].fluid == bench.tablet().site().fluids[0].fluid);
}

TEST_CASE("measured viscosities of an oil are typed at 40 and 100 °C and taken back")
{
    AppBench bench;
    app::RecordView& fluids = *bench.app()->fluids();
    fluids.tellNew();
    fluids.typeName(text("Gear"));
    fluids.pick(1);
    type(fluids, 2, "220");
    type(fluids, 3, "19.0");
    fluids.goOn();
    REQUIRE(bench.tablet().site().fluids.size() == 1);
    CHECK(bench.tablet().site().fluids[0].fluid.points.size() == 2);
    fluids.goOn();
    fluids.fields()->select(3);
    fluids.forget();
    fluids.goOn(); // one point without a viscosity index tells no line
    CHECK(bench.app()->trouble().contains(text("viscosity index")));
    type(fluids, 1, "95");
    fluids.goOn();
    CHECK(bench.tablet().site().fluids[0].fluid.points.size() == 1);
}

TEST_CASE("a new element type can be put into a cart")
{
    AppBench bench;
    app::RecordView& elements = *bench.app()->elements();
    elements.tellNew();
    elements.typeName(text("W9"));
    elements.pick(1);
    type(elements, TypeLimit, "200");
    elements.goOn();
    REQUIRE(bench.tablet().site().elementTypes.size() == 1);
    CHECK(bench.tablet().site().elementTypes[0].kind == "water");
    CHECK(bench.tablet().site().elementTypes[0].changeLimit->toText() == "200 kPa");
    app::RecordView& carts = *bench.app()->carts();
    carts.choose(0);
    carts.goOn();
    carts.chooseGroup(1);
    carts.pick(0);
    carts.goOn();
    CHECK(bench.tablet().site().carts[0].stages[0].type == "W9");
    CHECK(bench.tablet().site().carts[0].stages[0].kind == "water");
}

TEST_CASE("a tank tells the runs that were made there")
{
    AppBench bench;
    const auto& site = bench.tablet().site();
    REQUIRE(bench.tablet().openRun({{}, site.tanks[0], site.carts[0].cart, site.carts[0].stages, {}}));
    bench.app()->tanks()->choose(0);
    REQUIRE(bench.app()->tanks()->history()->rowCount() == 1);
    CHECK(bench.app()->tanks()->history()->rows()[0][1].toString().contains(text("Cart B")));
    bench.app()->carts()->choose(0);
    CHECK(bench.app()->carts()->history()->rows()[0][1].toString().contains(text("Press hydraulic unit")));
}

TEST_CASE("the question why is about the record that it was asked of, and of no other")
{
    AppBench bench;
    app::RecordView& tanks = *bench.app()->tanks();
    tanks.choose(0);
    tanks.changeService();
    REQUIRE(tanks.isAskingWhy());
    tanks.choose(1);
    CHECK_FALSE(tanks.isAskingWhy());
    tanks.because(0);
    CHECK(bench.entries(QStringLiteral("record-serviced")) == 0);
}

TEST_CASE("a change that is left for another page is kept as a draft and read anew when somebody comes back")
{
    AppBench bench;
    app::RecordView& tanks = *bench.app()->tanks();
    bench.app()->showTanks();
    tanks.choose(0);
    tanks.goOn();
    type(tanks, Volume, "740");
    bench.app()->showShift();
    CHECK_FALSE(tanks.isEditing());
    bench.app()->showTanks();
    tanks.choose(0);
    tanks.goOn();
    CHECK(tanks.fields()->text(Volume) == QStringLiteral("740"));
    tanks.pick(999); // no oil stands there
    tanks.pick(-1);
    CHECK(bench.entries(QStringLiteral("tank-put")) == 0);
}

TEST_CASE("a full scale in another unit takes the graduation back, which counted in the one before")
{
    AppBench bench;
    app::RecordView& carts = *bench.app()->carts();
    carts.choose(0);
    carts.goOn();
    const auto units = carts.fields()->unit(FirstGauge);
    do {
        carts.fields()->stepUnit(FirstGauge);
    } while (carts.fields()->unit(FirstGauge) == units);
    type(carts, FirstGauge, "10");
    carts.goOn();
    const auto& gauge = bench.tablet().site().carts.front().cart.gauges.front();
    CHECK(gauge.span == Decimal(10, 0));
    CHECK_FALSE(gauge.graduation);
}

TEST_CASE("a type told by touch with its clean ΔP and where it was measured gives a corrected ΔP and a forecast")
{
    AppBench bench;
    app::RecordView& elements = *bench.app()->elements();
    elements.tellNew();
    elements.typeName(text("P6 glass"));
    elements.pick(0);
    type(elements, TypeLimit, "170");
    type(elements, TypeClean, "20");
    type(elements, TypeHousing, "3");
    type(elements, TypeFlow, "24");
    elements.goOn();
    CHECK(bench.app()->trouble().contains(text("give both, above 0")));
    CHECK(bench.entries(text("element-type-put")) == 0);
    type(elements, TypeViscosity, "46");
    elements.goOn();
    REQUIRE(bench.tablet().site().elementTypes.size() == 1);
    const auto& clean = bench.tablet().site().elementTypes[0];
    CHECK(clean.cleanDpHousing->toText() == "3 kPa");
    CHECK(clean.cleanAt->flow.toText() == "24 L/min");
    CHECK(clean.cleanAt->viscosity.toText() == "46 cSt");
    CHECK_FALSE(clean.cleanAt->density);

    app::RecordView& carts = *bench.app()->carts();
    carts.choose(0);
    carts.goOn();
    carts.chooseGroup(1);
    carts.pick(0);
    carts.goOn();
    const auto& site = bench.tablet().site();
    run::Setup setup{{}, site.tanks[0], site.carts[0].cart, site.carts[0].stages, {}};
    CHECK(setup.stages[0].type == "P6 glass");
    const auto warm = run::TypedTemperature::parse("40 °C").value().value();
    const auto expected = run::planOf(setup, warm).stages.at(0).cleanDp; // the item of the verdict
    REQUIRE(expected.has_value());
    CHECK(expected->in(units::kilopascal) == Approx(20.0).epsilon(0.02)); // ISO VG 46 has 46 cSt at 40 °C
    REQUIRE(bench.tablet().openRun(setup));
    REQUIRE(bench.tablet().say(run::Said(run::ModeChanged{run::Mode::Filtering, std::nullopt})));
    bench.pass(60);
    REQUIRE(bench.tablet().say(setOf({90, 60, 20}, "40 °C")));
    const auto& standing = bench.tablet().standing(*bench.tablet().shown());
    REQUIRE(standing.stages.at(0).corrected.has_value());
    CHECK(standing.stages[0].loading.value() == Approx(30.0 / 20.0).epsilon(0.03));
    CHECK(standing.outlooks.at(0).why.id != "forecast.no-correction");
}

TEST_CASE("where a clean ΔP was measured is taken back as a whole, and half of it is refused")
{
    AppBench bench;
    app::RecordView& carts = *bench.app()->carts();
    carts.choose(0);
    constexpr int flow = StageOneLimit + 4;
    carts.goOn();
    carts.chooseGroup(1);
    CHECK(carts.fields()->rows()->rows()[flow][1].toString() == text("24 L/min"));
    carts.fields()->select(flow);
    carts.forget();
    carts.goOn();
    CHECK(bench.app()->trouble().contains(text("give both, above 0")));
    carts.fields()->select(flow + 1);
    carts.forget();
    carts.goOn();
    CHECK_FALSE(bench.tablet().site().carts[0].stages[0].cleanAt.has_value());
    CHECK(bench.tablet().site().carts[0].stages[1].cleanAt.has_value());
    CHECK(carts.history()->rows()[0][1].toString().contains(held("Stage 1 clean ΔP: at flow: 24~L~/~min → –")));
}

TEST_CASE("shape and level of a tank are told together, and the shape taken back with what was measured of it")
{
    AppBench bench;
    app::RecordView& tanks = *bench.app()->tanks();
    tanks.choose(1);
    tanks.goOn();
    type(tanks, Level, "700");
    tanks.goOn();
    CHECK(bench.app()->trouble().contains(text("where the shape of the tank is known")));
    tanks.chooseGroup(1);
    CHECK(namesIn(*tanks.choices())
          == QStringList{text("Box"), text("Upright cylinder"), text("Lying cylinder"), text("Shape not known")});
    tanks.pick(1);
    type(tanks, Diameter, "700");
    type(tanks, Height, "1000");
    tanks.goOn();
    CHECK(bench.app()->trouble().isEmpty());
    const auto& tank = bench.tablet().site().tanks[1];
    REQUIRE(tank.shape.has_value());
    CHECK(tank.shape->form == "upright");
    CHECK(tank.shape->height->toText() == "1000 mm");
    CHECK(tank.level->toText() == "700 mm");
    CHECK(bench.tablet().site().tanks[0].shape.has_value()); // the other tank keeps its own
    tanks.goOn();
    tanks.chooseGroup(1);
    tanks.pick(3);
    tanks.fields()->select(Level);
    tanks.forget();
    tanks.goOn();
    CHECK_FALSE(bench.tablet().site().tanks[1].shape.has_value());
    CHECK_FALSE(bench.tablet().site().tanks[1].level.has_value());
}

TEST_CASE("a cart has as many stages as somebody says, and what was typed stays with its stage")
{
    AppBench bench;
    app::RecordView& carts = *bench.app()->carts();
    carts.tellNew();
    carts.typeName(text("Cart D"));
    type(carts, 0, "20");
    type(carts, FirstGauge, "100");
    carts.pick(0); // one stage
    CHECK(namesIn(*carts.groups())
          == QStringList{text("Pump and motor"), text("Stage 1"), text("Gauges"), text("Hoses"), text("Oil in it")});
    CHECK(carts.fields()->text(0) == text("20"));
    CHECK(carts.fields()->text(StageOneLimit + FieldsOfStage) == text("100")); // the first gauge moved up
    carts.pick(2);                                                             // three
    CHECK(carts.groups()->rowCount() == 7);
    constexpr int firstGauge = StageOneLimit + 3 * FieldsOfStage;
    CHECK(carts.fields()->text(firstGauge) == text("100"));
    type(carts, StageOneLimit + 2 * FieldsOfStage, "150"); // the limit of stage 3
    carts.pick(0);
    carts.pick(2);
    CHECK(carts.fields()->text(StageOneLimit + 2 * FieldsOfStage) == text("150"));
    for (const int stage : {1, 2, 3}) {
        carts.chooseGroup(stage);
        carts.pick(0);
        type(carts, carts.behindField() - 1, "3"); // elements
    }
    for (const int gauge : {1, 2, 3}) {
        type(carts, firstGauge + 3 * gauge, "100");
    }
    bench.restart(); // killed before it is logged
    CHECK(bench.entries(text("cart-put")) == 0);
    app::RecordView& again = *bench.app()->carts();
    again.tellNew();
    CHECK(again.fields()->text(FirstGauge) == text("100")); // its two stages until somebody chooses
    again.pick(2);
    CHECK(again.fields()->text(StageOneLimit + 2 * FieldsOfStage) == text("150"));
    for (const int stage : {1, 2, 3}) {
        again.chooseGroup(stage);
        again.pick(0);
    }
    again.goOn();
    CHECK(bench.app()->trouble().isEmpty());
    REQUIRE(bench.tablet().site().carts.size() == 3);
    const auto& cart = bench.tablet().site().carts[2];
    REQUIRE(cart.stages.size() == 3);
    CHECK(cart.cart.gauges.size() == 4);
    CHECK(cart.stages[0].elements == 3);
    CHECK(cart.stages[2].changeLimit->toText() == "150 kPa");
}

TEST_CASE("hoses, suction allowance and last oil of a cart are told by touch")
{
    AppBench bench;
    app::RecordView& carts = *bench.app()->carts();
    carts.choose(1);
    carts.goOn();
    carts.chooseGroup(4);
    const int suctionAllowance = carts.firstField() + 4;
    const int returnLift = carts.behindField() - 1;
    type(carts, suctionAllowance, "0.8");
    type(carts, returnLift, "0.5");
    carts.chooseGroup(5);
    CHECK(carts.choicesTitle() == text("Last oil, until a run here tells it"));
    carts.pick(0);
    carts.goOn();
    CHECK(bench.app()->trouble().isEmpty());
    const auto& cart = bench.tablet().site().carts[1].cart;
    CHECK(cart.suctionAllowance == Decimal::parse("0.8").value());
    CHECK(cart.returnHose.lift->toText() == "0.5 m");
    CHECK(cart.returnHose.bore->toText() == "25 mm");
    CHECK(cart.lastFluid == "ISO VG 46 hydraulic");
    CHECK(carts.facts()->rows()[1][1].toString() == text("ISO VG 46 hydraulic"));
}

TEST_CASE("every family of oil that the program knows can be chosen, each once")
{
    AppBench bench;
    app::RecordView& fluids = *bench.app()->fluids();
    std::set<oil::FluidFamily> families;
    fluids.tellNew();
    const int kinds = fluids.choices()->rowCount();
    fluids.back();
    for (int kind = 0; kind < kinds; ++kind) {
        fluids.tellNew();
        fluids.typeName(text("Oil %1").arg(kind));
        fluids.pick(kind);
        type(fluids, 0, "46");
        fluids.goOn();
        REQUIRE(bench.app()->trouble().isEmpty());
        families.insert(oil::familyOf(bench.tablet().site().fluids.back().fluid.kind));
    }
    CHECK(families.count(oil::FluidFamily::Unknown) == 0);
    CHECK(families.size() == static_cast<std::size_t>(oil::FluidFamily::FoodGrade)); // all but the unknown one
    CHECK(kinds == static_cast<int>(families.size()));
}

TEST_CASE("a cart tells the oils that it pumped, the latest first, and what proves its last flush")
{
    AppBench bench;
    const auto& site = bench.tablet().site();
    app::RecordView& carts = *bench.app()->carts();
    carts.choose(1);
    CHECK(carts.past()->rows()[0][1].toString() == text("none yet"));
    CHECK(carts.past()->rows()[1][1].toString() == text("none is told here"));
    for (const std::size_t tank : {0U, 1U}) {
        bench.pass(60);
        REQUIRE(bench.tablet().openRun({{}, site.tanks[tank], site.carts[1].cart, site.carts[1].stages, {}}));
        REQUIRE(
            bench.tablet().submit(run::CloseRun{bench.tablet().shown()->id, run::Ending::StoppedEarly, "shift over"}));
    }
    const QString oils = carts.past()->rows()[0][1].toString();
    CHECK(oils.startsWith(text("ISO VG 220 gear (")));
    CHECK(oils.contains(text("), ISO VG 46 hydraulic (")));

    const auto job = bench.tablet().openJob(run::FlushOpened{
        .cart = "Cart C", .toFluid = "ISO VG 46 hydraulic", .left = run::TypedVolume::parse("1.5 L").value()});
    REQUIRE(job.has_value());
    REQUIRE(bench.tablet().sayOfJob(*job, run::FlushBatch{run::TypedVolume::parse("13.5 L").value()}));
    REQUIRE(bench.tablet().sayOfJob(*job, run::FlushClosed{}));
    const QString flush = carts.past()->rows()[1][1].toString();
    CHECK(flush.contains(text("ISO VG 46 hydraulic")));
    CHECK(flush.contains(text("1 batches, 10"))); // 1.5 L of 15 L stays, in percent
    carts.choose(0);
    CHECK(carts.past()->rows()[0][1].toString() == text("none yet")); // they were those of another cart
}
