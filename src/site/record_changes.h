// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// What differs between two states of a record, for histories and previews.

#pragma once

#include "run/event.h"
#include "words/words.h"

#include <nlohmann/json_fwd.hpp>

#include <string>
#include <vector>

namespace loopside::site {

/// One thing of a record that is another than before.
struct Change
{
    std::string place;   ///< As the journal names it, such as "/stages/0/change_limit".
    std::string was;     ///< Empty: not known.
    std::string becomes; ///< Empty: not known.

    friend bool operator==(const Change&, const Change&) = default;
};

/// What `after` says otherwise than `before`, in the order of the journal's members. Both are records of one kind.
[[nodiscard]] std::vector<Change> changesBetween(const run::RecordPut& before, const run::RecordPut& after);

[[nodiscard]] std::vector<Change> changesBetween(const nlohmann::ordered_json& before,
                                                 const nlohmann::ordered_json& after);

/// All that a new record holds, but for its name.
[[nodiscard]] std::vector<Change> valuesOf(const run::RecordPut& record);

/// "Stage 1 change limit: 170 kPa → 150 kPa"; what is not known is a dash.
[[nodiscard]] std::string changeText(const words::Words& words, const Change& change);

/// "Stage 1 change limit: 150 kPa".
[[nodiscard]] std::string valueText(const words::Words& words, const Change& change);

} // namespace loopside::site
