// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include <algorithm>
#include <array>
#include <string_view>

namespace loopside::ledger {

/// Kinds of entries that tell of a moment of a run, by far the most of a journal: run::isOfMoment, by name. The index
/// of the journal's file names them too (schema/tablet/0003_lasting.sql); an entry of any other kind is lasting.
inline constexpr std::array<std::string_view, 11> kindsOfMoment = {
    "reading-logged", "signs-seen",         "noted",         "question-answered", "alert-raised", "alert-cleared",
    "alert-serviced", "alert-acknowledged", "alert-shelved", "check-answered",    "start-told"};

[[nodiscard]] constexpr bool isKindOfMoment(std::string_view kind)
{
    return std::ranges::find(kindsOfMoment, kind) != kindsOfMoment.end();
}

} // namespace loopside::ledger
