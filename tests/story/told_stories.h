// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "story/told_json.h"

#include <nlohmann/json.hpp>

#include <string>
#include <vector>

namespace loopside::test {

/// A story and all that was told of it.
struct ToldStory
{
    story::Story story;
    std::vector<nlohmann::ordered_json> objects;
    std::vector<Id> ids; ///< Of every entry in the journal.

    /// What `replay --json` prints.
    [[nodiscard]] std::string lines() const;
};

/// The bytes of a file; a test that names one that is not there fails.
[[nodiscard]] std::string textOf(const std::string& path);

/// Replays the story in `text`, which must be a good one, in memory.
[[nodiscard]] ToldStory tell(const std::string& text);

} // namespace loopside::test
