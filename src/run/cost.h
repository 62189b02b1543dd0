// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// What a run cost and what it saved, as far as somebody told prices. Every assumption stands beside the figure.
//
// Elements: those that went in at changeovers of the run, whole, as common bookkeeping does; those that were fitted
// when it began were paid by the run that put them in. Oil counts as saved only where a count proves the target: then
// it need not be replaced. Code numbers count only between bottles that may be compared and where the drop is proven.

#pragma once

#include "run/proof.h"

#include <optional>
#include <string>
#include <vector>

namespace loopside::run {

/// Prices as somebody told them, all in one currency; none: not told, and left out of every sum.
struct Prices
{
    std::string currency;
    std::optional<Decimal> element = {};     ///< Of one.
    std::optional<Decimal> oilPerLitre = {}; ///< New oil, the disposal of the old included.
    std::optional<Decimal> hour = {};        ///< Of the cart with who watches it.
};

struct RunCost
{
    int elements = 0;                      ///< That went in.
    double hours = 0.0;                    ///< Filtering, best value.
    double filtered_l = 0.0;               ///< Best value.
    double saved_l = 0.0;                  ///< Oil that need not be replaced; 0 while nothing is proven.
    std::optional<double> spent = {};      ///< Sum of what was priced; none: nothing was.
    std::optional<double> savedWorth = {}; ///< Of the oil; none: nothing saved, or no price.
    /// `spent` for each code number, at the size that fell most and at the one that fell least.
    std::optional<double> perCodeLeast = {};
    std::optional<double> perCodeMost = {};
    std::vector<Message> assumed = {}; ///< All that the figures rest on, in sentences.
};

/// `standing` and `proof` are those of `run`.
[[nodiscard]] RunCost costOf(const RunState& run, const Standing& standing, const Proof& proof, const Prices& prices);

} // namespace loopside::run
