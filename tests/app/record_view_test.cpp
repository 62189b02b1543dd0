// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "app_bench.h"

#include <catch2/catch.hpp>

namespace loopside::test {

namespace {

QString text(const char* latin)
{
    return QString::fromLatin1(latin);
}

void type(app::RecordView& record, int field, const char* signs)
{
    record.fields()->select(field);
    for (const char sign : std::string_view(signs)) {
        record.fields()->key(QString(QLatin1Char(sign)));
    }
}

enum TankField
{
    Volume,
    Capacity,
    Mixing,
    Water,
    Code,
    Plate
};

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
    CHECK(line.endsWith(QStringLiteral("Volume of oil: 760 L → 740 L"))); // and nothing else changed
}

TEST_CASE("what was put holds after a restart, and an open run keeps what it was opened with")
{
    AppBench bench;
    const auto& site = bench.tablet().site();
    REQUIRE(bench.tablet().openRun({{}, site.tanks[0], site.carts[0].cart, site.carts[0].stages, {}}));
    app::RecordView& carts = *bench.app()->carts();
    carts.choose(0);
    carts.goOn();
    type(carts, 4, "150"); // the change limit of stage 1
    carts.goOn();
    bench.restart();
    CHECK(bench.tablet().site().carts[0].stages[0].changeLimit->toText() == "150 kPa");
    CHECK(bench.tablet().shown()->setup.stages[0].changeLimit->toText() == "170 kPa");
    bench.app()->carts()->choose(0);
    CHECK(bench.app()->carts()->history()->rows()[0][1].toString().contains(
        QStringLiteral("Stage 1 change limit: 170 kPa → 150 kPa")));
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
    CHECK(bench.app()->trouble().contains(text("cannot hold 950 L")));
    CHECK(tanks.isEditing());
    CHECK(tanks.fields()->text(Volume) == text("950"));
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
    CHECK_FALSE(bench.app()->carts()->canBeNew());
    tanks.tellNew();
    CHECK(tanks.problem() == text("Type its name."));
    tanks.typeName(text("Winder gearbox"));
    CHECK(tanks.problem() == text("There is one of that name already."));
    tanks.typeName(text("Vacuum pump"));
    CHECK(tanks.problem() == text("Type: Volume of oil."));
    type(tanks, Volume, "60");
    CHECK(tanks.problem() == text("Choose its oil."));
    tanks.chooseFluid(1);
    bench.restart(); // killed before it is put
    CHECK(bench.entries(QStringLiteral("tank-put")) == 0);
    app::RecordView& again = *bench.app()->tanks();
    again.tellNew();
    CHECK(again.newName() == text("Vacuum pump"));
    CHECK(again.fields()->text(Volume) == text("60"));
    again.chooseFluid(1);
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
    tanks.chooseFluid(1);
    tanks.goOn();
    CHECK(bench.tablet().site().tanks[4].fluid == bench.tablet().site().tanks[1].fluid);
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

} // namespace loopside::test
