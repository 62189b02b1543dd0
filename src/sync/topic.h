// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// What may interest a tablet. A topic is a list of entries that only grows; a tablet that has gone through the first
// twenty asks for what stands behind them. So an entry that becomes of interest later (a run was moved to another tank)
// stands at the end of the list, and nobody misses it.

#pragma once

#include "base/id.h"
#include "ledger/entry.h"

#include <compare>
#include <cstdint>
#include <map>
#include <optional>
#include <set>
#include <string>
#include <string_view>
#include <vector>

namespace loopside::sync {

/// Most bytes of a topic's name. A tank with a longer name has no topic.
inline constexpr std::size_t topicBytesMax = 512;

struct Topic
{
    std::string name; ///< As in a message: "catalogue", "learned", "tank PH-3", "run <id>", "device <id>", "handed
                      ///< <id>", "code 7K3M9Q".

    [[nodiscard]] static Topic catalogue() { return {"catalogue"}; } ///< Records of all kinds, and the stock.
    [[nodiscard]] static Topic learned() { return {"learned"}; }     ///< What loadings that are over teach.
    [[nodiscard]] static Topic tank(std::string_view tank) { return {"tank " + std::string(tank)}; } ///< Its history.
    [[nodiscard]] static Topic run(const Id& run) { return {"run " + toText(run)}; } ///< Every entry of a run or job.
    [[nodiscard]] static Topic device(const Id& device) { return {"device " + toText(device)}; } ///< All of a device.

    /// Every entry of the runs that were handed to a device, and of those that show a code.
    [[nodiscard]] static Topic handedTo(const Id& device) { return {"handed " + toText(device)}; }
    [[nodiscard]] static Topic code(std::string_view code) { return {"code " + std::string(code)}; }

    [[nodiscard]] bool isOfDevice() const { return name.starts_with("device "); }

    friend auto operator<=>(const Topic&, const Topic&) = default;
};

/// The place of an entry on a shelf.
struct Ref
{
    Id device = {};
    Id chain = {};
    std::uint64_t sequence = 0;

    friend auto operator<=>(const Ref&, const Ref&) = default;
};

/// Where an entry belongs by itself, whatever came before it.
struct Listing
{
    std::vector<Topic> topics = {};     ///< It is listed under each of these.
    bool isLasting = false;             ///< It is listed under the tanks of its run as well.
    std::optional<Topic> tank = {};     ///< From now on its run is of this tank's history, from its beginning on.
    std::optional<Topic> handedTo = {}; ///< From now on its run is listed here, from its beginning on.
};

/// A body that cannot be read is listed by what its envelope says.
[[nodiscard]] Listing listingOf(const ledger::Entry& entry);

/// Lists entries under their topics as they come.
///
/// A tank's history is what is lasting (ledger/kinds.h) of the runs and transfers on it: where a run was moved, of the
/// tank that it was moved to as well. The order in which entries come makes no difference to what is listed.
class TopicIndex
{
public:
    /// Lists `entry`, which was not listed before.
    void add(const ledger::Entry& entry);

    /// All that is listed under `topic`, in the order in which it came to belong there.
    [[nodiscard]] const std::vector<Ref>& of(const Topic& topic) const;

private:
    struct Run
    {
        std::set<Topic> tanks = {};
        std::set<Topic> handedTo = {};
        std::vector<Ref> lasting = {};
    };

    void join(std::set<Topic>& joined, const Topic& topic, const std::vector<Ref>& from);

    std::map<Topic, std::vector<Ref>> topics_;
    std::map<Id, Run> runs_;
};

} // namespace loopside::sync
