// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// The parts that record.cpp puts together.

#pragma once

#include "report/record.h"
#include "run/notes.h"

namespace loopside::report {

/// What all parts of a record need. Points into what it was made from.
struct Look
{
    const run::RunState& run;
    const run::Standing& standing;
    const run::Proof& proof;
    const Evidence& evidence;
    const words::Words& words;
    const NameOf& nameOf;
    const std::optional<run::Prices>& prices;

    [[nodiscard]] std::string say(const Message& message) const { return words.say(message); }
    [[nodiscard]] std::string say(std::string id) const { return words.say(std::move(id)); }
    /// A table without rows. Its title is report.<id>, those of its columns report.<id>.<column> or
    /// report.column.<column>; what is said where it stays empty is report.<id>.none or report.none.
    [[nodiscard]] Table table(std::string_view id, const std::vector<std::string>& columns) const;
    [[nodiscard]] std::string sayAll(const std::vector<Message>& messages) const; ///< One behind the other.
};

/// "2026-05-26 14:18", as the wall clock of the device showed it `agoMs` earlier.
[[nodiscard]] std::string dayText(const Stamp& stamp, std::int64_t agoMs = 0);
/// "+02:00".
[[nodiscard]] std::string offsetText(const Stamp& stamp);
/// "1:02:30", "−0:05:00".
[[nodiscard]] std::string timeText(run::RunTime time);

/// Where a bottle was filled.
[[nodiscard]] std::string placeText(const words::Words& words, const run::SampleDrawn& drawn);

/// By its file an attachment is found among those of the journal.
[[nodiscard]] std::string fileMark(const words::Words& words, const run::Attachment& attachment);

// The parts: record_proof.cpp (result, sizes, path, samples), record_facts.cpp (stages, alerts, findings, readings,
// events), record.cpp (the rest).
[[nodiscard]] std::string verdictOf(const Look& look);
[[nodiscard]] Table resultTable(const Look& look);
[[nodiscard]] Table sizesTable(const Look& look);
[[nodiscard]] Table pathTable(const Look& look);
[[nodiscard]] Table samplesTable(const Look& look);
[[nodiscard]] Table stagesTable(const Look& look);
[[nodiscard]] Table alertsTable(const Look& look);
[[nodiscard]] Table findingsTable(const Look& look);
[[nodiscard]] Table readingsTable(const Look& look);
[[nodiscard]] Table eventsTable(const Look& look);

} // namespace loopside::report
