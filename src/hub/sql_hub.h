// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "hub/sql.h"
#include "sync/hub_store.h"

namespace loopside::hub {

/// What a site hub keeps, in a database. Several hubs may stand before one PostgreSQL: what one puts, the others see,
/// and of one site only one puts at a time.
class SqlHub final : public sync::HubStore
{
public:
    /// `sql`, laid out, outlives it. Keeps to the rows of `site`.
    SqlHub(Sql& sql, const Id& site) : sql_{&sql}, site_{site} {}

    [[nodiscard]] Result<std::vector<sync::Put>> put(std::span<const sync::Held> entries,
                                                     std::span<const ledger::Loss> losses) override;
    [[nodiscard]] Result<std::optional<sync::Held>> at(const Id& chain, std::uint64_t sequence) const override;
    [[nodiscard]] Result<std::vector<sync::Held>> behind(const Id& chain, std::uint64_t after,
                                                         std::size_t most) const override;
    [[nodiscard]] Result<std::vector<sync::Tip>> tips() const override;
    [[nodiscard]] Result<std::vector<ledger::Entry>> asides(const Id& chain) const override;
    [[nodiscard]] Result<Listed> list(const sync::Topic& topic, std::uint64_t after, std::size_t most) const override;
    [[nodiscard]] Result<std::optional<sync::Tip>> tip(const Id& chain) const override;
    [[nodiscard]] Result<std::vector<ledger::Loss>> gapsOf(const Id& chain) const override;
    [[nodiscard]] Result<std::vector<sync::Held>> ofRun(const Id& run) const override;
    [[nodiscard]] Result<std::vector<sync::Tip>> tipsOf(const Id& device) const override;

private:
    Sql* sql_;
    Id site_;
};

/// Calls `look` with every entry of a chain, in order, until one is refused.
template<class Look>
[[nodiscard]] Done eachOf(const SqlHub& store, const Id& chain, Look look)
{
    constexpr std::size_t pieceOfChain = 500;
    for (std::uint64_t after = 0;;) {
        const auto piece = store.behind(chain, after, pieceOfChain);
        if (!piece || piece->empty()) {
            return piece ? Done{} : fail(piece.error());
        }
        for (const sync::Held& held : *piece) {
            if (const Done looked = look(held); !looked) {
                return looked;
            }
        }
        after = piece->back().entry.header.sequence;
    }
}

} // namespace loopside::hub
