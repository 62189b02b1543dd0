// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// The one JSON shape of a set-up: in a story file, in the journal, in a demo site. Fields are described in
// schema/README.md.

#pragma once

#include "ledger/json.h"
#include "run/catalogue.h"

#include <nlohmann/json_fwd.hpp>

namespace loopside::ledger {

[[nodiscard]] run::FluidRecord readFluid(const JsonReader& fluid);
[[nodiscard]] run::TankRecord readTank(const JsonReader& tank);
[[nodiscard]] nlohmann::ordered_json fluidJson(const run::FluidRecord& fluid);
[[nodiscard]] nlohmann::ordered_json tankJson(const run::TankRecord& tank);

[[nodiscard]] nlohmann::ordered_json cartJson(const run::CartRecord& cart);
[[nodiscard]] nlohmann::ordered_json stageJson(const run::StageRecord& stage);

/// A cart for `stages` stages: one gauge description serves all of its gauges, or there is a list of `stages` + 1.
[[nodiscard]] run::CartRecord readCart(const JsonReader& cart, std::size_t stages);
[[nodiscard]] run::StageRecord readStage(const JsonReader& stage);
[[nodiscard]] run::Target readTarget(const JsonReader& target);

/// The members title, tank, cart, stages, target and practice of `object`, checked for what cannot be.
[[nodiscard]] run::Setup readSetup(const JsonReader& object);

[[nodiscard]] nlohmann::ordered_json setupJson(const run::Setup& setup);

} // namespace loopside::ledger
