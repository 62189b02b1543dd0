// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// The pages of the site: the shift as it begins and as it is under way, stock, tanks, carts, people.

#include "app/demo.h"
#include "app/tour.h"

#include <QDir>
#include <QFile>

#include <algorithm>

namespace loopside::app {

namespace {

/// Type, kind of move, number.
struct StockTold
{
    int type;
    int kind;
    const char* number;
};

int rowOf(const RowModel& rows, const char* name)
{
    const auto all = rows.rows();
    return static_cast<int>(
        std::ranges::find(all, QVariant(QString::fromUtf8(name)), [](const auto& row) { return row[0]; })
        - all.begin());
}

} // namespace

bool Tour::site()
{
    isFine_ = picture(QStringLiteral("00-shift-empty")) && isFine_;
    return practise() && stock() && catalogue() && keeping() && handover() && people();
}

bool Tour::stock()
{
    StockView* stock = stage_.view.stock();
    stage_.view.showStock();
    isFine_ = picture(QStringLiteral("00-stock-empty")) && isFine_;
    for (const auto& told : {StockTold{0, 0, "8"}, {1, 0, "6"}, {0, 2, "1"}, {0, 1, "6"}}) {
        stage_.clock.moveTo(stage_.clock.time() + std::chrono::minutes(1));
        stock->chooseType(told.type);
        stock->chooseKind(told.kind);
        type(*stock->fields(), 0, told.number);
        if (told.kind == 1) {
            isFine_ = picture(QStringLiteral("00-stock-count")) && isFine_;
        }
        stock->log();
    }
    isFine_ = picture(QStringLiteral("00-stock")) && isFine_;
    return stage_.tablet.state().stockMoves.size() == 4;
}

bool Tour::catalogue()
{
    TankView* tanks = stage_.view.tanks();
    stage_.view.showTanks();
    tanks->choose(4);
    tanks->goOn();
    type(*tanks->fields(), 0, "940");
    isFine_ = picture(QStringLiteral("00-tank-change")) && isFine_;
    tanks->goOn();
    isFine_ = picture(QStringLiteral("00-tank-changed")) && isFine_;
    tanks->changeService();
    isFine_ = picture(QStringLiteral("00-tank-leaves")) && isFine_;
    tanks->back();

    tanks->tellNew();
    tanks->typeName(QStringLiteral("Vacuum pump"));
    type(*tanks->fields(), 0, "60");
    isFine_ = picture(QStringLiteral("00-tank-new")) && isFine_;
    tanks->chooseGroup(1);
    tanks->pick(1);
    type(*tanks->fields(), tanks->firstField() + 2, "900");
    isFine_ = picture(QStringLiteral("00-tank-shape")) && isFine_;
    tanks->chooseGroup(2);
    type(*tanks->fields(), tanks->firstField(), "48.2082");
    isFine_ = picture(QStringLiteral("00-tank-place")) && isFine_;
    tanks->back();

    CartView* carts = stage_.view.carts();
    stage_.view.showCarts();
    carts->choose(1);
    carts->goOn();
    carts->chooseGroup(1);
    type(*carts->fields(), carts->firstField(), "24");
    isFine_ = picture(QStringLiteral("00-cart-change")) && isFine_;
    carts->chooseGroup(3);
    isFine_ = picture(QStringLiteral("00-cart-gauges")) && isFine_;
    carts->chooseGroup(4);
    isFine_ = picture(QStringLiteral("00-cart-hoses")) && isFine_;
    carts->chooseGroup(5);
    isFine_ = picture(QStringLiteral("00-cart-oil")) && isFine_;
    carts->chooseGroup(0);
    isFine_ = picture(QStringLiteral("00-cart-pump")) && isFine_;
    carts->goOn();
    isFine_ = picture(QStringLiteral("00-cart-changed")) && isFine_;
    return stage_.tablet.state().records.size() == 2 && file() && oils();
}

/// Elements from a stick and tanks out of files that the planner made; the second has rows that cannot be read.
bool Tour::file()
{
    FileView* file = stage_.view.file();
    const QString own = QString::fromStdString(stage_.tablet.importFolder());
    const QString stick = own + QStringLiteral("/STICK");
    file->lookAt([stick] { return QStringList{stick}; });
    const auto take = [&](const QString& folder, const char* name, const char* text, int kind, const char* title) {
        QFile records(folder + QLatin1Char('/') + QLatin1String(name));
        if (!QDir().mkpath(folder) || !records.open(QIODevice::WriteOnly | QIODevice::Truncate)
            || records.write(text) < 0) {
            return complainOf(records.errorString());
        }
        records.close();
        stage_.view.showFile();
        file->chooseFile(rowOf(*file->files(), name));
        file->chooseKind(kind);
        isFine_ = picture(QString::fromLatin1(title)) && isFine_;
        file->take();
        return file->problem() != QString();
    };
    stage_.view.showFile();
    isFine_ = picture(QStringLiteral("00-file-none")) && isFine_;
    constexpr int tanks = 0;
    constexpr int elements = 2;
    const bool isTaken = take(stick, "elements.csv",
                              "type,kind,rating_um,media,change_limit_kpa,bypass_kpa,stock\n"
                              "W dry,water,,,170,,4\nP6 glass,particle,6,glass,200,250,8\n",
                              elements, "00-file-elements")
        && take(own, "tanks.csv",
                "name;volume_l;fluid;water_ppm;code;remark\n"
                "Winder gearbox;295;;150;21/19/16;\nVacuum pump;60;ISO VG 150 circulating;;;\n"
                "Old sump;1,200;;;;\nCoupling;12 gal;;;;\nStore tote 3;940;;;;\n",
                tanks, "00-file-tanks");
    isFine_ = picture(QStringLiteral("00-file-taken")) && isFine_;
    stage_.view.showElements();
    stage_.view.elements()->choose(1);
    isFine_ = picture(QStringLiteral("00-elements")) && isFine_;
    pressures(*stage_.view.elements());
    return isTaken;
}

/// Of the chosen type: its clean ΔP and where it was measured, half told.
void Tour::pressures(ElementView& types)
{
    types.goOn();
    types.chooseGroup(1);
    type(*types.fields(), types.firstField() + 2, "20");
    type(*types.fields(), types.firstField() + 4, "24");
    isFine_ = picture(QStringLiteral("00-element-pressures")) && isFine_;
    types.back();
}

bool Tour::oils()
{
    FluidView* fluids = stage_.view.fluids();
    stage_.view.showFluids();
    fluids->tellNew();
    fluids->typeName(QStringLiteral("Turbine oil 32"));
    fluids->pick(2);
    type(*fluids->fields(), 0, "32");
    type(*fluids->fields(), 1, "105");
    isFine_ = picture(QStringLiteral("00-oil-new")) && isFine_;
    fluids->goOn();
    isFine_ = picture(QStringLiteral("00-oil")) && isFine_;
    return stage_.tablet.site().fluids.size() == 1 && plan();
}

/// A job that the planner wants done.
bool Tour::plan()
{
    JobView* jobs = stage_.view.jobs();
    stage_.view.showJobs();
    jobs->tellNew();
    jobs->typeName(QStringLiteral("WO-4711"));
    jobs->pick(1);
    type(*jobs->fields(), 0, "7");
    type(*jobs->fields(), 1, "17/15/12");
    type(*jobs->fields(), 2, "2026-06-02");
    isFine_ = picture(QStringLiteral("00-job-new")) && isFine_;
    jobs->chooseGroup(1);
    type(*jobs->fields(), jobs->firstField(), "2");
    isFine_ = picture(QStringLiteral("00-job-reason")) && isFine_;
    jobs->goOn();
    isFine_ = picture(QStringLiteral("00-job")) && isFine_;
    stage_.view.showShift();
    isFine_ = picture(QStringLiteral("00-shift-planned")) && isFine_;
    return stage_.tablet.site().jobs.size() == 1;
}

bool Tour::people()
{
    PeopleView* people = stage_.view.wishes();
    stage_.view.showPeople();
    people->choose(2);
    people->choosePressure(1);
    people->chooseVolume(2);
    people->chooseTemperature(2);
    isFine_ = picture(QStringLiteral("00-people")) && isFine_;
    people->log();
    isFine_ = picture(QStringLiteral("00-people-logged")) && isFine_;
    people->tellNew();
    people->typeName(QStringLiteral("Oksana"));
    isFine_ = picture(QStringLiteral("00-person-new")) && isFine_;
    people->log();
    people->changeService(); // only for one shift
    isFine_ = picture(QStringLiteral("00-person-out")) && isFine_;
    if (stage_.tablet.site().peopleOut.size() != 1) {
        return complainOf(QStringLiteral("nobody new is in the file of the site"));
    }
    stage_.view.showSettings();
    people->choose(2);
    people->chooseHand(1);
    isFine_ = picture(QStringLiteral("00-settings")) && isFine_;
    people->log();
    guide();
    stage_.view.showSetUp();
    return std::holds_alternative<run::PersonPut>(stage_.tablet.state().records.back().what);
}

/// The list of its parts, one with steps, one with tables, and the one that a key beside a forecast leads to.
void Tour::guide()
{
    constexpr int firstRun = 1;
    constexpr int somethingWrong = 7;
    stage_.view.showGuide();
    isFine_ = picture(QStringLiteral("00-guide")) && isFine_;
    stage_.view.guide()->openPart(firstRun);
    isFine_ = picture(QStringLiteral("00-guide-steps")) && isFine_;
    stage_.view.guide()->openPart(somethingWrong);
    isFine_ = picture(QStringLiteral("00-guide-table")) && isFine_;
    stage_.view.showGuideOfForecast();
    isFine_ = picture(QStringLiteral("00-guide-forecast")) && isFine_;
    stage_.view.leaveGuide();
}

/// Several runs at a time: one overdue, one at a limit in cold oil, a flush; then for a left hand.
bool Tour::shift()
{
    const auto scenes = readScenes(demoScenes());
    const auto open = [&](const char* name) {
        const auto scene = std::ranges::find(*scenes, name, &Scene::name);
        return scene != scenes->end() && playScene(*scene);
    };
    if (!scenes || !open("aerated") || !open("half-changed-pair")) {
        return complainOf(QStringLiteral("a scene of the shift is missing"));
    }
    passTime(stage_.clock.time() + std::chrono::minutes(31));
    while (stage_.view.alert()->isUp()) {
        stage_.view.alert()->because(0);
    }
    const run::FlushOpened flush{
        .cart = "Cart C", .toFluid = "ISO VG 220 gear", .left = run::TypedVolume::parse("1.5 L").value()};
    const bool isOpen = stage_.tablet.openJob(flush).has_value();
    stage_.view.showShift();
    isFine_ = picture(QStringLiteral("15-shift")) && isFine_;
    stage_.view.askWho();
    isFine_ = picture(QStringLiteral("15-who")) && isFine_;
    stage_.view.choosePerson(2);
    stage_.view.showRun(0);
    stage_.tablet.setTrouble(stage_.tablet.say({"store-disk-full", {{"path", "journal"}}}));
    isFine_ = picture(QStringLiteral("15-trouble")) && isFine_;
    stage_.view.dismissTrouble();
    isFine_ = picture(QStringLiteral("15-run-left-handed")) && isFine_;
    stage_.view.showStock();
    isFine_ = picture(QStringLiteral("15-stock-left-handed")) && isFine_;
    return isOpen && leftHanded();
}

/// The other pages for a left hand; then a tank and a cart.
bool Tour::leftHanded()
{
    stage_.view.openCloseOut();
    isFine_ = picture(QStringLiteral("15-close-out-left-handed")) && isFine_;
    stage_.view.showSetUp();
    isFine_ = picture(QStringLiteral("15-set-up-left-handed")) && isFine_;
    stage_.view.showPeople();
    isFine_ = picture(QStringLiteral("15-people-left-handed")) && isFine_;
    stage_.view.showFile();
    isFine_ = picture(QStringLiteral("15-file-left-handed")) && isFine_;
    stage_.view.showTanks();
    stage_.view.tanks()->choose(0);
    isFine_ = picture(QStringLiteral("15-tank")) && isFine_;
    for (int turn = 0; turn < 3; ++turn) {
        touch("scrollDown");
    }
    isFine_ = picture(QStringLiteral("15-tank-charts")) && isFine_;
    stage_.view.showCarts();
    stage_.view.carts()->choose(0);
    isFine_ = picture(QStringLiteral("15-cart")) && isFine_;
    return otherTank() && stage_.view.isLeftHanded();
}

/// The tag of another tank, read while a run is open.
bool Tour::otherTank()
{
    stage_.view.showRun(0);
    stage_.view.takeTag(QStringLiteral("BM-ST-003"));
    const bool isTold = stage_.view.otherTank()->isMismatch();
    isFine_ = picture(QStringLiteral("15-other-tank")) && isFine_;
    touch("orderIsWrong");
    isFine_ = picture(QStringLiteral("15-other-tank-why")) && isFine_;
    touch("wrongTankBack");
    touch("goToRightTank");
    return isTold && !stage_.view.otherTank()->isMismatch();
}

} // namespace loopside::app
