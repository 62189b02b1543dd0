// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "words/words.h"

#include <string>
#include <string_view>

namespace loopside::store {

/// Why a journal was put together anew, in the language of `words`. `why` is what the journal keeps (schema/README.md,
/// table `restores`): a plain English sentence, of which the usual ones are known here. What else was found damaged is
/// told as such, with that sentence behind it, which names places and not much more.
[[nodiscard]] std::string restoreReason(const words::Words& words, std::string_view why);

/// Why a backup, a check or a restore failed, in the language of `words` where the failure is one that it has words
/// for; else the plain English sentence. Not what `words` says of a failed entry: here nobody was logging.
[[nodiscard]] std::string keepFailure(const words::Words& words, const Error& error);

/// `message`, with the reason that it may have as the journal keeps it told in the language of `words`.
[[nodiscard]] Message withReasonTold(const words::Words& words, Message message);

} // namespace loopside::store
