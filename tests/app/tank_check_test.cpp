// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// Story F15 (a): the order is for one of two tanks that look alike, and the technician stands at the other one.

#include "app_bench.h"
#include "ledger/tank_look.h"
#include "paper/qr.h"

#include <QFile>
#include <QTemporaryDir>

#include <catch2/catch.hpp>

using namespace loopside;
using namespace loopside::test;

namespace {

using Page = app::AppView::Page;

/// A set-up for the first tank of the demo site, "Press hydraulic unit" with the plate BM-HY-012; others hold the same
/// oil ("Store tote 3", BM-ST-003) or another one ("Winder gearbox", BM-GB-221).
struct TankBench : AppBench
{
    TankBench()
    {
        app()->showSetUp();
        setup().chooseTank(0);
    }

    [[nodiscard]] app::SetupView& setup() const { return *app()->setup(); }
    [[nodiscard]] app::TankCheck& check() const { return *setup().tankCheck(); }

    /// Everything that the set-up needs but the tank.
    void goThrough()
    {
        setup().chooseCart(0);
        setup().oil()->select(0);
        setup().oil()->key(text("2"));
        setup().oil()->key(text("4"));
        setup().choosePlacement(0);
        setup().chooseTarget(0);
        answerAll(*this, *setup().hosePoints());
        answerAll(*this, *setup().areaPoints());
        for (int step = 0; step < 8; ++step) {
            setup().show(step);
        }
    }

    [[nodiscard]] std::vector<run::TankLook> looks() const { return ledger::looksOf(*tablet().shown()); }
};

int rowOf(app::RowModel* rows, const char* name)
{
    for (int row = 0; row < rows->rowCount(); ++row) {
        if (rows->rows().at(row).first().toString() == text(name)) {
            return row;
        }
    }
    return -1;
}

} // namespace

TEST_CASE("a tag of another tank takes the screen and leaves the chosen tank as it is")
{
    TankBench bench;
    bench.app()->takeTag(text("BM-ST-003"));
    CHECK(bench.app()->page() == Page::SetUp);
    REQUIRE(bench.check().isMismatch());
    CHECK(bench.check().mismatchTitle().contains(text("Press hydraulic unit")));
    CHECK(bench.check().mismatchText().contains(text("Store tote 3")));
    CHECK(bench.setup().tanks()->rows().at(0).last().toBool());
    CHECK_FALSE(bench.setup().canGoOn());
}

TEST_CASE("a mismatch over which a tank is chosen anew is kept")
{
    TankBench bench;
    bench.app()->takeTag(text("BM-ST-003"));
    bench.app()->showShift(); // as where an alert of another run came between
    bench.app()->takeTag(text("BM-HY-012"));
    CHECK_FALSE(bench.check().isMismatch());
    bench.goThrough();
    bench.setup().goOn();
    REQUIRE(bench.entries(text("run-opened")) == 1);
    REQUIRE(bench.looks().size() == 2);
    CHECK(bench.looks()[0]
          == run::TankLook{run::LookBy::Reader, "BM-ST-003", "Press hydraulic unit", false, "Store tote 3"});
    CHECK(bench.looks()[1].fits);
}

TEST_CASE("while nobody said what is so the run does not start")
{
    TankBench bench;
    bench.goThrough();
    REQUIRE(bench.setup().isReady());
    bench.app()->takeTag(text("BM-ST-003"));
    CHECK_FALSE(bench.setup().isReady());
    bench.setup().goOn();
    CHECK(bench.entries(text("run-opened")) == 0);
    bench.check().goToRight();
    CHECK(bench.setup().isReady());
}

TEST_CASE("the way to the right tank keeps that the look did not fit, and another look confirms it there")
{
    TankBench bench;
    bench.app()->takeTag(text("BM-ST-003"));
    bench.check().goToRight();
    CHECK(bench.check().known() == run::TankKnown::Not);
    bench.pass(420);
    bench.app()->takeTag(text("bm-hy-012"));
    CHECK_FALSE(bench.check().isMismatch());
    CHECK(bench.check().known() == run::TankKnown::Once);
    bench.check().takeOil(rowOf(bench.check().oils(), "ISO VG 46 hydraulic"));
    CHECK(bench.check().known() == run::TankKnown::Twice);
    bench.goThrough();
    bench.setup().goOn();
    REQUIRE(bench.entries(text("run-opened")) == 1);
    CHECK(bench.tablet().shown()->setup.tank.name == "Press hydraulic unit");
    const auto looks = bench.looks();
    REQUIRE(looks.size() == 3);
    CHECK(looks[0] == run::TankLook{run::LookBy::Reader, "BM-ST-003", "Press hydraulic unit", false, "Store tote 3"});
    CHECK(looks[1].fits);
    CHECK(ledger::tankKnown(*bench.tablet().shown()) == run::TankKnown::Twice);
}

TEST_CASE("what is kept of a look has the time of the look")
{
    TankBench bench;
    bench.app()->takeTag(text("BM-HY-012"));
    bench.pass(300);
    bench.goThrough();
    bench.setup().goOn();
    const auto& facts = bench.tablet().shown()->facts;
    const auto look = std::ranges::find_if(
        facts, [](const run::Fact& fact) { return std::holds_alternative<run::Kept>(fact.effective); });
    REQUIRE(look != facts.end());
    CHECK(look->header.observed.agoMs >= 300'000);
}

TEST_CASE("the right tag read next, with nothing touched, is the way to the right tank too")
{
    TankBench bench;
    bench.app()->takeTag(text("BM-ST-003"));
    bench.app()->takeTag(text("BM-HY-012"));
    CHECK_FALSE(bench.check().isMismatch());
    CHECK(bench.check().known() == run::TankKnown::Once);
    CHECK(bench.check().looks()->rowCount() == 2);
}

TEST_CASE("where the order is wrong the other tank is chosen, with the reason, for the supervisor")
{
    TankBench bench;
    run::JobRecord job;
    job.order = "WO-4711";
    job.tank = "Press hydraulic unit";
    bench.setup().beginFor(job);
    bench.app()->takeTag(text("BM-ST-003"));
    bench.check().goOnBecause(text("  "));
    CHECK(bench.check().isMismatch()); // no reason, no way
    bench.check().goOnBecause(text("The work is at this machine"));
    CHECK_FALSE(bench.check().isMismatch());
    CHECK(bench.setup().tanks()->rows().at(rowOf(bench.setup().tanks(), "Store tote 3")).last().toBool());
    CHECK(bench.check().known() == run::TankKnown::AgainstIt);
    bench.goThrough();
    bench.setup().goOn();
    REQUIRE(bench.entries(text("run-opened")) == 1);
    const run::RunState& run = *bench.tablet().shown();
    CHECK(run.setup.tank.name == "Store tote 3");
    CHECK(run.setup.job.empty()); // the order is not done
    CHECK(ledger::tankKnown(run) == run::TankKnown::AgainstIt);
    CHECK(bench.looks().front().why == "The work is at this machine (order WO-4711)");
}

TEST_CASE("other oil on the plate is a mismatch, of plate or record")
{
    TankBench bench;
    bench.check().takeOil(rowOf(bench.check().oils(), "ISO VG 220 gear"));
    REQUIRE(bench.check().isMismatch());
    CHECK(bench.check().wrongText().contains(text("plate or record")));
    bench.check().goOnBecause(text("The plate is out of date"));
    CHECK(bench.setup().tanks()->rows().at(0).last().toBool());
    CHECK(bench.check().known() == run::TankKnown::AgainstIt);
}

TEST_CASE("the oil on the plate alone confirms no tank: twins hold the same")
{
    TankBench bench;
    bench.check().takeOil(rowOf(bench.check().oils(), "ISO VG 46 hydraulic"));
    CHECK_FALSE(bench.check().isMismatch());
    CHECK(bench.check().known() == run::TankKnown::Not);
}

TEST_CASE("what somebody typed from the plate fits or does not, even where nobody knows it")
{
    TankBench bench;
    bench.check().takeTyped(text(" bm hy 012 "));
    CHECK(bench.check().known() == run::TankKnown::Once);
    bench.check().takeTyped(text("BM-HY-0"));
    REQUIRE(bench.check().isMismatch());
    bench.check().goToRight();
    CHECK(bench.check().known() == run::TankKnown::Not);
}

TEST_CASE("a tag in a picture of the camera is a look like one of a reader")
{
    TankBench bench;
    QImage wall(640, 480, QImage::Format_RGB32);
    wall.fill(Qt::gray);
    CHECK_FALSE(bench.check().takePicture(wall));
    CHECK(bench.check().takePicture(paper::qrImage("BM-HY-012", 6)));
    CHECK(bench.check().known() == run::TankKnown::Once);
    bench.app()->takeTag(text("BM-HY-012"));
    CHECK(bench.check().known() == run::TankKnown::Once); // the same sign, read twice
    CHECK(bench.check().takePicture(paper::qrImage("BM-ST-003", 6)));
    CHECK(bench.check().isMismatch());
}

TEST_CASE("without a camera the tag is read off a picture file, and one that shows none is told")
{
    TankBench bench;
    const QTemporaryDir folder;
    bench.check().lookIn(folder.path());
    bench.check().choosePicture();
    CHECK(bench.check().pictureText().contains(text("There are no pictures in")));
    bench.check().choosePicture();
    QImage wall(640, 480, QImage::Format_RGB32);
    wall.fill(Qt::gray);
    REQUIRE(wall.save(folder.filePath(text("a-wall.png"))));
    REQUIRE(paper::qrImage("BM-HY-012", 6).save(folder.filePath(text("b-tag.png"))));
    QFile notes(folder.filePath(text("c-notes.png")));
    REQUIRE(notes.open(QIODevice::WriteOnly));
    notes.write("no picture");
    notes.close();
    bench.check().choosePicture();
    REQUIRE(bench.check().pictures()->rowCount() == 3);
    bench.check().takePictureFile(rowOf(bench.check().pictures(), "a-wall.png"));
    CHECK(bench.check().pictureText().contains(text("No tag can be read in a-wall.png")));
    bench.check().takePictureFile(rowOf(bench.check().pictures(), "c-notes.png"));
    CHECK_FALSE(bench.check().pictureText().isEmpty());
    CHECK(bench.check().known() == run::TankKnown::Not);
    CHECK(bench.check().isChoosingPicture());
    bench.check().takePictureFile(rowOf(bench.check().pictures(), "b-tag.png"));
    CHECK(bench.check().known() == run::TankKnown::Once);
    CHECK_FALSE(bench.check().isChoosingPicture());
    CHECK(bench.check().pictureText().isEmpty());
}

TEST_CASE("a tag that nobody knows may stand on anything: it is told and is no look")
{
    TankBench bench;
    bench.app()->takeTag(text("4006381333931"));
    CHECK_FALSE(bench.check().isMismatch());
    CHECK(bench.check().looks()->rowCount() == 0);
    CHECK(bench.app()->trouble().contains(text("4006381333931")));
}

TEST_CASE("a tank that nobody held anything against starts, and its run says that it is not confirmed")
{
    TankBench bench;
    bench.goThrough();
    bench.setup().goOn();
    REQUIRE(bench.entries(text("run-opened")) == 1);
    CHECK(bench.looks().empty());
    CHECK(ledger::tankKnown(*bench.tablet().shown()) == run::TankKnown::Not);
}

TEST_CASE("looks at a tank that was given up are not written as if they fitted, and none goes over to the next run")
{
    TankBench bench;
    bench.app()->takeTag(text("BM-HY-012"));
    bench.setup().chooseTank(rowOf(bench.setup().tanks(), "Store tote 3"));
    CHECK(bench.check().known() == run::TankKnown::Not);
    bench.goThrough();
    bench.setup().goOn();
    REQUIRE(bench.entries(text("run-opened")) == 1);
    CHECK(bench.looks().empty());
    CHECK(bench.check().looks()->rowCount() == 0);
}
