// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "app/demo.h"
#include "app/finding_rows.h"
#include "app/scene.h"
#include "app_bench.h"
#include "run/level.h"

#include <catch2/catch.hpp>

#include <algorithm>

using namespace loopside;
using namespace loopside::test;

namespace {

QVariant valueOf(const app::RowModel& rows, int row, const char* role)
{
    const auto names = rows.roleNames();
    return rows.data(rows.index(row), names.key(role));
}

} // namespace

TEST_CASE("every scene shows what it says, and never a green column for a stage with a caution")
{
    const auto scenes = app::readScenes(app::demoScenes());
    REQUIRE(scenes.has_value());
    REQUIRE(scenes->size() >= 10);
    for (const app::Scene& scene : *scenes) {
        CAPTURE(scene.name);
        AppBench bench;
        bench.playScene(QString::fromStdString(scene.name));
        const auto& standing = bench.tablet().standing(*bench.tablet().shown());
        CHECK((scene.finding.empty()
               || std::ranges::find(standing.findings, scene.finding, &run::Finding::id) != standing.findings.end()));
        CHECK(bench.app()->alert()->isUp() == !scene.alert.empty());
        const app::RowModel& stages = *bench.app()->run()->stages();
        for (const run::Finding& finding : standing.findings) {
            if (finding.stage && finding.level != run::FindingLevel::Note) {
                CHECK(valueOf(stages, *finding.stage - 1, "level").toString() != QStringLiteral("ok"));
            }
        }
    }
}

TEST_CASE("no stage beside a doubted gauge or with a doubted element is green or has a forecast")
{
    const auto check = [](const char* scene, std::initializer_list<int> rows) {
        CAPTURE(scene);
        AppBench bench;
        bench.playScene(QString::fromLatin1(scene));
        const app::RowModel& stages = *bench.app()->run()->stages();
        for (const int row : rows) {
            CAPTURE(row);
            CHECK(valueOf(stages, row, "level").toString() == QStringLiteral("caution"));
            CHECK(valueOf(stages, row, "forecastState").toString() == QStringLiteral("none"));
            CHECK(valueOf(stages, row, "loadingText").toString().isEmpty());
        }
    };
    check("gauge-stuck", {0, 1});
    check("element-missing", {1});
}

TEST_CASE("a stage whose last set is in doubt is shown as in doubt, whatever was foreseen for it")
{
    AppBench bench;
    bench.playScene(QStringLiteral("question-digit"));
    const run::RunState& run = *bench.tablet().shown();
    const auto level = run::stageLevelOf(run, bench.tablet().standing(run), 1, 0.0, true);
    CHECK(level.isDoubtful);
    CHECK(level.word == "doubt");
}

TEST_CASE("the line tells the gravest finding and what to do, and the reasons stand behind it")
{
    AppBench bench;
    bench.playScene(QStringLiteral("return-restricted"));
    const app::RunView& run = *bench.app()->run();
    CHECK(run.lineLevel() == QStringLiteral("caution"));
    CHECK(run.lineText().contains(QStringLiteral("The way back is restricted")));
    CHECK(run.lineDetail().contains(QStringLiteral("kink")));
    REQUIRE(run.lineHasReasons());
    app::RowModel& findings = *bench.app()->run()->findings();
    CHECK(findings.rowCount() <= 3); // contract: at most three at once
    CHECK(valueOf(findings, 0, "text").toString() == run.lineText());
    CHECK(valueOf(findings, 0, "act").toString() == run.lineDetail());
    for (const char* part : {"because", "ruledOut", "confirm", "hazard"}) {
        CAPTURE(part);
        CHECK_FALSE(valueOf(findings, 0, part).toString().isEmpty());
    }
}

TEST_CASE("a question comes before a caution, and has its own keys")
{
    AppBench bench;
    bench.playScene(QStringLiteral("question-digit"));
    const app::RunView& run = *bench.app()->run();
    CHECK(bench.app()->run()->answers()->rowCount() == 3); // mend, as typed, read again
    CHECK_FALSE(run.lineHasReasons());
}

TEST_CASE("a run that is closed tells no findings")
{
    AppBench bench;
    bench.playScene(QStringLiteral("aerated"));
    REQUIRE(bench.app()->run()->findings()->rowCount() > 0);
    REQUIRE(bench.tablet().submit(run::CloseRun{bench.tablet().shown()->id, run::Ending::StoppedEarly, "over"}));
    CHECK(bench.app()->run()->findings()->rowCount() == 0);
}

TEST_CASE("what cannot be a scene is refused with its name")
{
    CHECK_FALSE(app::readScenes("{").has_value());
    CHECK_FALSE(app::readScenes("{}").has_value());
    const auto closing = app::readScenes(R"({"cart": {}, "target": {}, "elements": {"fine": []},
        "scenes": [{"name": "bad one", "tank": {}, "entries": []}]})");
    REQUIRE_FALSE(closing.has_value());
    CHECK(closing.error().sentence.find("bad one") != std::string::npos);
}
