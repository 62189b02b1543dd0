// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "store/migrations.h"

#include "embedded/tablet_0001.h"
#include "embedded/tablet_0002.h"
#include "embedded/tablet_0003.h"

#include <array>

namespace loopside::store {

namespace {

/// The files of schema/tablet in their order; never changed once released, only added to.
const std::array steps = {schema::tablet_0001(), schema::tablet_0002(), schema::tablet_0003()};

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

} // namespace

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
    for (auto version = static_cast<std::size_t>(*found); version < steps.size(); ++version) {
        if (Done taken = takeStep(database, version); !taken) {
            return taken;
        }
    }
    return {};
}

} // namespace loopside::store
