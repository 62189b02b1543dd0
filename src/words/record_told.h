// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// The record of a run in words: what was answered, noted and attached.

#pragma once

#include "run/checklist.h"
#include "run/notes.h"
#include "words/words.h"

#include <string>

namespace loopside::words {

/// "done", "left out: Cannot be reached now", and whether it was asked about.
[[nodiscard]] std::string answerText(const Words& words, run::Answer answer, const std::string& why, bool wasAsked);

/// One point of a checklist with its answer; empty for a check that is no point of one.
[[nodiscard]] std::string checkLine(const Words& words, const run::CheckAnswered& answered);

/// A note, and which entry of `run` it is about.
[[nodiscard]] std::string noteLine(const Words& words, const run::Note& note, const run::RunState& run);

/// "Picture, 45 kB: the bent needle".
[[nodiscard]] std::string attachedLine(const Words& words, const run::AttachmentAdded& added);

/// The same, or that it was withdrawn and why.
[[nodiscard]] std::string attachmentLine(const Words& words, const run::Attachment& attachment);

/// A time on a run's clock, such as "1:02:30".
[[nodiscard]] std::string runTimeText(run::RunTime time);

} // namespace loopside::words
