// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "story/replay.h"
#include "words/words.h"

#include <nlohmann/json_fwd.hpp>

namespace loopside::story {

/// What the bottles of the run prove and what is likely ahead, as one JSON object; null while none was drawn. The
/// fields are described in schema/README.md (replay output).
[[nodiscard]] nlohmann::ordered_json proofJson(const Told& told, const words::Words& words);

} // namespace loopside::story
