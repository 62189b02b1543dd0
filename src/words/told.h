// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "run/alert_log.h"
#include "words/words.h"

#include <string>
#include <vector>

namespace loopside::words {

/// "both elements", "the element", "all 4 elements".
[[nodiscard]] std::string elementsText(const Words& words, int elements);

/// Whether an alert of a stage was told with a ΔP above the limit, not just at it.
[[nodiscard]] bool isOverLimit(const std::vector<Message::Argument>& told);

/// The sentence of an alert as it was told.
[[nodiscard]] std::string alertSentence(const Words& words, run::AlertId alert,
                                        const std::vector<Message::Argument>& told);

/// The sentence of a question.
[[nodiscard]] std::string questionSentence(const Words& words, const run::Question& question);

/// The one line of a finding: what it is. Its reasons and what to do are messages of their own.
[[nodiscard]] std::string findingSentence(const Words& words, const run::Finding& finding);

/// One stage in one line: raw ΔP with its reading error and limit, corrected ΔP and loading where known.
[[nodiscard]] std::string stageLine(const Words& words, const run::StageDrop& drop, const run::StageRecord& stage,
                                    int number);

/// The turnovers as a band, against the target if there is one.
[[nodiscard]] std::string turnoverLine(const Words& words, const run::TurnoverBand& band, const run::Target& target);

/// What the low end of the turnovers leaves out and why, one sentence for each reason in a row.
[[nodiscard]] std::vector<std::string> creditLines(const Words& words, const run::Credit& credit);

/// What became of a run's alerts: how many in what time, how many stand.
[[nodiscard]] std::string alertsLine(const Words& words, const run::AlertMetrics& metrics);

/// How and with what totals a run ended.
[[nodiscard]] std::string closingLine(const Words& words, const run::RunClosed& closed);

} // namespace loopside::words
