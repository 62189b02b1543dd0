// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// What the painter of the trend is given for a run: read from the facts of the run, not from its pixels.

#include "paper/run_trend.h"

#include "app/stage_ahead.h"
#include "run/walk.h"

#include <QStringList>

#include <catch2/catch.hpp>

using namespace loopside;
using namespace loopside::test;

namespace {

paper::Trend trendAt(const Walk& walk, double minute)
{
    static const words::Words words = words::Words::in("en").value();
    const run::Standing standing = walk.standingAt(minute);
    return paper::runTrend(words, walk.run(), standing, app::firstToReach(standing));
}

/// "bypass 10-20", one a line, those in doubt with a "?".
std::string told(const QList<paper::TrendSpan>& spans)
{
    QStringList lines;
    for (const paper::TrendSpan& span : spans) {
        lines.append(span.text + QStringLiteral(" %1-%2").arg(span.from).arg(span.to)
                     + (span.isDoubtful ? QStringLiteral("?") : QString()));
    }
    return lines.join(QStringLiteral(" | ")).toStdString();
}

std::string told(const QList<QPointF>& points)
{
    QStringList pairs;
    for (const QPointF& point : points) {
        pairs.append(QStringLiteral("%1:%2").arg(point.x()).arg(point.y()));
    }
    return pairs.join(QLatin1Char(' ')).toStdString();
}

} // namespace

TEST_CASE("readings while the oil is filtered are points of their stages, others are not")
{
    Walk walk;
    walk.filteringAt(0).readingAt(2, "22 16 6").readingAt(10, "23 16 6");
    walk.bypassingAt(12).readingAt(14, "9 8 6").filteringAt(16).readingAt(18, "24 17 6");
    const paper::Trend trend = trendAt(walk, 20);
    REQUIRE(trend.stages.size() == 2);
    CHECK(trend.unit == QStringLiteral("psi"));
    CHECK(told(trend.stages[0].raw) == "2:6 10:7 18:7");
    CHECK(told(trend.stages[1].raw) == "2:10 10:10 18:11");
    CHECK(trend.stages[0].limit == Approx(25.0));
    CHECK(trend.stages[0].limitText == QStringLiteral("25 psi"));
    CHECK(trend.stages[1].limitText == QStringLiteral("42 psi"));
    CHECK(trend.endMinute >= 20.0);
}

TEST_CASE("what the cart did apart from filtering is a span up to the next mode or to now")
{
    Walk walk;
    walk.filteringAt(2).readingAt(4, "22 16 6").bypassingAt(10).filteringAt(14).stoppedAt(20);
    CHECK(told(trendAt(walk, 26).spans) == "bypass 10-14 | stopped 20-26");
}

TEST_CASE("a gauge that nobody could read leaves a gap in its stages alone")
{
    Walk walk;
    walk.filteringAt(0).readingAt(2, "22 16 6").readingAt(8, "23 - 6").readingAt(14, "- 16 6");
    const paper::Trend trend = trendAt(walk, 16);
    CHECK(told(trend.stages[0].raw) == "2:6");
    CHECK(told(trend.stages[1].raw) == "2:10 14:10");
}

TEST_CASE("a set that is questioned is in doubt from the set before it to the set after it")
{
    Walk walk;
    walk.filteringAt(0).readingAt(2, "22 16 6").readingAt(8, "22 16 6");
    walk.readingAt(14, "220 16 6"); // beyond the dial: asked about
    const run::Standing open = walk.standingAt(15);
    REQUIRE(run::firstToAsk(open.questions) != nullptr);
    CHECK_THAT(told(trendAt(walk, 15).spans), Catch::Matchers::Contains("in doubt 8-15?"));
    walk.readingAt(20, "22 16 6");
    CHECK_THAT(told(trendAt(walk, 21).spans), Catch::Matchers::Contains("in doubt 8-20?"));
}

TEST_CASE("a stretch that nobody watched is in doubt")
{
    Walk walk;
    walk.filteringAt(0).readingAt(2, "22 16 6").readingAt(92, "22 16 6");
    const std::string spans = told(trendAt(walk, 93).spans);
    CHECK_THAT(spans, Catch::Matchers::Contains("not watched 2-92?"));
}

TEST_CASE("a changeover stands at its minute in its stage, unless it was struck")
{
    Walk walk;
    walk.filteringAt(0).readingAt(2, "22 16 6").stoppedAt(10).changeoverAt(12, 2, 2);
    CHECK(trendAt(walk, 13).stages[0].changedAt.isEmpty());
    CHECK(trendAt(walk, 13).stages[1].changedAt == QList<double>{12.0});
    walk.strikeAt(14, walk.last());
    CHECK(trendAt(walk, 15).stages[1].changedAt.isEmpty());
}

TEST_CASE("samples stand at their minutes, with the code that was last reported")
{
    Walk walk;
    walk.sayAt(1, run::SampleDrawn{"before", 1}).filteringAt(2).readingAt(4, "22 16 6");
    walk.sayAt(30, run::SampleDrawn{"after", 0});
    REQUIRE(trendAt(walk, 31).samples.size() == 2);
    CHECK(trendAt(walk, 31).samples[0].minute == Approx(1.0));
    CHECK(trendAt(walk, 31).samples[1].minute == Approx(30.0));
    CHECK(trendAt(walk, 31).samples[0].code.isEmpty());
    walk.sayAt(40, run::ResultEntered{"before", "21/19/16", {}, {}, {}});
    walk.sayAt(41, run::ResultEntered{"before", "20/18/15", {}, {}, {}});
    CHECK(trendAt(walk, 42).samples[0].code == QStringLiteral("20/18/15"));
    CHECK(trendAt(walk, 42).samples[1].code.isEmpty());
    CHECK_FALSE(trendAt(walk, 42).sampleLetter.isEmpty());
    CHECK(trendAt(walk, 42).sampleText.startsWith(trendAt(walk, 42).sampleLetter));
}

TEST_CASE("a sample that was struck is not shown")
{
    Walk walk;
    walk.filteringAt(0).sayAt(5, run::SampleDrawn{"before", 1});
    walk.strikeAt(6, walk.last());
    CHECK(trendAt(walk, 7).samples.isEmpty());
}

TEST_CASE("the way ahead begins now, in the unit of the axis, with its edges in order")
{
    Walk walk(withTarget(ordinary(), "9"));
    walk.filteringAt(0);
    for (const auto& [minute, drop] : {std::pair(3, 4), {15, 6}, {27, 9}, {39, 15}, {51, 27}}) { // of stage 2
        walk.readingAt(minute, std::to_string(drop + 6) + " " + std::to_string(drop + 4) + " 4");
    }
    const paper::Trend trend = trendAt(walk, 52);
    const auto withBand = std::ranges::find_if(trend.stages,
                                               [](const paper::TrendStage& stage) { return !stage.ahead.isEmpty(); });
    REQUIRE(withBand != trend.stages.end());
    for (const paper::TrendAhead& point : withBand->ahead) {
        CHECK(point.minute >= 51.0);
        CHECK(point.low <= point.middle);
        CHECK(point.middle <= point.high);
    }
    CHECK(withBand->ahead.first().middle == Approx(withBand->raw.last().y()).margin(8.0)); // psi, not pascals
    CHECK(trend.endMinute > 52.0);
}

TEST_CASE("sets that were entered together, later than they were seen, stand under a word for it")
{
    Walk walk;
    walk.filteringAt(0).readingAt(2, "22 16 6").readingAt(5, "22 16 6");
    walk.readingSeenEarlierAt(60, 45, "24 18 6").readingSeenEarlierAt(60.2, 30.2, "24 18 6");
    walk.readingSeenEarlierAt(60.4, 15.4, "24 18 6").readingAt(62, "24 18 6");
    CHECK_THAT(told(trendAt(walk, 63).spans), Catch::Contains("entered later 15-45"));
    Walk one; // a single one is a point like others
    one.filteringAt(0).readingAt(2, "22 16 6").readingSeenEarlierAt(20, 5, "22 16 6").readingAt(25, "22 16 6");
    CHECK_THAT(told(trendAt(one, 26).spans), !Catch::Contains("entered later"));
}
