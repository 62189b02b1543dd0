// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "hub/sql.h"
#include "hub/stretch.h"
#include "sync/placing.h"
#include "sync/topic.h"

#include <map>
#include <string>
#include <vector>

namespace loopside::hub {

/// One round of putting entries into a database, within a transaction in which nobody else writes of the site. It
/// remembers what it was told, and adds what is new many rows at a time: all of it is there after `finish`.
class Putting
{
public:
    Putting(Sql& sql, const Id& site) : sql_{&sql}, site_{site} {}

    [[nodiscard]] Result<sync::Put> put(const sync::Held& held, std::span<const ledger::Loss> losses);

    /// Adds what waits. The round may go on.
    [[nodiscard]] Done finish();

private:
    struct Chain
    {
        std::optional<sync::Placed> last = {};
        bool isMoved = false; ///< Its end is not written yet.
        bool hasAsides = false;
        Stretch known = {};
    };
    /// What a run is listed under, besides what its entries say themselves.
    struct Joined
    {
        sync::Topic topic;
        bool lastingOnly = false;
    };
    struct Listed
    {
        sync::Topic topic;
        std::int64_t place = 0;
        sync::Ref ref;
        bool isOfMoment = false;
    };

    [[nodiscard]] Result<Chain*> chainOf(const Id& id);
    [[nodiscard]] Result<sync::Surroundings> surroundingsOf(const ledger::Entry& entry, Chain& chain);
    [[nodiscard]] Result<Stretch> stretchFrom(const ledger::Entry& entry);
    [[nodiscard]] Result<bool> isAside(const Id& chain, const ledger::Hash& hash);
    [[nodiscard]] Done create(const sync::Held& held, const sync::Surroundings& around, Chain& chain);
    [[nodiscard]] Done keepAside(const sync::Held& held, Chain& chain);
    [[nodiscard]] Done changeGaps(const ledger::Entry& entry, const sync::Surroundings& around);
    [[nodiscard]] Done addGap(const Id& chain, std::uint64_t after, std::uint64_t before);
    [[nodiscard]] Done listUnderTopics(const ledger::Entry& entry);
    [[nodiscard]] Done list(const sync::Topic& topic, const sync::Ref& ref, bool isOfMoment);
    [[nodiscard]] Result<std::vector<Joined>*> joinedOf(const Id& run);
    [[nodiscard]] Done join(const Id& run, const Joined& joined);
    [[nodiscard]] Result<std::vector<Listed>> listedOf(const Id& run);
    [[nodiscard]] Done addEntries();
    [[nodiscard]] Done addListed();
    [[nodiscard]] Done moveEnds();

    [[nodiscard]] Done run(std::string_view statement, const std::vector<SqlValue>& values);

    Sql* sql_;
    Id site_;
    std::map<Id, Chain> chains_ = {};
    std::map<Id, std::vector<Joined>> joined_ = {}; ///< By run.
    std::map<sync::Topic, std::int64_t> lastPlaces_ = {};
    std::vector<sync::Held> newEntries_ = {};
    std::size_t newBytes_ = 0; ///< Of the bodies of the new entries.
    std::vector<Listed> newListed_ = {};
};

} // namespace loopside::hub
