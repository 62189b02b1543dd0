// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "store/migrations.h"

#include "embedded/tablet_0001.h"
#include "embedded/tablet_0002.h"
#include "embedded/tablet_0003.h"
#include "embedded/tablet_0004.h"
#include "embedded/tablet_0005.h"
#include "embedded/tablet_0006.h"

#include <array>
#include <map>
#include <mutex>

namespace loopside::store {

namespace {

/// The files of schema/tablet in their order; never changed once released, only added to.
const std::array steps = {schema::tablet_0001(), schema::tablet_0002(), schema::tablet_0003(),
                          schema::tablet_0004(), schema::tablet_0005(), schema::tablet_0006()};

/// Takes the step from `version`, unless another program took it meanwhile.
Done takeStep(Database& database, std::size_t version)
{
    Result<WriteTransaction> transaction = WriteTransaction::begin(database);
    if (!transaction) {
        return fail(transaction.error());
    }
    const Result<std::int64_t> found = database.number("PRAGMA user_version");
    if (!found) {
        return fail(found.error());
    }
    if (*found != static_cast<std::int64_t>(version)) {
        return {};
    }
    const std::string sql = std::string(steps[version]) + "PRAGMA user_version = " + std::to_string(version + 1) + ";";
    if (Done done = database.run(sql.c_str()); !done) {
        return done;
    }
    return transaction->commit();
}

/// Brings `database` from the step `from` to the step `to`.
Done takeSteps(Database& database, std::size_t from, std::size_t to)
{
    for (std::size_t version = from; version < to; ++version) {
        if (Done taken = takeStep(database, version); !taken) {
            return taken;
        }
    }
    return {};
}

/// How SQLite was told to make each table, index and trigger, by what it is and its name.
using Layout = std::map<std::string, std::string>;

Result<Layout> layoutOf(Database& database)
{
    Result<Statement> rows = database.prepare("SELECT type || ' ' || name, tbl_name || ': ' || ifnull(sql, '') "
                                              "FROM sqlite_schema");
    if (!rows) {
        return fail(rows.error());
    }
    Layout layout;
    Result<bool> found = rows->step();
    for (; found && *found; found = rows->step()) {
        layout.emplace(rows->bytes(0), rows->bytes(1));
    }
    return found ? Result<Layout>(std::move(layout)) : fail(found.error());
}

/// The layout that a journal has after the first `count` steps.
Result<Layout> layoutMadeBy(std::size_t count, const std::string& path)
{
    Result<Database> fresh = Database::openForItself(path);
    const Done made = fresh ? takeSteps(*fresh, 0, count) : fail(fresh.error());
    return made ? layoutOf(*fresh) : fail(made.error());
}

/// The same, made once for each number of steps: a start opens its journal and some backups.
Result<Layout> knownLayout(std::size_t count, const std::string& path)
{
    static std::mutex door; // the look behind a start opens the journal on a thread of its own
    static std::map<std::size_t, Layout> made;
    const std::scoped_lock alone(door);
    if (const auto known = made.find(count); known != made.end()) {
        return known->second;
    }
    Result<Layout> layout = layoutMadeBy(count, path);
    if (layout) {
        made.emplace(count, *layout);
    }
    return layout;
}

struct Numbered
{
    Layout layout;
    std::int64_t version = 0;
};

/// What `database` has, and which layout it says it has.
Result<Numbered> numberedOf(Database& database)
{
    return database.still([&]() -> Result<Numbered> {
        Result<Layout> layout = layoutOf(database);
        if (!layout) { // a text that SQLite does not take as a table, or a way of keeping it that it does not know
            const auto impossible = database.whyImpossible();
            return fail(impossible ? damageOf(database.path(), *impossible) : layout.error());
        }
        return database.number("PRAGMA user_version").transform([&](std::int64_t version) {
            return Numbered{*std::move(layout), version};
        });
    });
}

/// The first name of which the two tell otherwise; empty: none.
std::string differenceOf(const Layout& found, const Layout& made)
{
    for (const auto& [name, sql] : made) {
        const auto same = found.find(name);
        if (same == found.end() || same->second != sql) {
            return name + (same == found.end() ? " is not there" : " is not as it was made");
        }
    }
    for (const auto& [name, sql] : found) {
        if (!made.contains(name)) {
            return name + " does not belong there";
        }
    }
    return {};
}

} // namespace

Done checkLayout(Database& database)
{
    const std::string& path = database.path();
    const Result<Numbered> found = numberedOf(database);
    if (found && database.isReadOnly()) {
        return fail(damageOf(path, "its header says that it may only be read"));
    }
    const auto made = found ? knownLayout(static_cast<std::size_t>(found->version), path) : fail(found.error());
    if (!made) {
        return fail(made.error());
    }
    const std::string difference = differenceOf(found->layout, *made);
    return difference.empty() ? Done() : fail(damageOf(path, "the " + difference));
}

Result<bool> isOlder(Database& database)
{
    return database.number("PRAGMA user_version").transform([](std::int64_t version) {
        return version < static_cast<std::int64_t>(steps.size());
    });
}

Done refuseNewer(Database& database)
{
    const Result<std::int64_t> version = database.number("PRAGMA user_version");
    if (!version) {
        return fail(version.error());
    }
    const std::string& path = database.path();
    if (*version < 0) {
        return fail(damageOf(path, "its layout has the number " + std::to_string(*version)));
    }
    if (*version > static_cast<std::int64_t>(steps.size())) {
        return fail(Errc::Incompatible,
                    path + " was written by a newer version of Loopside (layout " + std::to_string(*version)
                        + ", this one knows up to " + std::to_string(steps.size())
                        + "): it is left as it is; update Loopside to open it",
                    {"store-newer", {{"path", path}}});
    }
    return {};
}

Done migrate(Database& database)
{
    const Result<std::int64_t> found = database.number("PRAGMA user_version");
    if (!found) {
        return fail(found.error());
    }
    return takeSteps(database, static_cast<std::size_t>(*found), steps.size());
}

} // namespace loopside::store
