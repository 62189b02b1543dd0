// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// Positions: which tanks are near, and when one is kept. The receiver is a file of NMEA sentences.

#include "app_bench.h"
#include "ledger/tank_look.h"

#include <QElapsedTimer>
#include <QFile>

#include <catch2/catch.hpp>

#include <numeric>

using namespace loopside;
using namespace loopside::test;

namespace {

QByteArray sentence(const QByteArray& what)
{
    const int sum = std::accumulate(what.begin(), what.end(), 0, [](int all, char sign) { return all ^ sign; });
    return '$' + what + '*' + QByteArray::number(sum, 16).toUpper().rightJustified(2, '0') + "\r\n";
}

/// A tablet with a receiver at 53° 33' N, 9° 59.4' E, to ± 9 m.
struct FinderBench : AppBench
{
    FinderBench()
    {
        REQUIRE(folder.isValid());
        QFile file(folder.filePath(QStringLiteral("here.nmea")));
        REQUIRE(file.open(QIODevice::WriteOnly));
        file.write(sentence("GPRMC,120000,A,5333.000,N,00959.400,E,000.0,000.0,230394,,")
                   + sentence("GPGGA,120000,5333.000,N,00959.400,E,1,08,0.9,5.0,M,0.0,M,,"));
        file.close();
        source = std::make_unique<position::FixSource>(file.fileName());
        finder().setSource(source.get());
    }

    ~FinderBench() { finder().setSource(nullptr); }

    [[nodiscard]] app::TankFinder& finder() const { return *app()->finder(); }

    /// Waits for the receiver's fix.
    void wait()
    {
        QElapsedTimer waited;
        waited.start();
        while (!source->latest() && !waited.hasExpired(10'000)) {
            QCoreApplication::processEvents(QEventLoop::AllEvents, 50);
        }
        REQUIRE(source->latest());
    }

    [[nodiscard]] run::Setup setupAt(std::size_t tank) const
    {
        const auto& site = tablet().site();
        return {.title = {}, .tank = site.tanks[tank], .cart = site.carts[0].cart, .stages = site.carts[0].stages};
    }

    /// A run at that tank, its tag read, with a position that was kept `north` of here; it is over.
    void pastRun(std::size_t tank, double north_m)
    {
        REQUIRE(tablet().openRun(setupAt(tank)));
        const std::string name = tablet().site().tanks[tank].name;
        REQUIRE(tablet().say(ledger::asKept(run::TankLook{run::LookBy::Reader, "x", name, true})));
        REQUIRE(tablet().say(ledger::asKept(run::Fix{{53.55 + north_m / 111'195.0, 9.99}, 2.0})));
        REQUIRE(tablet().submit(run::CloseRun{tablet().shown()->id, run::Ending::StoppedEarly, "over"}));
    }

    [[nodiscard]] int fixes() const
    {
        const auto& facts = tablet().shown()->facts;
        return static_cast<int>(std::ranges::count_if(facts, [](const run::Fact& fact) {
            const auto* kept = std::get_if<run::Kept>(&fact.effective);
            return kept != nullptr && ledger::fixIn(*kept);
        }));
    }

    void logSet()
    {
        for (const char* digits : {"150", "90", "20", "24"}) {
            for (const char digit : std::string_view(digits)) {
                app()->pad()->key(QString(QLatin1Char(digit)));
            }
            app()->pad()->goOn();
        }
        if (entries(text("reading-logged")) == logged) {
            app()->pad()->goOn();
        }
        REQUIRE(entries(text("reading-logged")) == ++logged);
    }

    QTemporaryDir folder;
    std::unique_ptr<position::FixSource> source;
    int logged = 0;
};

} // namespace

TEST_CASE("positions are off until somebody switches them on: nothing asks for one and none is kept")
{
    FinderBench bench;
    CHECK(bench.finder().isThere());
    CHECK_FALSE(bench.finder().isOn());
    bench.app()->showSetUp();
    REQUIRE(bench.tablet().openRun(bench.setupAt(0)));
    CHECK_FALSE(bench.source->isOn());
    bench.app()->showRun(0);
    bench.logSet();
    CHECK(bench.fixes() == 0);
}

TEST_CASE("where a tank stands its record tells, before any run was there, and goes before what runs tell")
{
    FinderBench bench;
    const auto tanks = bench.tablet().site().tanks;
    for (std::size_t i = 0; i < tanks.size(); ++i) {
        run::TankPut put{tanks[i], {}};
        put.tank.latitude = std::to_string(53.55 + 0.01 * static_cast<double>(i)); // a kilometre apart
        put.tank.longitude = "9 59.4000 E";
        REQUIRE(bench.tablet().submit(run::PutRecord{put}));
    }
    bench.pastRun(1, 1.0); // a run that says that the second one stands here
    bench.finder().chooseWish(1);
    bench.app()->showSetUp();
    bench.wait();
    REQUIRE(bench.finder().nearby()->rowCount() == 1);
    CHECK(bench.finder().nearby()->rows()[0][0].toString().toStdString() == tanks[0].name);
    CHECK(bench.finder().text().contains(text("only this tank can be meant")));
}

TEST_CASE("a position is kept at the readings of an open run and at its end, and not between")
{
    FinderBench bench;
    bench.finder().chooseWish(1);
    REQUIRE(bench.tablet().openRun(bench.setupAt(0)));
    bench.app()->showRun(0);
    bench.wait();
    CHECK(bench.fixes() == 0);
    bench.logSet();
    CHECK(bench.fixes() == 1);
    bench.pass(5);
    REQUIRE(bench.tablet().say(run::Said(run::Noted{"the hose is hot"})));
    CHECK(bench.fixes() == 1);
    bench.app()->closeOut()->press(text("stop"));
    REQUIRE(bench.tablet().shown()->phase == run::Phase::Closed);
    CHECK(bench.fixes() == 2);
    CHECK_FALSE(bench.source->isOn()); // no run is open and nobody looks for a tank
    CHECK(bench.tablet().trouble().isEmpty());
}

TEST_CASE("a position is kept at the start of a run that was set up")
{
    FinderBench bench;
    bench.finder().chooseWish(1);
    bench.app()->showSetUp();
    bench.wait();
    app::SetupView& setup = *bench.app()->setup();
    setup.chooseTank(0);
    setup.chooseCart(0);
    setup.oil()->key(text("2"));
    setup.oil()->key(text("4"));
    setup.choosePlacement(0);
    setup.chooseTarget(0);
    answerAll(bench, *setup.hosePoints());
    answerAll(bench, *setup.areaPoints());
    for (int step = 0; step < 8; ++step) {
        setup.show(step);
    }
    setup.goOn();
    REQUIRE(bench.entries(text("run-opened")) == 1);
    CHECK(bench.fixes() == 1);
}

TEST_CASE("the receiver is asked only while somebody looks for a tank or a run is open")
{
    FinderBench bench;
    bench.finder().chooseWish(1);
    CHECK_FALSE(bench.source->isOn());
    bench.app()->showSetUp();
    CHECK(bench.source->isOn());
    bench.app()->showShift();
    CHECK_FALSE(bench.source->isOn());
    REQUIRE(bench.tablet().openRun(bench.setupAt(0)));
    CHECK(bench.source->isOn());
    bench.finder().chooseWish(0);
    CHECK_FALSE(bench.source->isOn());
}

TEST_CASE("that positions are on is known after the program was ended, and stays off where it was off")
{
    FinderBench bench;
    bench.finder().chooseWish(1);
    CHECK(app::TankFinder(bench.tablet()).isOn());
    bench.finder().chooseWish(0);
    CHECK_FALSE(app::TankFinder(bench.tablet()).isOn());
}

TEST_CASE("tanks are told apart by position only where it is finer than they are apart")
{
    FinderBench bench;
    for (std::size_t tank = 0; tank < bench.tablet().site().tanks.size(); ++tank) {
        bench.pastRun(tank, tank == 0 ? 0.0 : 100.0 + 50.0 * static_cast<double>(tank));
    }
    bench.finder().chooseWish(1);
    bench.app()->showSetUp();
    bench.wait();
    CHECK(bench.finder().text().contains(text("only this tank")));
    REQUIRE(bench.finder().nearby()->rowCount() == 1);
    bench.finder().choose(0);
    CHECK(bench.app()->setup()->tanks()->rows().at(0).last().toBool());
    CHECK(bench.app()->setup()->tankCheck()->known() == run::TankKnown::Once);
    bench.pastRun(3, 18.0); // 9 m, 2 m and the reach of 5 m from here do not hold it, but
    bench.pastRun(4, 14.0); // this one
    CHECK(bench.finder().text().contains(text("cannot tell")));
}

TEST_CASE("without a place of any tank a position tells none, and says where places come from")
{
    FinderBench bench;
    bench.finder().chooseWish(1);
    bench.app()->showSetUp();
    CHECK(bench.finder().text().contains(text("No position yet")));
    bench.wait();
    CHECK(bench.finder().text().contains(text("type it on the tank’s page")));
    CHECK(bench.finder().nearby()->rowCount() == 0);
}
