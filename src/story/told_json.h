// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "story/replay.h"
#include "words/words.h"

#include <nlohmann/json_fwd.hpp>

#include <string>
#include <vector>

namespace loopside::story {

/// What the technician was told, as one JSON object: numbers in SI, arrays one per stage, null where it cannot be
/// computed; sentences in the language of `words`. The fields are described in schema/README.md (replay output).
[[nodiscard]] nlohmann::ordered_json toldJson(const Told& told, const words::Words& words);

/// What `story` expects and what was told does not meet, a sentence each.
[[nodiscard]] std::vector<std::string> unmet(const Story& story, const std::vector<nlohmann::ordered_json>& told);

} // namespace loopside::story
