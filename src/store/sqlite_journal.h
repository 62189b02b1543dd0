// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "ledger/journal.h"

#include <memory>
#include <string>

namespace loopside::store {

/// The journal of a tablet in one SQLite file, laid out in schema/README.md.
///
/// `append` returns after the commit was synced (write-ahead log, synchronous FULL): what it acknowledged survives a
/// kill or a power cut in the next instruction. A write that was cut off is dropped when the file is opened next.
class SqliteJournal final : public ledger::Journal
{
public:
    struct Options
    {
        int busyTimeoutMs = 2000; ///< How long to wait for another program that is writing.
    };

    /// Opens the journal `path`; if no such file is there, makes it, open to its owner alone. A file of an older
    /// version is brought up to this one.
    ///
    /// Corrupt for a damaged file and for one that is no journal, Incompatible for one of a newer version: neither is
    /// changed. Unavailable if another program keeps it, Io if the disk or the system says no.
    [[nodiscard]] static Result<std::unique_ptr<SqliteJournal>> open(const std::string& path);
    [[nodiscard]] static Result<std::unique_ptr<SqliteJournal>> open(const std::string& path, const Options& options);

    ~SqliteJournal() override;

    [[nodiscard]] Result<ledger::Position> append(std::span<const ledger::Entry> entries) override;
    [[nodiscard]] Result<std::vector<ledger::Stored>> read(ledger::Position after, std::size_t limit) const override;
    [[nodiscard]] Result<std::optional<ledger::ChainHead>> head(const Id& device) const override;

private:
    struct Connection;

    explicit SqliteJournal(std::unique_ptr<Connection> connection);
    [[nodiscard]] Result<ledger::Position> add(const ledger::Entry& entry);

    std::unique_ptr<Connection> connection_;
};

} // namespace loopside::store
