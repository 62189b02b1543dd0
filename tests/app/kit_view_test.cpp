// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "app/kit_view.h"

#include "app/draft_places.h"
#include "app_bench.h"

#include <QDir>
#include <QFile>

#include <catch2/catch.hpp>

#include <thread>

using namespace loopside;
using namespace loopside::test;

namespace {

/// A run that filters, with its bottles on the screen.
struct KitBench : AppBench
{
    KitBench()
    {
        beginOnDisk();
        playScene(QStringLiteral("gauge-stuck"));
        app()->showKit();
        REQUIRE(app()->page() == app::AppView::Page::Kit);
    }

    [[nodiscard]] app::KitView& kit() const { return *app()->kit(); }
    [[nodiscard]] app::DrawView& draw() const { return *kit().draw(); }

    /// Chooses the place for a bottle that nobody asked for: the last row.
    void another() const { kit().choose(kit().bottles()->rowCount() - 1); }

    void type(int field, std::string_view signs) const
    {
        kit().fields()->select(field);
        for (const char sign : signs) {
            kit().fields()->key(QString(QLatin1Char(sign)));
        }
    }

    /// Draws a bottle with tag `tag` at `port`; 0 is the tank.
    void drawn(const char* tag, int port) const
    {
        another();
        draw().choosePlace(port);
        draw().tag()->setText(text(tag));
        kit().goOn();
        REQUIRE(kit().doubtText().isEmpty());
        REQUIRE(kit().isDrawn());
    }

    void finish()
    {
        for (int i = 0; kit().labelsText().contains(text("being written")) && i < 20'000; ++i) {
            std::this_thread::sleep_for(std::chrono::milliseconds(1));
            pass(1);
        }
    }
};

const QString drawnKind = QStringLiteral("sample-drawn");
const QString resultKind = QStringLiteral("result-entered");

} // namespace

TEST_CASE("a bottle is logged with its port, its tag, and how warm and how long the oil ran out before")
{
    KitBench bench;
    bench.another();
    CHECK(bench.kit().problem() == text("Choose where it is drawn."));
    CHECK(bench.draw().caution().contains(text("A sample port is under pressure")));
    bench.draw().choosePlace(1);
    CHECK(bench.kit().problem().isEmpty());
    CHECK(bench.draw().fields()->areEmpty());
    bench.draw().pressTimer();
    bench.pass(42);
    CHECK(bench.draw().timerText() == text("0:42"));
    bench.draw().pressTimer();
    bench.pass(30); // the bottle is filled and capped
    bench.draw().tag()->setText(text("B-17"));
    bench.draw().point()->setText(text("pump case"));
    bench.type(0, "41");
    bench.type(1, "250");
    bench.draw().chooseMachine(0);
    bench.kit().goOn();
    CHECK(bench.lastBody(drawnKind)
          == text(R"({"id":"B-17","port":1,"point":"pump case","machine":"running","oil":"41 °C","purged":"250 mL",)"
                  R"("purged_s":42})"));
    CHECK(bench.kit().isDrawn());
    CHECK(bench.kit().title() == text("B-17 · port 1"));
    CHECK_FALSE(bench.kit().label().isNull());
    bench.another();
    CHECK(bench.draw().tag()->text().isEmpty());
    CHECK(bench.draw().fields()->areEmpty());
    CHECK(bench.draw().timerText().isEmpty());
    CHECK(bench.compareWithFold().isEmpty());
}

TEST_CASE("what was begun of a bottle outlives a kill, the timer goes on meanwhile, and nothing is logged by itself")
{
    KitBench bench;
    bench.another();
    bench.draw().choosePlace(0);
    bench.draw().tag()->setText(text("T-1"));
    bench.draw().pressTimer();
    bench.type(0, "38");
    bench.pass(10);
    bench.restart();
    bench.pass(20);
    bench.app()->showKit();
    bench.another();
    CHECK(bench.entries(drawnKind) == 0);
    CHECK(bench.draw().tag()->text() == text("T-1"));
    CHECK(bench.draw().fields()->text(0) == text("38"));
    CHECK(bench.draw().places()->rows()[0][2].toBool());
    CHECK(bench.draw().isTiming());
    CHECK(bench.draw().timerText() == text("0:30"));
    CHECK(bench.kit().notice() == text("Typed before, not logged. Check it, then log it or wipe it."));
}

TEST_CASE("a purge that began before the device was started anew is not counted, and said so")
{
    KitBench bench;
    const std::string subject = toText(bench.tablet().shown()->id) + ".another.purge";
    REQUIRE(bench.tablet().drafts().put(app::kitDrafts, subject, "from 5 " + toText(Id{{7}})));
    bench.another();
    CHECK(bench.draw().timerText().contains(text("not known any more")));
    bench.draw().choosePlace(0);
    bench.kit().goOn();
    CHECK_FALSE(bench.lastBody(drawnKind).contains(text("purged_s")));
}

TEST_CASE("a tag that is on a bottle already is asked about, and logged when a person says so")
{
    KitBench bench;
    bench.drawn("S1", 0);
    bench.another();
    bench.draw().choosePlace(0);
    bench.draw().tag()->setText(text("S1"));
    bench.kit().goOn();
    CHECK(bench.kit().doubtText().startsWith(text("S1 is the tag of a bottle that was drawn already.")));
    CHECK(bench.kit().mainText() == text("It is so: log it"));
    CHECK(bench.entries(drawnKind) == 1);
    bench.type(0, "4"); // something else was told: asked anew
    CHECK(bench.kit().doubtText().isEmpty());
    bench.kit().goOn();
    CHECK(bench.entries(drawnKind) == 1);
    bench.kit().goOn();
    CHECK(bench.entries(drawnKind) == 2);
}

TEST_CASE("without a tag a bottle has a name of its run, and a reader's tag is that of the bottle that is being drawn")
{
    KitBench bench;
    bench.another();
    bench.draw().choosePlace(0);
    bench.kit().goOn();
    CHECK(bench.kit().title().contains(text("-1 · tank")));
    bench.another();
    bench.draw().choosePlace(2);
    bench.app()->takeTag(text("QX-9"));
    CHECK(bench.draw().tag()->text() == text("QX-9"));
    bench.kit().goOn();
    CHECK(bench.lastBody(drawnKind).contains(text(R"("id":"QX-9","port":2)")));
    bench.kit().choose(0);
    bench.app()->takeTag(text("QX-9")); // a bottle that was drawn: its result is to be told
    CHECK(bench.kit().title() == text("QX-9 · port 2"));
}

TEST_CASE("a result is logged as typed and no more, and what it leaves out holds as it was told")
{
    KitBench bench;
    bench.drawn("S1", 0);
    CHECK(bench.kit().problem() == text("Type what was counted or measured."));
    bench.type(0, "19/17/14");
    bench.kit().result()->chooseMethod(0);
    bench.kit().goOn();
    CHECK(bench.lastBody(resultKind) == text(R"({"sample":"S1","code":"19/17/14","method":"counter"})"));
    bench.type(4, "240");
    bench.kit().goOn();
    CHECK(bench.lastBody(resultKind) == text(R"({"sample":"S1","water":"240 ppm"})"));
    CHECK(bench.kit().bottles()->rows()[0][1].toString().contains(text("19/17/14")));
    bench.kit().result()->chooseMethod(1);
    CHECK(bench.kit().problem().isEmpty());
    bench.kit().goOn();
    CHECK(bench.lastBody(resultKind) == text(R"({"sample":"S1","method":"microscope"})"));
    CHECK(bench.kit().result()->methods()->rows()[1][2].toBool());
    CHECK(bench.compareWithFold().isEmpty());
}

TEST_CASE("counts per 100 mL become counts per mL to the digit, and tell the code")
{
    KitBench bench;
    bench.drawn("S1", 0);
    for (int field = 1; field <= 3; ++field) {
        bench.kit().fields()->stepUnit(field);
    }
    bench.type(1, "161050");
    bench.type(2, "8125");
    bench.type(3, "2100");
    bench.kit().goOn();
    CHECK(bench.lastBody(resultKind) == text(R"({"sample":"S1","counts_per_ml":["1610.50","81.25","21.00"]})"));
    // 1300 to 2500, 80 to 160, 20 to 40 per mL: numbers 18, 14, 12 (ISO 4406, table 1)
    CHECK(bench.kit().bottles()->rows()[0][1].toString().contains(text("18/14/12")));
}

TEST_CASE("what is odd in a result is asked, never refused, and kept as typed, and what cannot be kept is told")
{
    KitBench bench;
    bench.drawn("S1", 0);
    bench.type(0, "18/16");
    bench.type(4, "9000");
    bench.kit().goOn();
    CHECK(bench.entries(resultKind) == 0);
    CHECK(bench.kit().doubtText().contains(text("is no ISO 4406 code")));
    CHECK(bench.kit().doubtText().contains(text("is free water in most oils")));
    bench.kit().goOn();
    CHECK(bench.lastBody(resultKind) == text(R"({"sample":"S1","code":"18/16","water":"9000 ppm"})"));

    bench.drawn("S2", 0);
    bench.type(1, "1000");
    bench.type(3, "20");
    CHECK(bench.kit().problem().contains(text("a size between two others is missing")));
    bench.kit().goOn();
    CHECK(bench.entries(resultKind) == 1);
    CHECK(bench.kit().fields()->text(1) == text("1000"));
}

TEST_CASE("a bottle says whether it may be held against the first one, and why not")
{
    KitBench bench;
    bench.drawn("S1", 0);
    CHECK(bench.kit().compareText().isEmpty());
    bench.drawn("S2", 1);
    CHECK_FALSE(bench.kit().isComparable());
    CHECK(bench.kit().compareText().contains(
        text("Not to be held against S1. S1 and S2 were not drawn at the same place.")));
    bench.drawn("S3", 3);
    CHECK(bench.kit().compareText().isEmpty()); // behind the filters it shows no tank
}

TEST_CASE("how clean the oil is likely to be stands there from the first count on")
{
    KitBench bench;
    bench.drawn("S1", 0);
    CHECK(bench.kit().aheadText().isEmpty());
    bench.type(0, "21/19/16");
    bench.kit().goOn();
    CHECK(bench.kit().aheadText().startsWith(text("Likely now: ")));
    CHECK(bench.kit().aheadText().contains(text("by one count and the mixing as told")));
    CHECK(bench.app()->run()->codeText().startsWith(text("Likely now ")));
}

TEST_CASE("labels of the bottles are written as a PDF beside the work, or onto a stick")
{
    KitBench bench;
    CHECK(bench.kit().labelKeys()->rowCount() == 0);
    bench.drawn("S1", 0);
    REQUIRE(bench.kit().labelKeys()->rowCount() == 1);
    bench.kit().writeLabels(bench.kit().labelKeys()->rows()[0][1].toString());
    bench.finish();
    const QStringList written = QDir(bench.recordFolder()).entryList(QDir::Files);
    REQUIRE(written.size() == 1);
    CHECK(written[0].startsWith(text("labels-")));
    CHECK(bench.kit().labelsText() == text("The labels are written: ") + bench.recordFolder() + text("/") + written[0]);
    QFile file(bench.recordFolder() + text("/") + written[0]);
    REQUIRE(file.open(QIODevice::ReadOnly));
    CHECK(file.read(5) == "%PDF-");
    bench.writeStick(QStringLiteral("here.txt"), {});
    bench.app()->showKit();
    CHECK(bench.kit().labelKeys()->rows()[1][0].toString() == text("Labels as PDF, onto “STICK”"));
}

TEST_CASE("a bottle from long before the end does not stand for the one that close-out asks for")
{
    KitBench bench;
    bench.drawn("S1", 0);
    bench.app()->leaveKit();
    for (int i = 0; i < 12; ++i) {
        bench.pass(300);
        REQUIRE(bench.tablet().say(setOf({20, 12, 4}, "40 °C")));
    }
    REQUIRE(bench.tablet().standing(*bench.tablet().shown()).credit.turnovers.best > 1.0);
    bench.app()->openCloseOut();
    const auto keys = bench.app()->closeOut()->keys()->rows();
    REQUIRE(keys.size() == 6);
    bench.app()->closeOut()->press(keys.back()[1].toString());
    REQUIRE(bench.app()->page() == app::AppView::Page::Kit);
    bench.drawn("S2", 0);
    bench.app()->leaveKit();
    CHECK(bench.app()->page() == app::AppView::Page::CloseOut);
    CHECK(bench.app()->closeOut()->keys()->rows().front()[1] == text("stop"));
}

TEST_CASE("what a closed run teaches stands on the page of its tank and beside the next verdict, with what it rests on")
{
    KitBench bench;
    run::Setup setup = bench.tablet().shown()->setup;
    setup.tank = bench.tablet().site().tanks.front();
    REQUIRE(bench.tablet().openRun(setup));
    REQUIRE(bench.tablet().say(run::Said(run::SampleDrawn{"A", 0})));
    bench.pass(60);
    REQUIRE(bench.tablet().say(run::Said(run::ModeChanged{run::Mode::Filtering, std::nullopt})));
    for (int i = 0; i < 24; ++i) {
        bench.pass(300);
        REQUIRE(bench.tablet().say(setOf({17, 12, 5}, "34 °C")));
    }
    REQUIRE(bench.tablet().say(run::Said(run::SampleDrawn{"B", 0})));
    for (const auto& [bottle, code] : {std::pair{"A", "21/19/16"}, std::pair{"B", "19/17/14"}}) {
        REQUIRE(bench.tablet().say(
            run::Said(run::ResultEntered{.sample = bottle, .code = code, .water = {}, .viscosity = {}})));
    }
    app::SetupView& next = *bench.app()->setup();
    next.chooseTank(0);
    next.chooseCart(0);
    CHECK_FALSE(next.learnedText().contains(text("Mixing, learned"))); // no run is over yet
    const Id run = bench.tablet().shown()->id;
    REQUIRE(bench.tablet().submit(run::CloseRun{run, run::Ending::StoppedEarly, "shift over"}));
    bench.app()->tanks()->choose(0);
    QString mixing;
    for (const auto& row : bench.app()->tanks()->past()->rows()) {
        mixing += row[0] == text("Mixing, learned") ? row[1].toString() : QString();
    }
    CHECK(mixing.endsWith(text("beforehand 0.70; runs behind it: 1")));
    next.chooseCart(1);
    CHECK(next.learnedText().contains(text("Mixing, learned: ") + mixing));
}

TEST_CASE("what three loadings taught goes into the elements and the target of the next set-up, in words of their own")
{
    AppBench bench;
    const app::Site& site = bench.tablet().site();
    const auto& [cart, stages] = site.carts.front();
    for (int run = 0; run < 3; ++run) { // stage 2 from clean to its limit of 240 kPa, each time alike
        REQUIRE(bench.tablet().openRun({.title = {}, .tank = site.tanks.front(), .cart = cart, .stages = stages}));
        REQUIRE(bench.tablet().say(run::Said(run::ModeChanged{run::Mode::Filtering, std::nullopt})));
        for (const int drop : {66, 68, 90, 130, 190, 245}) {
            bench.pass(300);
            REQUIRE(bench.tablet().say(setOf({75 + drop, 40 + drop, 40}, "24 °C")));
        }
        REQUIRE(bench.tablet().say(run::Said(run::ElementsChanged{2, 2, {}})));
        const Id id = bench.tablet().shown()->id;
        REQUIRE(bench.tablet().submit(run::CloseRun{id, run::Ending::StoppedEarly, "shift over"}));
    }
    bench.app()->showSetUp();
    app::SetupView& next = *bench.app()->setup();
    next.chooseTank(0);
    next.chooseCart(0);
    next.oil()->select(0);
    next.oil()->key(text("2"));
    next.oil()->key(text("4"));
    next.chooseTarget(0);
    next.show(static_cast<int>(app::SetupView::Step::Elements));
    QString notes;
    for (const auto& row : next.notes()->rows()) {
        notes += row[1].toString() + QLatin1Char('\n');
    }
    CAPTURE(notes.toStdString());
    CHECK(notes.contains(text("Stage 2: new elements showed")));
    CHECK(notes.contains(text("(3 sets)")));
    CHECK(notes.contains(text("are used up, likely")));
    CHECK(notes.contains(text("(lives behind it: 3)")));
    CHECK_FALSE(notes.contains(text("Stage 1: up to the target"))); // no life of it was whole
}
