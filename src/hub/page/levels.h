// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// How runs and stages stand, by sign and word: the rules of the tablet's screens.

#pragma once

#include "hub/page/look.h"
#include "run/level.h"

namespace loopside::page {

/// A sign has a shape of its own on the page, and a word beside it: state is never colour alone.
struct Level
{
    std::string sign = "ok"; ///< ok, caution, limit, stop, unknown.
    std::string word;        ///< As it is said.
    int rank = 0;            ///< The graver, the higher.
};

/// The worst of what stands for an open run: alerts, findings, a reading that is overdue.
[[nodiscard]] Level levelOf(const Look& look, const run::RunState& run);

/// The worst of now, ahead and what was found of a stage, from 0; never ok while a caution for it stands.
[[nodiscard]] Level levelOf(const Look& look, const run::RunState& run, std::size_t stage);

/// stop, limit, caution or note.
[[nodiscard]] std::string signOf(run::AlertId alert);

/// "2 min", "4 min late", or empty where no reading is planned.
[[nodiscard]] std::string dueText(const Look& look, const run::RunState& run);

/// What of the change limit the last raw ΔP of a stage (from 0) is, 1 at the limit; none where one of both is not
/// known.
[[nodiscard]] std::optional<double> fillOf(const run::RunState& run, const run::Standing& standing, std::size_t stage);

} // namespace loopside::page
