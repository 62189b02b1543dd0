// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "sync/shelf.h"
#include "sync/topic.h"

#include <optional>
#include <vector>

namespace loopside::sync {

/// What a site hub keeps: a shelf that lists what it holds under topics.
class HubStore : public Shelf
{
public:
    /// A piece of a topic: at most `most` places behind `after`, and how many there are in all.
    struct Listed
    {
        std::vector<Ref> refs;
        std::uint64_t last = 0;
    };
    [[nodiscard]] virtual Result<Listed> list(const Topic& topic, std::uint64_t after, std::size_t most) const = 0;

    /// The last entry of `chain`.
    [[nodiscard]] virtual Result<std::optional<Tip>> tip(const Id& chain) const = 0;

    /// The gaps of `chain` that were told as lost and were not filled since.
    [[nodiscard]] virtual Result<std::vector<ledger::Loss>> gapsOf(const Id& chain) const = 0;

    /// All entries of `run`, by chain and sequence.
    [[nodiscard]] virtual Result<std::vector<Held>> ofRun(const Id& run) const = 0;

    /// The last entries of the chains of `device`, by the id of the chain.
    [[nodiscard]] virtual Result<std::vector<Tip>> tipsOf(const Id& device) const = 0;
};

} // namespace loopside::sync
