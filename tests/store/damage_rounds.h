// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "ledger/entry.h"

#include <cstddef>
#include <string>
#include <vector>

namespace loopside::test {

enum class Damage
{
    None,    ///< Every entry and the head are what they were.
    Noticed, ///< At opening, at reading or by the Verifier.
    Hidden   ///< They are not, and nothing says so: must never be.
};

/// What has become of the journal `path`, which held `entries`, a whole chain of the first Recorder.
[[nodiscard]] Damage damageIn(const std::string& path, const std::vector<ledger::Entry>& entries);

/// Turns one bit in every `step`th byte of a journal's file, one at a time, and checks that no damage is hidden.
void checkDamage(std::size_t step);

} // namespace loopside::test
