// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "sync/tablet_side.h"

#include <memory>
#include <string>

namespace loopside::handover {

/// What a tablet keeps of its site's hub.
struct KeptProgress
{
    sync::Progress progress = {};
    std::int64_t reachedAtMs = 0; ///< When all entries were there last, by the tablet's clock; 0: never.
    std::uint64_t filesUpTo = 0;  ///< Position in the journal up to which the hub has the files of attachments.

    friend bool operator==(const KeptProgress&, const KeptProgress&) = default;
};

/// What a tablet holds of other devices of its site, each entry singly in its place, and how far it has come with the
/// hub: in the file of its journal, in tables of their own (schema/README.md, section 3).
///
/// What it acknowledged survives a power cut. A journal that is made anew begins without it, and hears it again.
class OthersShelf final : public sync::Shelf
{
public:
    /// Of `site`, in the file of the journal `path`, which was opened by `SqliteJournal` and stays open longer.
    [[nodiscard]] static Result<std::unique_ptr<OthersShelf>> open(const std::string& path, const Id& site);

    ~OthersShelf() override;

    [[nodiscard]] Result<std::vector<sync::Put>> put(std::span<const sync::Held> entries,
                                                     std::span<const ledger::Loss> losses) override;
    [[nodiscard]] Result<std::optional<sync::Held>> at(const Id& chain, std::uint64_t sequence) const override;
    [[nodiscard]] Result<std::vector<sync::Held>> behind(const Id& chain, std::uint64_t after,
                                                         std::size_t most) const override;
    [[nodiscard]] Result<std::vector<sync::Tip>> tips() const override;
    [[nodiscard]] Result<std::vector<ledger::Entry>> asides(const Id& chain) const override;

    /// Puts `entries` and keeps `progress` in one write: what is said to be there is there.
    [[nodiscard]] Result<std::vector<sync::Put>> keep(std::span<const sync::Held> entries,
                                                      const KeptProgress& progress);

    [[nodiscard]] Result<KeptProgress> progress() const;

    /// All entries, in the order in which they came.
    [[nodiscard]] Result<std::vector<sync::Held>> all() const;

private:
    struct Connection;

    explicit OthersShelf(std::unique_ptr<Connection> connection);

    std::unique_ptr<Connection> connection_;
};

} // namespace loopside::handover
