// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "ledger/fold_check.h"

#include "ledger/body.h"
#include "ledger/logbook.h"
#include "run/put_away.h"

#include <map>
#include <set>

namespace loopside::ledger {

namespace {

/// Folding needs a clock and randomness at hand, but uses neither.
class NoClock final : public Clock
{
public:
    Stamp now() override { return {}; }
};

/// Everything of a state by its name, as text that is the same where it is the same.
using Texts = std::map<std::string, std::string>;

std::string textOf(const run::Fact& fact, bool hasTimes)
{
    return "\n" + toText(fact.header.id) + bodyOf(fact.original) + bodyOf(fact.effective)
        + (fact.struck ? "struck" : "") + std::to_string(fact.amendedBy.size())
        + (hasTimes ? " " + std::to_string(fact.entered.count()) + " " + std::to_string(fact.seen.count()) : "");
}

std::string textOf(const run::RunState& run)
{
    const bool hasTimes = !run.isPutAway;
    std::string text = bodyOf(run::RunOpened{run.setup, run.past}) + std::string(nameOf(run.phase));
    text += run.closed ? bodyOf(*run.closed) : "";
    text += hasTimes ? std::to_string(run.closedAt.count()) : "";
    for (const run::Fact& fact : run.facts) {
        text += textOf(fact, hasTimes);
    }
    for (const run::Alert& alert : run.alerts) {
        text += "\n" + std::string(nameOf(alert.id)) + std::to_string(alert.stage.value_or(0))
            + std::string(nameOf(alert.state)) + std::to_string(alert.since.count());
    }
    for (const run::LoadingLearned& learned : run.taught) {
        text += "\n" + bodyOf(learned);
    }
    for (const run::StockMoved& moved : run.used) {
        text += "\n" + bodyOf(moved);
    }
    for (const run::TankRecord& tank : run.movedFrom) {
        text += "\n" + tank.name;
    }
    return text;
}

std::string textOf(const run::Job& job)
{
    std::string text = bodyOf(asEvent(job.what)) + std::to_string(job.closedAt.value_or(run::RunTime{-1}).count());
    for (const run::JobFact& fact : job.facts) {
        text += "\n" + toText(fact.header.id) + bodyOf(asEvent(fact.said)) + std::to_string(fact.seen.count());
    }
    return text;
}

std::string textOf(const run::CartStanding& cart)
{
    return cart.lastFluid + "\n" + cart.lastFamily + "\n" + toText(cart.lastFlush)
        + (cart.flushBeforeCleanUse ? "\n" + toText(cart.flushBeforeCleanUse->by) : "");
}

Texts textsOf(const run::State& state)
{
    Texts texts;
    for (const auto& [id, run] : state.runs) {
        texts["run " + toText(id)] = textOf(run);
    }
    for (const auto& [id, job] : state.jobs) {
        texts["job " + toText(id)] = textOf(job);
    }
    for (const auto& [name, cart] : state.carts) {
        texts["cart " + name] = textOf(cart);
    }
    for (const auto& [type, stock] : state.stock) {
        texts["stock of " + type] = std::to_string(stock.elements) + (stock.isCounted ? " counted" : "");
    }
    for (const auto& moved : state.stockMoves) {
        texts["the list of stock moves"] += toText(moved.header.id) + bodyOf(moved.what) + "\n";
    }
    for (const auto& put : state.records) {
        texts["the catalogue"] += toText(put.header.id) + bodyOf(asEvent(put.what)) + "\n";
    }
    return texts;
}

} // namespace

std::vector<std::string> differences(const run::State& whole, const run::State& shown)
{
    Texts expected = textsOf(whole);
    for (const auto& [id, run] : shown.runs) {
        const auto same = run.isPutAway ? whole.runs.find(id) : whole.runs.end();
        if (same != whole.runs.end()) {
            run::RunState away = same->second;
            run::putAway(away);
            expected["run " + toText(id)] = textOf(away);
        }
    }
    const Texts found = textsOf(shown);
    std::set<std::string> names;
    for (const Texts* texts : {&std::as_const(expected), &found}) {
        for (const auto& [name, text] : *texts) {
            names.insert(name);
        }
    }
    std::vector<std::string> sentences;
    for (const std::string& name : names) {
        const auto should = expected.find(name);
        const auto is = found.find(name);
        if (should == expected.end() || is == found.end()) {
            sentences.push_back(name
                                + (is == found.end() ? " is in the entries, and a tablet would not show it"
                                                     : " is in no entry, and a tablet would show it"));
        } else if (should->second != is->second) {
            sentences.push_back(name + ", as a tablet would show it, is not what the entries say");
        }
    }
    return sentences;
}

Result<run::State> foldedOf(const Journal& journal, const std::vector<Entry>& more)
{
    auto folded = fold([&](const auto& take) {
        Done done = readAll(journal, take);
        for (std::size_t i = 0; done && i < more.size(); ++i) {
            done = take({i + 1, more[i]});
        }
        return done;
    });
    if (!folded) {
        return fail(folded.error());
    }
    return std::move(folded->state);
}

std::vector<std::string> foldFaults(Journal& journal, const Result<run::State>& whole)
{
    if (!whole) {
        return {whole.error().sentence};
    }
    NoClock clock;
    SeededRandom random(0);
    const auto shown = Logbook::open(journal, clock, random, Reach::AtHand);
    return shown ? differences(*whole, shown->state()) : std::vector{shown.error().sentence};
}

} // namespace loopside::ledger
