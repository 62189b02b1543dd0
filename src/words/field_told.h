// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "words/words.h"

#include <string>
#include <string_view>

namespace loopside::words {

/// "Stage 1 change limit" for the field of a record that stands at `place`: "/stages/0/change_limit" as the journal
/// names it, "stages[0].change_limit" as a fault does; the record itself may stand before it ("tank.volume").
/// A field that has no words is named as it came.
[[nodiscard]] std::string fieldName(const Words& words, std::string_view place);

} // namespace loopside::words
