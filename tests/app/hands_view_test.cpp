// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// Runs that go from hand to hand, between two tablets with a journal each and a hub.

#include "app/app_bench.h"
#include "app/demo.h"
#include "handover/hub_at_hand.h"
#include "run/run_code.h"
#include "store/sqlite_journal.h"
#include "store/temp_folder.h"

#include <QRegularExpression>

#include <catch2/catch.hpp>

#include <algorithm>

using namespace loopside;
using namespace loopside::test;

namespace {

class SharedClock final : public Clock
{
public:
    Stamp now() override { return stamp; }
    void pass(int seconds)
    {
        stamp.wallMs += 1000LL * seconds;
        stamp.monoNs += 1'000'000'000ULL * static_cast<std::uint64_t>(seconds);
    }

    Stamp stamp = {aboutNowMs, 120, 5'000'000'000, Recorder::idOf(0xB0, 1)};
};

/// A tablet with its journal in a file, enrolled at `hub`.
class Floor
{
public:
    Floor(std::uint8_t number, SharedClock& clock, HubAtHand& hub)
        : device{Recorder::idOf(0xD0, number)}, clock_{clock}, hub_{hub}, random_{number}, key_{Recorder::keyOf(number)}
    {
        const std::string path = folder_.file("journal.db");
        journal_ = *store::SqliteJournal::open(path);
        drafts_ = *store::DraftStore::open(folder_.file("drafts.db"));
        joined_ = std::make_unique<handover::JoinedJournal>(*journal_);
        handover_ = *handover::Handover::open(
            {path, *journal_, *joined_, {}, folder_.file("site.hub"), device, key_, "tablet", clock, hub, [this] {
                 return sync::Nonce{static_cast<std::uint8_t>(++nonces_)};
             }});
        open();
        app->handover()->enrol(text("hub:8443"), QString::fromStdString(sync::toText(hub.code())));
        hub.answerAll();
    }

    /// The screens are made anew over the same disk.
    void open()
    {
        app.reset();
        tablet = *app::Tablet::open({*joined_, *drafts_, clock_, random_, site_, words::Words::in("en").value()},
                                    device, Recorder::keyOf(device.bytes[15]));
        app = std::make_unique<app::AppView>(*tablet);
        handover_->onOthersCame = [this] { tablet->takeOthers(); };
        app->handover()->setHandover(handover_.get());
    }

    /// Hands over, and asks for what is of interest until nothing new comes.
    void sync()
    {
        for (int round = 0; round < 3; ++round) {
            app->handover()->begin();
            hub_.answerAll();
            tablet->tick();
            hub_.answerAll();
        }
    }

    Id openRun(std::size_t tank = 0)
    {
        run::Setup setup{{}, site_.tanks[tank], site_.carts[0].cart, site_.carts[0].stages, {}};
        setup.target.turnovers = Decimal(7, 0);
        REQUIRE(tablet->openRun(std::move(setup)));
        return tablet->shown()->id;
    }

    void filter() const { REQUIRE(tablet->say(run::Said(run::ModeChanged{run::Mode::Filtering, std::nullopt}))); }

    void read(int first) const { REQUIRE(tablet->say(setOf({first, first - 40, 50}, "30 C"))); }

    [[nodiscard]] const run::RunState& run(const Id& id) const { return *tablet->state().runOf(id); }

    [[nodiscard]] Id holder(const Id& id) const { return ledger::holderOf(run(id)); }

    Id device;

private:
    TempFolder folder_;
    SharedClock& clock_;
    HubAtHand& hub_;
    SeededRandom random_;
    app::Site site_ = app::siteFrom(std::string(app::demoSite())).value();
    ledger::DeviceKey key_;
    int nonces_ = 0;
    std::unique_ptr<store::SqliteJournal> journal_;
    std::unique_ptr<store::DraftStore> drafts_;
    std::unique_ptr<handover::JoinedJournal> joined_;
    std::unique_ptr<handover::Handover> handover_;

public: // behind what they stand on
    std::unique_ptr<app::Tablet> tablet;
    std::unique_ptr<app::AppView> app;
};

struct TwoTablets
{
    AppBench program; ///< Timers and texts want one.
    SharedClock clock;
    HubAtHand hub;
    Floor one{1, clock, hub};
    Floor two{2, clock, hub};
};

QString textsOf(const app::RowModel& model, int column)
{
    QStringList texts;
    for (const auto& row : model.rows()) {
        texts.append(row.at(column).toString());
    }
    return texts.join(QLatin1Char('\n'));
}

bool hasKey(const app::RowModel& keys, const char* say)
{
    return textsOf(keys, 1).split(QLatin1Char('\n')).contains(QString::fromLatin1(say));
}

QString codeOf(const Id& run)
{
    return QString::fromStdString(run::codeOf(run));
}

void typeCode(app::TakeOverView& view, const QString& code)
{
    for (const QChar sign : code) {
        view.type(QString(sign));
    }
}

/// The first row of the shift's work that says `what`; -1: none.
int workSaying(const app::AppView& app, const char* what)
{
    const auto& rows = const_cast<app::AppView&>(app).shift()->work()->rows();
    const auto row = std::ranges::find_if(
        rows, [&](const app::RowModel::Row& one) { return one[3].toString() == QString::fromLatin1(what); });
    return row == rows.end() ? -1 : static_cast<int>(row - rows.begin());
}

} // namespace

TEST_CASE("a run whose tablet broke is taken over by its six signs, once the hub gave its entries, and goes on here")
{
    TwoTablets site;
    const Id run = site.one.openRun();
    site.one.filter();
    site.clock.pass(120);
    site.one.read(170);
    site.one.sync();
    site.clock.pass(29 * 60);

    app::AppView& app = *site.two.app;
    app.showTakeOver();
    app::TakeOverView& view = *app.takeOver();
    typeCode(view, codeOf(run).toLower());
    CHECK(view.code() == codeOf(run));
    CHECK(textsOf(*view.notes(), 1).contains(text("No run with the code ") + codeOf(run)));
    CHECK(hasKey(*view.keys(), "set-up"));
    REQUIRE(hasKey(*view.keys(), "ask"));
    view.press(text("ask"));
    site.hub.answerAll();
    REQUIRE(site.two.tablet->state().runOf(run) != nullptr);
    CHECK(site.two.run(run).facts.size() == site.one.run(run).facts.size());
    REQUIRE(view.hasRun());
    CHECK(textsOf(*view.facts(), 1).contains(codeOf(run)));
    CHECK(textsOf(*view.facts(), 1).contains(text("170")));
    CHECK(textsOf(*view.notes(), 1).contains(text("stated, not observed")));

    CHECK_FALSE(hasKey(*view.keys(), "take")); // nobody read the valve yet
    view.press(text("take"));
    CHECK(site.two.holder(run) == site.one.device);
    view.chooseValve(0);
    view.press(text("take"));
    CHECK(app.page() == app::AppView::Page::Run);
    CHECK(site.two.tablet->shown()->id == run);
    CHECK(site.two.holder(run) == site.two.device);
    CHECK(view.code().isEmpty());
    site.clock.pass(4 * 60);
    site.two.read(160);

    site.two.sync(); // the broken one revives
    site.one.sync();
    CHECK(site.one.holder(run) == site.two.device);
    CHECK(site.one.run(run).facts.size() == site.two.run(run).facts.size());
    CHECK(site.one.app->run()->handsText().contains(text("Another tablet goes on with this run: tablet ")));
    site.one.read(158); // what somebody saw there is never refused
    CHECK(site.one.tablet->trouble().isEmpty());
    const auto& low = site.two.tablet->standing(site.two.run(run)).credit.turnovers;
    CHECK(low.low < low.best); // 29 minutes that nobody read
}

TEST_CASE("the valve that was read otherwise than logged is logged as from then on, in the name of who read it")
{
    TwoTablets site;
    const Id run = site.one.openRun();
    site.one.filter();
    site.one.sync();
    site.two.tablet->setPerson(1);
    app::TakeOverView& view = *site.two.app->takeOver();
    site.two.app->showTakeOver();
    view.takeCode(codeOf(run));
    view.press(text("ask"));
    site.hub.answerAll();
    view.chooseValve(1);
    view.press(text("take"));
    const auto& standing = site.two.tablet->standing(site.two.run(run));
    CHECK(standing.mode == run::Mode::Bypassing);
    CHECK(site.two.run(run).facts.back().header.person == site.two.tablet->personId());
    CHECK(std::ranges::any_of(site.two.run(run).facts, [](const run::Fact& fact) {
        return fact.effective == run::Event(run::CheckAnswered{"handover-valve", "bypassing"});
    }));
}

TEST_CASE("a sign that stands in no code, a wrong code and a lost power leave what was typed")
{
    TwoTablets site;
    app::TakeOverView* view = site.two.app->takeOver();
    site.two.app->showTakeOver();
    typeCode(*view, text("7K3"));
    view->type(text("U"));
    CHECK(view->code() == text("7K3"));
    CHECK(textsOf(*view->notes(), 1).contains(text("“U” is no code of a run")));
    view->takeCode(text("7K3M9QAB"));
    CHECK(view->code() == text("7K3"));
    CHECK(textsOf(*view->notes(), 1).contains(text("What was typed before stays")));
    typeCode(*view, text("OIL99")); // O is 0, I and L are 1, and there are no more than six
    CHECK(view->code() == text("7K3011"));
    CHECK(textsOf(*view->notes(), 1).contains(text("No run with the code 7K3011")));
    CHECK(view->valves()->rowCount() == 0);
    site.two.open();
    view = site.two.app->takeOver();
    site.two.app->showTakeOver();
    CHECK(view->code() == text("7K3011"));
    view->backspace();
    CHECK(view->code() == text("7K301"));
    CHECK(textsOf(*view->notes(), 1).contains(text("missing: 1")));
}

TEST_CASE("neither a run that is closed nor the tablet's own is taken over")
{
    TwoTablets site;
    const Id run = site.two.openRun();
    app::TakeOverView& view = *site.two.app->takeOver();
    site.two.app->showTakeOver();
    view.takeCode(codeOf(run));
    CHECK(textsOf(*view.notes(), 1).contains(text("goes on with this run")));
    CHECK(view.valves()->rowCount() == 0);
    const std::size_t before = site.two.run(run).facts.size();
    view.chooseValve(0);
    view.press(text("take"));
    CHECK(site.two.run(run).facts.size() == before);

    REQUIRE(site.two.tablet->submit(run::CloseRun{run, run::Ending::StoppedEarly, "over"}));
    CHECK(textsOf(*view.notes(), 1).contains(text("is closed and counts no more turnovers")));
    CHECK_FALSE(hasKey(*view.keys(), "take"));
    REQUIRE(hasKey(*view.keys(), "look"));
    view.press(text("look"));
    CHECK(site.two.app->page() == app::AppView::Page::Run);
    CHECK(site.two.tablet->shown()->id == run);
}

TEST_CASE("a run that somebody else took meanwhile is looked at again, and its valve read again, before it is taken")
{
    TwoTablets site;
    Floor three(3, site.clock, site.hub);
    const Id run = site.one.openRun();
    site.one.filter();
    site.one.sync();
    const auto find = [&](Floor& floor) {
        floor.app->showTakeOver();
        floor.app->takeOver()->takeCode(codeOf(run));
        floor.app->takeOver()->press(text("ask"));
        site.hub.answerAll();
        floor.app->takeOver()->chooseValve(0);
    };
    find(site.two);
    find(three);
    site.clock.pass(60);
    three.app->takeOver()->press(text("take"));
    three.sync();
    REQUIRE(hasKey(*site.two.app->takeOver()->keys(), "take"));
    site.two.sync();
    app::TakeOverView& view = *site.two.app->takeOver();
    CHECK(textsOf(*view.notes(), 1).contains(text("Meanwhile it went into other hands: tablet ")));
    CHECK_FALSE(hasKey(*view.keys(), "take"));
    view.press(text("take"));
    CHECK(site.two.holder(run) == three.device);
    site.clock.pass(60);
    view.chooseValve(0);
    view.press(text("take"));
    CHECK(site.two.holder(run) == site.two.device);
}

TEST_CASE("at one tablet the run is the other person's once both said so, with the valve read by who takes it")
{
    TwoTablets site;
    const Id run = site.one.openRun();
    site.one.filter();
    site.clock.pass(120);
    site.one.read(170);
    app::AppView& app = *site.one.app;
    app.showHandOn();
    app::HandOnView& view = *app.handOn();
    const auto& people = site.one.tablet->site().people;
    CHECK(textsOf(*view.facts(), 1).contains(text("170")));
    CHECK(textsOf(*view.facts(), 1).contains(text("Nothing of a permit is logged here")));
    CHECK_FALSE(hasKey(*view.keys(), "hand"));
    view.chooseReceiver(0);
    view.press(text("hand"));
    REQUIRE(ledger::handsOf(site.one.run(run)).offered);
    CHECK(app.run()->handsText().contains(text("not taken on yet")));
    CHECK(view.receivers()->rowCount() == 0);
    view.press(text("take")); // without a valve
    CHECK(site.one.tablet->personId() == people[0].id);
    CHECK(view.valves()->rowCount() == 3);
    view.chooseValve(0);
    view.press(text("take"));
    CHECK(site.one.tablet->personId() == people[1].id);
    const ledger::Hands hands = ledger::handsOf(site.one.run(run));
    CHECK(hands.how == ledger::Hands::How::Taken);
    CHECK(hands.since.person == people[1].id);
    CHECK_FALSE(hands.offered);
    CHECK(app.page() == app::AppView::Page::Run);
    CHECK(app.run()->handsText().isEmpty());
    CHECK(site.one.tablet->standing(site.one.run(run)).mode == run::Mode::Filtering);
}

TEST_CASE("what was handed on and not taken can be kept, and that stands in the record")
{
    TwoTablets site;
    const Id run = site.one.openRun();
    app::HandOnView& view = *site.one.app->handOn();
    site.one.app->showHandOn();
    view.chooseReceiver(0);
    view.press(text("hand"));
    view.press(text("keep"));
    CHECK_FALSE(ledger::handsOf(site.one.run(run)).offered);
    CHECK(site.one.run(run).facts.front().struck);
    CHECK(view.receivers()->rowCount() > 0);
}

TEST_CASE("with nobody to take it on the pump is asked for, and nothing is taken for granted")
{
    TwoTablets site;
    const Id run = site.one.openRun();
    site.one.filter();
    app::HandOnView& view = *site.one.app->handOn();
    site.one.app->showHandOn();
    const std::size_t before = site.one.run(run).facts.size();
    view.chooseReceiver(view.receivers()->rowCount() - 1);
    CHECK(textsOf(*view.notes(), 1).contains(text("is not taken for granted")));
    CHECK_FALSE(hasKey(*view.keys(), "hand"));
    view.press(text("stay"));
    CHECK(site.one.run(run).facts.size() == before);
    CHECK(site.one.app->page() == app::AppView::Page::Run);
    site.one.app->showHandOn();
    view.chooseReceiver(view.receivers()->rowCount() - 1);
    view.press(text("stop"));
    CHECK(site.one.tablet->standing(site.one.run(run)).mode == run::Mode::Stopped);
    CHECK(site.one.run(run).phase != run::Phase::Closed);
    view.chooseReceiver(view.receivers()->rowCount() - 1);
    CHECK(textsOf(*view.notes(), 1).contains(text("The run stays open")));
    CHECK_FALSE(hasKey(*view.keys(), "stop"));
}

TEST_CASE("a run that is handed to a tablet stands on its shift, and is its own once somebody there takes it on")
{
    TwoTablets site;
    const Id other = site.two.openRun(1); // so that the first one knows of the second
    site.two.filter();
    site.two.sync();
    const Id run = site.one.openRun(1);
    site.one.filter();
    site.one.sync();
    REQUIRE(site.one.tablet->state().runOf(other) != nullptr);
    site.one.tablet->show(run);
    app::HandOnView& view = *site.one.app->handOn();
    site.one.app->showHandOn();
    const QString names = textsOf(*view.receivers(), 0);
    const auto row = names.split(QLatin1Char('\n')).indexOf(QRegularExpression(QStringLiteral("^tablet .*")));
    REQUIRE(row >= 0);
    view.chooseReceiver(static_cast<int>(row));
    view.press(text("hand"));
    CHECK(textsOf(*view.notes(), 1).contains(codeOf(run)));
    CHECK(site.one.holder(run) == site.one.device);
    site.one.sync();
    site.two.sync();
    app::AppView& app = *site.two.app;
    const int place = workSaying(app, "handed to this tablet");
    REQUIRE(place >= 0);
    app.shift()->open(place);
    CHECK(app.page() == app::AppView::Page::TakeOver);
    CHECK(app.takeOver()->isOffered());
    app.takeOver()->chooseValve(0);
    app.takeOver()->press(text("take"));
    CHECK(site.two.holder(run) == site.two.device);
    CHECK(ledger::handsOf(site.two.run(run)).how == ledger::Hands::How::Accepted);
    CHECK(workSaying(app, "handed to this tablet") == -1);
    site.two.sync();
    site.one.sync();
    CHECK(site.one.holder(run) == site.two.device);
    site.one.app->showHandOn();
    CHECK(textsOf(*view.notes(), 1).contains(text("take it over first")));
}

TEST_CASE("one cleaning that two tablets wrote down is asked about, and as one comes to no more than its time")
{
    TwoTablets site;
    const Id one = site.one.openRun();
    site.one.filter();
    site.clock.pass(60);
    const Id two = site.two.openRun();
    site.two.filter();
    for (int i = 0; i < 4; ++i) {
        site.clock.pass(10 * 60);
        site.one.read(170);
        site.two.read(170);
    }
    site.one.sync();
    site.two.sync();
    site.one.sync();
    REQUIRE(site.one.tablet->state().runOf(two) != nullptr);
    REQUIRE(site.one.run(two).facts.size() == site.two.run(two).facts.size());
    app::AppView& app = *site.one.app;
    const double alone = site.one.tablet->turnovers(site.one.run(one)).best;
    const double other = site.one.tablet->turnovers(site.one.run(two)).best;
    const int place = workSaying(app, "one run or two?");
    REQUIRE(place >= 0);
    app.shift()->open(place);
    CHECK(app.page() == app::AppView::Page::Link);
    CHECK(textsOf(*app.link()->notes(), 1).contains(text("Two runs of one cart at one tank")));
    app.link()->press(text("one"));
    CHECK(app.page() == app::AppView::Page::Shift);
    CHECK(workSaying(app, "one run or two?") == -1);
    site.one.tablet->show(one);
    const double together = app.run()->turnoversBest();
    CHECK(together >= std::max(alone, other) - 1e-9);
    CHECK(together < alone + other - 1);
    CHECK(app.run()->handsText().contains(text("One with ") + codeOf(two)));
    CHECK(app.shift()->work()->rows()[0][1].toString().contains(text("one with")));
    site.one.tablet->show(two);
    CHECK(app.run()->turnoversBest() == Approx(together));

    site.one.sync();
    site.two.sync();
    site.two.tablet->show(two);
    CHECK(site.two.app->run()->turnoversBest() == Approx(together));
    CHECK(workSaying(*site.two.app, "one run or two?") == -1);

    site.clock.pass(60);
    site.two.app->showHandOn();
    site.two.app->handOn()->press(text("link"));
    CHECK(site.two.app->page() == app::AppView::Page::Link);
    CHECK(textsOf(*site.two.app->link()->notes(), 1).contains(text("Both together")));
    site.two.app->link()->press(text("two"));
    CHECK(site.two.app->run()->turnoversBest() == Approx(other));
    site.two.sync();
    site.one.sync();
    site.one.tablet->show(one);
    CHECK(app.run()->turnoversBest() == Approx(alone));
}

TEST_CASE("where two people wrote down different things, both are told with who said them")
{
    TwoTablets site;
    const Id one = site.one.openRun();
    site.one.filter();
    site.two.tablet->setPerson(1);
    const Id two = site.two.openRun();
    site.two.filter();
    site.clock.pass(10 * 60);
    site.one.read(170);
    REQUIRE(site.two.tablet->say(run::Said(run::ModeChanged{run::Mode::Bypassing, std::nullopt})));
    site.clock.pass(10 * 60);
    site.one.read(170);
    site.two.read(170);
    site.one.sync();
    site.two.sync();
    site.one.sync();
    app::AppView& app = *site.one.app;
    app.shift()->open(workSaying(app, "one run or two?"));
    app.link()->press(text("one"));
    app.link()->openOf(one);
    const QString notes = textsOf(*app.link()->notes(), 1);
    CHECK(notes.contains(text("says filtering")));
    CHECK(notes.contains(codeOf(one)));
    CHECK(notes.contains(codeOf(two)));
    CHECK(notes.contains(QString::fromStdString(site.one.tablet->site().people[0].name)));
    CHECK(notes.contains(QString::fromStdString(site.one.tablet->site().people[1].name)));
}
