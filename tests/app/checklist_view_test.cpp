// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "app/checklist_view.h"

#include "app_bench.h"
#include "held.h"

#include <catch2/catch.hpp>

using namespace loopside;
using namespace loopside::test;

namespace {

/// The list before the start, its answers kept as a set-up keeps them.
struct Desk
{
    Desk()
        : list(bench.tablet(), run::Checklist::HookUp, [this](const run::CheckAnswered& answered) {
              kept.push_back(answered);
              known[kept.size() - 1] = run::PointAnswered{*run::answerNamed(answered.say), answered.why};
              list.show(known, {});
              return true;
          })
    {
    }

    [[nodiscard]] QString state(int row) { return list.points()->rows()[row][1].toString(); }

    AppBench bench;
    std::vector<run::CheckAnswered> kept = {};
    app::ChecklistView::Known known = app::ChecklistView::Known(3);
    app::ChecklistView list;
};

const QString done = QStringLiteral("done");
const QString skipped = QStringLiteral("skipped");

} // namespace

TEST_CASE("a checklist begins with nothing ticked and goes on a point at a time")
{
    Desk desk;
    CHECK(desk.state(0) == QStringLiteral("now"));
    CHECK(desk.state(1) == QStringLiteral("later"));
    desk.list.answer(done);
    CHECK(desk.state(0) == done);
    CHECK(desk.state(1) == QStringLiteral("now"));
    CHECK(desk.kept == std::vector<run::CheckAnswered>{{"setup-vents", "done"}});
    CHECK_FALSE(desk.list.isComplete());
}

TEST_CASE("a second answer within 0.7 s is asked about, and the next one then waits for that")
{
    Desk desk;
    desk.list.answer(done);
    desk.list.answer(done);
    CHECK(desk.kept.size() == 1);
    CHECK(desk.list.doubt() == held("0.0~s after the point before. Did you look?"));
    desk.list.answer(done);
    desk.list.answer(skipped);
    CHECK(desk.kept.size() == 1);
    CHECK_FALSE(desk.list.asksWhy());
    desk.list.looked();
    CHECK(desk.kept.back() == run::CheckAnswered{"setup-traced", "done", {}, true});
    CHECK(desk.list.doubt().isEmpty());
    desk.bench.pass(1);
    desk.list.answer(done);
    CHECK(desk.kept.back() == run::CheckAnswered{"setup-bonded", "done"}); // not so quick: not asked
    CHECK(desk.list.isComplete());
}

TEST_CASE("a point is left out with a reason of the list or in own words, never without")
{
    Desk desk;
    desk.list.answer(skipped);
    CHECK(desk.list.asksWhy());
    desk.list.becauseOf(QStringLiteral("   "));
    CHECK(desk.kept.empty());
    desk.list.noReason();
    CHECK_FALSE(desk.list.asksWhy());
    desk.list.because(0);
    CHECK(desk.kept.empty()); // nothing was to be left out
    desk.list.answer(skipped);
    desk.list.becauseOf(QStringLiteral(" no vent on it "));
    CHECK(desk.kept.back() == run::CheckAnswered{"setup-vents", "skipped", "no vent on it"});
    CHECK(desk.list.standingText() == QStringLiteral("1 of 3 answered, 1 left out"));
    CHECK(desk.list.leftOut() == 1);
}

TEST_CASE("words that are no answer do nothing")
{
    Desk desk;
    desk.list.answer(QStringLiteral("all"));
    desk.list.looked();
    CHECK(desk.kept.empty());
}
