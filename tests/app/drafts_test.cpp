// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// What was typed into the fields of a page survives a dead battery: offered again, never logged by itself.

#include "app/draft_places.h"
#include "app_bench.h"

#include <catch2/catch.hpp>

using namespace loopside;
using namespace loopside::test;

namespace {

void type(app::FieldsView& fields, int field, const char* digits)
{
    fields.select(field);
    for (const char digit : std::string(digits)) {
        fields.key(QString(QLatin1Char(digit)));
    }
}

QString ghostOf(app::FieldsView& fields, int field)
{
    return fields.rows()->rows().at(field).at(1).toString();
}

const QString typedBefore = QStringLiteral("typed before, not logged");

/// Where a page has its fields.
struct Page
{
    const char* name;
    app::FieldsView* (*fields)(AppBench& bench);
    const char* kind; ///< Of the entry that must not be there.
};

} // namespace

TEST_CASE("fields of set-up, flush and transfer survive a kill, say so, and log nothing")
{
    const auto page = GENERATE(
        Page{"set up: oil", [](AppBench& b) { return b.app()->setup()->oil(); }, "run-opened"},
        Page{"set up: code", [](AppBench& b) { return b.app()->setup()->code(); }, "run-opened"},
        Page{"flush", [](AppBench& b) { return b.app()->flush()->fields(); }, "flush-opened"},
        Page{"transfer", [](AppBench& b) { return b.app()->transfer()->fields(); }, "transfer-opened"},
        Page{"transfer: moved", [](AppBench& b) { return b.app()->transfer()->moved(); }, "transfer-stopped"});
    INFO(page.name);
    AppBench bench;
    CHECK(ghostOf(*page.fields(bench), 0) != typedBefore);
    type(*page.fields(bench), 0, "18");
    bench.restart();
    CHECK(page.fields(bench)->text(0) == QStringLiteral("18"));
    CHECK(ghostOf(*page.fields(bench), 0) == typedBefore);
    CHECK(bench.entries(QString::fromLatin1(page.kind)) == 0);
    page.fields(bench)->select(0);
    page.fields(bench)->backspace();
    CHECK(ghostOf(*page.fields(bench), 0) != typedBefore); // it is being typed now
    page.fields(bench)->clear();
    bench.restart();
    CHECK(page.fields(bench)->areEmpty());
}

TEST_CASE("the plate at the tank is read anew each time")
{
    AppBench bench;
    bench.app()->transfer()->plate()->key(QStringLiteral("B"));
    bench.restart();
    CHECK(bench.app()->transfer()->plate()->areEmpty());
}

TEST_CASE("the minutes of an unwatched time survive a kill with their sheet's question, and log nothing")
{
    AppBench bench;
    bench.playScene(QStringLiteral("question-gap"));
    const auto asked = [&]() -> app::PartView& {
        bench.app()->run()->answer(QStringLiteral("part"));
        return *bench.app()->run()->part();
    };
    type(*asked().fields(), 0, "40");
    bench.restart();
    CHECK(bench.entries(QStringLiteral("question-answered")) == 0);
    CHECK(asked().fields()->text(0) == QStringLiteral("40"));
    CHECK(ghostOf(*asked().fields(), 0) == typedBefore);
    bench.breakDisk(true);
    asked().log();
    CHECK(bench.app()->run()->part()->isUp()); // nothing was logged: what was typed stands there still
    CHECK(asked().fields()->text(0) == QStringLiteral("40"));
    bench.breakDisk(false);
    asked().log();
    CHECK(bench.entries(QStringLiteral("question-answered")) == 1);
    bench.restart();
    CHECK(bench.app()->run()->part()->fields()->areEmpty());
}

TEST_CASE("own words why a point is left out survive a kill, and are offered at that point of that tank alone")
{
    AppBench bench;
    const auto askedAt = [&](int tank) -> app::ChecklistView& {
        bench.app()->setup()->chooseTank(tank);
        bench.app()->setup()->chooseCart(0);
        bench.app()->setup()->hosePoints()->answer(QStringLiteral("skipped"));
        return *bench.app()->setup()->hosePoints();
    };
    askedAt(0).ownWords()->setText(QStringLiteral("the lid is welded"));
    bench.restart();
    CHECK(askedAt(1).ownWords()->text().isEmpty());
    app::ChecklistView& points = askedAt(0);
    CHECK(points.ownWords()->text() == QStringLiteral("the lid is welded"));
    CHECK(points.answered() == 0);
    points.becauseOf(points.ownWords()->text());
    CHECK(points.answered() == 1);
    points.answer(QStringLiteral("skipped")); // the next point
    CHECK(points.ownWords()->text().isEmpty());
    bench.restart();
    CHECK(askedAt(0).ownWords()->text().isEmpty());
    CHECK(bench.entries(QStringLiteral("check-answered")) == 0);
}

TEST_CASE("own words why a run starts against the verdict survive a kill, for the same tank and cart")
{
    AppBench bench;
    const auto askedFor = [&](int cart) -> app::OwnWords& {
        bench.app()->setup()->chooseTank(0);
        bench.app()->setup()->chooseCart(cart);
        bench.app()->setup()->askOverride();
        return *bench.app()->setup()->overrideWords();
    };
    askedFor(0).setText(QStringLiteral("the foreman was asked"));
    bench.restart();
    CHECK(askedFor(1).text().isEmpty());
    CHECK(askedFor(0).text() == QStringLiteral("the foreman was asked"));
    CHECK(bench.app()->setup()->overrideText().isEmpty()); // offered, not said
}

TEST_CASE("own words why a picture is withdrawn survive a kill, and withdraw nothing")
{
    AppBench bench;
    bench.playScene(QStringLiteral("valve-in-bypass"));
    const auto shown = [&]() -> app::NotesView& {
        bench.app()->notes()->open({});
        bench.app()->notes()->show(0);
        bench.app()->notes()->go(app::NotesView::Mode::Withdraw);
        return *bench.app()->notes();
    };
    bench.app()->notes()->open({});
    bench.app()->notes()->go(app::NotesView::Mode::Draw);
    bench.app()->notes()->beginStroke(0.5, 0.5);
    bench.app()->notes()->keepPicture({});
    shown().ownWords()->setText(QStringLiteral("wrong pit"));
    bench.restart();
    CHECK(bench.entries(QStringLiteral("attachment-withdrawn")) == 0);
    app::NotesView& notes = shown();
    CHECK(notes.ownWords()->text() == QStringLiteral("wrong pit"));
    notes.withdrawFor(notes.ownWords()->text());
    CHECK(bench.entries(QStringLiteral("attachment-withdrawn")) == 1);
    CHECK(notes.ownWords()->text().isEmpty());
}

TEST_CASE("own words stand where they were typed, subject by subject")
{
    AppBench bench;
    app::OwnWords words(bench.tablet(), app::skippedDrafts);
    words.about("a point");
    words.setText(QStringLiteral("no ladder"));
    CHECK(words.text() == QStringLiteral("no ladder"));
    words.about("another point");
    CHECK(words.text().isEmpty());
    words.about("a point");
    CHECK(words.text() == QStringLiteral("no ladder"));
}
