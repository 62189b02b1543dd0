// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "app/handover_view.h"

#include "app/app_bench.h"
#include "app/demo.h"
#include "app/held.h"
#include "handover/desk.h"
#include "handover/hub_at_hand.h"
#include "store/sqlite_journal.h"
#include "store/temp_folder.h"

#include <catch2/catch.hpp>

#include <algorithm>

using namespace loopside;
using namespace loopside::test;

namespace {

class StillClock final : public Clock
{
public:
    Stamp now() override { return stamp; }

    Stamp stamp = {aboutNowMs, 120, 5'000'000'000, Recorder::idOf(0xB0, 1)};
};

/// A tablet with its journal on disk, a hub that it may reach and the page between them.
class HandoverBench
{
public:
    HandoverBench()
    {
        const std::string path = folder.file("journal.db");
        journal = *store::SqliteJournal::open(path);
        drafts = *store::DraftStore::open(folder.file("drafts.db"));
        joined = std::make_unique<handover::JoinedJournal>(*journal);
        handover = *handover::Handover::open(
            {path, *journal, *joined, {}, folder.file("site.hub"), device, key, "tablet 1", clock, hub, [this] {
                 return sync::Nonce{static_cast<std::uint8_t>(++nonces)};
             }});
        tablet = *app::Tablet::open({*joined, *drafts, clock, random, site, words::Words::in("en").value()}, device,
                                    Recorder::keyOf(1));
        handover->onOthersCame = [this] { tablet->takeOthers(); };
        view = std::make_unique<app::HandoverView>(*tablet);
        view->setBattery([this] { return battery; });
        view->setHandover(handover.get());
    }

    void enrol()
    {
        view->enrol(QStringLiteral(" hub:8443 "), QString::fromStdString(sync::toText(hub.code())));
        hub.answerAll();
    }

    [[nodiscard]] QString answers() const { return textOf(*view->answers(), 1); }
    [[nodiscard]] QString fact(int row) const { return view->facts()->rows().at(row).at(1).toString(); }

    /// Another tablet's records come to the hub; `clock` is that tablet's.
    void othersPut(const std::string& litres, SteppedClock& theirs)
    {
        Desk other(2, theirs);
        other.putTank("PH-3", litres);
        std::vector<ledger::Entry> entries;
        for (const ledger::Stored& stored : allOf(other.journal)) {
            entries.push_back(stored.entry);
        }
        hub.hub.take(entries);
    }

    enum Fact
    {
        HubName,
        Waiting,
        There,
        Receipt,
        Last
    };

    TempFolder folder;
    StillClock clock;
    SeededRandom random{1};
    app::Site site = app::siteFrom(std::string(app::demoSite())).value();
    Id device = Recorder::idOf(0xD0, 1);
    ledger::DeviceKey key = Recorder::keyOf(1);
    HubAtHand hub;
    std::optional<app::Battery> battery = {};
    int nonces = 0;
    std::unique_ptr<store::SqliteJournal> journal;
    std::unique_ptr<store::DraftStore> drafts;
    std::unique_ptr<handover::JoinedJournal> joined;
    std::unique_ptr<handover::Handover> handover;
    std::unique_ptr<app::Tablet> tablet;
    std::unique_ptr<app::HandoverView> view;

private:
    [[nodiscard]] static QString textOf(const app::RowModel& model, int column)
    {
        QStringList texts;
        for (const auto& row : model.rows()) {
            texts.append(row.at(column).toString());
        }
        return texts.join(QLatin1Char('\n'));
    }
};

} // namespace

TEST_CASE("a tablet without a hub says how to enrol, and what was typed wrong")
{
    HandoverBench bench;
    CHECK(bench.view->asksEnrolment());
    CHECK_FALSE(bench.view->canBegin());
    CHECK(bench.fact(HandoverBench::HubName) == text("none yet"));
    CHECK(bench.fact(HandoverBench::Waiting) == text("1"));
    CHECK(bench.fact(HandoverBench::Receipt) == text("–"));
    CHECK(bench.answers().contains(text("Type the address of the hub")));
    bench.view->enrol(text(" "), text("7K3M-9QAB"));
    CHECK(bench.answers().contains(text("Type the address of the hub first")));
    bench.view->enrol(text("hub:8443"), text("7K3M-9QAB"));
    CHECK(bench.answers().contains(text("twenty signs")));
    CHECK_FALSE(bench.hub.isAsked());
    bench.enrol();
    CHECK_FALSE(bench.answers().contains(text("twenty signs")));
    CHECK(bench.view->isEnrolled());
    CHECK_FALSE(bench.view->asksEnrolment());
}

TEST_CASE("the page tells what is here, what arrived and the proof of it")
{
    HandoverBench bench;
    bench.enrol();
    CHECK(bench.fact(HandoverBench::HubName) == text("hub:8443"));
    CHECK(bench.fact(HandoverBench::Waiting) == text("0"));
    CHECK(bench.fact(HandoverBench::There) == text("1"));
    CHECK(bench.fact(HandoverBench::Receipt).length() == 14);
    CHECK(bench.fact(HandoverBench::Last).contains(text("2025-07-08")));
    CHECK(bench.answers().contains(text("acknowledged everything")));
    CHECK(bench.tablet->entriesHere() == 0);
    REQUIRE(bench.tablet->submit(run::MoveStock{"P10", 4, "delivery"}));
    CHECK(bench.fact(HandoverBench::Waiting) == text("1"));
    CHECK(bench.tablet->entriesHere() == 1);
    bench.view->begin();
    CHECK(bench.answers().contains(text("under way")));
    CHECK_FALSE(bench.view->canBegin());
    bench.hub.answerAll();
    CHECK(bench.view->canBegin());
    CHECK(bench.fact(HandoverBench::Waiting) == text("0"));
}

TEST_CASE("with the seconds the tablet hands over by itself")
{
    HandoverBench bench;
    bench.enrol();
    REQUIRE(bench.tablet->submit(run::MoveStock{"P10", 4, "delivery"}));
    bench.tablet->tick();
    CHECK_FALSE(bench.hub.isAsked());
    bench.clock.stamp.monoNs += 60'000'000'000;
    bench.tablet->tick();
    CHECK(bench.hub.isAsked());
    bench.hub.answerAll();
    CHECK(bench.tablet->entriesHere() == 0);
}

TEST_CASE("what stands in the way is a plain sentence, and everything stays")
{
    HandoverBench bench;
    bench.enrol();
    REQUIRE(bench.tablet->submit(run::MoveStock{"P10", 4, "delivery"}));
    const auto [status, code, sentence, isAnew] = GENERATE(
        table<int, Errc, std::string, bool>({{503, Errc::Io, "disk is full", false},
                                             {429, Errc::Unavailable, "asks to wait", false},
                                             {400, Errc::Incompatible, "hub is to be updated", false},
                                             {409, Errc::Conflict, "of another site", false},
                                             {401, Errc::Conflict, "Enrol it anew", true}}));
    bench.view->begin();
    bench.hub.answer(Result<handover::Answer>(bench.hub.refused(status, code)));
    CHECK(bench.answers().contains(QString::fromStdString(sentence)));
    CHECK(bench.answers().contains(text("tries again by itself")));
    CHECK(bench.fact(HandoverBench::Waiting) == text("1"));
    CHECK(bench.view->asksEnrolment() == isAnew);
    bench.view->begin();
    bench.hub.answerAll();
    CHECK(bench.fact(HandoverBench::Waiting) == text("0"));
    CHECK_FALSE(bench.answers().contains(QString::fromStdString(sentence)));
}

TEST_CASE("a clock that is far off is told with how far")
{
    HandoverBench bench;
    bench.enrol();
    bench.clock.stamp.wallMs -= 90LL * 60'000;
    bench.view->begin();
    bench.hub.answerAll();
    CHECK(bench.answers().contains(text("90\u00a0min behind")));
}

TEST_CASE("a battery that is low is told while something waits")
{
    HandoverBench bench;
    bench.view->setBattery([] { return app::Battery{9, false}; });
    CHECK(bench.answers().contains(held("The battery is at 9~%")));
    bench.enrol();
    CHECK_FALSE(bench.answers().contains(text("battery")));
    REQUIRE(bench.tablet->submit(run::MoveStock{"P10", 4, "delivery"}));
    CHECK(bench.answers().contains(text("battery")));
    bench.view->setBattery([] { return app::Battery{9, true}; });
    CHECK_FALSE(bench.answers().contains(text("battery")));
}

TEST_CASE("records of other tablets change the site, and those with a clock ahead wait for a person")
{
    HandoverBench bench;
    bench.enrol();
    SteppedClock theirs;
    theirs.stamp.wallMs += 48LL * 3'600'000;
    bench.othersPut("777", theirs);
    run::TankRecord tank = bareSetup().tank;
    tank.name = "PH-3";
    REQUIRE(bench.tablet->submit(run::PutRecord{run::TankPut{tank, {}}}));
    bench.view->begin();
    bench.hub.answerAll();
    CHECK(bench.view->canSettle());
    CHECK(bench.answers().contains(text("clock far ahead")));
    CHECK(volumeOf(bench.tablet->state(), "PH-3") == "400 L");
    const int here = bench.tablet->entriesHere();
    bench.view->settle();
    CHECK_FALSE(bench.view->canSettle());
    CHECK(volumeOf(bench.tablet->state(), "PH-3") == "777 L");
    CHECK(bench.tablet->entriesHere() == here + 1);
    bench.view->begin();
    bench.hub.answerAll();
    CHECK(bench.tablet->entriesHere() == 0); // the settling went to the hub as well
}

TEST_CASE("the screens of an exercise hand nothing over")
{
    HandoverBench bench;
    bench.view->setHandover(nullptr);
    CHECK(bench.view->facts()->rows().isEmpty());
    CHECK(bench.answers().contains(text("An exercise is handed over to nobody")));
    bench.view->begin();
    bench.view->enrol(text("hub"), text("x"));
    bench.view->settle();
    CHECK_FALSE(bench.hub.isAsked());
}

TEST_CASE("after others' entries were folded nothing points into runs as they were before")
{
    AppBench bench;
    bench.playScene(QStringLiteral("no-flow"));
    app::Tablet& tablet = bench.tablet();
    REQUIRE(tablet.standing(*tablet.shown()).lastReading != nullptr);
    tablet.takeOthers();
    const run::RunState& run = *tablet.shown();
    const run::Fact* read = tablet.standing(run).lastReading->fact;
    CHECK(std::ranges::any_of(run.facts, [&](const run::Fact& fact) { return &fact == read; }));
}
