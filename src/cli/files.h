// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "base/result.h"
#include "ledger/journal.h"
#include "story/story.h"

#include <cstddef>
#include <cstdint>
#include <memory>
#include <string>
#include <vector>

namespace loopside::cli {

/// The bytes of a file, at most one more than `bytesMax`: what is longer shows as such.
[[nodiscard]] Result<std::string> readFile(const std::string& path, std::size_t bytesMax);

/// A story and the text it was read from.
struct StoryFile
{
    std::string text;
    story::Story story;
};

/// Reads and parses a story; a fault names the file and the place in it.
[[nodiscard]] Result<StoryFile> readStory(const std::string& path);

/// NotFound unless something of that name is there.
[[nodiscard]] Done mustBeThere(const std::string& path);

/// Opens a journal that must be there.
[[nodiscard]] Result<std::unique_ptr<ledger::Journal>> openExisting(const std::string& path);

/// Now: UTC, milliseconds since 1970.
[[nodiscard]] std::int64_t wallMs();

} // namespace loopside::cli
