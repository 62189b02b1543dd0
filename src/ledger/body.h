// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// Events as the journal keeps them: a kind and a body of JSON. The bytes that are written are the record; they are read
// back, never taken apart and written anew. Every kind and its fields: schema/README.md.

#pragma once

#include "base/result.h"
#include "ledger/json.h"
#include "run/event.h"

#include <functional>
#include <string>
#include <string_view>

namespace loopside::ledger {

[[nodiscard]] std::string_view kindOf(const run::Event& event);
[[nodiscard]] std::string bodyOf(const run::Event& event);

/// The event that `bodyOf` wrote. Incompatible for a kind that this version does not know, Malformed for a body that
/// does not fit its kind.
[[nodiscard]] Result<run::Event> eventFrom(std::string_view kind, std::string_view body);

/// How a reader finds the entry that a member names: by id in the journal, by time or place in a story.
using EntryFinder = std::function<Id(const JsonReader&)>;

// The shapes that a story entry shares with a body. Each reads members of `object` and leaves the others alone.

[[nodiscard]] run::ReadingLogged readReading(const JsonReader& object);
[[nodiscard]] run::SignsSeen readSigns(const JsonReader& signs);
[[nodiscard]] run::Mode readMode(const JsonReader& mode);
[[nodiscard]] run::AlertId readAlertId(const JsonReader& alert);
[[nodiscard]] run::ElementsChanged readChangeover(const JsonReader& changeover);
/// A bottle; its port is one of a cart with so many gauges.
[[nodiscard]] run::SampleDrawn readSample(const JsonReader& sample, std::size_t gauges);
[[nodiscard]] run::ResultEntered readResult(const JsonReader& result);
[[nodiscard]] run::QuestionAnswered readAnswer(const JsonReader& answer, const EntryFinder& find);
[[nodiscard]] run::Amended readAmendment(const JsonReader& amendment, const EntryFinder& find);

[[nodiscard]] run::StartTold readStartTold(const JsonReader& told);
[[nodiscard]] run::WasteTransferred readWasteTransfer(const JsonReader& transfer);

/// The alert, stage, why and for (minutes as a number, or "15 min") of an acknowledgement or a shelving.
[[nodiscard]] run::AlertShelved readAlertAnswer(const JsonReader& answer);
[[nodiscard]] run::AlertServiced readServiced(const JsonReader& serviced);

/// A port: 1 to `gauges`, "tank" (0), or "before", "between", "after"; "between" on a cart with two stages only.
[[nodiscard]] int readPort(const JsonReader& port, std::size_t gauges);

/// How a run ends, by the name that `run::nameOf` gives it.
[[nodiscard]] run::Ending readEnding(const JsonReader& ending);

} // namespace loopside::ledger
