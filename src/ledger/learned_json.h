// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// The one JSON shape of what was learned. A loading is an entry of its own, and stands beside the set-up of the runs
// that learn from it; what was known of a tank and of dials stands beside the set-up only. Fields are described in
// schema/README.md.

#pragma once

#include "ledger/json.h"
#include "run/event.h"

#include <nlohmann/json_fwd.hpp>

namespace loopside::ledger {

/// {low, best, high}.
[[nodiscard]] nlohmann::ordered_json bandJson(const filtration::Band& band);

[[nodiscard]] nlohmann::ordered_json learnedJson(const run::LoadingLearned& learned);
[[nodiscard]] run::LoadingLearned readLearned(const JsonReader& body);

/// An object with what is known; empty where nothing is.
[[nodiscard]] nlohmann::ordered_json placeJson(const run::PlaceLearned& place);
[[nodiscard]] run::PlaceLearned readPlace(const JsonReader& body);

} // namespace loopside::ledger
