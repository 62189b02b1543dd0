// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "base/result.h"
#include "site/site.h"
#include "store/instance_lock.h"
#include "store/sqlite_journal.h"
#include "store/whole_file.h"
#include "story/story.h"

#include <cstddef>
#include <cstdint>
#include <functional>
#include <memory>
#include <ostream>
#include <string>
#include <vector>

namespace loopside::cli {

/// The bytes of a file, at most one more than `bytesMax`: what is longer shows as such.
[[nodiscard]] Result<std::string> readFile(const std::string& path, std::size_t bytesMax);

/// Reads a site file; an empty site for an empty path.
[[nodiscard]] Result<site::Site> readSite(const std::string& path);

/// The person that `person` names: a name of `site`, or an id. NotFound.
[[nodiscard]] Result<Id> personIn(const site::Site& site, const std::string& person);

/// A story and the text it was read from.
struct StoryFile
{
    std::string text;
    story::Story story;
};

/// Reads and parses a story; a fault names the file and the place in it.
[[nodiscard]] Result<StoryFile> readStory(const std::string& path);

using store::writeWhole;

/// NotFound unless something of that name is there.
[[nodiscard]] Done mustBeThere(const std::string& path);

/// Opens a journal that must be there to read all of it; file and log stay as they are. Corrupt where anything shows
/// that it is not all.
[[nodiscard]] Result<std::unique_ptr<store::SqliteJournal>> openExisting(const std::string& path);

/// A journal that this program alone writes to.
struct Held
{
    store::InstanceLock lock;
    std::unique_ptr<store::SqliteJournal> journal;
};

/// Opens the journal `path` as a start of the tablet does, or makes it: what was torn is dropped and counted, what is
/// damaged is put together anew. Either is told on standard error in the language `language`.
[[nodiscard]] Result<Held> openToWrite(const std::string& path, const std::string& language = "en");

/// The same where the lock is held already.
[[nodiscard]] Result<std::unique_ptr<store::SqliteJournal>> openHeld(const std::string& path,
                                                                     const std::string& language = "en");

/// Now: UTC, milliseconds since 1970.
[[nodiscard]] std::int64_t wallMs();

} // namespace loopside::cli
