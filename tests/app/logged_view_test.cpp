// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "app_bench.h"
#include "held.h"

#include <catch2/catch.hpp>

#include <algorithm>

using namespace loopside;
using namespace loopside::test;

namespace {

/// Rows of the remedies.
constexpr int change = 0;
constexpr int strike = 1;
constexpr int otherTank = 2;

/// A run in which the pump filters and one set was logged: 43, 30, 12 psi at 30 °C.
struct RunBench : AppBench
{
    RunBench()
    {
        playScene(QStringLiteral("pump-starved"));
        tablet().say(setOf({43, 30, 12}, "30 °C"));
        logged.open();
    }

    [[nodiscard]] QString entry(int row, int column) { return logged.entries()->rows().at(row).at(column).toString(); }
    [[nodiscard]] int amendments() const { return entries(QStringLiteral("amended")); }

    app::LoggedView& logged = *app()->logged();
};

void type(app::FieldsView& fields, int field, const char* digits)
{
    fields.select(field);
    for (const char digit : std::string(digits)) {
        fields.key(QString(QLatin1Char(digit)));
    }
}

} // namespace

TEST_CASE("the latest entry stands first, with its digits, its time and who logged it")
{
    RunBench bench;
    CHECK(bench.entry(0, 0) == held("G1 43~psi · G2 30~psi · G3 12~psi · 30~°C"));
    CHECK(bench.entry(0, 1).contains(text("Ines")));
    CHECK(bench.logged.problem() == text("Touch the entry to put right."));
}

TEST_CASE("one value of a set is put right, and the other values, and what was logged, stay")
{
    RunBench bench;
    bench.logged.chooseEntry(0);
    bench.logged.chooseRemedy(change);
    CHECK(bench.logged.fields()->areEmpty()); // nothing is filled in before somebody types
    CHECK(bench.logged.fields()->rows()->rows().at(0).at(1).toString() == held("43~psi"));
    type(*bench.logged.fields(), 0, "34");
    CHECK(bench.logged.problem() == text("Say why."));
    bench.logged.log();
    CHECK(bench.amendments() == 0); // not without a reason
    bench.logged.chooseReason(0);
    CHECK(bench.logged.problem().isEmpty());
    bench.logged.log();
    REQUIRE(bench.amendments() == 1);
    CHECK(bench.lastBody(QStringLiteral("amended")).contains(text("Typed wrong")));
    CHECK(bench.entry(0, 0) == held("G1 34~psi · G2 30~psi · G3 12~psi · 30~°C"));
    CHECK(bench.entry(0, 1).contains(text("put right")));
    const auto& history = bench.logged.history()->rows();
    REQUIRE(history.size() == 2);
    CHECK(history.at(0).at(1).toString().contains(held("G1 34~psi")));
    CHECK(history.at(1).at(1).toString().contains(held("G1 43~psi")));
    CHECK(bench.compareWithFold().isEmpty());
}

TEST_CASE("a temperature is put right in the unit it was read in")
{
    RunBench bench;
    bench.logged.chooseEntry(0);
    bench.logged.chooseRemedy(change);
    bench.logged.fields()->stepUnit(3);
    type(*bench.logged.fields(), 3, "95");
    bench.logged.chooseReason(1);
    bench.logged.log();
    CHECK(bench.entry(0, 0) == held("G1 43~psi · G2 30~psi · G3 12~psi · 95~°F"));
}

TEST_CASE("a set that is struck counts no more and stays in the list")
{
    RunBench bench;
    const auto sets = [&] {
        return std::ranges::count_if(bench.tablet().standing(*bench.tablet().shown()).moments,
                                     [](const run::Moment& moment) { return moment.reading != nullptr; });
    };
    const auto before = sets();
    bench.logged.chooseEntry(0);
    bench.logged.chooseRemedy(strike);
    bench.logged.chooseReason(4);
    bench.logged.log();
    CHECK(bench.entry(0, 1).contains(text("struck")));
    CHECK(bench.lastBody(QStringLiteral("amended")).contains(text("Logged twice")));
    CHECK(sets() == before - 1);
    CHECK(bench.compareWithFold().isEmpty());
    bench.logged.chooseRemedy(change); // what does not count cannot be put right
    type(*bench.logged.fields(), 0, "34");
    bench.logged.chooseReason(0);
    CHECK(bench.logged.problem() == text("This entry is struck. It does not count any more."));
    bench.logged.log();
    CHECK(bench.amendments() == 1);
}

TEST_CASE("a mode that was told with the wrong key becomes the one that was set")
{
    RunBench bench;
    bench.tablet().say(run::Said(run::ModeChanged{run::Mode::Bypassing, {}}));
    bench.logged.chooseEntry(0);
    bench.logged.chooseRemedy(change);
    CHECK_FALSE(bench.logged.hasFields());
    REQUIRE(bench.logged.choices()->rows().size() == 3);
    bench.logged.choose(2);
    bench.logged.chooseReason(3);
    bench.logged.log();
    CHECK(bench.entry(0, 0) == text("filtering"));
    CHECK(bench.app()->run()->mode() == text("filtering"));
}

TEST_CASE("a run at the wrong tank moves to the right one with its reason")
{
    RunBench bench;
    const QString before = bench.app()->run()->tankName();
    bench.logged.chooseRemedy(otherTank);
    CHECK(bench.logged.isMoving());
    for (const auto& row : bench.logged.choices()->rows()) {
        CHECK(row.at(0).toString() != before);
    }
    bench.logged.choose(0);
    const QString chosen = bench.logged.choices()->rows().at(0).at(0).toString();
    bench.logged.chooseReason(2);
    bench.logged.log();
    CHECK(bench.app()->run()->tankName() == chosen);
    REQUIRE(bench.tablet().shown()->movedFrom.size() == 1);
    CHECK(QString::fromStdString(bench.tablet().shown()->movedFrom.front().name) == before);
}

TEST_CASE("what holds no values can only be struck, and the page says so")
{
    RunBench bench;
    bench.tablet().say(run::Said(run::SignsSeen{{"foam"}}));
    bench.logged.chooseEntry(0);
    bench.logged.chooseRemedy(change);
    CHECK(bench.logged.problem() == text("This entry holds no values to change. It can be struck."));
    bench.logged.chooseReason(0);
    bench.logged.log();
    CHECK(bench.amendments() == 0);
}

TEST_CASE("new values that were typed and not logged are offered again after a restart, and only for their entry")
{
    RunBench bench;
    bench.logged.chooseEntry(0);
    bench.logged.chooseRemedy(change);
    type(*bench.logged.fields(), 1, "29");
    bench.restart();
    app::LoggedView& logged = *bench.app()->logged();
    logged.open();
    logged.chooseEntry(1);
    logged.chooseRemedy(change);
    CHECK(logged.fields()->areEmpty());
    logged.chooseEntry(0);
    logged.chooseRemedy(change);
    CHECK(logged.fields()->text(1) == text("29"));
    CHECK(logged.notice() == text("Typed before, not logged. Check it, then log it or wipe it."));
    CHECK(bench.amendments() == 0);
}

TEST_CASE("a key that is pressed while nothing is asked for stands in no draft")
{
    RunBench bench;
    bench.logged.chooseEntry(0);
    bench.logged.chooseRemedy(change);
    bench.logged.chooseEntry(1);
    bench.logged.fields()->key(QStringLiteral("7"));
    bench.logged.chooseEntry(0);
    bench.logged.chooseRemedy(change);
    CHECK(bench.logged.fields()->areEmpty());
}

TEST_CASE("what is noted to an entry is marked there, opened from there, and withdrawn where it is shown")
{
    RunBench bench;
    bench.logged.chooseEntry(0);
    const QString set = bench.logged.chosen();
    app::NotesView& notes = *bench.app()->notes();
    notes.open(set);
    notes.write(text("needle sticks"));
    notes.go(app::NotesView::Mode::Draw);
    notes.beginStroke(0.5, 0.5);
    notes.keepPicture(text("the needle"));
    notes.close();
    CHECK(bench.entry(0, 0).startsWith(text("Drawing, ")));
    CHECK(bench.entry(1, 0) == text("needle sticks"));
    CHECK(bench.entry(2, 1).endsWith(text("notes: 2")));
    bench.logged.chooseEntry(0);
    notes.open(bench.logged.chosen());
    CHECK(notes.shownHasPicture());
    bench.logged.chooseRemedy(strike);
    bench.logged.chooseReason(0);
    CHECK(bench.logged.problem().contains(text("withdrawn where it is shown")));
    bench.logged.log();
    CHECK(bench.amendments() == 0);
    notes.withdrawFor(text("wrong pit"));
    CHECK(bench.entry(0, 1).contains(text("withdrawn")));
    CHECK(bench.entry(2, 1).endsWith(text("notes: 1")));
}

TEST_CASE("a disk that refuses keeps what was typed on the page")
{
    RunBench bench;
    bench.logged.chooseEntry(0);
    bench.logged.chooseRemedy(change);
    type(*bench.logged.fields(), 0, "34");
    bench.logged.chooseReason(0);
    bench.breakDisk(true);
    bench.logged.log();
    CHECK(bench.logged.fields()->text(0) == text("34"));
    CHECK_FALSE(bench.app()->trouble().isEmpty());
    bench.breakDisk(false);
    bench.logged.log();
    CHECK(bench.amendments() == 1);
}
