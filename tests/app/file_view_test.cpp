// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "app/mounted_media.h"
#include "app_bench.h"
#include "held.h"

#include <catch2/catch.hpp>

using namespace loopside;
using namespace loopside::test;

namespace {

enum Kind
{
    Tanks,
    Fluids,
    Elements,
    Carts,
    Jobs,
    Results
};

/// Shows the preview of the only file.
app::FileView& shown(AppBench& bench, const char* content, Kind kind)
{
    bench.writeFile(text("records.csv"), text(content));
    bench.app()->showFile();
    app::FileView& file = *bench.app()->file();
    file.chooseFile(0);
    file.chooseKind(kind);
    return file;
}

/// A run in which these bottles were drawn.
void drawn(Bench& bench, std::initializer_list<const char*> bottles)
{
    const app::Site& site = bench.tablet().site();
    const auto& [cart, stages] = site.carts.front();
    REQUIRE(bench.tablet().openRun({.title = {}, .tank = site.tanks.front(), .cart = cart, .stages = stages}));
    for (const char* bottle : bottles) {
        REQUIRE(bench.tablet().say(run::Said(run::SampleDrawn{bottle, 1})));
    }
}

QString titleOf(app::FileView& file, int row)
{
    return file.rows()->rows()[row][1].toString();
}

QString textOf(app::FileView& file, int row)
{
    return file.rows()->rows()[row][2].toString();
}

} // namespace

TEST_CASE("the page says where files are looked for, and that there is none")
{
    AppBench bench;
    bench.app()->showFile();
    app::FileView& file = *bench.app()->file();
    CHECK(file.problem().contains(text("Copy a CSV file there")));
    bench.writeFile(text("tanks.csv"), text("name,volume_l\nA,5\n"));
    bench.writeFile(text("picture.png"), text("x"));
    bench.app()->showFile();
    CHECK(file.files()->rowCount() == 1);
    CHECK(file.problem() == text("Choose a file."));
    file.chooseFile(0);
    CHECK(file.problem() == text("Choose what is in it."));
    CHECK(file.rows()->rowCount() == 0);
}

TEST_CASE("a preview shows what cannot be read first, in a shape and words, and stores nothing")
{
    AppBench bench;
    app::FileView& file = shown(bench,
                                "name;volume_l;fluid\nWinder gearbox;300;\nVacuum pump;60;ISO VG 220 gear\n"
                                "Old tank;1,234;\nStore tote 3;980;\n",
                                Tanks);
    REQUIRE(file.rows()->rowCount() == 4);
    CHECK(titleOf(file, 0) == text("Row 4 · cannot be read · Old tank"));
    CHECK(textOf(file, 0)
          == text(
              "column volume_l: “1,234” reads as thousands or as a fraction. If thousands are meant, write 1234. If it "
              "is a fraction, write 1,2340: with one more zero it reads in one way only."));
    CHECK(titleOf(file, 1) == text("Row 2 · changed · Winder gearbox"));
    CHECK(textOf(file, 1) == held("Volume of oil: 310~L → 300~L"));
    CHECK(titleOf(file, 2) == text("Row 3 · new · Vacuum pump"));
    CHECK(titleOf(file, 3) == text("Row 5 · the same · Store tote 3"));
    CHECK(file.rows()->rows()[0][0].toString() == text("no-go"));
    CHECK(file.rows()->rows()[1][0].toString() == text("caution"));
    CHECK(file.summary().startsWith(text("1 new, 1 changed, 1 the same, 1 cannot be read")));
    CHECK(file.mainText() == text("Take 2 records"));
    CHECK(bench.entries(text("tank-put")) == 0);
}

TEST_CASE("the main key takes the good rows, one entry each, and the same file again changes nothing")
{
    AppBench bench;
    app::FileView& file = shown(bench, "name,volume_l\nWinder gearbox,300\nVacuum pump,60\nOld tank,x\n", Tanks);
    REQUIRE(file.problem().isEmpty());
    file.take();
    CHECK(bench.entries(text("tank-put")) == 2);
    CHECK(file.notice() == text("2 taken, each signed by Ines."));
    CHECK(bench.tablet().site().tanks.size() == 6);
    CHECK(bench.tablet().site().tanks[1].volume.toText() == "300 L");
    CHECK(file.summary().startsWith(text("0 new, 0 changed, 2 the same, 1 cannot be read")));
    CHECK_FALSE(file.problem().isEmpty());
    file.take();
    CHECK(bench.entries(text("tank-put")) == 2);
    bench.restart();
    CHECK(bench.tablet().site().tanks.size() == 6);
}

TEST_CASE("a disk that fails while records are taken keeps none of them")
{
    AppBench bench;
    app::FileView& file = shown(bench, "name,volume_l\nA,300\nB,60\n", Tanks);
    bench.breakDisk(true);
    file.take();
    CHECK(bench.tablet().site().tanks.size() == 5);
    CHECK_FALSE(bench.app()->trouble().isEmpty());
    bench.breakDisk(false);
    file.take();
    CHECK(bench.tablet().site().tanks.size() == 7);
}

TEST_CASE("a file that changed since it was shown is shown again before it is taken")
{
    AppBench bench;
    app::FileView& file = shown(bench, "name,volume_l\nA,300\n", Tanks);
    bench.writeFile(text("records.csv"), text("name,volume_l\nA,30\n"));
    file.take();
    CHECK(bench.entries(text("tank-put")) == 0);
    CHECK(file.notice().contains(text("has changed")));
    file.take();
    CHECK(bench.tablet().site().tanks.back().volume.toText() == "30 L");
}

TEST_CASE("a file that is no table says so in the place of the main key's way")
{
    AppBench bench;
    CHECK(shown(bench, "", Tanks).problem().contains(text("is empty")));
    CHECK(shown(bench, "tank,volume\nA,5\n", Tanks).problem().contains(text("no column “name”")));
    CHECK(bench.app()->file()->rows()->rowCount() == 0);
}

TEST_CASE("element types come with their stock, carts with the elements that came before")
{
    AppBench bench;
    shown(bench, "type,kind,rating_um,stock\nW7,water,,4\n", Elements).take();
    CHECK(bench.entries(text("element-type-put")) == 1);
    CHECK(bench.tablet().state().stock.at("W7").elements == 4);
    shown(bench, "name,flow_lpm,gauge_unit,gauge_span,stage1_type\nCart W,20,kPa,600,W7\n", Carts).take();
    CHECK(bench.app()->trouble().isEmpty());
    REQUIRE(bench.tablet().site().carts.size() == 3);
    CHECK(bench.tablet().site().carts[2].stages[0].kind == "water");
    shown(bench, "name,kind,grade,vi\nTurbine 46,turbine,ISO VG 46,105\n", Fluids).take();
    CHECK(bench.tablet().site().fluids.size() == 1);
}

TEST_CASE("a file on a stick is offered with the stick's name, previewed and taken, and the stick is only read")
{
    AppBench bench;
    bench.writeFile(text("a.csv"), text("name,volume_l\nA,5\n"));
    bench.writeStick(text("b.csv"), text("name,volume_l\nB,60\n"));
    bench.writeStick(text("import/c.tsv"), text("name\tvolume_l\nC\t70\n"));
    bench.writeStick(text("picture.png"), text("x"));
    bench.app()->showFile();
    app::FileView& file = *bench.app()->file();
    REQUIRE(file.files()->rowCount() == 3);
    CHECK_FALSE(file.files()->rows()[0][1].toString().contains(text("STICK")));
    CHECK(file.files()->rows()[1][0].toString() == text("b.csv"));
    CHECK(file.files()->rows()[1][1].toString().startsWith(text("on STICK · ")));
    CHECK(file.files()->rows()[2][0].toString() == text("c.tsv"));
    file.chooseKind(Tanks);
    file.chooseFile(1);
    CHECK(titleOf(file, 0) == text("Row 2 · new · B"));
    file.take();
    CHECK(bench.tablet().site().tanks.back().name == "B");
    file.lookAt([] { return QStringList(); }); // it was pulled out
    CHECK(file.files()->rowCount() == 1);
    CHECK(file.rows()->rowCount() == 0);
    CHECK(file.problem() == text("Choose a file."));
}

TEST_CASE("of two files with one name the one that was touched is read")
{
    AppBench bench;
    bench.writeFile(text("a.csv"), text("name,volume_l\nHere,5\n"));
    bench.writeStick(text("a.csv"), text("name,volume_l\nThere,60\n"));
    bench.app()->showFile();
    app::FileView& file = *bench.app()->file();
    file.chooseKind(Tanks);
    file.chooseFile(1);
    CHECK(titleOf(file, 0) == text("Row 2 · new · There"));
    CHECK_FALSE(file.files()->rows()[0][2].toBool());
    CHECK(file.files()->rows()[1][2].toBool());
}

TEST_CASE("a stick that is gone when its file is to be taken says so, and nothing is taken")
{
    AppBench bench;
    bench.writeStick(text("b.csv"), text("name,volume_l\nB,60\n"));
    bench.app()->showFile();
    app::FileView& file = *bench.app()->file();
    file.chooseKind(Tanks);
    file.chooseFile(0);
    REQUIRE(file.problem().isEmpty());
    bench.pullStick();
    file.take();
    CHECK(bench.entries(text("tank-put")) == 0);
    CHECK(file.problem().contains(text("cannot be opened")));
}

TEST_CASE("volumes below the folders for removable media are sticks, the system's own are none")
{
    CHECK(app::isPutIn(text("/media/ines/STICK")));
    CHECK(app::isPutIn(text("/run/media/ines/STICK")));
    CHECK(app::isPutIn(text("/mnt/usb")));
    CHECK_FALSE(app::isPutIn(text("/")));
    CHECK_FALSE(app::isPutIn(text("/home")));
    CHECK_FALSE(app::isPutIn(text("/run/user/1000")));
    CHECK_FALSE(app::isPutIn(text("/mediafiles")));
}

TEST_CASE("types, carts, oils and jobs from files are shown with all that they hold, and each is taken as one entry")
{
    AppBench bench;
    app::FileView& types = shown(bench,
                                 "type,kind,rating_um,clean_dp_kpa,clean_at_flow_lpm,clean_at_viscosity_cst,stock\n"
                                 "P6 glass,particle,6,20,24,46,8\nP7,particle,7,20,24,,\n",
                                 Elements);
    CHECK(titleOf(types, 0) == text("Row 3 · cannot be read · P7"));
    CHECK(textOf(types, 0).contains(text("give both, above 0")));
    CHECK(textOf(types, 1).contains(held("Clean ΔP: at flow: 24~L~/~min; Clean ΔP: at viscosity: 46~cSt")));
    types.take();
    CHECK(bench.entries(text("element-type-put")) == 1);
    CHECK(bench.tablet().site().elementTypes.at(0).cleanDrop().has_value());

    app::FileView& carts = shown(bench,
                                 "name,flow_lpm,gauge_unit,last_fluid,suction_allowance,return_hose_lift_m,"
                                 "stage1_type,stage1_elements,stage2_type,stage3_type\n"
                                 "Cart T,20,kPa,ISO VG 46 hydraulic,0.8,0.5,P6 glass,4,P6 glass,P6 glass\n",
                                 Carts);
    CHECK(titleOf(carts, 0) == text("Row 2 · new · Cart T"));
    carts.take();
    CHECK(bench.entries(text("cart-put")) == 1);
    const auto& cart = bench.tablet().site().carts.back();
    REQUIRE(cart.stages.size() == 3);
    CHECK(cart.cart.gauges.size() == 4);
    CHECK(cart.stages[0].elements == 4);
    CHECK(cart.stages[2].cleanDrop().has_value()); // of its type
    CHECK(cart.cart.returnHose.lift->toText() == "0.5 m");

    app::FileView& oils = shown(bench, "name,kind,viscosity_40c_cst,viscosity_100c_cst\nGear 220,gear,220,19.0\n",
                                Fluids);
    CHECK(textOf(oils, 0).contains(held("Second measured viscosity: 19.0~cSt")));
    oils.take();
    CHECK(bench.entries(text("fluid-put")) == 1);

    app::FileView& jobs = shown(bench,
                                "order,tank,cart,turnovers,due\nWO-1,Winder gearbox,Cart T,7,2026-06-02\n"
                                "WO-2,No tank,,7,\n",
                                Jobs);
    CHECK(titleOf(jobs, 0) == text("Row 3 · cannot be read · WO-2"));
    jobs.take();
    CHECK(bench.entries(text("job-put")) == 1);
    REQUIRE(bench.tablet().site().jobs.size() == 1);
    CHECK(bench.tablet().site().jobs[0].cart == "Cart T");
}

TEST_CASE("results of a laboratory go into the runs of their bottles, and what is odd in them is asked")
{
    AppBench bench;
    drawn(bench, {"B1", "B2"});
    app::FileView& file = shown(bench, "sample,code,water\nB1,18/16/13,6000 ppm\nB2,17/15/12,\nB7,16/14/11,\n",
                                Results);
    REQUIRE(file.rows()->rowCount() == 3);
    CHECK(titleOf(file, 0).startsWith(text("Row 4 · cannot be read · B7")));
    CHECK(titleOf(file, 1).startsWith(text("Row 2 · new · B1 (")));
    CHECK(textOf(file, 1).contains(text("Code: 18/16/13")));
    CHECK(textOf(file, 1).contains(text("?"))); // so much water is asked about
    CHECK(bench.entries(text("result-entered")) == 0);
    REQUIRE(file.problem().isEmpty());
    file.take();
    CHECK(bench.entries(text("result-entered")) == 2);
    CHECK(file.notice() == text("2 taken, each signed by Ines."));
    CHECK(file.summary().startsWith(text("0 new, 0 changed, 2 the same, 1 cannot be read")));
}

TEST_CASE("a disk that fails between two results keeps the first, and the file takes the rest later")
{
    AppBench bench;
    drawn(bench, {"B1", "B2"});
    app::FileView& file = shown(bench, "sample,code\nB1,18/16/13\nB2,17/15/12\n", Results);
    bench.breakDiskAfter(1);
    file.take();
    bench.breakDisk(false);
    CHECK(bench.entries(text("result-entered")) == 1);
    CHECK(file.notice().startsWith(text("1 taken")));
    CHECK(file.summary().startsWith(text("1 new, 0 changed, 1 the same")));
    file.take();
    CHECK(bench.entries(text("result-entered")) == 2);
}
