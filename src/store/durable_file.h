// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "base/result.h"

#include <string>
#include <string_view>

namespace loopside::store {

/// Makes the new file `path` with `content`, open to its owner alone (mode 0600), and returns when it is on disk.
/// Conflict if something of that name is there; Io, with nothing left behind, if the disk says no.
[[nodiscard]] Done writePrivateFile(const std::string& path, std::string_view content);

/// Returns when what was done to the name `path` is on disk.
[[nodiscard]] Done syncName(const std::string& path);

/// Gives the file `from` the name `to` in the same folder and returns when the folder is on disk, so that under the
/// name `to` there is the whole file or none. Conflict, with both left as they are, if `to` is there already.
[[nodiscard]] Done putInPlace(const std::string& from, const std::string& to);

/// Puts `content` in the place of the file `path`, or makes it, open to its owner alone, and returns when it is on
/// disk. Under that name there is the file before or the new one, whole, whatever fails.
[[nodiscard]] Done replacePrivateFile(const std::string& path, std::string_view content);

/// Whether anything has the name `path`. Io if the system does not say.
[[nodiscard]] Result<bool> isThere(const std::string& path);

/// Removes the database `path` and what SQLite keeps beside it, as far as they are there.
void removeDatabase(const std::string& path);

/// Gives the database `from` and what SQLite keeps beside it the name `to`, in the place of what has it, and returns
/// when that is on disk. If the system says no they have the name `from` again, as far as it lets them.
[[nodiscard]] Done moveDatabase(const std::string& from, const std::string& to);

} // namespace loopside::store
