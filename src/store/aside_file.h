// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "ledger/entry.h"
#include "store/disk.h"

#include <cstddef>
#include <string>
#include <vector>

namespace loopside::store {

/// Entries that came from elsewhere for places which a journal has filled with others: kept beside it for a person to
/// look at, in the file `<journal>.aside`, a line each as in an export (schema/README.md).
class AsideFile
{
public:
    /// Of the journal `path`. `disk` outlives it.
    explicit AsideFile(const std::string& path, Disk& disk = systemDisk()) : path_{path + ".aside"}, disk_{&disk} {}

    /// Keeps `entry` and returns when it is on disk; one that is there already is not written again. Io if the disk
    /// says no: what is there stays.
    [[nodiscard]] Done keep(const ledger::Entry& entry);

    /// Those that were carried into a folder of backups.
    [[nodiscard]] static AsideFile inBackups(const std::string& folder, Disk& disk = systemDisk())
    {
        return AsideFile(folder + "/journal", disk);
    }

    /// Keeps every line that `from` has and this one has not, whatever it says, and returns when they are on disk; how
    /// many. On failure what is there stays.
    [[nodiscard]] Result<std::size_t> takeFrom(const AsideFile& from);

    /// All that is kept, in the order in which it came; none without a file. Malformed for what is no entry.
    [[nodiscard]] Result<std::vector<ledger::Entry>> all() const;

    [[nodiscard]] const std::string& path() const { return path_; }

private:
    [[nodiscard]] Result<std::string> text() const;
    [[nodiscard]] Done write(const std::string& text);

    std::string path_;
    Disk* disk_;
};

} // namespace loopside::store
