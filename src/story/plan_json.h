// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "run/plan.h"
#include "story/story.h"

#include <nlohmann/json_fwd.hpp>

#include <optional>

namespace loopside::story {

/// The oil temperature that a plan of the story is made at: the first that any entry tells.
[[nodiscard]] std::optional<run::TypedTemperature> firstOilTemperature(const Story& story);

/// A plan as one JSON object: numbers in SI, sentences in English, null where it cannot be told. The fields are
/// described in schema/README.md (plan output).
[[nodiscard]] nlohmann::ordered_json planJson(const run::Setup& setup, const std::optional<run::TypedTemperature>& oil);

} // namespace loopside::story
