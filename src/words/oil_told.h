// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "words/words.h"

#include <span>
#include <string>
#include <string_view>

namespace loopside::words {

/// A kind of oil as records hold it, so that `oil::familyOf` reads it, and the id of the word for it.
struct OilKind
{
    std::string_view kind;
    const char* word;
};

/// The kinds that there are words for; a record may hold any other.
[[nodiscard]] std::span<const OilKind> oilKinds();

/// "ISO VG 46 hydraulic", "46 cSt gear" or "turbine" with the word for the kind; what is not put together so is a name
/// that somebody gave and is told as it is.
[[nodiscard]] std::string oilText(const Words& words, std::string_view oil);

} // namespace loopside::words
