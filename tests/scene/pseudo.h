// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "words/words.h"

#include <string>
#include <string_view>

namespace loopside::scene {

/// A sentence of no language: each word some 40 % longer, with accents, the whole in brackets; {values} as they were.
/// What a translation may grow to is common practice in localisation, no source.
[[nodiscard]] std::string pseudo(std::string_view sentence);

/// The English catalogue, so spoken.
[[nodiscard]] words::Words pseudoWords();

} // namespace loopside::scene
