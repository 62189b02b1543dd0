// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "ledger/journal.h"

#include <cstdint>
#include <functional>
#include <limits>
#include <memory>
#include <span>
#include <string>
#include <vector>

namespace loopside::store {

/// That a journal's file was made anew, out of what damage had left of another, of a backup or of an export.
struct Restore
{
    std::int64_t atMs = 0;                 ///< Wall clock, UTC.
    ledger::Position position = 0;         ///< Of the last entry then. Chains that end there or before are over.
    std::string why;                       ///< For people.
    std::vector<ledger::Loss> losses = {}; ///< What was missing then.

    friend bool operator==(const Restore&, const Restore&) = default;
};

/// Takes an entry and its position.
using PutEntry = std::function<Done(const ledger::Stored&)>;
/// Gives all entries of a journal to `put`, each with a position of its own from 1 on, in any order; then what is to be
/// told of them.
using GiveEntries = std::function<Result<Restore>(const PutEntry& put)>;

/// The journal of a tablet in one SQLite file, laid out in schema/README.md.
///
/// `append` returns after the commit was synced (write-ahead log, synchronous FULL): what it acknowledged survives a
/// kill or a power cut in the next instruction. A write that was cut off is dropped when the file is opened next.
class SqliteJournal final : public ledger::Journal
{
public:
    static constexpr std::uint64_t everySize = std::numeric_limits<std::uint64_t>::max();

    struct Options
    {
        int busyTimeoutMs = 2000;                    ///< How long to wait for another program that is writing.
        std::uint64_t structureMaxBytes = everySize; ///< Up to here the structure of the file is looked at.
    };

    /// Opens the journal `path`; if no such file is there, makes it, open to its owner alone. A file of an older
    /// version is brought up to this one.
    ///
    /// Corrupt for a damaged file and for one that is no journal, Incompatible for one of a newer version: neither is
    /// changed. Unavailable if another program keeps it, Io if the disk or the system says no.
    [[nodiscard]] static Result<std::unique_ptr<SqliteJournal>> open(const std::string& path);
    [[nodiscard]] static Result<std::unique_ptr<SqliteJournal>> open(const std::string& path, const Options& options);

    /// Opens the journal `path`, which must be there, to read: nothing of file and log is changed, now or when it is
    /// closed; one of an older version is copied and the copy brought up. What the log cannot give any more is not
    /// looked for: `openToLook` (recovery.h) does.
    ///
    /// NotFound if nothing is there, else the errors of `open`.
    [[nodiscard]] static Result<std::unique_ptr<SqliteJournal>> openToRead(const std::string& path);
    [[nodiscard]] static Result<std::unique_ptr<SqliteJournal>> openToRead(const std::string& path,
                                                                           const Options& options);

    /// Makes the journal `path`, which must not be there, out of what `give` gives, and returns when it is on disk. No
    /// entry is held longer than it takes to write it. Each has the hash that it states; entries of a chain may be
    /// missing where the restore tells of it, whose position is found here. Conflict if `path` is there, Io if the disk
    /// says no, and whatever `give` fails with; nothing is left behind then.
    [[nodiscard]] static Done make(const std::string& path, const GiveEntries& give);

    /// The same out of `entries` in that order.
    [[nodiscard]] static Done make(const std::string& path, std::span<const ledger::Entry> entries,
                                   const Restore& restore);

    ~SqliteJournal() override;

    [[nodiscard]] Result<ledger::Position> append(std::span<const ledger::Entry> entries) override;

    /// Makes one write of everything that `work` appends: it is on disk when this returns, however much there is, and
    /// nothing of it where `work` or any append in it failed. What `work` reads is as if it were written already.
    [[nodiscard]] Done inOneWrite(const std::function<Done()>& work);

    [[nodiscard]] Result<std::vector<ledger::Stored>> read(ledger::Position after, std::size_t limit) const override;
    [[nodiscard]] Result<std::vector<ledger::Listed>> listLasting(ledger::Position after,
                                                                  std::size_t limit) const override;
    [[nodiscard]] Result<std::vector<ledger::Stored>> readLasting(ledger::Position after,
                                                                  std::size_t limit) const override;
    [[nodiscard]] Result<std::uint64_t> latestClock() const override;
    [[nodiscard]] Result<ledger::Position> last() const override;
    [[nodiscard]] Result<std::optional<ledger::ChainHead>> head(const Id& device) const override;

    /// What became of the file, oldest first.
    [[nodiscard]] Result<std::vector<Restore>> restores() const;

    /// The first entries of the chains that begin up to `position`.
    [[nodiscard]] Result<std::vector<ledger::Entry>> openings(ledger::Position position) const;

    /// Whether file and log stay as they are when it is closed: damaged ones are evidence.
    void leaveAsItIs(bool leave = true);

    /// Shows from now on what it holds at this moment, whatever others write. It can only be read from then on.
    [[nodiscard]] Done holdStill();

    /// Whether the opening looked at the structure of the file; a larger one than its options say is left to
    /// `checkStructure`.
    [[nodiscard]] bool isStructureSeen() const;

    /// Looks at the structure of the whole file. Corrupt if it is not whole.
    [[nodiscard]] Done checkStructure() const;

    /// Copies the journal as it is now into `path`, an empty file that is there. Others may write meanwhile.
    [[nodiscard]] Done copyTo(const std::string& path) const;

    /// A number kept under `name`; 0 if none was.
    [[nodiscard]] Result<std::int64_t> counter(const std::string& name) const;
    [[nodiscard]] Done setCounter(const std::string& name, std::int64_t value);

private:
    struct Connection;

    explicit SqliteJournal(std::unique_ptr<Connection> connection);
    [[nodiscard]] Result<ledger::Position> add(const ledger::Entry& entry);
    [[nodiscard]] Result<ledger::Position> addAll(std::span<const ledger::Entry> entries);

    std::unique_ptr<Connection> connection_;
};

} // namespace loopside::store
