// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "sync/world.h"

#include "ledger/body.h"
#include "ledger/handed.h"
#include "ledger/memory_journal.h"
#include "ledger/read_all.h"
#include "ledger/sealer.h"
#include "ledger/some_setup.h"
#include "run/run_code.h"
#include "sync/hub_side.h"
#include "sync/journal_shelf.h"
#include "sync/memory_hub.h"
#include "sync/precedence.h"
#include "sync/tablet_side.h"
#include "sync/wire.h"

#include <algorithm>
#include <array>
#include <deque>
#include <memory>
#include <set>

namespace loopside::test {

namespace {

using namespace loopside::sync;
using ledger::Entry;
using ledger::Hash;

constexpr std::int64_t minuteMs = 60'000;
constexpr std::array<std::string_view, 3> tanks = {"PH-3", "winder gearbox", "dryer"};

class Dice
{
public:
    explicit Dice(std::uint64_t seed) : random_{seed} {}

    /// From 0 to below `end`.
    std::size_t below(std::size_t end) { return static_cast<std::size_t>(random_.next() % end); }
    bool once(std::size_t in) { return below(in) == 0; }
    RandomSource& source() { return random_; }

    Id id()
    {
        Id id;
        std::ranges::generate(id.bytes, [&] { return static_cast<std::uint8_t>(below(256)); });
        return id;
    }

private:
    SeededRandom random_;
};

ledger::DeviceKey keyOf(std::uint8_t number)
{
    ledger::Seed seed = {};
    seed.fill(number);
    return ledger::DeviceKey::fromSeed(seed);
}

Id deviceOf(std::uint8_t number)
{
    Id id;
    id.bytes[0] = 0xD0;
    id.bytes[15] = number;
    return id;
}

std::vector<Entry> entriesOf(const ledger::Journal& journal)
{
    std::vector<Entry> entries;
    static_cast<void>(ledger::readAll(journal, [&](const ledger::Stored& stored) -> Done {
        entries.push_back(stored.entry);
        return {};
    }));
    return entries;
}

/// What of a tablet outlives its program.
struct Disk
{
    std::unique_ptr<ledger::MemoryJournal> journal = std::make_unique<ledger::MemoryJournal>();
    std::unique_ptr<MemoryShelf> foreign = std::make_unique<MemoryShelf>(MemoryShelf::Keeps::Singly);
    Progress progress = {};
};

class World
{
public:
    World(std::uint64_t seed, Planted planted, const StoreOf& storeOf)
        : seed_{seed}, planted_{planted}, dice_{seed}, ids_{dice_.source()}
    {
        site_ = {dice_.id(), keyOf(99).publicKey()};
        settings_ = {site_.id, dice_.id(), [this](const Id& device) {
                         const auto number = device.bytes[15];
                         return number < tablets_.size() ? std::optional(keyOf(number).publicKey()) : std::nullopt;
                     }};
        store_ = storeOf(site_.id);
        hub_ = std::make_unique<HubSide>(settings_, *store_, keyOf(99));
        result_.tablets = 2 + dice_.below(4);
        for (std::uint8_t number = 0; number < result_.tablets; ++number) {
            tablets_.push_back(std::make_unique<Tablet>());
            begin(*tablets_.back(), number);
        }
    }

    Synced run()
    {
        for (int step = 0; step < 400; ++step) {
            nowMs_ += static_cast<std::int64_t>(dice_.below(static_cast<std::size_t>(minuteMs)));
            stepOf(*tablets_[dice_.below(tablets_.size())]);
        }
        heal();
        check();
        return result_;
    }

private:
    struct Tablet
    {
        std::uint8_t number = 0;
        Disk disk = {};
        std::unique_ptr<JournalShelf> own = {};
        std::unique_ptr<TabletSide> side = {};
        std::optional<ledger::Sealer> sealer = {};
        std::set<Topic> interest = {};
        std::int64_t skewMs = 0;
        bool isCut = false;
        std::deque<std::string> toHub = {};
        std::deque<std::string> toTablet = {};
    };

    void fault(const std::string& what)
    {
        if (result_.firstFault.empty()) {
            result_.firstFault = "seed " + std::to_string(seed_) + ": " + what;
        }
    }

    template<class T>
    T must(Result<T> result, const std::string& what)
    {
        if (!result) {
            fault(what + ": " + result.error().sentence);
            return {};
        }
        return *std::move(result);
    }

    void begin(Tablet& tablet, std::uint8_t number)
    {
        tablet.number = number;
        constexpr std::array<std::int64_t, 5> skewsMin = {0, -90, 30, 61, 300};
        tablet.skewMs = skewsMin[dice_.below(skewsMin.size())] * minuteMs;
        tablet.interest = {Topic::catalogue(), Topic::learned(), Topic::handedTo(deviceOf(number))};
        tablet.interest.insert(Topic::tank(tanks[dice_.below(tanks.size())]));
        reopen(tablet);
        openChain(tablet);
    }

    /// As a program does at its start: from what is on disk.
    void reopen(Tablet& tablet)
    {
        auto own = JournalShelf::open(*tablet.disk.journal, [](const Entry&) -> Done { return {}; });
        tablet.side.reset();
        tablet.own = std::move(*own);
        tablet.side = std::make_unique<TabletSide>(site_, deviceOf(tablet.number), *tablet.own,
                                                   std::vector<ledger::Loss>(), tablet.interest, tablet.disk.progress);
    }

    /// A chain behind the one that the device has, if it has one.
    void openChain(Tablet& tablet)
    {
        const auto head = tablet.disk.journal->head(deviceOf(tablet.number)).value();
        const auto parent = head ? std::optional(ledger::ParentChain{head->chain, head->last}) : std::nullopt;
        tablet.sealer = ledger::Sealer::startChain(deviceOf(tablet.number), dice_.id(), keyOf(tablet.number), parent);
        write(tablet, {tablet.sealer->chainOpened()});
    }

    void write(Tablet& tablet, const std::vector<ledger::Draft>& drafts)
    {
        const Stamp stamp{nowMs_ + tablet.skewMs, 0, 0, {}};
        const auto entries = tablet.sealer->seal(drafts, stamp, deviceOf(tablet.number), ids_);
        must(tablet.disk.journal->append(entries), "a tablet cannot write");
        tablet.sealer->accept(entries);
        must(tablet.own->refresh().transform([] { return 0; }), "a tablet cannot read");
        for (const Entry& entry : entries) {
            written_[entry.hash] = entry;
        }
    }

    [[nodiscard]] run::TankRecord someTank()
    {
        run::TankRecord tank = bareSetup().tank;
        tank.name = tanks[dice_.below(tanks.size())];
        return tank;
    }

    void writeSomething(Tablet& tablet)
    {
        const auto draft = [](const run::Event& event, const Id& run) {
            return ledger::Draft{std::string(ledger::kindOf(event)), ledger::bodyOf(event), run};
        };
        if (runs_.empty() || dice_.once(6)) {
            runs_.push_back(dice_.id());
            run::Setup setup = bareSetup();
            setup.tank = someTank();
            return write(tablet, {draft(run::RunOpened{setup, {}}, runs_.back())});
        }
        const Id run = runs_[dice_.below(runs_.size())]; // of any tablet: it may come before what opened it
        switch (dice_.below(7)) {
        case 4:
            return write(tablet, {draft(ledger::handoverTo(deviceOf(static_cast<std::uint8_t>(dice_.below(5)))), run)});
        case 0:
            return write(tablet, {draft(run::RunMoved{someTank(), "wrong tag"}, run)});
        case 1:
            return write(tablet, {draft(run::TankPut{someTank()}, {})});
        case 2:
            return write(tablet, {draft(run::ModeChanged{run::Mode::Filtering}, run)});
        case 3:
            return write(tablet, {{"of-a-later-version", "\xFF\x00 not text", run}});
        default:
            return write(tablet,
                         {draft(run::Noted{"35 °C " + std::to_string(dice_.below(100))}, run),
                          draft(run::SignsSeen{{"foam"}}, run)});
        }
    }

    void stepOf(Tablet& tablet)
    {
        switch (dice_.below(16)) {
        case 0:
        case 1:
        case 2:
            return writeSomething(tablet);
        case 3:
            tablet.isCut = !tablet.isCut;
            return;
        case 4:
            return restart(tablet);
        case 5:
            return dice_.once(6) ? restore(tablet) : tablet.side->beginRound();
        case 6:
            tablet.interest.insert(dice_.once(2) || runs_.empty()
                                       ? Topic::tank(tanks[dice_.below(tanks.size())])
                                       : Topic::code(run::codeOf(runs_[dice_.below(runs_.size())])));
            return tablet.side->setInterest(tablet.interest);
        case 7:
            hub_ = std::make_unique<HubSide>(settings_, *store_, keyOf(99));
            return;
        case 8:
        case 9:
        case 10:
            return say(tablet);
        default:
            return dice_.once(2) ? toHub(tablet) : toTablet(tablet);
        }
    }

    void restart(Tablet& tablet)
    {
        ++result_.restarts;
        if (dice_.once(8)) {
            tablet.disk.progress = {}; // costs time, never an entry
        }
        reopen(tablet);
    }

    void restore(Tablet& tablet)
    {
        ++result_.restores;
        std::vector<Entry> entries = entriesOf(*tablet.disk.journal);
        entries.resize(1 + dice_.below(entries.size()));
        tablet.disk.journal = std::make_unique<ledger::MemoryJournal>();
        must(tablet.disk.journal->append(entries), "an older copy cannot be made");
        tablet.disk.progress = {};
        reopen(tablet);
        if (dice_.once(3)) {
            ++result_.forks;
            const auto head = tablet.disk.journal->head(deviceOf(tablet.number)).value();
            tablet.sealer = ledger::Sealer::continueChain(*head, keyOf(tablet.number)).value();
            return;
        }
        openChain(tablet);
    }

    void say(Tablet& tablet)
    {
        const auto message = must(tablet.side->say(), "a tablet has nothing to say");
        if (!message) {
            return tablet.side->beginRound();
        }
        post(tablet.toHub, bytesOf(*message), tablet.isCut);
    }

    /// Onto the way, where it may get lost or double.
    void post(std::deque<std::string>& way, std::string bytes, bool isCut)
    {
        ++result_.messages;
        if (isCut || dice_.once(8)) {
            ++result_.lost;
            return;
        }
        if (dice_.once(8)) {
            ++result_.doubled;
            way.push_back(bytes);
        }
        way.push_back(std::move(bytes));
    }

    /// Off the way: mostly the first, sometimes any.
    std::optional<std::string> take(std::deque<std::string>& way)
    {
        if (way.empty()) {
            return std::nullopt;
        }
        const std::size_t place = dice_.once(3) ? dice_.below(way.size()) : 0;
        std::string bytes = std::move(way[place]);
        way.erase(way.begin() + static_cast<std::ptrdiff_t>(place));
        return bytes;
    }

    void toHub(Tablet& tablet)
    {
        const auto bytes = take(tablet.toHub);
        if (!bytes) {
            return;
        }
        const auto answer = messageFrom(*bytes).and_then(
            [&](const sync::Message& said) { return hub_->hear(said, nowMs_); });
        if (!answer) {
            fault("the hub refuses a message: " + answer.error().sentence);
            return;
        }
        post(tablet.toTablet, bytesOf(*answer), tablet.isCut);
    }

    void toTablet(Tablet& tablet)
    {
        const auto bytes = take(tablet.toTablet);
        if (!bytes) {
            return;
        }
        const auto heard = messageFrom(*bytes).and_then(
            [&](const sync::Message& said) { return tablet.side->hear(said); });
        if (!heard) {
            fault("a tablet refuses a message: " + heard.error().sentence);
            return;
        }
        if (planted_ == Planted::HastyTablet && dice_.once(4)) {
            tablet.side->accept(*heard);
            return;
        }
        must(tablet.disk.foreign->put(heard->entries, {}), "a tablet cannot store");
        if (dice_.once(20)) {
            return restart(tablet); // between the two
        }
        tablet.disk.progress = heard->progress;
        tablet.side->accept(*heard);
        for (const auto& [chain, receipt] : heard->progress.receipts) {
            receipts_[receipt.mark.hash] = receipt.mark;
        }
        if (heard->forked.contains(tablet.sealer->chain())) {
            openChain(tablet);
        }
    }

    /// Everything that is under way is lost, then each tablet talks until nothing is left to say, twice: what one hands
    /// over last concerns the others.
    void heal()
    {
        for (int round = 0; round < 3; ++round) {
            for (const auto& tablet : tablets_) {
                tablet->toHub.clear();
                tablet->toTablet.clear();
                tablet->side->beginRound();
                talk(*tablet);
            }
        }
    }

    void talk(Tablet& tablet)
    {
        for (int said = 0; said < 2000; ++said) {
            nowMs_ += 1000;
            const auto message = must(tablet.side->say(), "a tablet has nothing to say");
            if (!message) {
                return;
            }
            tablet.toHub.push_back(bytesOf(*message));
            while (!tablet.toHub.empty()) {
                toHub(tablet); // may be lost on the way back: said again
            }
            tablet.isCut = false;
            while (!tablet.toTablet.empty()) {
                toTablet(tablet);
            }
        }
        fault("a tablet never ends its round");
    }

    void check()
    {
        result_.entries = written_.size();
        for (const auto& tablet : tablets_) {
            checkHandedOver(*tablet);
            checkInterest(*tablet);
        }
        for (const auto& [hash, mark] : receipts_) {
            if (!isAtHub(mark.chain, mark.sequence, hash)) {
                fault("the hub acknowledged entry " + std::to_string(mark.sequence) + " and does not have it");
            }
        }
        checkHub();
        if (planted_ == Planted::ForgottenEntry && !isAtHub(deviceOf(0), 1, {})) {
            fault("the hub does not have the entry that nobody wrote");
        }
    }

    [[nodiscard]] bool isAtHub(const Id& chain, std::uint64_t sequence, const Hash& hash)
    {
        const auto held = must(store_->at(chain, sequence), "the hub cannot read");
        const auto asides = must(store_->asides(chain), "the hub cannot read");
        return (held && held->entry.hash == hash) || std::ranges::find(asides, hash, &Entry::hash) != asides.end();
    }

    void checkHandedOver(Tablet& tablet)
    {
        for (const Entry& entry : entriesOf(*tablet.disk.journal)) {
            if (!isAtHub(entry.chain, entry.header.sequence, entry.hash)) {
                fault("entry " + std::to_string(entry.header.sequence) + " of tablet " + std::to_string(tablet.number)
                      + " is not at the hub");
            }
        }
    }

    /// The tablet has what the hub lists of its interest, bit for bit, in its journal or beside it; and nothing twice.
    void checkInterest(Tablet& tablet)
    {
        for (const Topic& topic : tablet.interest) {
            const auto listed = must(store_->list(topic, 0, 100'000), "the hub cannot list");
            if (std::set<Ref>(listed.refs.begin(), listed.refs.end()).size() != listed.refs.size()) {
                fault("something is listed twice under " + topic.name);
            }
            for (const Ref& ref : listed.refs) {
                const auto hubs = must(store_->at(ref.chain, ref.sequence), "the hub cannot read");
                const auto own = must(tablet.own->at(ref.chain, ref.sequence), "a tablet cannot read");
                const auto foreign = must(tablet.disk.foreign->at(ref.chain, ref.sequence), "a tablet cannot read");
                const bool isThere = (own && own->entry == hubs->entry) || (foreign && *foreign == *hubs);
                const bool isForeign = ref.device != deviceOf(tablet.number);
                if (!isThere) {
                    fault("tablet " + std::to_string(tablet.number) + " lacks an entry of the topic " + topic.name
                          + (isForeign ? "" : ", one of its own that an older copy took from it"));
                }
            }
        }
        for (const Tip& tip : must(tablet.disk.foreign->tips(), "a tablet cannot read")) {
            if (!must(tablet.disk.foreign->asides(tip.chain), "a tablet cannot read").empty()) {
                fault("a tablet was given two entries for one place");
            }
        }
    }

    /// The hub has nothing that nobody wrote, and marks what ran ahead.
    void checkHub()
    {
        for (const Tip& tip : must(store_->tips(), "the hub cannot read")) {
            for (const Held& held : must(store_->behind(tip.chain, 0, 100'000), "the hub cannot read")) {
                const auto written = written_.find(held.entry.hash);
                if (written == written_.end() || written->second != held.entry) {
                    fault("the hub has an entry that nobody wrote");
                }
                result_.ahead += held.isAhead ? 1 : 0;
            }
            result_.keptAside += must(store_->asides(tip.chain), "the hub cannot read").size();
        }
    }

    std::uint64_t seed_;
    Planted planted_;
    Dice dice_;
    IdMaker ids_;
    Site site_ = {};
    HubSettings settings_ = {};
    std::unique_ptr<HubStore> store_ = {};
    std::unique_ptr<HubSide> hub_ = {};
    std::vector<std::unique_ptr<Tablet>> tablets_ = {};
    std::vector<Id> runs_ = {};
    std::map<Hash, Entry> written_ = {};
    std::map<Hash, Mark> receipts_ = {};
    std::int64_t nowMs_ = 1'751'958'400'000;
    Synced result_ = {};
};

} // namespace

std::unique_ptr<HubStore> memoryStore(const Id& /*site*/)
{
    return std::make_unique<MemoryHub>();
}

Synced synchronise(std::uint64_t seed, Planted planted, const StoreOf& storeOf)
{
    return World(seed, planted, storeOf).run();
}

} // namespace loopside::test
