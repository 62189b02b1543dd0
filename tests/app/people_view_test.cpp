// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "app/wanted_units.h"
#include "app_bench.h"
#include "held.h"

#include <catch2/catch.hpp>

using namespace loopside;
using namespace loopside::test;

namespace {

void wishFahrenheit(const Bench& bench, int person)
{
    app::PeopleView& people = *bench.app()->wishes();
    people.choose(person);
    people.chooseTemperature(2);
    people.log();
}

void typeOil(app::PadView& pad, const char* number)
{
    pad.select(3);
    for (const char sign : std::string_view(number)) {
        pad.key(QString(QLatin1Char(sign)));
    }
}

} // namespace

TEST_CASE("wishes are put whole, with an id and no name, and are told with who changed them")
{
    AppBench bench;
    app::PeopleView& people = *bench.app()->wishes();
    people.choose(1);
    CHECK_FALSE(people.problem().isEmpty());
    people.choosePressure(1);
    people.chooseVolume(2);
    people.chooseTheme(1);
    people.chooseHand(1);
    people.log();
    const QString body = bench.lastBody(QStringLiteral("person-put"));
    CHECK(body.contains(text(R"("pressure":"psi","volume":"gal","theme":"night","left_handed":true)")));
    CHECK_FALSE(body.contains(text("Tomasz")));
    CHECK(people.history()->rows()[0][1].toString().contains(text("Ines"))); // she holds the tablet
    CHECK_FALSE(people.problem().isEmpty());                                 // it is logged once
}

TEST_CASE("a person in an entry is told by name, whether it has an id or, from an earlier version, the name")
{
    AppBench bench;
    const auto& ines = bench.tablet().site().people[0];
    CHECK(bench.tablet().personTold(toText(ines.id)) == text("Ines"));
    CHECK(bench.tablet().personTold("P. Ortiz") == text("P. Ortiz"));
}

TEST_CASE("what a person logged today counts runs, the catalogue and the stock alike")
{
    AppBench bench;
    app::PeopleView& people = *bench.app()->wishes();
    const auto detail = [&] {
        people.choose(0); // shown afresh
        return people.people()->rows()[0][1].toString();
    };
    REQUIRE(detail().endsWith(text(": 0")));
    const auto& site = bench.tablet().site();
    REQUIRE(bench.tablet().openRun({{}, site.tanks[0], site.carts[0].cart, site.carts[0].stages, {}}));
    CHECK(detail().endsWith(text(": 1")));
    wishFahrenheit(bench, 0);
    CHECK(detail().endsWith(text(": 2")));
}

TEST_CASE("theme, hand and units follow who holds the tablet")
{
    AppBench bench;
    app::PeopleView& people = *bench.app()->wishes();
    people.choose(1);
    people.chooseTheme(1);
    people.chooseHand(1);
    people.log();
    CHECK(bench.app()->theme() == text("day"));
    bench.app()->choosePerson(1);
    CHECK(bench.app()->theme() == text("night"));
    CHECK(bench.app()->isLeftHanded());
    bench.app()->choosePerson(0);
    CHECK_FALSE(bench.app()->isLeftHanded());
}

TEST_CASE("large text and a still screen follow who wants them, and a record of before has neither")
{
    AppBench bench;
    app::PeopleView& people = *bench.app()->wishes();
    CHECK(bench.app()->textScale() == 1.0);
    people.choose(0);
    people.chooseTheme(1);
    people.log();
    CHECK_FALSE(bench.lastBody(QStringLiteral("person-put")).contains(text("text_percent")));
    CHECK_FALSE(bench.lastBody(QStringLiteral("person-put")).contains(text("still")));
    people.chooseTextSize(3);
    people.chooseMotion(1);
    people.log();
    CHECK(bench.lastBody(QStringLiteral("person-put")).contains(text(R"("text_percent":200,"still":true)")));
    CHECK(people.history()->rows()[0][1].toString().contains(text("Text in percent: 100")));
    CHECK(bench.app()->textScale() == 2.0);
    CHECK(bench.app()->isStill());
    bench.restart();
    CHECK(bench.app()->textScale() == 2.0);
    bench.app()->choosePerson(1);
    CHECK(bench.app()->textScale() == 1.0);
    CHECK_FALSE(bench.app()->isStill());
}

TEST_CASE("a language that is wished is spoken, at once and after a restart")
{
    AppBench bench;
    bool isAskedForAnew = false;
    QObject::connect(bench.app(), &app::AppView::languageChanged, [&] { isAskedForAnew = true; });
    bench.app()->wishes()->chooseLanguage(2);
    bench.app()->wishes()->log();
    CHECK(isAskedForAnew);
    CHECK(bench.app()->label(text("label.shift")) == text("Schicht"));
    bench.restart();
    CHECK(bench.app()->label(text("label.shift")) == text("Schicht"));
}

TEST_CASE("the oil is typed in the unit that is wished, and kept in it")
{
    AppBench bench;
    wishFahrenheit(bench, 0);
    bench.playScene(QStringLiteral("valve-in-bypass"));
    bench.app()->run()->answer(text("yes"));
    app::PadView& pad = *bench.app()->pad();
    CHECK(pad.fields()->rows()[3][3].toString() == QStringLiteral("°F"));
    CHECK(pad.fields()->rows()[3][2].toString().endsWith(held("~°F"))); // the last value, in the same unit
    for (int field = 0; field < 3; ++field) {
        pad.select(field);
        pad.key(text("9"));
    }
    typeOil(pad, "104");
    pad.goOn();
    CHECK(bench.lastBody(QStringLiteral("reading-logged")).contains(QStringLiteral("104 °F")));
}

TEST_CASE("digits that stand in the oil field never change their unit")
{
    AppBench bench;
    wishFahrenheit(bench, 1);
    bench.playScene(QStringLiteral("valve-in-bypass"));
    app::PadView& pad = *bench.app()->pad();
    typeOil(pad, "40");
    bench.app()->choosePerson(1);
    CHECK(pad.fields()->rows()[3][3].toString() == QStringLiteral("°C"));
    bench.restart();
    bench.app()->choosePerson(1);
    CHECK(bench.app()->pad()->fields()->rows()[3][1].toString() == text("40"));
    CHECK(bench.app()->pad()->fields()->rows()[3][3].toString() == QStringLiteral("°C"));
    bench.app()->pad()->select(3);
    bench.app()->pad()->backspace();
    bench.app()->pad()->backspace();
    bench.app()->choosePerson(0);
    bench.app()->choosePerson(1);
    CHECK(bench.app()->pad()->fields()->rows()[3][3].toString() == QStringLiteral("°F"));
}

TEST_CASE("a quantity stands as typed, the wished unit behind it")
{
    const auto volume = run::TypedVolume::parse("760 L").value();
    const auto pressure = run::TypedPressure::parse("170 kPa").value();
    run::PersonRecord wants;
    CHECK(app::asWanted(volume, wants) == held("760~L"));
    wants.volume = *units::unitNamed<units::Volume>("gal");
    wants.pressure = *units::unitNamed<units::Pressure>("psi");
    CHECK(app::asWanted(volume, wants) == held("760~L (201~gal)"));      // 760 ÷ 3.785412 = 200.8
    CHECK(app::asWanted(pressure, wants) == held("170~kPa (24.7~psi)")); // 170 ÷ 6.894757 = 24.66
    wants.volume = *units::unitNamed<units::Volume>("L");
    CHECK(app::asWanted(volume, wants) == held("760~L"));
}

TEST_CASE("a new person is in the site file and in no journal, and can hold the tablet at once")
{
    AppBench bench;
    app::PeopleView& people = *bench.app()->wishes();
    const int before = bench.app()->people()->rowCount();
    const int rows = people.people()->rowCount();
    people.tellNew();
    CHECK(people.problem() == text("Type the name."));
    people.typeName(text("Ines"));
    CHECK(people.problem() == text("Somebody has that name already. Type another."));
    people.typeName(text("  Oksana Ż. "));
    const QString hashes = bench.hashes();
    people.log();
    CHECK(bench.app()->trouble().isEmpty());
    CHECK(bench.hashes() == hashes); // not an entry
    CHECK(bench.siteText().contains(text("\"Oksana Ż.\"")));
    REQUIRE(bench.app()->people()->rowCount() == before + 1);
    CHECK(bench.app()->people()->rows()[before][0].toString() == text("Oksana Ż."));
    CHECK(people.people()->rowCount() == rows + 1);
    CHECK(people.name() == text("Oksana Ż."));
    CHECK_FALSE(people.isNaming());
    people.tellNew();
    CHECK(people.typedName().isEmpty());
    people.back();
    bench.app()->choosePerson(before);
    REQUIRE(bench.tablet().submit(run::MoveStock{"P10 glass", 2, "received"}));
    CHECK(bench.app()->person() == text("Oksana Ż."));
    bench.restart();
    CHECK(bench.app()->people()->rowCount() == before + 1);
    CHECK(bench.tablet().nameOf(bench.tablet().site().people.back().id) == text("Oksana Ż."));
}

TEST_CASE("a name that is half typed survives a kill, is offered again and stored by nobody but a person")
{
    AppBench bench;
    bench.app()->wishes()->tellNew();
    bench.app()->wishes()->typeName(text("Oks"));
    bench.restart();
    CHECK_FALSE(bench.siteText().contains(text("Oks")));
    app::PeopleView& people = *bench.app()->wishes();
    people.choose(1);
    people.rename();
    CHECK(people.typedName().isEmpty()); // it was typed for somebody else
    CHECK(people.back());
    CHECK_FALSE(people.back());
    people.tellNew();
    CHECK(people.typedName() == text("Oks"));
    CHECK(people.notice() == text("Typed before, not stored."));
}

TEST_CASE("another name changes the file alone: old entries tell the new one, the old one is nowhere")
{
    AppBench bench;
    bench.app()->choosePerson(1);
    app::StockView& stock = *bench.app()->stock();
    REQUIRE(bench.tablet().submit(run::MoveStock{"P10 glass", 2, "received"}));
    stock.chooseType(0);
    REQUIRE(stock.moves()->rows()[0][1].toString().contains(text("Tomasz")));
    app::PeopleView& people = *bench.app()->wishes();
    people.choose(1);
    people.rename();
    people.typeName(text("T. K."));
    const QString hashes = bench.hashes();
    people.log();
    CHECK(bench.hashes() == hashes);
    CHECK_FALSE(bench.siteText().contains(text("Tomasz")));
    CHECK(stock.moves()->rows()[0][1].toString().contains(text("T. K.")));
    CHECK(bench.app()->person() == text("T. K."));
    bench.app()->choosePerson(0);
    bench.restart();
    bench.app()->stock()->chooseType(0);
    CHECK(bench.app()->stock()->moves()->rows()[0][1].toString().contains(text("T. K.")));
}

TEST_CASE("who is out of service is offered nowhere, still has a name, and comes back, and who holds the tablet stays")
{
    AppBench bench;
    app::PeopleView& people = *bench.app()->wishes();
    bench.app()->choosePerson(2);
    REQUIRE(bench.app()->person() == text("Ruth"));
    people.choose(1);
    people.changeService();
    CHECK(bench.app()->people()->rowCount() == people.people()->rowCount() - 1);
    CHECK(bench.app()->person() == text("Ruth")); // though she stands one place higher
    for (const auto& row : bench.app()->people()->rows()) {
        CHECK(row[0].toString() != text("Tomasz"));
    }
    CHECK(people.name() == text("Tomasz"));
    CHECK(people.people()->rows().last()[1].toString() == text("not offered"));
    CHECK(people.serviceText() == text("Offer again"));
    people.choose(1);
    REQUIRE(people.name() == text("Ruth"));
    people.changeService();
    CHECK(bench.app()->trouble().contains(text("Ruth holds the tablet")));
    CHECK_FALSE(bench.siteText().contains(text("Ruth\",\"out_of_service")));
    bench.restart();
    app::PeopleView& again = *bench.app()->wishes();
    again.choose(again.people()->rowCount() - 1);
    REQUIRE(again.name() == text("Tomasz"));
    again.changeService();
    CHECK(bench.app()->people()->rowCount() == again.people()->rowCount());
}

TEST_CASE("an approver who was chosen stays the same person when another leaves service")
{
    AppBench bench;
    app::FlushView& flush = *bench.app()->flush();
    flush.chooseApprover(2);
    REQUIRE(flush.approvers()->rows()[2][0].toString() == text("Ruth"));
    app::PeopleView& people = *bench.app()->wishes();
    people.choose(1);
    people.changeService();
    CHECK(flush.approvers()->rows()[1][0].toString() == text("Ruth"));
    CHECK(flush.approvers()->rows()[1][2].toBool());
}
