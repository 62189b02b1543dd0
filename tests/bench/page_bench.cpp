// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// What it costs the site page to know of a batch that arrives: taken in by itself (sync/live_fold.h), against folding
// all that the hub holds anew. The batch is 20 readings of one tablet; the late one is five entries by another device
// of runs that are over. Times are the processor's, medians; memory is what either holds more afterwards.
// `bench_page [ENTRIES [BATCHES]]`

#define CATCH_CONFIG_RUNNER
#include "bench/long_journal.h"
#include "bench/measure.h"
#include "handover/joined_journal.h"
#include "hub/own_chain.h"
#include "hub/some_hub.h"
#include "ledger/fold_check.h"
#include "ledger/logbook.h"
#include "ledger/memory_journal.h"
#include "sync/live_fold.h"

#include <catch2/catch.hpp>

using namespace loopside;
using bench::must;

namespace {

std::size_t entryCount = 10'000;
int batches = 21;

constexpr std::uint16_t tablets = 10;
constexpr std::size_t batchOfTablet = 20;

/// Tablets that go on recording, and what of it the hub has.
class Floor
{
public:
    explicit Floor(sync::HubStore& hub) : hub_{&hub}
    {
        for (std::uint16_t tablet = 0; tablet < tablets; ++tablet) {
            journals_.push_back(std::make_unique<ledger::MemoryJournal>());
            fillers_.push_back(std::make_unique<bench::Filler>(*journals_.back(), tablet));
            handOver(tablet, entryCount / tablets);
        }
    }

    /// `more` entries of one tablet reach the hub. What was handed over is let go of.
    void handOver(std::uint16_t tablet, std::size_t more)
    {
        made_.resize(tablets);
        std::size_t& made = made_[tablet];
        fillers_[tablet]->fillTo(made + more, 200);
        while (made < *journals_[tablet]->last()) {
            constexpr std::size_t most = 256;
            std::vector<sync::Held> message;
            const auto read = journals_[tablet]->read(made, most);
            for (const ledger::Stored& stored : *read) {
                message.push_back({stored.entry});
            }
            must(hub_->put(message, {}).has_value(), "a put failed");
            made += message.size();
        }
    }

    /// Of a tablet's first entries those that open runs.
    [[nodiscard]] std::vector<Id> someRuns() const
    {
        std::vector<Id> runs;
        const auto read = journals_.front()->read(0, 5'000);
        for (const ledger::Stored& stored : *read) {
            if (stored.entry.kind == "run-opened") {
                runs.push_back(stored.entry.header.run);
            }
        }
        return runs;
    }

private:
    sync::HubStore* hub_;
    std::vector<std::unique_ptr<ledger::MemoryJournal>> journals_ = {};
    std::vector<std::unique_ptr<bench::Filler>> fillers_ = {};
    std::vector<std::size_t> made_ = {};
};

/// Another device, whose clock is that of the first entries.
class Latecomer
{
public:
    explicit Latecomer(sync::HubStore& hub) : hub_{&hub} { put({sealer_.chainOpened()}); }

    void comment(const std::vector<Id>& runs)
    {
        std::vector<ledger::Draft> drafts;
        for (std::size_t i = 0; i < 5; ++i) {
            const run::Event note = run::Noted{"a look"};
            drafts.push_back(
                {std::string(ledger::kindOf(note)), ledger::bodyOf(note), runs[next_++ % runs.size()], {}, {}});
        }
        put(drafts);
    }

private:
    void put(const std::vector<ledger::Draft>& drafts)
    {
        const auto sealed = sealer_.seal(drafts, clock_.now(), {{3}}, ids_);
        sealer_.accept(sealed);
        std::vector<sync::Held> message;
        for (const ledger::Entry& entry : sealed) {
            message.push_back({entry});
        }
        must(hub_->put(message, {}).has_value(), "a late put failed");
    }

    sync::HubStore* hub_;
    bench::MinuteClock clock_;
    SeededRandom random_{99};
    IdMaker ids_{random_};
    ledger::Sealer sealer_ = ledger::Sealer::startChain({{9}}, {{9, 9}}, bench::Filler::keyOf(999));
    std::size_t next_ = 0;
};

/// Everything that `hub` holds, folded from nothing.
run::State foldedAnew(hub::SqlHub& hub)
{
    std::vector<sync::Held> all;
    const auto tips = hub.tips().value();
    for (const sync::Tip& tip : tips) {
        must(eachOf(hub, tip.chain,
                    [&](const sync::Held& held) -> Done {
                        all.push_back(held);
                        return {};
                    })
                 .has_value(),
             "a chain cannot be read");
    }
    hub::OwnChain own(hub, {{7, 7}});
    handover::JoinedJournal journal(own);
    must(journal.show(std::move(all)).has_value(), "the entries cannot be put in order");
    bench::MinuteClock clock;
    SeededRandom random(5);
    auto logbook = ledger::Logbook::open(journal, clock, random);
    must(logbook.has_value(), "the entries cannot be folded");
    return logbook->state();
}

template<class Between>
double medianMs(sync::LiveFold& live, Between between)
{
    std::vector<double> times;
    for (int i = 0; i < batches; ++i) {
        between(i);
        times.push_back(1e3 * bench::processorSecondsOf([&] {
                            const auto isNew = live.catchUp();
                            must(isNew.has_value() && *isNew, "a batch was not taken in");
                        }));
    }
    return bench::medianOf(times);
}

} // namespace

TEST_CASE("the figures")
{
    test::HubOnDisk disk;
    Floor floor(disk.shelf());
    Latecomer latecomer(disk.shelf());
    const double beginMb = bench::ownMb();
    sync::LiveFold live(disk.shelf());
    const double first = bench::processorSecondsOf([&] { must(live.catchUp().has_value(), "nothing can be folded"); });
    const double liveMb = bench::ownMb() - beginMb;
    const double batch = medianMs(
        live, [&](int i) { floor.handOver(static_cast<std::uint16_t>(i % tablets), batchOfTablet); });
    const double late = medianMs(live, [&](int) { latecomer.comment(floor.someRuns()); });
    const double nothing = 1e3 * bench::processorSecondsOf([&] { must(!*live.catchUp(), "something came"); });

    const double beforeMb = bench::ownMb();
    run::State whole;
    const double anew = 1e3 * bench::processorSecondsOf([&] { whole = foldedAnew(disk.shelf()); });
    const double anewMb = bench::ownMb() - beforeMb;
    must(ledger::differences(whole, *live.state()).empty(), "the two are not the same");

    std::printf("%zu entries, %zu runs\n", entryCount, live.state()->runs.size());
    std::printf("taken in from nothing      %10.2f s    %8.1f MB\n", first, liveMb);
    std::printf("folded anew                %10.2f s    %8.1f MB\n", anew / 1e3, anewMb);
    std::printf("a batch taken in           %10.2f ms   %8.0f times less than anew\n", batch, anew / batch);
    std::printf("a late batch taken in      %10.2f ms   %8.0f times less than anew\n", late, anew / late);
    std::printf("nothing came               %10.2f ms\n", nothing);
}

int main(int argc, char** argv)
{
    entryCount = argc > 1 ? static_cast<std::size_t>(std::max(std::atoi(argv[1]), 5'000)) : entryCount;
    batches = argc > 2 ? std::max(std::atoi(argv[2]), 1) : batches;
    return Catch::Session().run();
}
