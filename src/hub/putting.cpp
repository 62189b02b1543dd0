// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "hub/putting.h"

#include "hub/entry_row.h"
#include "ledger/kinds.h"

namespace loopside::hub {

using ledger::Entry;
using sync::Placed;
using sync::Put;
using sync::Surroundings;
using sync::Topic;

namespace {

constexpr std::string_view placedColumns = "sequence, device_id, clock, previous_hash, hash";

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

std::string insertionInto(std::string_view table, std::string_view further, std::size_t count)
{
    std::string statement = "INSERT INTO " + std::string(table) + " (site_id, " + std::string(entryColumns)
        + std::string(further) + ") VALUES (";
    for (std::size_t i = 1; i <= count; ++i) {
        statement += (i == 1 ? "$" : ", $") + std::to_string(i);
    }
    return statement + ")";
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

Result<Putting::Chain*> Putting::chainOf(const Id& chain)
{
    const auto known = chains_.find(chain);
    if (known != chains_.end()) {
        return &known->second;
    }
    static const std::string lastOf = "SELECT " + std::string(placedColumns)
        + " FROM entries WHERE site_id = $1 AND chain_id = $2 ORDER BY sequence DESC LIMIT 1";
    const auto last = sql_->run(lastOf, {valueOf(site_), valueOf(chain)});
    const auto asides = last ? sql_->run("SELECT number FROM asides WHERE site_id = $1 AND chain_id = $2 LIMIT 1",
                                         {valueOf(site_), valueOf(chain)})
                             : fail(last.error());
    if (!asides) {
        return fail(asides.error());
    }
    Chain found;
    found.hasAsides = !asides->empty();
    if (!last->empty()) {
        const auto placed = placedFrom(last->front());
        if (!placed) {
            return fail(placed.error());
        }
        found.last = *placed;
    }
    return &chains_.emplace(chain, found).first->second;
}

Result<Surroundings> Putting::surroundingsOf(const Entry& entry, const Chain& chain)
{
    Surroundings around;
    if (isNext(entry, chain.last)) {
        around.before = chain.last;
    } else if (const Done looked = lookAround(entry, around); !looked) {
        return fail(looked.error());
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

Done Putting::lookAround(const Entry& entry, Surroundings& around)
{
    static const std::string select = "SELECT " + std::string(placedColumns)
        + " FROM entries WHERE site_id = $1 AND chain_id = $2 AND ";
    static const std::string inFront = select + "sequence < $3 ORDER BY sequence DESC LIMIT 1";
    static const std::string fromThere = select + "sequence >= $3 ORDER BY sequence LIMIT 2";
    const std::vector<SqlValue> place = {valueOf(site_), valueOf(entry.chain), numberOf(entry.header.sequence)};
    const auto before = sql_->run(inFront, place);
    const auto behind = before ? sql_->run(fromThere, place) : before;
    if (!behind) {
        return fail(behind.error());
    }
    for (const auto* rows : {&*before, &*behind}) {
        for (const SqlRow& row : *rows) {
            const auto placed = placedFrom(row);
            if (!placed) {
                return fail(placed.error());
            }
            if (placed->sequence < entry.header.sequence) {
                around.before = *placed;
            } else if (placed->sequence == entry.header.sequence) {
                around.there = *placed;
            } else if (!around.next) {
                around.next = *placed;
            }
        }
    }
    return {};
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
    static const std::string insertion = insertionInto("entries", "", entryColumnCount + 1);
    return run(insertion, valuesOf(site_, held))
        .and_then([&] { return changeGaps(held.entry, around); })
        .and_then([&] { return moveEnd(held.entry, chain); })
        .and_then([&] { return listUnderTopics(held.entry); });
}

Done Putting::keepAside(const sync::Held& held, Chain& chain)
{
    static const std::string insertion = insertionInto("asides", ", number", entryColumnCount + 2);
    const auto last = sql_->run("SELECT max(number) FROM asides WHERE site_id = $1 AND chain_id = $2",
                                {valueOf(site_), valueOf(held.entry.chain)});
    if (!last) {
        return fail(last.error());
    }
    auto values = valuesOf(site_, held);
    values.emplace_back(last->front().isNothing(0) ? std::int64_t{1} : last->front().number(0) + 1);
    chain.hasAsides = true;
    return run(insertion, values);
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

Done Putting::moveEnd(const Entry& entry, Chain& chain)
{
    if (chain.last && chain.last->sequence > entry.header.sequence) {
        return {};
    }
    chain.last = sync::placedOf(entry);
    return run("INSERT INTO chains (site_id, chain_id, device_id, sequence, hash) VALUES ($1, $2, $3, $4, $5) "
               "ON CONFLICT (site_id, chain_id) DO UPDATE SET sequence = excluded.sequence, hash = excluded.hash",
               {valueOf(site_), valueOf(entry.chain), valueOf(entry.header.device), numberOf(entry.header.sequence),
                valueOf(entry.hash)});
}

Done Putting::listUnderTopics(const Entry& entry)
{
    const Id& runId = entry.header.run;
    const sync::Listing listing = sync::listingOf(entry);
    const sync::Ref ref = {entry.header.device, entry.chain, entry.header.sequence};
    Done done = {};
    for (const Topic& topic : listing.topics) {
        done = done ? list(topic, ref) : done;
    }
    if (!done || runId.isNone()) {
        return done;
    }
    const auto joined = sql_->run("SELECT topic, lasting_only FROM run_topics WHERE site_id = $1 AND run_id = $2",
                                  {valueOf(site_), valueOf(runId)});
    if (!joined) {
        return fail(joined.error());
    }
    for (const SqlRow& row : *joined) {
        if (done && (listing.isLasting || row.number(1) == 0)) {
            done = list({row.bytes(0)}, ref);
        }
    }
    done = done && listing.tank ? join(runId, *listing.tank, true) : done;
    return done && listing.handedTo ? join(runId, *listing.handedTo, false) : done;
}

/// Lists a run under `topic` from its beginning on, if it is not listed there.
Done Putting::join(const Id& runId, const Topic& topic, bool lastingOnly)
{
    const auto joined = sql_->run(
        "INSERT INTO run_topics (site_id, run_id, topic, lasting_only) "
        "VALUES ($1, $2, $3, $4) ON CONFLICT (site_id, run_id, topic) DO NOTHING "
        "RETURNING lasting_only",
        {valueOf(site_), valueOf(runId), std::string_view(topic.name), std::int64_t{lastingOnly ? 1 : 0}});
    if (!joined || joined->empty()) {
        return joined ? Done{} : fail(joined.error());
    }
    const std::string all = Topic::run(runId).name;
    const auto rows = sql_->run(
        "SELECT l.device_id, l.chain_id, l.sequence, e.kind FROM listed l JOIN entries e ON e.site_id = l.site_id AND "
        "e.chain_id = l.chain_id AND e.sequence = l.sequence WHERE l.site_id = $1 AND l.topic = $2 ORDER BY l.place",
        {valueOf(site_), std::string_view(all)});
    Done done = rows ? Done{} : fail(rows.error());
    for (std::size_t i = 0; done && i < rows->size(); ++i) {
        const SqlRow& row = (*rows)[i];
        sync::Ref ref = {{}, {}, static_cast<std::uint64_t>(row.number(2))};
        done = take(row.bytes(0), ref.device.bytes).and_then([&] { return take(row.bytes(1), ref.chain.bytes); });
        if (done && !(lastingOnly && ledger::isKindOfMoment(row.bytes(3)))) {
            done = list(topic, ref);
        }
    }
    return done;
}

Done Putting::list(const Topic& topic, const sync::Ref& ref)
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
    ++known->second;
    return run("INSERT INTO listed (site_id, topic, place, device_id, chain_id, sequence) "
               "VALUES ($1, $2, $3, $4, $5, $6)",
               {valueOf(site_), std::string_view(topic.name), known->second, valueOf(ref.device), valueOf(ref.chain),
                numberOf(ref.sequence)});
}

} // namespace loopside::hub
