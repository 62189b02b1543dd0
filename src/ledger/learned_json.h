// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// The one JSON shape of a loading that was learned: an entry of its own, and beside the set-up of the runs that learn
// from it. Fields are described in schema/README.md.

#pragma once

#include "ledger/json.h"
#include "run/event.h"

#include <nlohmann/json_fwd.hpp>

namespace loopside::ledger {

[[nodiscard]] nlohmann::ordered_json learnedJson(const run::LoadingLearned& learned);
[[nodiscard]] run::LoadingLearned readLearned(const JsonReader& body);

} // namespace loopside::ledger
