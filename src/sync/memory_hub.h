// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "sync/hub_store.h"
#include "sync/memory_shelf.h"

namespace loopside::sync {

/// What a hub keeps, for as long as the program lasts: for tests, the demo and a first hub.
class MemoryHub final : public HubStore
{
public:
    [[nodiscard]] Result<std::vector<Put>> put(std::span<const Held> entries,
                                               std::span<const ledger::Loss> losses) override;
    [[nodiscard]] Result<std::optional<Held>> at(const Id& chain, std::uint64_t sequence) const override;
    [[nodiscard]] Result<std::vector<Held>> behind(const Id& chain, std::uint64_t after,
                                                   std::size_t most) const override;
    [[nodiscard]] Result<std::vector<Tip>> tips() const override;
    [[nodiscard]] Result<std::vector<ledger::Entry>> asides(const Id& chain) const override;
    [[nodiscard]] Result<Listed> list(const Topic& topic, std::uint64_t after, std::size_t most) const override;
    [[nodiscard]] Result<std::optional<Tip>> tip(const Id& chain) const override;
    [[nodiscard]] Result<std::vector<ledger::Loss>> gapsOf(const Id& chain) const override;
    [[nodiscard]] Result<std::vector<Held>> ofRun(const Id& run) const override;
    [[nodiscard]] Result<std::vector<Tip>> tipsOf(const Id& device) const override;

private:
    MemoryShelf shelf_{MemoryShelf::Keeps::Chains};
    TopicIndex topics_;
};

} // namespace loopside::sync
