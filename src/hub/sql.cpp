// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "hub/sql.h"

namespace loopside::hub {

namespace {

Result<std::int64_t> layoutOf(Sql& sql)
{
    return sql.run("SELECT version FROM hub_layout").transform([](const std::vector<SqlRow>& rows) {
        return rows.empty() ? std::int64_t{0} : rows.front().number(0);
    });
}

Done takeSteps(Sql& sql)
{
    const auto found = layoutOf(sql);
    if (!found) {
        return fail(found.error());
    }
    const auto steps = sql.schema();
    const auto last = static_cast<std::int64_t>(steps.size());
    if (*found > last) {
        return fail(Errc::Incompatible,
                    "the hub's database was laid out by a newer version of Loopside: update this hub first");
    }
    if (*found == last) {
        return {};
    }
    for (auto step = static_cast<std::size_t>(*found); step < steps.size(); ++step) {
        if (Done done = sql.runAll(steps[step]); !done) {
            return done;
        }
    }
    const auto written = sql.run("DELETE FROM hub_layout").and_then([&](const auto&) {
        return sql.run("INSERT INTO hub_layout (version) VALUES ($1)", {last});
    });
    return written ? Done{} : fail(written.error());
}

} // namespace

Done layOut(Sql& sql)
{
    return inTransaction(sql, Id{}, [&]() -> Done {
        const Done made = sql.runAll("CREATE TABLE IF NOT EXISTS hub_layout (version BIGINT NOT NULL);");
        return made ? takeSteps(sql) : made;
    });
}

} // namespace loopside::hub
