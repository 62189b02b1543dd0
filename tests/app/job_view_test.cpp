// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "app_bench.h"

#include <catch2/catch.hpp>

using namespace loopside;
using namespace loopside::test;

namespace {

enum JobField
{
    Turnovers,
    Code,
    Due,
    Elements,
    Reason
};

constexpr const char* longAgo = "2001-02-03";
constexpr const char* farOff = "2099-01-31";

/// Plans a job at the first tank.
app::RecordView& plan(const Bench& bench, const char* order, const char* due)
{
    app::RecordView& jobs = *bench.app()->jobs();
    jobs.tellNew();
    jobs.typeName(text(order));
    jobs.pick(0);
    type(jobs, Turnovers, "6.5");
    type(jobs, Code, "17/15/12");
    type(jobs, Due, due);
    type(jobs, Reason, "code too high");
    jobs.goOn();
    REQUIRE(bench.tablet().site().jobs.size() > 0);
    return jobs;
}

QString detailOf(const Bench& bench, const char* tank)
{
    for (const auto& row : bench.app()->shift()->work()->rows()) {
        if (row[0].toString() == text(tank)) {
            return row[1].toString();
        }
    }
    return {};
}

/// Answers all that a set-up asks for and goes on until the run is there.
void start(Bench& bench)
{
    app::SetupView& setup = *bench.app()->setup();
    setup.choosePlacement(0);
    answerAll(bench, *setup.hosePoints());
    answerAll(bench, *setup.areaPoints());
    setup.oil()->select(0);
    for (const char sign : std::string_view("40")) {
        setup.oil()->key(QString(QLatin1Char(sign)));
    }
    for (int step = 0; step < 20 && bench.tablet().state().runs.empty(); ++step) {
        setup.goOn();
    }
}

} // namespace

TEST_CASE("a job is planned with a tank of the site, and nothing of it is made up")
{
    AppBench bench;
    app::RecordView& jobs = *bench.app()->jobs();
    jobs.tellNew();
    jobs.typeName(text("WO-118"));
    CHECK(jobs.problem() == text("Choose: Tank."));
    jobs.pick(0);
    jobs.goOn();
    const auto& site = bench.tablet().site();
    REQUIRE(site.jobs.size() == 1);
    CHECK(site.jobs.front() == run::JobRecord{.order = "WO-118", .tank = site.tanks.front().name});
    CHECK(jobs.facts()->rows()[1][1].toString() == text("not said"));
    CHECK(jobs.history()->rows()[0][1].toString().endsWith(text("new")));
}

TEST_CASE("what a job says is kept as typed, and a day that is none is told")
{
    AppBench bench;
    app::RecordView& jobs = plan(bench, "WO-118", farOff);
    const QString body = bench.lastBody(QStringLiteral("job-put"));
    CHECK(body.contains(text(R"("turnovers":"6.5","target_code":"17/15/12")")));
    CHECK(body.contains(text(R"("due":"2099-01-31")")));
    CHECK(body.contains(text(R"("reason":"code too high")")));
    jobs.goOn();
    type(jobs, Due, "2026-02-30");
    jobs.goOn();
    CHECK(bench.entries(QStringLiteral("job-put")) == 1);
    CHECK(bench.app()->trouble().contains(text("2026-02-30")));
    jobs.fields()->select(Due);
    jobs.fields()->replace(text("2099-02-28"));
    jobs.goOn();
    CHECK(bench.entries(QStringLiteral("job-put")) == 2);
    CHECK(jobs.history()->rows()[0][1].toString().contains(text("Due: 2099-01-31")));
}

TEST_CASE("planned jobs stand on the shift, the first due first, an overdue one loud, and are begun from there")
{
    AppBench bench;
    plan(bench, "WO-2", farOff);
    app::RecordView& jobs = plan(bench, "WO-1", longAgo);
    app::ShiftView& shift = *bench.app()->shift();
    REQUIRE(shift.work()->rowCount() == 2);
    CHECK(shift.work()->rows()[0][1].toString().contains(text("WO-1")));
    CHECK(shift.work()->rows()[0][4].toBool());
    CHECK_FALSE(shift.work()->rows()[1][4].toBool());
    shift.open(0);
    CHECK(bench.app()->page() == app::AppView::Page::SetUp);
    app::SetupView& setup = *bench.app()->setup();
    CHECK(setup.tanks()->rows()[0][2].toBool());
    CHECK(setup.facts()->rows()[0][1].toString().contains(text("WO-1")));
    CHECK(setup.targets()->rows().back()[0].toString() == text("6.5")); // no number of the usual ones
    CHECK(setup.targets()->rows().back()[2].toBool());
    setup.chooseTank(1);
    CHECK(setup.targets()->rowCount() == 4); // planned for another tank
    CHECK(jobs.items()->rowCount() == 2);
}

TEST_CASE("a run that was begun for a job says so, and the job is planned again if it ends before its target")
{
    AppBench bench;
    plan(bench, "WO-118", farOff);
    bench.app()->shift()->open(0);
    bench.app()->setup()->chooseCart(0);
    start(bench);
    REQUIRE(bench.tablet().state().runs.size() == 1);
    const run::RunState& run = bench.tablet().state().runs.begin()->second;
    CHECK(run.setup.job == "WO-118");
    CHECK(run.setup.target.code == "17/15/12");
    CHECK(run.setup.target.turnovers->toText() == "6.5");
    app::RecordView& jobs = *bench.app()->jobs();
    CHECK(jobs.items()->rows()[0][1].toString().contains(text("a run for it is open")));
    CHECK(bench.app()->shift()->work()->rowCount() == 1); // the run
    REQUIRE(bench.tablet().submit(run::CloseRun{run.id, run::Ending::StoppedEarly, "shift over"}));
    CHECK(jobs.items()->rows()[0][1].toString().contains(text("planned")));
    CHECK(detailOf(bench, "Press hydraulic unit").contains(text("WO-118")));
    CHECK(bench.compareWithFold().isEmpty());
}

TEST_CASE("the target code of a job can be taken back in the set-up, and goes with another tank")
{
    AppBench bench;
    plan(bench, "WO-118", farOff);
    bench.app()->shift()->open(0);
    app::SetupView& setup = *bench.app()->setup();
    CHECK(setup.code()->text(0) == text("17/15/12"));
    for (int sign = 0; sign < 8; ++sign) {
        setup.code()->backspace();
    }
    setup.chooseCart(0);
    start(bench);
    REQUIRE(bench.tablet().state().runs.size() == 1);
    CHECK(bench.tablet().state().runs.begin()->second.setup.target.code.empty());

    plan(bench, "WO-119", farOff);
    bench.app()->setup()->beginFor(bench.tablet().site().jobs.back());
    CHECK(bench.app()->setup()->code()->text(0) == text("17/15/12"));
    bench.app()->setup()->chooseTank(1);
    CHECK(bench.app()->setup()->code()->text(0).isEmpty());
}

TEST_CASE("a job that is withdrawn with a reason is offered no more, and stays in the catalogue")
{
    AppBench bench;
    app::RecordView& jobs = plan(bench, "WO-118", farOff);
    CHECK(jobs.serviceText() == text("Withdraw it"));
    jobs.changeService();
    REQUIRE(jobs.isAskingWhy());
    jobs.because(0);
    CHECK(bench.app()->shift()->work()->rowCount() == 0);
    CHECK(jobs.items()->rows()[0][1].toString().contains(text("no longer needed")));
    CHECK(jobs.serviceText() == text("Plan it again"));
}
