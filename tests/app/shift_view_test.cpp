// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "app/wording.h"
#include "app_bench.h"
#include "held.h"
#include "run/put_away.h"
#include "run/run_code.h"

#include <catch2/catch.hpp>

using namespace loopside;
using namespace loopside::test;

namespace {

bool openAt(const Bench& bench, std::size_t tank, std::size_t cart)
{
    const auto& site = bench.tablet().site();
    return bench.tablet().openRun({{}, site.tanks[tank], site.carts[cart].cart, site.carts[cart].stages, {}});
}

bool filter(const Bench& bench)
{
    return bench.tablet().say(run::Said(run::ModeChanged{run::Mode::Filtering, std::nullopt}));
}

QString valueOf(const app::RowModel* rows, const char* name)
{
    for (const auto& row : rows->rows()) {
        if (row[0].toString() == text(name)) {
            return row[1].toString();
        }
    }
    return {};
}

} // namespace

TEST_CASE("the tablet starts with the shift when no run is open, else with the run")
{
    AppBench bench;
    CHECK(bench.app()->page() == app::AppView::Page::Shift);
    REQUIRE(openAt(bench, 0, 0));
    bench.restart();
    CHECK(bench.app()->page() == app::AppView::Page::Run);
}

TEST_CASE("open runs stand first, the one with an overdue reading loud and before the others")
{
    AppBench bench;
    REQUIRE(openAt(bench, 1, 1));
    REQUIRE(openAt(bench, 0, 0));
    REQUIRE(filter(bench));
    bench.pass(3600);
    bench.app()->alert()->because(0);
    const auto& work = bench.app()->shift()->work()->rows();
    REQUIRE(work.size() == 2);
    CHECK(work[0][0].toString() == text("Press hydraulic unit"));
    CHECK(work[0][4].toBool());
    CHECK(work[0][3].toString() == text("late"));
    CHECK_FALSE(work[1][4].toBool());
    bench.app()->shift()->open(1);
    CHECK(bench.app()->page() == app::AppView::Page::Run);
    CHECK(bench.app()->run()->tankName() == text("Winder gearbox"));
}

TEST_CASE("two open runs of one tank are told apart by cart, of one cart by their codes")
{
    AppBench bench;
    const auto chip = [&](int row) { return bench.app()->chips()->rows()[row][0].toString(); };
    REQUIRE(openAt(bench, 0, 0));
    CHECK(chip(0) == text("Press hydraulic unit"));
    REQUIRE(openAt(bench, 0, 1));
    const auto& carts = bench.tablet().site().carts;
    CHECK(chip(0) == app::toQt(carts[0].cart.name) + text(" · Press hydraulic unit"));
    CHECK(chip(1) == app::toQt(carts[1].cart.name) + text(" · Press hydraulic unit"));
    REQUIRE(openAt(bench, 0, 1));
    CHECK(chip(1) != chip(2));
    CHECK_FALSE(chip(2).contains(app::toQt(carts[1].cart.name)));
}

TEST_CASE("a run that was closed today stands behind the open ones")
{
    AppBench bench;
    REQUIRE(openAt(bench, 0, 0));
    REQUIRE(bench.tablet().submit(run::CloseRun{bench.tablet().shown()->id, run::Ending::StoppedEarly, "why"}));
    REQUIRE(openAt(bench, 1, 1));
    const auto& work = bench.app()->shift()->work()->rows();
    REQUIRE(work.size() == 2);
    CHECK(work[0][0].toString() == text("Winder gearbox"));
    CHECK(work[1][3].toString() == text("closed"));
}

TEST_CASE("a day is one of the place, not of UTC")
{
    constexpr std::int64_t hourMs = 3'600'000;
    const Stamp evening{.wallMs = 21 * hourMs, .offsetMin = 120}; // 23:00 on 1 January 1970
    const Stamp night{.wallMs = 23 * hourMs, .offsetMin = 120};   // 01:00 on the 2nd
    CHECK_FALSE(app::isSameDay(evening, night));
    CHECK(app::dayText(evening) == text("1970-01-01 23:00"));
    CHECK(app::dayText(night) == text("1970-01-02 01:00"));
    CHECK(app::agoText(night, night) == text("01:00"));
    CHECK(app::agoText(evening, night) == held("23:00~−1~d"));
}

TEST_CASE("tanks and carts say what goes on there")
{
    AppBench bench;
    app::ShiftView& shift = *bench.app()->shift();
    CHECK(valueOf(shift.tanks(), "Winder gearbox") == text("no run here yet"));
    CHECK(valueOf(shift.carts(), "Cart B") == text("last oil ISO VG 46 hydraulic"));
    REQUIRE(openAt(bench, 1, 0));
    REQUIRE(filter(bench));
    CHECK(valueOf(shift.tanks(), "Winder gearbox") == text("Cart B, filtering"));
    CHECK(shift.tanks()->rows()[0][0].toString() == text("Winder gearbox"));
    CHECK(valueOf(shift.carts(), "Cart B") == text("at Winder gearbox"));
}

TEST_CASE("what is on this tablet only is counted, and that there is no hub is said")
{
    AppBench bench;
    const int before = bench.tablet().entriesHere();
    REQUIRE(openAt(bench, 0, 0));
    CHECK(bench.tablet().entriesHere() == before + 1);
    CHECK(bench.app()->shift()->onlyHereText().contains(QString::number(before + 1)));
    CHECK(bench.app()->shift()->onlyHereText().contains(text("no site hub yet")));
}

TEST_CASE("of each run of today it is told how many entries and readings are on this tablet only, then of all the rest")
{
    AppBench bench;
    const int before = bench.tablet().entriesHere();
    bench.playScene(text("valve-in-bypass"));
    const std::string tank = bench.tablet().shown()->setup.tank.name;
    const int ofRun = bench.tablet().entriesHere() - before;
    const int readings = bench.entries(text("reading-logged"));
    REQUIRE(readings > 1);
    app::RowModel* rows = bench.app()->shift()->onlyHere();
    const auto valueFor = [&](int entries, int sets) {
        return QStringLiteral("entries: %1, readings: %2").arg(entries).arg(sets);
    };
    CHECK(valueOf(rows, tank.c_str()) == valueFor(ofRun, readings));
    CHECK(valueOf(rows, "all other") == QStringLiteral("entries: %1").arg(before));
    REQUIRE(bench.tablet().submit(run::CloseRun{bench.tablet().shown()->id, run::Ending::StoppedEarly, "shift over"}));
    CHECK(valueOf(rows, tank.c_str()) == valueFor(bench.tablet().entriesHere() - before, readings));
    REQUIRE(
        bench.tablet().openJob(run::FlushOpened{.cart = "Cart B", .left = run::TypedVolume::parse("1.5 L").value()}));
    CHECK(valueOf(rows, "Cart B") == text("entries: 1"));
}

TEST_CASE("a run of an earlier day is opened from the history of its tank, with its readings")
{
    AppBench bench;
    bench.playScene(text("valve-in-bypass"));
    const Id old = bench.tablet().shown()->id;
    run::Setup setup = bench.tablet().shown()->setup;
    REQUIRE(bench.tablet().submit(run::CloseRun{old, run::Ending::StoppedEarly, "shift over"}));
    const std::size_t facts = bench.tablet().shown()->facts.size();
    for (std::size_t later = 0; later <= run::closedRunsAtHand; ++later) {
        REQUIRE(bench.tablet().openRun(setup));
        const Id run = bench.tablet().shown()->id;
        REQUIRE(bench.tablet().submit(run::CloseRun{run, run::Ending::StoppedEarly, "shift over"}));
    }
    REQUIRE(bench.tablet().openRun(setup));
    bench.restart(); // all closed runs but the last ones are put away in the journal
    CHECK(bench.tablet().state().runOf(old)->isPutAway);
    CHECK(bench.tablet().state().runOf(old)->facts.size() < facts);
    const auto lines = app::historyRows(app::workAtTank(bench.tablet(), setup.tank.name));
    const auto line = std::ranges::find_if(
        lines, [&](const app::RowModel::Row& row) { return row[2].toString().toStdString() == toText(old); });
    REQUIRE(line != lines.end());
    bench.app()->showShift();
    bench.app()->showRunOf(line->at(2).toString());
    CHECK(bench.app()->page() == app::AppView::Page::Run);
    CHECK(bench.tablet().shown()->id == old);
    CHECK(bench.tablet().shown()->facts.size() == facts);
}

TEST_CASE("a run that was put away to make room for an earlier one stands as what is left of it")
{
    AppBench bench;
    const auto playAndClose = [&] {
        bench.playScene(text("valve-in-bypass"));
        const Id run = bench.tablet().shown()->id;
        REQUIRE(bench.tablet().submit(run::CloseRun{run, run::Ending::StoppedEarly, "shift over"}));
        return run;
    };
    const Id old = playAndClose();
    const run::Setup setup = bench.tablet().shown()->setup;
    const Id next = playAndClose();
    for (std::size_t later = 1; later < run::closedRunsAtHand; ++later) {
        REQUIRE(bench.tablet().openRun(setup));
        const Id run = bench.tablet().shown()->id;
        REQUIRE(bench.tablet().submit(run::CloseRun{run, run::Ending::StoppedEarly, "shift over"}));
    }
    bench.restart();
    const auto setsOf = [&] {
        return bench.tablet().standing(*bench.tablet().state().runOf(next)).diagnosis.sets.size();
    };
    REQUIRE(bench.tablet().state().runOf(old)->isPutAway);
    REQUIRE_FALSE(bench.tablet().state().runOf(next)->isPutAway);
    REQUIRE(setsOf() > 0);
    bench.tablet().tick();
    bench.tablet().show(old);
    REQUIRE(bench.tablet().state().runOf(next)->isPutAway);
    CHECK(setsOf() == 0);
}

TEST_CASE("what is no run leads nowhere")
{
    AppBench bench;
    bench.app()->showRunOf({});
    bench.app()->showRunOf(text("018f3b5e-0001-7000-8000-000000000001"));
    CHECK(bench.app()->page() == app::AppView::Page::Shift);
}

TEST_CASE("an open flush and a transfer stand among the work")
{
    AppBench bench;
    const run::FlushOpened flush{.cart = "Cart B", .left = run::TypedVolume::parse("1.5 L").value()};
    REQUIRE(bench.tablet().openJob(flush).has_value());
    const auto& work = bench.app()->shift()->work()->rows();
    REQUIRE(work.size() == 1);
    CHECK(work[0][2].toString() == text("flush"));
    CHECK(valueOf(bench.app()->shift()->carts(), "Cart B") == text("being flushed"));
    bench.app()->shift()->open(0);
    CHECK(bench.app()->page() == app::AppView::Page::Flush);
}

TEST_CASE("two open runs at one tank are told apart by their codes")
{
    AppBench bench;
    REQUIRE(openAt(bench, 0, 0));
    const std::string first = run::codeOf(bench.tablet().shown()->id);
    CHECK(bench.app()->shift()->work()->rows()[0][0].toString() == text("Press hydraulic unit"));
    REQUIRE(openAt(bench, 0, 0));
    QStringList names;
    for (const app::RowModel::Row& row : bench.app()->shift()->work()->rows()) {
        names.append(row[0].toString());
    }
    CHECK(names.contains(app::toQt(first) + text(" · Press hydraulic unit")));
}
