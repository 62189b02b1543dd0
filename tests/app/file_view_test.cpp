// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "app_bench.h"

#include <catch2/catch.hpp>

namespace loopside::test {

namespace {

enum Kind
{
    Tanks,
    Fluids,
    Elements,
    Carts
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
          == text("column volume_l: “1,234” reads as thousands or as a fraction. Write 1234, or 1,2340 if it is a "
                  "fraction."));
    CHECK(titleOf(file, 1) == text("Row 2 · changed · Winder gearbox"));
    CHECK(textOf(file, 1) == text("Volume of oil: 310 L → 300 L"));
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

} // namespace loopside::test
