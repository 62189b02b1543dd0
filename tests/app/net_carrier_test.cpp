// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// Tablets hand over to the real hub by HTTPS, as they do on the floor, through a network that cuts, garbles, delays and
// swallows what they say.

#include "app/net_carrier.h"

#include "app/fault_proxy.h"
#include "handover/desk.h"
#include "handover/handover.h"
#include "hub/held_by.h"
#include "ledger/read_all.h"
#include "store/sqlite_journal.h"
#include "store/system_clock.h"
#include "store/temp_folder.h"

#include <QCoreApplication>
#include <QDeadlineTimer>
#include <QTimer>

#include <algorithm>
#include <array>
#include <bit>
#include <csignal>

using namespace loopside;
using namespace loopside::test;
using handover::Handover;
using handover::Patience;

namespace {

/// The program that sockets and timers want.
void theProgram()
{
    static int words = 1;
    static char name[] = "test_net_carrier";
    static char* arguments[] = {name, nullptr};
    // Never taken down: at the end of the program parts of Qt that it needs for that are gone before it.
    [[maybe_unused]] static const auto* const program = new QCoreApplication(words, arguments);
}

/// Handles events until `isSo`; false where it does not become so.
template<class IsSo>
bool waitUntil(IsSo isSo, int ms = 120'000)
{
    QTimer wakes; // else an event would be waited for that never comes
    wakes.start(5);
    const QDeadlineTimer until(ms);
    while (!isSo() && !until.hasExpired()) {
        QCoreApplication::processEvents(QEventLoop::WaitForMoreEvents);
    }
    return isSo();
}

/// The clock of the machine, as if more time had passed for those who wait.
class SkippingClock final : public Clock
{
public:
    Stamp now() override
    {
        Stamp stamp = clock_.now();
        stamp.monoNs += skippedNs_;
        return stamp;
    }
    void skip(std::uint64_t seconds) { skippedNs_ += seconds * 1'000'000'000; }

private:
    store::SystemClock clock_;
    std::uint64_t skippedNs_ = 0;
};

sync::Nonce someNonce()
{
    store::SystemRandom random;
    return std::bit_cast<sync::Nonce>(std::array{random.next(), random.next()});
}

/// A tablet with its journal on disk, whose way to the hub is the one of the program.
class Tablet
{
public:
    explicit Tablet(std::uint8_t number) : number_{number}, key_{Recorder::keyOf(number)}
    {
        theProgram();
        start();
    }

    /// As a start of the program does; what was under way is gone.
    void start()
    {
        handover_.reset();
        carrier_.reset();
        desk_.reset();
        journal_ = *store::SqliteJournal::open(folder_.file("journal.db"));
        desk_ = std::make_unique<Desk>(number_, writing_, journal_.get(), ledger::Reach::Whole);
        joined_ = std::make_unique<handover::JoinedJournal>(*journal_);
        carrier_ = std::make_unique<app::NetCarrier>();
        handover_ = *Handover::open({folder_.file("journal.db"),
                                     *journal_,
                                     *joined_,
                                     {},
                                     folder_.file("site.hub"),
                                     desk_->hand.device,
                                     key_,
                                     "tablet " + std::to_string(number_),
                                     clock,
                                     *carrier_,
                                     someNonce});
    }

    void enrol(const std::string& address, const std::string& code)
    {
        handover_->enrol(address, *sync::enrolmentCodeFrom(code));
        REQUIRE(waitUntil([&] { return !isUnderWay(); }));
        CAPTURE(trouble());
        REQUIRE(isAllThere());
    }

    /// A run with notes, and a record that concerns every tablet.
    void write(int notes)
    {
        const Id run = desk_->openRun("PH-3");
        for (int i = 0; i < notes; ++i) {
            desk_->tell(run::Say{run, run::Noted{"note " + std::to_string(i) + std::string(150, '.')}});
        }
        desk_->putTank("tank of " + std::to_string(number_), std::to_string(100 + ++tanks_));
    }

    /// One second on the floor.
    void tick() { handover_->tick(); }

    /// As a person does who wants it at once; until the round came to an end.
    void round()
    {
        handover_->begin();
        REQUIRE(waitUntil([&] { return !isUnderWay(); }));
    }
    void beginRound() { handover_->begin(); }

    [[nodiscard]] bool isUnderWay() const { return handover_->standing().isUnderWay; }
    [[nodiscard]] bool isAllThere() const { return trouble().empty() && handover_->standing().waiting == 0; }
    [[nodiscard]] std::string trouble() const
    {
        const auto trouble = handover_->standing().trouble;
        return trouble ? trouble->id : std::string();
    }
    [[nodiscard]] Id site() const { return handover_->hub()->site.id; }
    [[nodiscard]] const Id& device() const { return desk_->hand.device; }
    [[nodiscard]] int tanks() const { return tanks_; }

    [[nodiscard]] std::vector<ledger::Entry> entries() const { return entriesOf(*journal_); }

    /// What it holds of other tablets.
    [[nodiscard]] std::vector<ledger::Entry> others() const
    {
        auto all = entriesOf(*joined_);
        std::erase_if(all, [&](const ledger::Entry& entry) { return entry.header.device == desk_->hand.device; });
        return all;
    }

    SkippingClock clock;

private:
    [[nodiscard]] static std::vector<ledger::Entry> entriesOf(const ledger::Journal& journal)
    {
        std::vector<ledger::Entry> entries;
        REQUIRE(ledger::readAll(journal, [&](const ledger::Stored& stored) -> Done {
            entries.push_back(stored.entry);
            return {};
        }));
        return entries;
    }

    std::uint8_t number_;
    TempFolder folder_;
    ledger::DeviceKey key_;
    SteppedClock writing_;
    std::unique_ptr<store::SqliteJournal> journal_;
    std::unique_ptr<Desk> desk_;
    std::unique_ptr<handover::JoinedJournal> joined_;
    std::unique_ptr<app::NetCarrier> carrier_;
    std::unique_ptr<Handover> handover_;
    int tanks_ = 0;
};

/// Each tank that the other one put, once.
void checkHasTanksOf(const Tablet& other, const Tablet& tablet)
{
    const auto others = tablet.others();
    const auto tanks = std::ranges::count(others, "tank-put", &ledger::Entry::kind);
    CHECK(tanks == other.tanks());
}

struct Drawn
{
    Fault fault = Fault::Nothing;
    qint64 after = 0;
};

Drawn drawn(RandomSource& random)
{
    constexpr std::array faults = {Fault::CutThere, Fault::CutBack,    Fault::TurnedThere, Fault::TurnedBack,
                                   Fault::CutBack,  Fault::TurnedBack, Fault::Nonsense,    Fault::Away,
                                   Fault::Slow,     Fault::Nothing};
    constexpr std::array<std::uint64_t, 3> ends = {1'000, 6'000, 60'000}; // a handshake has some 2000
    const Fault fault = faults[random.next() % faults.size()];
    return {fault, static_cast<qint64>(random.next() % ends[random.next() % ends.size()])};
}

} // namespace

TEST_CASE("through a network that cuts and garbles nothing is lost and nothing is doubled")
{
    Tablet one(1);
    Tablet two(2);
    const std::array<Tablet*, 2> tablets = {&one, &two};
    HubProgram hub;
    hub.start();
    FaultProxy proxy(hub.port());
    for (Tablet* tablet : tablets) {
        tablet->enrol(proxy.address(), hub.code());
    }
    SeededRandom random(1);
    int cutShort = 0;
    for (int round = 0; round < 60; ++round) {
        Tablet& tablet = *tablets[random.next() % 2];
        tablet.write(static_cast<int>(random.next() % 60));
        const auto [fault, after] = drawn(random);
        proxy.set(fault, after);
        CAPTURE(round, int(fault), after);
        if (round % 10 == 4) { // the tablet's program ends in the middle of it
            tablet.beginRound();
            waitUntil([] { return false; }, static_cast<int>(random.next() % 60));
            tablet.start();
        } else if (round % 10 == 9) { // the hub's does
            tablet.beginRound();
            waitUntil([] { return false; }, static_cast<int>(random.next() % 60));
            hub.end(SIGKILL);
            CHECK(waitUntil([&] { return !tablet.isUnderWay(); }));
            hub.start();
            proxy.leadTo(hub.port());
        } else {
            tablet.round();
            cutShort += tablet.isAllThere() ? 0 : 1;
            CHECK((tablet.isAllThere() || tablet.trouble() == "handover.nobody"));
        }
    }
    CHECK(proxy.fallen() > 15);
    CHECK(cutShort > 15); // else nothing was tried

    proxy.set(Fault::Nothing);
    for (Tablet* tablet : {&one, &two, &one}) { // the first once more: what the second had to say
        tablet->clock.skip(Patience::mostS);
        tablet->tick();
        CHECK(waitUntil([&] { return !tablet->isUnderWay(); }));
        CHECK(tablet->isAllThere());
    }
    CHECK(hub.end(SIGTERM) == 0);
    for (const Tablet* tablet : tablets) {
        const bool isSame = heldBy(hub, tablet->site(), tablet->device()) == tablet->entries();
        CHECK(isSame);
    }
    checkHasTanksOf(two, one);
    checkHasTanksOf(one, two);
}

TEST_CASE("whatever the network does, a handover goes on by itself when it is over")
{
    const auto [fault, after] = GENERATE(table<Fault, qint64>({{Fault::Away, 0},
                                                               {Fault::Nonsense, 0},
                                                               {Fault::CutThere, 100},
                                                               {Fault::CutThere, 3'000},
                                                               {Fault::CutBack, 100},
                                                               {Fault::CutBack, 600},
                                                               {Fault::TurnedThere, 100},
                                                               {Fault::TurnedThere, 3'000},
                                                               {Fault::TurnedBack, 100},
                                                               {Fault::TurnedBack, 600}}));
    CAPTURE(int(fault), after);
    Tablet tablet(1);
    HubProgram hub;
    hub.start();
    FaultProxy proxy(hub.port());
    tablet.enrol(proxy.address(), hub.code());
    tablet.write(40);
    proxy.set(fault, after);
    for (int minute = 0; minute < 60; ++minute) {
        tablet.clock.skip(60);
        tablet.tick();
        REQUIRE(waitUntil([&] { return !tablet.isUnderWay(); }));
        CHECK(tablet.trouble() == "handover.nobody");
        CHECK_FALSE(tablet.isAllThere());
    }
    proxy.set(Fault::Nothing);
    for (std::uint64_t second = 0; second < Patience::mostS && !tablet.isAllThere(); second += 10) {
        tablet.clock.skip(10);
        tablet.tick();
        REQUIRE(waitUntil([&] { return !tablet.isUnderWay(); }));
    }
    CHECK(tablet.isAllThere());
    CHECK(hub.end(SIGTERM) == 0);
    const bool isSame = heldBy(hub, tablet.site(), tablet.device()) == tablet.entries();
    CHECK(isSame);
}

TEST_CASE("a slow network hinders nothing, and one that says nothing any more is given up after half a minute")
{
    Tablet tablet(1);
    HubProgram hub;
    hub.start();
    FaultProxy proxy(hub.port());
    tablet.enrol(proxy.address(), hub.code());
    tablet.write(300); // more than one message may have
    proxy.set(Fault::Slow);
    tablet.round();
    INFO(tablet.trouble());
    CHECK(tablet.isAllThere());
    tablet.write(10);
    proxy.set(Fault::Silent, 2'500);
    tablet.round();
    CHECK(tablet.trouble() == "handover.nobody");
    CHECK(proxy.fallen() == 1);
    proxy.set(Fault::Nothing);
    tablet.round();
    CHECK(tablet.isAllThere());
    CHECK(hub.end(SIGTERM) == 0);
    const bool isSame = heldBy(hub, tablet.site(), tablet.device()) == tablet.entries();
    CHECK(isSame);
}
