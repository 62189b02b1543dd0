// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// What a hub holds, folded as it comes in: the same at all times as a fold from nothing, whatever comes late, in
// another order, with a clock that is wrong, into a gap, withdrawn or struck. The order that it is held against is that
// of sync/precedence.h.

#include "sync/live_fold.h"

#include "ledger/body.h"
#include "ledger/fold.h"
#include "ledger/fold_check.h"
#include "ledger/sealer.h"
#include "ledger/settled.h"
#include "ledger/some_setup.h"
#include "sync/memory_hub.h"
#include "sync/precedence.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <array>
#include <optional>

using namespace loopside;
using namespace loopside::test;
using sync::Held;
using sync::LiveFold;

namespace {

constexpr std::int64_t minuteMs = 60'000;
constexpr std::array<const char*, 3> carts = {"Cart A", "Cart B", ""};
constexpr std::array<const char*, 2> types = {"F-10", "W-3"};

class Dice
{
public:
    explicit Dice(std::uint64_t seed) : random_{seed} {}

    std::size_t below(std::size_t end) { return static_cast<std::size_t>(random_.next() % end); }
    bool once(std::size_t in) { return below(in) == 0; }
    template<class All>
    const auto& oneOf(const All& all)
    {
        return all[below(all.size())];
    }
    RandomSource& source() { return random_; }

private:
    SeededRandom random_;
};

/// Tablets that record, each with a clock of its own, and what of it the hub has.
class Floor
{
public:
    explicit Floor(std::uint64_t seed) : dice_{seed}, ids_{dice_.source()}
    {
        constexpr std::array<std::int64_t, 4> skews = {0, -50, 7, 400};
        for (std::uint8_t number = 1; number <= 2 + dice_.below(3); ++number) {
            tablets_.push_back(
                {numbered(0xD0, number),
                 ledger::Sealer::startChain(numbered(0xD0, number), numbered(0xC0, number), keyOf(number)),
                 {},
                 dice_.oneOf(skews) * minuteMs});
            record(tablets_.back(), tablets_.back().sealer.chainOpened());
        }
    }

    /// Somebody records something, or a tablet hands a part of its chain over.
    void step()
    {
        nowMs_ += static_cast<std::int64_t>(dice_.below(5)) * minuteMs;
        Tablet& tablet = tablets_[dice_.below(tablets_.size())];
        dice_.once(4) ? handOver(tablet, 1 + dice_.below(12)) : record(tablet, something(tablet));
    }

    void handOverAll()
    {
        for (Tablet& tablet : tablets_) {
            fillGap(tablet);
            handOver(tablet, tablet.chain.size());
        }
    }

    /// Everything that the hub holds, folded from nothing.
    [[nodiscard]] run::State whole() const
    {
        std::vector<Held> all;
        const auto tips = hub_.tips().value();
        for (const sync::Tip& tip : tips) {
            const auto chain = hub_.behind(tip.chain, 0, 100'000).value();
            all.insert(all.end(), chain.begin(), chain.end());
        }
        std::set<Id> settled;
        for (const Held& held : all) {
            if (held.entry.kind == ledger::aheadSettledKind) {
                const auto ids = ledger::settledBy(held.entry.body).value();
                settled.insert(ids.begin(), ids.end());
            }
        }
        std::uint64_t rank = 0;
        std::vector<ledger::Stored> stored;
        for (Held& held : sync::byPrecedence(std::move(all), settled)) {
            if (held.isAhead && !settled.contains(held.entry.header.id)) {
                held.entry.header.clock = ++rank;
            }
            stored.push_back({stored.size() + 1, std::move(held.entry)});
        }
        const auto folded = ledger::fold([&](const auto& take) {
            Done done;
            for (std::size_t i = 0; done && i < stored.size(); ++i) {
                done = take(stored[i]);
            }
            return done;
        });
        return folded.value().state;
    }

    [[nodiscard]] sync::MemoryHub& hub() { return hub_; }

    /// How much of each kind of trouble there was.
    struct Seen
    {
        std::size_t ahead = 0, settled = 0, gaps = 0, withdrawn = 0, struck = 0, late = 0;
    };
    [[nodiscard]] const Seen& seen() const { return seen_; }

private:
    struct Tablet
    {
        Id device;
        ledger::Sealer sealer;
        std::vector<ledger::Entry> chain = {};
        std::int64_t skewMs = 0;
        std::size_t handedOver = 0;
        std::pair<std::size_t, std::size_t> gap = {}; ///< Entries that the hub was told are lost; empty: none.
        std::set<Id> aheadIds = {};
    };

    struct Told
    {
        Id entry;
        Id run;
        std::string kind;
    };

    static Id numbered(std::uint8_t kind, std::uint8_t number)
    {
        Id id;
        id.bytes[0] = kind;
        id.bytes[15] = number;
        return id;
    }

    static ledger::DeviceKey keyOf(std::uint8_t number)
    {
        ledger::Seed seed = {};
        seed.fill(number);
        return ledger::DeviceKey::fromSeed(seed);
    }

    static ledger::Draft draftOf(const run::Event& event, const Id& run)
    {
        return {std::string(ledger::kindOf(event)), ledger::bodyOf(event), run, {}, {}};
    }

    void record(Tablet& tablet, ledger::Draft draft)
    {
        draft.observed = dice_.once(8) ? run::Observed{5 * minuteMs, "said"} : run::Observed{};
        const Stamp stamp{nowMs_ + tablet.skewMs, 60, static_cast<std::uint64_t>(nowMs_ - beginMs) * 1'000'000,
                          tablet.device};
        const std::vector<ledger::Draft> drafts = {draft};
        const auto entries = tablet.sealer.seal(drafts, stamp, numbered(0xE0, 1), ids_);
        tablet.sealer.accept(entries);
        tablet.chain.push_back(entries.front());
        told_.push_back({entries.front().header.id, draft.run, draft.kind});
    }

    run::Setup someSetup()
    {
        run::Setup setup = dice_.once(3) ? fullSetup() : bareSetup();
        setup.tank.name = dice_.once(2) ? "PH-3" : "dryer";
        setup.cart.name = dice_.oneOf(carts);
        return setup;
    }

    /// An entry of `run` that was told, of `kind`.
    std::optional<Id> toldOf(const Id& run, std::string_view kind)
    {
        std::vector<Id> all;
        for (const Told& told : told_) {
            if (told.run == run && told.kind == kind) {
                all.push_back(told.entry);
            }
        }
        return all.empty() ? std::nullopt : std::optional(dice_.oneOf(all));
    }

    ledger::Draft something(const Tablet& tablet)
    {
        if (runs_.empty() || dice_.once(12)) {
            runs_.push_back(ids_.next(nowMs_));
            return draftOf(run::RunOpened{someSetup(), {}}, runs_.back());
        }
        if (dice_.once(8)) {
            return ofTheSite(tablet);
        }
        return dice_.once(8) ? ofAJob()
                             : ofARun(runs_[runs_.size() - 1 - dice_.below(std::min<std::size_t>(runs_.size(), 3))]);
    }

    ledger::Draft ofTheSite(const Tablet& tablet)
    {
        if (!tablet.aheadIds.empty() && dice_.once(2)) {
            ++seen_.settled;
            std::vector<Id> some;
            std::ranges::copy_if(tablet.aheadIds, std::back_inserter(some), [&](const Id&) { return !dice_.once(3); });
            some.push_back(*tablet.aheadIds.begin());
            return {std::string(ledger::aheadSettledKind), ledger::settlingOf(some), {}, {}, {}};
        }
        switch (dice_.below(4)) {
        case 0:
            return {"of-a-later-version", "{}", {}, {}, {}};
        case 1:
            return draftOf(run::StockMoved{dice_.oneOf(types), 1 + static_cast<int>(dice_.below(9)), "received"}, {});
        default:
            return draftOf(run::TankPut{someSetup().tank, dice_.once(2) ? "seen" : ""}, {});
        }
    }

    ledger::Draft ofAJob()
    {
        if (jobs_.empty() || dice_.once(4)) {
            jobs_.push_back(ids_.next(nowMs_));
            const auto volume = typed<units::Volume>("8 L");
            return dice_.once(2)
                ? draftOf(run::FlushOpened{.cart = dice_.oneOf(carts), .toFluid = "new", .left = volume}, jobs_.back())
                : draftOf(run::TransferOpened{.tank = "dryer",
                                              .cart = dice_.oneOf(carts),
                                              .fluid = "old",
                                              .capacity = volume,
                                              .planned = volume},
                          jobs_.back());
        }
        const Id& job = dice_.oneOf(jobs_);
        switch (dice_.below(3)) {
        case 0:
            return draftOf(run::FlushBatch{typed<units::Volume>("9 L")}, job);
        case 1:
            return draftOf(run::FlushClosed{}, job);
        default:
            return draftOf(run::TransferStopped{}, job);
        }
    }

    ledger::Draft ofARun(const Id& run)
    {
        switch (dice_.below(14)) {
        case 0:
        case 1:
            return draftOf(run::ModeChanged{dice_.once(2) ? run::Mode::Filtering : run::Mode::Stopped}, run);
        case 2:
            return draftOf(run::WasteTransferred{typed<units::Volume>("20 L")}, run);
        case 3:
            return draftOf(run::RunMoved{someSetup().tank, "the other one"}, run);
        case 4:
            return draftOf(run::RunClosed{run::Ending::StoppedEarly, "over", {1, 2, 3}, 100}, run);
        case 5:
            return draftOf(run::AttachmentAdded{run::AttachmentKind::Photo, {}, std::string(64, 'a'), 10, "image/png"},
                           run);
        case 6:
            return withdrawal(run);
        case 7:
            return striking(run);
        case 8:
            return amendment(run);
        case 9:
            return draftOf(run::StockMoved{dice_.oneOf(types), -2, "used", numbered(0xA0, 1)}, run);
        case 10:
            return draftOf(run::AlertRaised{run::AlertId::StageAtLimit, 1}, run);
        default:
            return draftOf(reading(), run);
        }
    }

    run::ReadingLogged reading()
    {
        run::ReadingLogged set;
        for (int i = 0; i < 3; ++i) {
            set.gauges.push_back(
                run::GaugeTyped{Decimal(static_cast<std::int64_t>(100 + dice_.below(400)), 1), std::nullopt});
        }
        return set;
    }

    ledger::Draft withdrawal(const Id& run)
    {
        const auto added = toldOf(run, "attachment-added");
        seen_.withdrawn += added ? 1 : 0;
        return draftOf(run::AttachmentWithdrawn{added.value_or(numbered(0xA0, 9)), "a face in it"}, run);
    }

    ledger::Draft striking(const Id& run)
    {
        const auto of = toldOf(run, dice_.once(2) ? "mode-changed" : "waste-transferred");
        seen_.struck += of ? 1 : 0;
        run::Amended amended{.of = of.value_or(numbered(0xA0, 9)), .why = "not so"};
        amended.struck = true;
        return draftOf(amended, run);
    }

    ledger::Draft amendment(const Id& run)
    {
        run::Amended amended{.of = toldOf(run, "reading-logged").value_or(numbered(0xA0, 9)), .why = "misread"};
        amended.gauges = reading().gauges;
        return draftOf(amended, run);
    }

    void put(Tablet& tablet, std::size_t from, std::size_t to, const std::vector<ledger::Loss>& losses)
    {
        std::vector<Held> batch;
        for (std::size_t i = from; i < to; ++i) {
            const ledger::Entry& entry = tablet.chain[i];
            const bool isAhead = sync::isAhead(entry.header.clock, nowMs_);
            seen_.ahead += isAhead ? 1 : 0;
            seen_.late += entry.header.clock < latest_ ? 1 : 0;
            latest_ = isAhead ? latest_ : std::max(latest_, entry.header.clock);
            if (isAhead) {
                tablet.aheadIds.insert(entry.header.id);
            }
            batch.push_back({entry, isAhead});
        }
        const auto outcomes = hub_.put(batch, losses);
        REQUIRE(outcomes.has_value());
        REQUIRE(std::ranges::all_of(*outcomes, [](sync::Put one) { return one == sync::Put::Created; }));
    }

    /// Most often the next entries; now and then those behind some that are told as lost, or these after all.
    void handOver(Tablet& tablet, std::size_t most)
    {
        if (tablet.gap.first != tablet.gap.second && dice_.once(3)) {
            fillGap(tablet);
        }
        std::size_t from = tablet.handedOver;
        const std::size_t to = std::min(tablet.chain.size(), from + most);
        std::vector<ledger::Loss> losses;
        if (from > 0 && to > from + 3 && tablet.gap.first == tablet.gap.second && dice_.once(6)) {
            ++seen_.gaps;
            tablet.gap = {from, from + 2};
            from += 2;
            losses.push_back({tablet.chain[0].chain, tablet.gap.first, tablet.gap.second + 1});
        }
        put(tablet, from, to, losses);
        tablet.handedOver = std::max(to, tablet.handedOver);
    }

    void fillGap(Tablet& tablet)
    {
        if (tablet.gap.first != tablet.gap.second) {
            put(tablet, tablet.gap.first, tablet.gap.second, {});
            tablet.gap = {};
        }
    }

    static constexpr std::int64_t beginMs = 1'751'958'400'000;
    Dice dice_;
    IdMaker ids_;
    std::int64_t nowMs_ = beginMs;
    std::vector<Tablet> tablets_ = {};
    sync::MemoryHub hub_ = {};
    std::vector<Id> runs_ = {};
    std::vector<Id> jobs_ = {};
    std::vector<Told> told_ = {};
    std::uint64_t latest_ = 0;
    Seen seen_ = {};
};

/// What is otherwise in two states, also the headers, which `ledger::differences` does not look at.
std::vector<std::string> differing(const run::State& whole, const run::State& live)
{
    auto all = ledger::differences(whole, live);
    for (const auto& [id, run] : live.runs) {
        const run::RunState* other = whole.runOf(id);
        for (std::size_t i = 0; other != nullptr && !run.isPutAway && i < run.facts.size(); ++i) {
            if (i >= other->facts.size() || !(run.facts[i].header == other->facts[i].header)
                || run.facts[i].amendedBy != other->facts[i].amendedBy) {
                all.push_back("a header in run " + toText(id));
            }
        }
    }
    for (std::size_t i = 0; i < std::min(whole.records.size(), live.records.size()); ++i) {
        if (!(whole.records[i].header == live.records[i].header)) {
            all.push_back("a header of the catalogue");
        }
    }
    for (const auto& [name, cart] : live.carts) {
        const run::CartStanding* other = whole.cartOf(name);
        if (other != nullptr && cart.flushBeforeCleanUse
            && !(other->flushBeforeCleanUse && other->flushBeforeCleanUse->since == cart.flushBeforeCleanUse->since)) {
            all.push_back("since when " + name + " is to be flushed");
        }
    }
    return all;
}

/// An entry of a run by a tablet whose clock stands at `minute`, in a chain of its own number.
class Writer
{
public:
    Writer(std::uint8_t number, sync::MemoryHub& hub)
        : hub_{hub},
          device_{idOf(0xD0, number)},
          sealer_{ledger::Sealer::startChain(device_, idOf(0xC0, number), ledger::DeviceKey::fromSeed(seedOf(number)))},
          random_{number},
          ids_{random_}
    {
        write(sealer_.chainOpened(), 0);
    }

    void write(const ledger::Draft& draft, std::int64_t minute)
    {
        const std::vector<ledger::Draft> drafts = {draft};
        const auto entries = sealer_.seal(drafts, {1'751'958'400'000 + minute * minuteMs, 0, 0, device_}, device_,
                                          ids_);
        sealer_.accept(entries);
        REQUIRE(hub_.put(std::vector<Held>{{entries.front()}}, {}).value().front() == sync::Put::Created);
    }

    void write(const run::Event& event, const Id& run, std::int64_t minute)
    {
        write(ledger::Draft{std::string(ledger::kindOf(event)), ledger::bodyOf(event), run, {}, {}}, minute);
    }

    static Id idOf(std::uint8_t kind, std::uint8_t number)
    {
        Id id;
        id.bytes[0] = kind;
        id.bytes[15] = number;
        return id;
    }

private:
    static ledger::Seed seedOf(std::uint8_t number)
    {
        ledger::Seed seed = {};
        seed.fill(number);
        return seed;
    }

    sync::MemoryHub& hub_;
    Id device_;
    ledger::Sealer sealer_;
    SeededRandom random_;
    IdMaker ids_;
};

} // namespace

TEST_CASE("what comes in is folded to the same as everything from nothing, at each step")
{
    Floor::Seen all;
    for (std::uint64_t seed = 1; seed <= 40; ++seed) {
        CAPTURE(seed);
        Floor floor(seed);
        LiveFold live(floor.hub(), [](const run::RunState&) {}, 2);
        Dice looks(seed + 1000);
        for (int step = 0; step < 160; ++step) {
            floor.step();
            if (!looks.once(6)) {
                continue;
            }
            REQUIRE(live.catchUp().has_value());
            REQUIRE(differing(floor.whole(), *live.state()) == std::vector<std::string>{});
            if (!live.state()->runs.empty() && looks.once(3)) {
                const Id run = std::next(live.state()->runs.begin(),
                                         static_cast<std::ptrdiff_t>(looks.below(live.state()->runs.size())))
                                   ->first;
                REQUIRE(live.takeOut(run).has_value());
                REQUIRE_FALSE(live.state()->runs.at(run).isPutAway);
                REQUIRE(differing(floor.whole(), *live.state()) == std::vector<std::string>{});
            }
        }
        floor.handOverAll();
        REQUIRE(live.catchUp().value());
        REQUIRE(differing(floor.whole(), *live.state()) == std::vector<std::string>{});
        REQUIRE_FALSE(live.catchUp().value());
        LiveFold fromNothing(floor.hub());
        REQUIRE(fromNothing.catchUp().value());
        REQUIRE(differing(floor.whole(), *fromNothing.state()) == std::vector<std::string>{});
        REQUIRE(fromNothing.latestClock() == live.latestClock());
        const Floor::Seen& seen = floor.seen();
        all = {all.ahead + seen.ahead,         all.settled + seen.settled, all.gaps + seen.gaps,
               all.withdrawn + seen.withdrawn, all.struck + seen.struck,   all.late + seen.late};
    }
    // What the seeds are for did come up.
    CHECK(all.ahead > 100);
    CHECK(all.settled > 10);
    CHECK(all.gaps > 8);
    CHECK(all.withdrawn > 30);
    CHECK(all.struck > 30);
    CHECK(all.late > 300);
}

TEST_CASE("a run that nothing came for is not touched")
{
    sync::MemoryHub hub;
    Writer one(1, hub);
    Writer other(2, hub);
    const Id mine = Writer::idOf(0xA0, 1);
    const Id theirs = Writer::idOf(0xA0, 2);
    one.write(run::RunOpened{bareSetup(), {}}, mine, 1);
    other.write(run::RunOpened{bareSetup(), {}}, theirs, 2);
    LiveFold live(hub);
    REQUIRE(live.catchUp().value());
    const std::uint64_t before = live.changes()->at(mine);
    const run::RunState* run = live.state()->runOf(mine);
    other.write(run::Noted{"later"}, theirs, 3);
    other.write(run::Noted{"and later"}, theirs, 4);
    one.write(run::StockMoved{"F-10", 4, "received"}, {}, 5);
    REQUIRE(live.catchUp().value());
    CHECK(live.changes()->at(mine) == before);
    CHECK(live.state()->runOf(mine) == run);
    CHECK(live.state()->runOf(theirs)->facts.size() == 2);
    CHECK(live.state()->stock.at("F-10").elements == 4);
    CHECK(live.entries() == 7);
}

TEST_CASE("runs that are over are shown before they are put away, and come back whole")
{
    sync::MemoryHub hub;
    Writer writer(1, hub);
    std::vector<Id> shown;
    LiveFold live(
        hub,
        [&](const run::RunState& run) {
            CHECK(run.facts.size() == 2);
            shown.push_back(run.id);
        },
        2);
    for (std::uint8_t number = 1; number <= 5; ++number) {
        const Id run = Writer::idOf(0xA0, number);
        writer.write(run::RunOpened{bareSetup(), {}}, run, number * 10);
        writer.write(run::Noted{"a moment"}, run, number * 10 + 1);
        writer.write(run::RunClosed{}, run, number * 10 + 2);
    }
    REQUIRE(live.catchUp().value());
    CHECK(shown == std::vector<Id>{Writer::idOf(0xA0, 1), Writer::idOf(0xA0, 2), Writer::idOf(0xA0, 3)});
    CHECK(live.state()->runOf(shown[0])->isPutAway);
    REQUIRE(live.takeOut(shown[0]).has_value());
    CHECK(live.state()->runOf(shown[0])->facts.size() == 2);
    const auto whole = std::ranges::count_if(live.state()->runs, [](const auto& run) { return !run.second.isPutAway; });
    CHECK(whole == 2);
    REQUIRE(live.takeOut(Writer::idOf(0xA0, 99)).has_value());
}

TEST_CASE("a result that comes for a run that was put away is in it")
{
    sync::MemoryHub hub;
    Writer writer(1, hub);
    Writer laboratory(2, hub);
    const Id run = Writer::idOf(0xA0, 1);
    writer.write(run::RunOpened{bareSetup(), {}}, run, 1);
    writer.write(run::SampleDrawn{.id = "B1"}, run, 2);
    writer.write(run::RunClosed{}, run, 3);
    LiveFold live(hub, [](const run::RunState&) {}, 0);
    REQUIRE(live.catchUp().value());
    REQUIRE(live.state()->runOf(run)->isPutAway);
    laboratory.write(
        run::ResultEntered{.sample = "B1", .code = "16/14/11", .countsPerMl = {}, .water = {}, .viscosity = {}}, run,
        1000);
    REQUIRE(live.catchUp().value());
    const auto& facts = live.state()->runOf(run)->facts;
    CHECK(std::ranges::count_if(
              facts, [](const run::Fact& fact) { return std::holds_alternative<run::ResultEntered>(fact.original); })
          == 1);
}

TEST_CASE("another record in the place of the one that was folded is folded from nothing")
{
    std::optional<sync::MemoryHub> hub;
    hub.emplace();
    Writer one(1, *hub);
    one.write(run::StockMoved{"F-10", 4, "received"}, {}, 1);
    one.write(run::StockMoved{"F-10", 4, "received"}, {}, 2);
    LiveFold live(*hub);
    REQUIRE(live.catchUp().value());
    CHECK(live.state()->stock.at("F-10").elements == 8);
    hub.emplace(); // in the same place
    Writer other(2, *hub);
    other.write(run::StockMoved{"F-10", 1, "received"}, {}, 1);
    REQUIRE(live.catchUp().value());
    CHECK(live.state()->stock.at("F-10").elements == 1);
}
