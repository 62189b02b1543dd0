// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "base/result.h"

#include <string>
#include <string_view>
#include <vector>

namespace loopside::store {

/// The disk as files that stand beside a journal need it: in steps each of which can fail, and after each of which the
/// power can go. What was written is on disk only after `sync`, a name only after `syncFolder` of its folder.
///
/// All errors are Io but where something else is said; nothing is undone by a failure.
class Disk
{
public:
    Disk() = default;
    Disk(const Disk&) = delete;
    Disk& operator=(const Disk&) = delete;
    virtual ~Disk() = default;

    /// Makes the folder, open to its owner alone (mode 0700); success where it is there already.
    [[nodiscard]] virtual Done makeFolder(const std::string& path) = 0;
    /// Makes the file with `content`, open to its owner alone (mode 0600), in place of one that is there.
    [[nodiscard]] virtual Done write(const std::string& path, std::string_view content) = 0;
    /// NotFound if it is not there.
    [[nodiscard]] virtual Done sync(const std::string& path) = 0;
    /// In place of what has the name `to`.
    [[nodiscard]] virtual Done rename(const std::string& from, const std::string& to) = 0;
    /// NotFound if it is not there.
    [[nodiscard]] virtual Done syncFolder(const std::string& path) = 0;
    /// Success where it is not there.
    [[nodiscard]] virtual Done remove(const std::string& path) = 0;

    /// At most `most` bytes and one more, which tells that there are more. NotFound if it is not there.
    [[nodiscard]] virtual Result<std::string> read(const std::string& path, std::size_t most) const = 0;
    /// The names of the files in the folder, sorted; none where it is not there.
    [[nodiscard]] virtual Result<std::vector<std::string>> list(const std::string& path) const = 0;
};

/// The one of the operating system.
[[nodiscard]] Disk& systemDisk();

} // namespace loopside::store
