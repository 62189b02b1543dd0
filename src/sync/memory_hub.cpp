// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "sync/memory_hub.h"

#include <algorithm>

namespace loopside::sync {

Result<std::vector<Put>> MemoryHub::put(std::span<const Held> entries, std::span<const ledger::Loss> losses)
{
    auto outcomes = shelf_.put(entries, losses);
    for (std::size_t i = 0; outcomes && i < entries.size(); ++i) {
        if ((*outcomes)[i] == Put::Created) {
            topics_.add(entries[i].entry);
        }
    }
    return outcomes;
}

Result<std::optional<Held>> MemoryHub::at(const Id& chain, std::uint64_t sequence) const
{
    return shelf_.at(chain, sequence);
}

Result<std::vector<Held>> MemoryHub::behind(const Id& chain, std::uint64_t after, std::size_t most) const
{
    return shelf_.behind(chain, after, most);
}

Result<std::vector<Tip>> MemoryHub::tips() const
{
    return shelf_.tips();
}

Result<std::vector<ledger::Entry>> MemoryHub::asides(const Id& chain) const
{
    return shelf_.asides(chain);
}

Result<HubStore::Listed> MemoryHub::list(const Topic& topic, std::uint64_t after, std::size_t most) const
{
    const std::vector<Ref>& all = topics_.of(topic);
    Listed listed{{}, all.size()};
    for (std::size_t i = after; i < all.size() && listed.refs.size() < most; ++i) {
        listed.refs.push_back(all[i]);
    }
    return listed;
}

Result<std::optional<Tip>> MemoryHub::tip(const Id& chain) const
{
    return shelf_.tip(chain);
}

Result<std::vector<ledger::Loss>> MemoryHub::gapsOf(const Id& chain) const
{
    return shelf_.gapsOf(chain);
}

Result<std::vector<Held>> MemoryHub::ofRun(const Id& run) const
{
    return shelf_.ofRun(run);
}

Result<std::vector<Tip>> MemoryHub::tipsOf(const Id& device) const
{
    return shelf_.tips().transform([&](std::vector<Tip> tips) {
        std::erase_if(tips, [&](const Tip& tip) { return tip.device != device; });
        return tips;
    });
}

} // namespace loopside::sync
