// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "hub/sql_hub.h"

#include "hub/entry_row.h"
#include "hub/putting.h"

#include <algorithm>
#include <limits>
#include <tuple>

namespace loopside::hub {

using ledger::Loss;
using sync::Held;
using sync::Put;
using sync::Tip;

namespace {

constexpr auto numberMost = static_cast<std::uint64_t>(std::numeric_limits<std::int64_t>::max());

SqlValue numberOf(std::uint64_t number)
{
    return static_cast<std::int64_t>(std::min(number, numberMost));
}

Result<Tip> tipFrom(const SqlRow& row)
{
    Tip tip = {{}, {}, static_cast<std::uint64_t>(row.number(2)), {}};
    const Done taken = take(row.bytes(0), tip.device.bytes)
                           .and_then([&] { return take(row.bytes(1), tip.chain.bytes); })
                           .and_then([&] { return take(row.bytes(3), tip.hash); });
    return taken ? Result<Tip>(tip) : fail(taken.error());
}

std::string entriesWhere(std::string_view table, std::string_view rest)
{
    return "SELECT " + std::string(entryColumns) + " FROM " + std::string(table)
        + " WHERE site_id = $1 AND chain_id = $2 " + std::string(rest);
}

} // namespace

Result<std::vector<Put>> SqlHub::put(std::span<const Held> entries, std::span<const Loss> losses)
{
    for (const Held& held : entries) {
        if (held.entry.header.sequence > numberMost) {
            return fail(Errc::OutOfRange, "no chain has as many entries as this one says");
        }
    }
    return inTransaction(*sql_, site_, [&]() -> Result<std::vector<Put>> {
        Putting putting(*sql_, site_);
        std::vector<Put> outcomes;
        for (const Held& held : entries) {
            const auto outcome = putting.put(held, losses);
            if (!outcome) {
                return fail(outcome.error());
            }
            outcomes.push_back(*outcome);
        }
        return putting.finish().transform([&] { return std::move(outcomes); });
    });
}

Result<std::optional<Held>> SqlHub::at(const Id& chain, std::uint64_t sequence) const
{
    static const std::string select = entriesWhere("entries", "AND sequence = $3");
    return firstOf(rowsAs(sql_->run(select, {valueOf(site_), valueOf(chain), numberOf(sequence)}), heldFrom));
}

Result<std::vector<Held>> SqlHub::behind(const Id& chain, std::uint64_t after, std::size_t most) const
{
    static const std::string select = entriesWhere("entries", "AND sequence > $3 ORDER BY sequence LIMIT $4");
    return rowsAs(sql_->run(select, {valueOf(site_), valueOf(chain), numberOf(after), numberOf(most)}), heldFrom);
}

Result<std::vector<Tip>> SqlHub::tips() const
{
    return rowsAs(
        sql_->run("SELECT device_id, chain_id, sequence, hash FROM chains WHERE site_id = $1 ORDER BY chain_id",
                  {valueOf(site_)}),
        tipFrom);
}

Result<std::vector<Tip>> SqlHub::tipsOf(const Id& device) const
{
    return rowsAs(sql_->run("SELECT device_id, chain_id, sequence, hash FROM chains "
                            "WHERE site_id = $1 AND device_id = $2 ORDER BY chain_id",
                            {valueOf(site_), valueOf(device)}),
                  tipFrom);
}

/// Put in order here: asked for by chain and sequence, SQLite goes through all entries of the site.
Result<std::vector<Held>> SqlHub::ofRun(const Id& run) const
{
    static const std::string select = "SELECT " + std::string(entryColumns)
        + " FROM entries WHERE site_id = $1 AND run_id = $2";
    return rowsAs(sql_->run(select, {valueOf(site_), valueOf(run)}), heldFrom).transform([](std::vector<Held> all) {
        std::ranges::sort(all, {},
                          [](const Held& held) { return std::tuple(held.entry.chain, held.entry.header.sequence); });
        return all;
    });
}

Result<std::optional<Tip>> SqlHub::tip(const Id& chain) const
{
    return firstOf(
        rowsAs(sql_->run("SELECT device_id, chain_id, sequence, hash FROM chains WHERE site_id = $1 AND chain_id = $2",
                         {valueOf(site_), valueOf(chain)}),
               tipFrom));
}

Result<std::vector<ledger::Entry>> SqlHub::asides(const Id& chain) const
{
    static const std::string select = entriesWhere("asides", "ORDER BY number");
    return rowsAs(sql_->run(select, {valueOf(site_), valueOf(chain)}), [](const SqlRow& row) {
        return heldFrom(row).transform([](Held held) { return std::move(held.entry); });
    });
}

Result<sync::HubStore::Listed> SqlHub::list(const sync::Topic& topic, std::uint64_t after, std::size_t most) const
{
    const auto last = sql_->run("SELECT max(place) FROM listed WHERE site_id = $1 AND topic = $2",
                                {valueOf(site_), std::string_view(topic.name)});
    if (!last) {
        return fail(last.error());
    }
    const std::int64_t count = last->front().isNothing(0) ? 0 : last->front().number(0);
    auto refs = rowsAs(
        sql_->run("SELECT device_id, chain_id, sequence FROM listed WHERE site_id = $1 AND topic = $2 "
                  "AND place > $3 AND place <= $4 ORDER BY place LIMIT $5",
                  {valueOf(site_), std::string_view(topic.name), numberOf(after), count, numberOf(most)}),
        refFrom);
    return std::move(refs).transform(
        [&](std::vector<sync::Ref> found) { return Listed{std::move(found), static_cast<std::uint64_t>(count)}; });
}

Result<std::vector<Loss>> SqlHub::gapsOf(const Id& chain) const
{
    return rowsAs(sql_->run("SELECT after_sequence, before_sequence FROM gaps WHERE site_id = $1 AND chain_id = $2 "
                            "ORDER BY after_sequence",
                            {valueOf(site_), valueOf(chain)}),
                  [&](const SqlRow& row) -> Result<Loss> {
                      return Loss{chain, static_cast<std::uint64_t>(row.number(0)),
                                  static_cast<std::uint64_t>(row.number(1))};
                  });
}

} // namespace loopside::hub
