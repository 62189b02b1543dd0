// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// Runs that go from hand to hand: one of another tablet that is taken over, one that is handed on, two that are one.

#include "app/tour.h"
#include "run/run_code.h"

#include <algorithm>

namespace loopside::app {

namespace {

run::ReadingLogged setOf(std::initializer_list<int> gauges, const char* oil)
{
    run::ReadingLogged set;
    for (const int gauge : gauges) {
        set.gauges.emplace_back(run::GaugeTyped{Decimal(gauge, 0), std::nullopt});
    }
    set.oil = run::TypedTemperature::parse(oil).value();
    return set;
}

/// Another tablet, whose entries come into the journal as by a bundle.
struct OtherTablet
{
    OtherTablet(ledger::Journal& journal, TourClock& clock)
        : logbook{ledger::Logbook::open(journal, clock, random, ledger::Reach::Whole).value()}
    {
        hand.device.bytes[0] = 0x7f;
        hand.device.bytes[1] = 0x3a;
    }

    [[nodiscard]] bool submit(const run::Command& command) { return logbook.submit(command, hand).has_value(); }

    SeededRandom random{70};
    ledger::Logbook logbook;
    ledger::Hand hand = {};
};

} // namespace

/// Opens a run there, with a set that is read; its id, or none.
Id Tour::runElsewhere(run::Setup setup)
{
    OtherTablet other(stage_.tablet.journal(), stage_.clock);
    other.hand.person = stage_.tablet.site().people[1].id;
    const Id run = other.logbook.newId();
    const bool isThere = other.logbook.enrol(other.hand.device, ledger::DeviceKey::fromSeed({70}))
        && other.submit(run::OpenRun{run, std::move(setup)})
        && other.submit(run::Say{run, run::ModeChanged{run::Mode::Filtering, std::nullopt}});
    passTime(stage_.clock.time() + std::chrono::minutes(2));
    if (!isThere || !other.submit(run::Say{run, setOf({170, 130, 50}, "30 C")})) {
        return {};
    }
    stage_.tablet.takeOthers();
    return run;
}

bool Tour::hands()
{
    stage_.view.choosePerson(0);
    const auto& site = stage_.tablet.site();
    run::Setup setup{{}, site.tanks[0], site.carts[0].cart, site.carts[0].stages, {}};
    setup.target.turnovers = Decimal(7, 0);
    stage_.view.showTakeOver();
    stage_.view.takeOver()->takeCode(QStringLiteral("7K3M9Q"));
    isFine_ = picture(QStringLiteral("17-take-over-unknown")) && isFine_;
    const Id run = runElsewhere(setup);
    if (run.isNone()) {
        return complainOf(QStringLiteral("the other tablet writes nothing"));
    }
    passTime(stage_.clock.time() + std::chrono::minutes(29));
    stage_.view.showRunOf(QString::fromStdString(toText(run)));
    stage_.view.alert()->because(0);
    isFine_ = picture(QStringLiteral("17-run-of-other-tablet")) && isFine_;
    stage_.view.showTakeOver();
    stage_.view.takeOver()->takeCode(QString::fromStdString(run::codeOf(run)));
    stage_.view.takeOver()->chooseValve(0);
    isFine_ = picture(QStringLiteral("17-take-over")) && isFine_;
    stage_.view.takeOver()->press(QStringLiteral("take"));
    return ledger::holderOf(*stage_.tablet.shown()) == stage_.tablet.device() && handOn() && link(run, setup);
}

bool Tour::handOn()
{
    HandOnView* view = stage_.view.handOn();
    stage_.view.showHandOn();
    view->chooseReceiver(view->receivers()->rowCount() - 1);
    isFine_ = picture(QStringLiteral("17-hand-on-nobody")) && isFine_;
    view->chooseReceiver(0);
    isFine_ = picture(QStringLiteral("17-hand-on")) && isFine_;
    view->press(QStringLiteral("hand"));
    view->chooseValve(0);
    isFine_ = picture(QStringLiteral("17-hand-on-take")) && isFine_;
    view->press(QStringLiteral("take"));
    return stage_.view.page() == AppView::Page::Run;
}

/// Somebody with another tablet wrote the same cleaning down.
bool Tour::link(const Id& first, run::Setup setup)
{
    if (!stage_.tablet.openRun(std::move(setup))
        || !stage_.tablet.say(run::Said(run::ModeChanged{run::Mode::Filtering, std::nullopt}))) {
        return false;
    }
    passTime(stage_.clock.time() + std::chrono::minutes(2));
    if (!stage_.tablet.say(run::Said(setOf({168, 130, 50}, "31 C")))) {
        return false;
    }
    stage_.view.showShift();
    isFine_ = picture(QStringLiteral("17-shift-one-or-two")) && isFine_;
    const auto& work = stage_.view.shift()->work()->rows();
    const auto asked = std::ranges::find(work, stage_.tablet.label("app.shift.one-or-two"),
                                         [](const RowModel::Row& row) { return row[3].toString(); });
    stage_.view.shift()->open(static_cast<int>(asked - work.begin()));
    stage_.view.link()->open({first, stage_.tablet.shown()->id});
    isFine_ = stage_.view.page() == AppView::Page::Link && picture(QStringLiteral("17-link")) && isFine_;
    stage_.view.link()->press(QStringLiteral("one"));
    stage_.view.link()->openOf(stage_.tablet.shown()->id);
    stage_.view.go(AppView::Page::Link);
    isFine_ = picture(QStringLiteral("17-link-one")) && isFine_;
    stage_.view.backToRun();
    isFine_ = picture(QStringLiteral("17-run-one-with")) && isFine_;
    return stage_.tablet.linkedRuns(*stage_.tablet.shown()).size() == 1;
}

} // namespace loopside::app
