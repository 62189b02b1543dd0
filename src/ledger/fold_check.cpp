// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "ledger/fold_check.h"

#include "ledger/at_hand.h"
#include "ledger/body.h"
#include "ledger/read_all.h"
#include "run/put_away.h"

#include <algorithm>
#include <compare>
#include <iterator>
#include <map>
#include <optional>
#include <set>
#include <utility>

namespace loopside::ledger {

namespace {

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
    std::string text = bodyOf(run::RunOpened{run.setup, run.past, run.place}) + std::string(nameOf(run.phase));
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

/// Of all but the runs.
Texts textsOf(const run::State& state)
{
    Texts texts;
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

/// The sentence for something of which the entries say `should` and a tablet shows `is`; null: nothing. Empty if the
/// two are the same.
std::string differenceOf(const std::string& name, const std::string* should, const std::string* is)
{
    if (should == nullptr || is == nullptr) {
        return name
            + (is == nullptr ? " is in the entries, and a tablet would not show it"
                             : " is in no entry, and a tablet would show it");
    }
    return *should == *is ? std::string() : name + ", as a tablet would show it, is not what the entries say";
}

const std::string* textIn(const Texts& texts, const std::string& name)
{
    const auto found = texts.find(name);
    return found == texts.end() ? nullptr : &found->second;
}

/// Adds `sentence` unless it is empty.
void noteIn(std::vector<std::string>& sentences, std::string sentence)
{
    if (!sentence.empty()) {
        sentences.push_back(std::move(sentence));
    }
}

/// What `shown` has otherwise of the run `run`, all of which is there. Puts `run` away.
std::string differenceOfRun(run::RunState& run, const run::State& shown)
{
    const auto found = shown.runs.find(run.id);
    const bool isShown = found != shown.runs.end();
    const bool isShownWhole = isShown && !found->second.isPutAway;
    std::string should = isShownWhole ? textOf(run) : std::string();
    run::putAway(run);
    should = isShownWhole ? should : textOf(run);
    const std::string is = isShown ? textOf(found->second) : std::string();
    return differenceOf("run " + toText(run.id), &should, isShown ? &is : nullptr);
}

/// What `shown` has otherwise than `whole`, but for the runs that both have.
std::vector<std::string> differencesBesideRuns(const run::State& whole, const run::State& shown)
{
    std::vector<std::string> sentences;
    for (const auto& [id, run] : shown.runs) {
        if (!whole.runs.contains(id)) {
            const std::string is;
            noteIn(sentences, differenceOf("run " + toText(id), nullptr, &is));
        }
    }
    const Texts expected = textsOf(whole);
    const Texts found = textsOf(shown);
    std::set<std::string> names;
    for (const Texts* texts : {&expected, &found}) {
        std::ranges::transform(*texts, std::inserter(names, names.end()), [](const auto& text) { return text.first; });
    }
    for (const std::string& name : names) {
        noteIn(sentences, differenceOf(name, textIn(expected, name), textIn(found, name)));
    }
    return sentences;
}

/// The order in which the entries of a journal are folded, and where in it each run ends.
class FoldOrder
{
public:
    static Result<FoldOrder> of(const Journal& journal)
    {
        FoldOrder order;
        std::optional<Place> last;
        bool isSorted = true;
        const Done read = readAll(journal, [&](const Stored& stored) {
            const Place place = placeOf(stored);
            isSorted = isSorted && (!last || *last < place);
            last = place;
            if (!stored.entry.header.run.isNone()) {
                Place& end = order.ends_[stored.entry.header.run];
                end = std::max(end, place);
            }
            return Done{};
        });
        const Done sorted = read && !isSorted ? order.sort(journal) : read;
        return sorted ? Result<FoldOrder>(std::move(order)) : fail(sorted.error());
    }

    /// Gives the entries of `journal` to `take` in that order.
    [[nodiscard]] Done read(const Journal& journal, const std::function<Done(const Stored&)>& take) const
    {
        if (sorted_.empty()) {
            return readAll(journal, take);
        }
        for (const Place& place : sorted_) {
            const auto entry = journal.read(place.position - 1, 1);
            const Done taken = !entry ? fail(entry.error()) : entry->empty() ? Done() : take(entry->front());
            if (!taken) {
                return taken;
            }
        }
        return {};
    }

    /// Whether `stored` is the last entry of its run.
    [[nodiscard]] bool isLastOfRun(const Stored& stored) const
    {
        const auto end = ends_.find(stored.entry.header.run);
        return end != ends_.end() && end->second.position == stored.position;
    }

private:
    /// In the order of folding, by what `run::foldsBefore` goes by.
    struct Place
    {
        std::uint64_t clock = 0;
        Id device = {};
        std::uint64_t sequence = 0;
        Position position = 0;

        friend auto operator<=>(const Place&, const Place&) = default;
    };

    static Place placeOf(const Stored& stored)
    {
        const run::Header& header = stored.entry.header;
        return {header.clock, header.device, header.sequence, stored.position};
    }

    [[nodiscard]] Done sort(const Journal& journal)
    {
        const Done read = readAll(journal, [&](const Stored& stored) {
            sorted_.push_back(placeOf(stored));
            return Done{};
        });
        std::ranges::sort(sorted_);
        return read;
    }

    std::vector<Place> sorted_; ///< Empty where the journal's order is that of folding, as it nearly always is.
    std::map<Id, Place> ends_;
};

/// A journal with entries behind it that are not in it yet.
class Grown final : public Journal
{
public:
    Grown(const Journal& journal, const Further& more, Position last) : journal_{journal}, more_{more}, last_{last} {}

    [[nodiscard]] Result<Position> append(std::span<const Entry>) override
    {
        return fail(Errc::Unavailable, "this is only looked at");
    }

    [[nodiscard]] Result<std::vector<Stored>> read(Position after, std::size_t limit) const override
    {
        auto stored = after < last_ ? journal_.read(after, limit) : std::vector<Stored>();
        Position next = std::max(after, last_) - last_;
        for (; stored && stored->size() < limit && next < more_.count; ++next) {
            auto entry = more_.at(next);
            if (!entry) {
                return fail(entry.error());
            }
            stored->push_back({last_ + next + 1, *std::move(entry)});
        }
        return stored;
    }

    [[nodiscard]] Result<std::optional<ChainHead>> head(const Id& device) const override
    {
        return journal_.head(device);
    }

private:
    const Journal& journal_;
    const Further& more_;
    Position last_;
};

} // namespace

std::vector<std::string> differences(const run::State& whole, const run::State& shown)
{
    std::vector<std::string> sentences;
    for (const auto& [id, run] : whole.runs) {
        run::RunState one = run;
        noteIn(sentences, differenceOfRun(one, shown));
    }
    std::ranges::move(differencesBesideRuns(whole, shown), std::back_inserter(sentences));
    return sentences;
}

Result<FoldedByRun> foldByRun(const Journal& journal, const std::function<Done(run::RunState&)>& take)
{
    const auto order = FoldOrder::of(journal);
    if (!order) {
        return fail(order.error());
    }
    Folded folded;
    std::size_t away = 0;
    std::size_t runsWhole = 0;
    const Done read = order->read(journal, [&](const Stored& stored) {
        Done done = foldOnto(folded, stored);
        runsWhole = std::max(runsWhole, folded.state.runs.size() - away);
        const auto run = done && order->isLastOfRun(stored) ? folded.state.runs.find(stored.entry.header.run)
                                                            : folded.state.runs.end();
        if (run != folded.state.runs.end()) {
            done = take(run->second);
            run::putAway(run->second);
            ++away;
        }
        return done;
    });
    return read ? Result<FoldedByRun>(FoldedByRun{std::move(folded.state), runsWhole}) : fail(read.error());
}

Result<run::State> foldedWith(const Journal& journal, const Further& more)
{
    return journal.last()
        .and_then(
            [&](Position last) { return foldByRun(Grown(journal, more, last), [](run::RunState&) { return Done(); }); })
        .transform([](FoldedByRun folded) { return std::move(folded.state); });
}

FoldChecked checkFold(const Journal& journal)
{
    const auto atHand = foldAtHand(journal);
    if (!atHand) {
        return {{atHand.error().sentence}, {}, false, 0};
    }
    const run::State& shown = atHand->folded.state;
    const auto shownWhole = std::ranges::count_if(shown.runs, [](const auto& run) { return !run.second.isPutAway; });
    FoldChecked checked;
    auto folded = foldByRun(journal, [&](run::RunState& run) {
        noteIn(checked.faults, differenceOfRun(run, shown));
        return Done();
    });
    if (!folded) {
        return {{folded.error().sentence}, {}, false, 0};
    }
    std::ranges::move(differencesBesideRuns(folded->state, shown), std::back_inserter(checked.faults));
    checked.state = std::move(folded->state);
    checked.isWhole = true;
    checked.runsWhole = static_cast<std::size_t>(shownWhole) + folded->runsWhole;
    return checked;
}

} // namespace loopside::ledger
