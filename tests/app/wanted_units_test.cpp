// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// Two people with other wishes hold the tablet one after the other over the same run: what is shown follows them, what
// was typed does not. Values of other units by NIST SP 811 (2008), appendix B.8.

#include "app/wanted_units.h"

#include "app_bench.h"
#include "held.h"

#include <catch2/catch.hpp>

using namespace loopside;
using namespace loopside::test;

namespace {

constexpr int psiRow = 1;
constexpr int barRow = 2;

/// Tomasz wants psi, gal and °F, Ruth bar, L and °C; Ines, who holds the tablet, wants all as typed.
void makeWishes(const Bench& bench)
{
    app::PeopleView& people = *bench.app()->wishes();
    const auto wish = [&](int person, int pressure, int volume, int temperature) {
        people.choose(person);
        people.choosePressure(pressure);
        people.chooseVolume(volume);
        people.chooseTemperature(temperature);
        people.log();
    };
    wish(1, psiRow, 2, 2);
    wish(2, barRow, 1, 1);
}

void filterOnPress(Bench& bench)
{
    makeWishes(bench);
    const auto& site = bench.tablet().site();
    REQUIRE(bench.tablet().openRun({{}, site.tanks[0], site.carts[0].cart, site.carts[0].stages, {}}));
    REQUIRE(bench.tablet().say(run::Said(run::ModeChanged{run::Mode::Filtering, std::nullopt})));
    bench.pass(120);
    REQUIRE(bench.tablet().say(setOf({145, 110, 40}, "24 °C")));
}

/// The value of a row by its name.
QString valueOf(const app::RowModel& rows, const char* name)
{
    for (const auto& row : rows.rows()) {
        if (row[0].toString() == text(name)) {
            return row[1].toString();
        }
    }
    return {};
}

QString cellOf(const app::RowModel& rows, int row, const char* role)
{
    return rows.data(rows.index(row), rows.roleNames().key(role)).toString();
}

} // namespace

TEST_CASE("the run is shown in the units of who holds the tablet, its gauges in theirs")
{
    struct Shown
    {
        int person;
        const char* oil;
        const char* drop;
        const char* limit;
        const char* fluid;
        const char* flow;
    };
    const auto shown = GENERATE(Shown{0, "24~°C", "35~kPa", "170~kPa", "ISO VG 46 · 760~L", "24~L~/~min"},
                                Shown{1, "75~°F", "5.1~psi", "24.7~psi", "ISO VG 46 · 201~gal", "6.34~gpm"},
                                Shown{2, "24~°C", "0.35~bar", "1.70~bar", "ISO VG 46 · 760~L", "24~L~/~min"});
    AppBench bench;
    filterOnPress(bench);
    bench.app()->choosePerson(shown.person);
    app::RunView& run = *bench.app()->run();
    CHECK(run.oilText() == held(shown.oil));
    CHECK(cellOf(*run.stages(), 0, "dropText") == held(shown.drop));
    CHECK(cellOf(*run.stages(), 0, "limitText") == held(shown.limit));
    CHECK(run.fluidText() == held(shown.fluid));
    CHECK(run.flowText() == text("rated\n") + held(shown.flow));
    CHECK(cellOf(*run.gauges(), 0, "valueText") == text("145"));
    CHECK(cellOf(*run.gauges(), 0, "unitText") == text("kPa"));
    CHECK(cellOf(*run.readings(), 0, "name") == held("G1 145~kPa · G2 110~kPa · G3 40~kPa · 24~°C"));
}

TEST_CASE("the last temperature stands beside its field in the unit of that field")
{
    AppBench bench;
    filterOnPress(bench);
    const auto ghost = [&] { return cellOf(*bench.app()->pad()->fields(), 3, "ghost"); };
    CHECK(ghost() == text("last 24"));
    bench.app()->choosePerson(1);
    CHECK(ghost() == held("last 75~°F"));
}

TEST_CASE("needles that swing leave no digit finer than what they may be off by")
{
    AppBench bench;
    bench.playScene(QStringLiteral("aerated"));
    const app::RowModel& stages = *bench.app()->run()->stages();
    for (int row = 0; row < stages.rowCount(); ++row) {
        CAPTURE(row);
        CHECK_FALSE(cellOf(stages, row, "dropText").contains(QLatin1Char('.')));
        CHECK_FALSE(cellOf(stages, row, "errorText").contains(QLatin1Char('.')));
    }
}

TEST_CASE("the error and the corrected value of a stage stand in the unit of its ΔP")
{
    AppBench bench;
    filterOnPress(bench);
    bench.app()->choosePerson(1);
    const app::RowModel& stages = *bench.app()->run()->stages();
    CHECK(cellOf(stages, 0, "errorText").endsWith(held("~psi")));
    CHECK(cellOf(stages, 0, "correctedText").endsWith(held("~psi")));
}

TEST_CASE("the axis of the trend and its limits follow the wish")
{
    AppBench bench;
    filterOnPress(bench);
    CHECK(bench.app()->run()->trend().unit == text("kPa"));
    bench.app()->choosePerson(1);
    const paper::Trend american = bench.app()->run()->trend();
    CHECK(american.unit == text("psi"));
    CHECK(american.stages[0].raw.last().y() == Approx(35.0 / 6.894757));
    CHECK(american.stages[0].limit == Approx(170.0 / 6.894757));
    CHECK(american.stages[0].limitText == text("24.7 psi"));
    bench.app()->choosePerson(2);
    const paper::Trend metric = bench.app()->run()->trend();
    CHECK(metric.unit == text("bar"));
    CHECK(metric.stages[0].raw.last().y() == Approx(0.35));
}

TEST_CASE("an alert tells ΔP and limit in the units of who reads it, and keeps what was told")
{
    AppBench bench;
    filterOnPress(bench);
    bench.pass(600);
    REQUIRE(bench.tablet().say(setOf({255, 80, 30}, "32 °C")));
    REQUIRE(bench.app()->alert()->isUp());
    const QString journal = bench.lastBody(QStringLiteral("alert-raised"));
    CHECK(bench.app()->alert()->evidence().contains(held("175~kPa · limit 170~kPa")));
    bench.app()->choosePerson(1);
    CHECK(bench.app()->alert()->evidence().contains(held("25.4~psi · limit 24.7~psi")));
    bench.app()->choosePerson(2);
    CHECK(bench.app()->alert()->evidence().contains(held("1.75~bar · limit 1.70~bar")));
    CHECK(bench.lastBody(QStringLiteral("alert-raised")) == journal);
    CHECK(journal.contains(text("170 kPa")));
}

TEST_CASE("what was typed stands first in the facts of a set-up, what is wanted behind it")
{
    AppBench bench;
    makeWishes(bench);
    bench.app()->showSetUp();
    bench.app()->setup()->chooseTank(0);
    CHECK(valueOf(*bench.app()->setup()->facts(), "Volume") == held("760~L"));
    CHECK(bench.app()->setup()->tanks()->rows()[0][1].toString().endsWith(held("760~L")));
    bench.app()->choosePerson(1);
    CHECK(valueOf(*bench.app()->setup()->facts(), "Volume") == held("760~L (201~gal)"));
    CHECK(bench.app()->setup()->tanks()->rows()[0][1].toString().endsWith(held("201~gal")));
    bench.app()->choosePerson(2);
    CHECK(valueOf(*bench.app()->setup()->facts(), "Volume") == held("760~L"));
}

TEST_CASE("the volume through the filters is told in the unit of who closes the run")
{
    AppBench bench;
    filterOnPress(bench);
    bench.pass(900);
    REQUIRE(bench.tablet().say(setOf({145, 110, 40}, "25 °C")));
    bench.app()->openCloseOut();
    const double litres = bench.tablet().standing(*bench.tablet().shown()).credit.filtered.in(units::litre);
    REQUIRE(litres > 100.0);
    const auto told = [&] { return valueOf(*bench.app()->closeOut()->totals(), "Through the filters"); };
    CHECK(told() == QString::number(litres, 'f', 0) + held("~L"));
    bench.app()->choosePerson(1);
    const double gallons = litres / 3.785412;
    CHECK(told() == QString::number(gallons, 'f', gallons < 100.0 ? 1 : 0) + held("~gal"));
}

TEST_CASE("a transfer is planned in the unit of who plans it")
{
    AppBench bench;
    makeWishes(bench);
    app::TransferView& transfer = *bench.app()->transfer();
    bench.app()->showTransfer();
    transfer.chooseTank(1);
    transfer.chooseCart(0);
    const auto typeInto = [&](int field, const char* signs) {
        transfer.fields()->select(field);
        transfer.fields()->setUnit(field, QStringLiteral("L"));
        for (const char sign : std::string_view(signs)) {
            transfer.fields()->key(QString(QLatin1Char(sign)));
        }
    };
    typeInto(0, "205");
    typeInto(1, "60");
    typeInto(2, "100");
    const QString free = transfer.outcome()->rows()[0][1].toString();
    CHECK(free == held("145~L"));
    bench.app()->choosePerson(1);
    CHECK(transfer.outcome()->rows()[0][1].toString() == held("38~gal")); // 38.3, and never more than may be
    CHECK(transfer.fields()->text(0) == text("205"));                     // with its unit, as typed
    CHECK(transfer.fields()->typed<units::Volume>(0)->toText() == "205 L");
}

TEST_CASE("a wish holds at once for who holds the tablet, and after a restart")
{
    AppBench bench;
    filterOnPress(bench);
    app::PeopleView& people = *bench.app()->wishes();
    people.choose(0);
    people.choosePressure(psiRow);
    people.chooseTemperature(2);
    people.log();
    CHECK(bench.app()->run()->oilText() == held("75~°F"));
    bench.restart();
    CHECK(bench.app()->run()->oilText() == held("75~°F"));
    CHECK(cellOf(*bench.app()->run()->stages(), 0, "dropText") == held("5.1~psi"));
}

TEST_CASE("a wish changes nothing in the journal but the wish")
{
    AppBench bench;
    filterOnPress(bench);
    const QString before = bench.lastBody(QStringLiteral("reading-logged"));
    bench.app()->choosePerson(1);
    CHECK(bench.lastBody(QStringLiteral("reading-logged")) == before);
    CHECK(before.contains(text("145")));
    CHECK(bench.compareWithFold().isEmpty());
}

TEST_CASE("the last ten sets are listed with what is in doubt of them")
{
    AppBench bench;
    filterOnPress(bench);
    for (int i = 0; i < 11; ++i) {
        bench.pass(300);
        REQUIRE(bench.tablet().say(setOf({145, 110, 40}, "25 °C")));
    }
    const app::RowModel& readings = *bench.app()->run()->readings();
    REQUIRE(readings.rowCount() == 10);
    CHECK(cellOf(readings, 0, "sign").isEmpty());
    bench.pass(300);
    REQUIRE(bench.tablet().say(setOf({15, 110, 40}, "25 °C"))); // for 150: it is asked about
    CHECK(cellOf(readings, 0, "sign") == text("unknown"));
    CHECK(cellOf(readings, 0, "detail").contains(text("in doubt")));
    CHECK(cellOf(readings, 1, "sign").isEmpty());
    bench.app()->putRight(cellOf(readings, 0, "entry"));
    CHECK(bench.app()->page() == app::AppView::Page::Logged);
    CHECK(bench.app()->logged()->title() == cellOf(readings, 0, "name"));
    CHECK(bench.app()->logged()->hasFields());
}
