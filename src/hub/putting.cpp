// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "hub/putting.h"

#include "hub/entry_row.h"
#include "hub/sql_files.h"
#include "ledger/kinds.h"

namespace loopside::hub {

using ledger::Entry;
using sync::Placed;
using sync::Put;
using sync::Surroundings;
using sync::Topic;

namespace {

constexpr std::string_view placedColumns = "sequence, device_id, clock, previous_hash, hash";

/// So many new entries, or so many bytes of them, are added at once.
constexpr std::size_t entriesAtOnce = 1000;
constexpr std::size_t bytesAtOnce = std::size_t{8} << 20U;

/// So many entries behind a place are asked for at once: a message that is said again, and one more.
constexpr std::int64_t entriesOfStretch = 257;

SqlValue numberOf(std::uint64_t number)
{
    return static_cast<std::int64_t>(number);
}

Result<Placed> placedFrom(const SqlRow& row)
{
    Placed placed;
    placed.sequence = static_cast<std::uint64_t>(row.number(0));
    placed.clock = static_cast<std::uint64_t>(row.number(2));
    const Done taken = take(row.bytes(1), placed.device.bytes)
                           .and_then([&] { return take(row.bytes(3), placed.previous); })
                           .and_then([&] { return take(row.bytes(4), placed.hash); });
    return taken ? Result<Placed>(placed) : fail(taken.error());
}

bool isNext(const Entry& entry, const std::optional<Placed>& last)
{
    return entry.header.sequence == (last ? last->sequence : 0) + 1;
}

} // namespace

Done Putting::run(std::string_view statement, const std::vector<SqlValue>& values)
{
    const auto done = sql_->run(statement, values);
    return done ? Done{} : fail(done.error());
}

Result<Put> Putting::put(const sync::Held& held, std::span<const ledger::Loss> losses)
{
    const auto chain = chainOf(held.entry.chain);
    const auto around = chain ? surroundingsOf(held.entry, **chain) : fail(chain.error());
    if (!around) {
        return fail(around.error());
    }
    const Put outcome = sync::placingOf(held.entry, *around, losses);
    Done done = {};
    if (outcome == Put::Created) {
        done = create(held, *around, **chain);
    } else if (outcome == Put::Conflict && !around->isAside) {
        done = keepAside(held, **chain);
    }
    return done ? Result<Put>(outcome) : fail(done.error());
}

Done Putting::finish()
{
    return addEntries().and_then([&] { return addListed(); }).and_then([&] { return moveEnds(); });
}

Result<Putting::Chain*> Putting::chainOf(const Id& id)
{
    const auto known = chains_.find(id);
    if (known != chains_.end()) {
        return &known->second;
    }
    static const std::string lastOf = "SELECT " + std::string(placedColumns)
        + " FROM entries WHERE site_id = $1 AND chain_id = $2 ORDER BY sequence DESC LIMIT 1";
    const auto last = firstOf(rowsAs(sql_->run(lastOf, {valueOf(site_), valueOf(id)}), placedFrom));
    const auto asides = last ? sql_->run("SELECT number FROM asides WHERE site_id = $1 AND chain_id = $2 LIMIT 1",
                                         {valueOf(site_), valueOf(id)})
                             : fail(last.error());
    return asides ? Result<Chain*>(&chains_.emplace(id, Chain{*last, false, !asides->empty()}).first->second)
                  : fail(asides.error());
}

Result<Surroundings> Putting::surroundingsOf(const Entry& entry, Chain& chain)
{
    Surroundings around;
    if (isNext(entry, chain.last)) {
        around.before = chain.last;
    } else {
        if (!chain.known.covers(entry.header.sequence)) {
            auto stretch = finish().and_then([&] { return stretchFrom(entry); });
            if (!stretch) {
                return fail(stretch.error());
            }
            chain.known = *std::move(stretch);
        }
        chain.known.lookAround(entry.header.sequence, around);
    }
    if (chain.hasAsides) {
        const auto itself = isAside(entry.chain, entry.hash);
        const auto last = itself ? isAside(entry.chain, entry.previous) : itself;
        if (!last) {
            return fail(last.error());
        }
        around.isAside = *itself;
        around.followsAside = *last;
    }
    return around;
}

/// What the database has from the place of `entry` on, and in front of it.
Result<Stretch> Putting::stretchFrom(const Entry& entry)
{
    static const std::string select = "SELECT " + std::string(placedColumns)
        + " FROM entries WHERE site_id = $1 AND chain_id = $2 AND ";
    static const std::string inFront = select + "sequence < $3 ORDER BY sequence DESC LIMIT 1";
    static const std::string fromThere = select + "sequence >= $3 ORDER BY sequence LIMIT $4";
    std::vector<SqlValue> place = {valueOf(site_), valueOf(entry.chain), numberOf(entry.header.sequence)};
    const auto before = firstOf(rowsAs(sql_->run(inFront, place), placedFrom));
    place.emplace_back(entriesOfStretch);
    const auto from = before ? rowsAs(sql_->run(fromThere, place), placedFrom) : fail(before.error());
    return from ? Result<Stretch>(Stretch(*before, *from, from->size() < entriesOfStretch)) : fail(from.error());
}

Result<bool> Putting::isAside(const Id& chain, const ledger::Hash& hash)
{
    return sql_
        ->run("SELECT number FROM asides WHERE site_id = $1 AND chain_id = $2 AND hash = $3",
              {valueOf(site_), valueOf(chain), valueOf(hash)})
        .transform([](const std::vector<SqlRow>& rows) { return !rows.empty(); });
}

Done Putting::create(const sync::Held& held, const Surroundings& around, Chain& chain)
{
    const sync::Placed placed = sync::placedOf(held.entry);
    newEntries_.push_back(held);
    newBytes_ += held.entry.body.size();
    chain.known.add(placed);
    if (!chain.last || chain.last->sequence < placed.sequence) {
        chain.last = placed;
        chain.isMoved = true;
    }
    const auto withdrawn = sync::withdrawnBy(held.entry);
    const Done gone = withdrawn ? SqlFiles(*sql_, site_).withdraw(*withdrawn) : Done();
    const Done listed = gone.and_then([&] { return changeGaps(held.entry, around); }).and_then([&] {
        return listUnderTopics(held.entry);
    });
    return listed.and_then(
        [&] { return newEntries_.size() < entriesAtOnce && newBytes_ < bytesAtOnce ? Done{} : finish(); });
}

Done Putting::keepAside(const sync::Held& held, Chain& chain)
{
    static const std::string columns = "site_id, " + std::string(entryColumns) + ", number";
    const auto last = sql_->run("SELECT max(number) FROM asides WHERE site_id = $1 AND chain_id = $2",
                                {valueOf(site_), valueOf(held.entry.chain)});
    if (!last) {
        return fail(last.error());
    }
    auto values = valuesOf(site_, held);
    values.emplace_back(last->front().isNothing(0) ? std::int64_t{1} : last->front().number(0) + 1);
    chain.hasAsides = true;
    return sql_->add({"asides", columns, entryColumnCount + 2, std::move(values)});
}

/// Notes where entries are missing in front of `entry`, or between it and the next: nothing else is in the way.
Done Putting::changeGaps(const Entry& entry, const Surroundings& around)
{
    const std::uint64_t sequence = entry.header.sequence;
    const std::uint64_t last = around.before ? around.before->sequence : 0;
    if (last + 1 == sequence && !around.next) {
        return {};
    }
    return run("DELETE FROM gaps WHERE site_id = $1 AND chain_id = $2 AND after_sequence = $3",
               {valueOf(site_), valueOf(entry.chain), numberOf(last)})
        .and_then([&] { return last + 1 == sequence ? Done{} : addGap(entry.chain, last, sequence); })
        .and_then([&] {
            const bool isFilled = !around.next || around.next->sequence == sequence + 1;
            return isFilled ? Done{} : addGap(entry.chain, sequence, around.next->sequence);
        });
}

Done Putting::addGap(const Id& chain, std::uint64_t after, std::uint64_t before)
{
    return run("INSERT INTO gaps (site_id, chain_id, after_sequence, before_sequence) VALUES ($1, $2, $3, $4)",
               {valueOf(site_), valueOf(chain), numberOf(after), numberOf(before)});
}

Done Putting::listUnderTopics(const Entry& entry)
{
    const Id& runId = entry.header.run;
    const sync::Listing listing = sync::listingOf(entry);
    const sync::Ref ref = {entry.header.device, entry.chain, entry.header.sequence};
    const bool isOfMoment = !listing.isLasting;
    Done done = {};
    for (const Topic& topic : listing.topics) {
        done = done ? list(topic, ref, isOfMoment) : done;
    }
    if (!done || runId.isNone()) {
        return done;
    }
    const auto joined = joinedOf(runId);
    if (!joined) {
        return fail(joined.error());
    }
    for (const Joined& one : **joined) {
        if (done && (listing.isLasting || !one.lastingOnly)) {
            done = list(one.topic, ref, isOfMoment);
        }
    }
    done = done && listing.tank ? join(runId, {*listing.tank, true}) : done;
    return done && listing.handedTo ? join(runId, {*listing.handedTo, false}) : done;
}

Result<std::vector<Putting::Joined>*> Putting::joinedOf(const Id& runId)
{
    const auto known = joined_.find(runId);
    if (known != joined_.end()) {
        return &known->second;
    }
    auto found = rowsAs(sql_->run("SELECT topic, lasting_only FROM run_topics WHERE site_id = $1 AND run_id = $2",
                                  {valueOf(site_), valueOf(runId)}),
                        [](const SqlRow& row) -> Result<Joined> { return Joined{{row.bytes(0)}, row.number(1) != 0}; });
    return std::move(found).transform(
        [&](std::vector<Joined> all) { return &joined_.emplace(runId, std::move(all)).first->second; });
}

/// Lists a run under a topic from its beginning on, if it is not listed there.
Done Putting::join(const Id& runId, const Joined& joined)
{
    const auto all = joinedOf(runId);
    if (!all || std::ranges::find(**all, joined.topic, &Joined::topic) != (*all)->end()) {
        return all ? Done{} : fail(all.error());
    }
    (*all)->push_back(joined);
    const Done noted = run("INSERT INTO run_topics (site_id, run_id, topic, lasting_only) VALUES ($1, $2, $3, $4)",
                           {valueOf(site_), valueOf(runId), std::string_view(joined.topic.name),
                            std::int64_t{joined.lastingOnly ? 1 : 0}});
    const auto listed = noted ? listedOf(runId) : fail(noted.error());
    Done done = listed ? Done{} : fail(listed.error());
    for (const Listed& one : listed ? *listed : std::vector<Listed>()) {
        if (done && !(joined.lastingOnly && one.isOfMoment)) {
            done = list(joined.topic, one.ref, one.isOfMoment);
        }
    }
    return done;
}

/// All that is listed of a run, also what still waits to be added.
Result<std::vector<Putting::Listed>> Putting::listedOf(const Id& runId)
{
    const Topic topic = Topic::run(runId);
    auto all = rowsAs(sql_->run("SELECT l.device_id, l.chain_id, l.sequence, e.kind FROM listed l JOIN entries e ON "
                                "e.site_id = l.site_id AND e.chain_id = l.chain_id AND e.sequence = l.sequence "
                                "WHERE l.site_id = $1 AND l.topic = $2 ORDER BY l.place",
                                {valueOf(site_), std::string_view(topic.name)}),
                      [&](const SqlRow& row) -> Result<Listed> {
                          return refFrom(row).transform([&](const sync::Ref& ref) {
                              return Listed{topic, 0, ref, ledger::isKindOfMoment(row.bytes(3))};
                          });
                      });
    for (const Listed& one : newListed_) {
        if (all && one.topic == topic) {
            all->push_back(one);
        }
    }
    return all;
}

Done Putting::list(const Topic& topic, const sync::Ref& ref, bool isOfMoment)
{
    auto known = lastPlaces_.find(topic);
    if (known == lastPlaces_.end()) {
        const auto last = sql_->run("SELECT max(place) FROM listed WHERE site_id = $1 AND topic = $2",
                                    {valueOf(site_), std::string_view(topic.name)});
        if (!last) {
            return fail(last.error());
        }
        known = lastPlaces_.emplace(topic, last->front().isNothing(0) ? 0 : last->front().number(0)).first;
    }
    newListed_.push_back({topic, ++known->second, ref, isOfMoment});
    return {};
}

Done Putting::addEntries()
{
    static const std::string columns = "site_id, " + std::string(entryColumns);
    SqlRows rows = {"entries", columns, entryColumnCount + 1};
    for (const sync::Held& held : newEntries_) {
        const auto values = valuesOf(site_, held);
        rows.values.insert(rows.values.end(), values.begin(), values.end());
    }
    return sql_->add(rows).transform([&] {
        newEntries_.clear();
        newBytes_ = 0;
    });
}

Done Putting::addListed()
{
    SqlRows rows = {"listed", "site_id, topic, place, device_id, chain_id, sequence", 6};
    for (const Listed& one : newListed_) {
        rows.values.insert(rows.values.end(),
                           {valueOf(site_), std::string_view(one.topic.name), one.place, valueOf(one.ref.device),
                            valueOf(one.ref.chain), numberOf(one.ref.sequence)});
    }
    return sql_->add(rows).transform([&] { newListed_.clear(); });
}

Done Putting::moveEnds()
{
    for (auto& [id, chain] : chains_) {
        const Done moved = chain.isMoved
            ? run("INSERT INTO chains (site_id, chain_id, device_id, sequence, hash) VALUES ($1, $2, $3, $4, $5) "
                  "ON CONFLICT (site_id, chain_id) DO UPDATE SET sequence = excluded.sequence, hash = excluded.hash",
                  {valueOf(site_), valueOf(id), valueOf(chain.last->device), numberOf(chain.last->sequence),
                   valueOf(chain.last->hash)})
            : Done{};
        if (!moved) {
            return moved;
        }
        chain.isMoved = false;
    }
    return {};
}

} // namespace loopside::hub
