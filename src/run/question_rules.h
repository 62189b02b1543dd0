// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// The rules behind the questions, each a function of one set and what it can be compared with. question.cpp walks the
// run and asks them in turn.

#pragma once

#include "run/question.h"

#include <map>

namespace loopside::run {

/// A set of gauges that was read while filtering, and what it can be compared with.
struct SetAsked
{
    const Moment& moment; ///< Its `reading` is set.
    const RunState& run;
    const Offsets& offsets;               ///< As the last set with the pump off tells.
    const std::vector<bool>& isZeroKnown; ///< Per gauge: whether a set with the pump off told its zero.
    const Moment* good = nullptr;         ///< The last set of its kind that no question speaks against.
    const Moment* last = nullptr;         ///< The last one that is not held back; it may have jumped.

    [[nodiscard]] const ReadingLogged& reading() const { return *moment.reading; }
    [[nodiscard]] const CartRecord& cart() const { return run.setup.cart; }
};

/// One gauge: its value with the offset off, and its errors (k = 1).
struct Seen
{
    units::Pressure value;
    units::Pressure reading;  ///< Where the dial is not described: of the last digit typed.
    units::Pressure division; ///< Of the dial; where it is not described, the last digit typed.
    units::Pressure standing; ///< Where the grade is not known: of a common dial, 3 % of its span (common practice).
};

/// Each gauge of `reading`, with the offsets of `set` off; nothing where it was not read.
[[nodiscard]] std::vector<std::optional<Seen>> seenIn(const ReadingLogged& reading, const SetAsked& set);

/// The expanded error (k = 2) of the difference of two independent readings: root sum of squares, NIST TN 1297.
[[nodiscard]] units::Pressure errorOfDifference(units::Pressure a, units::Pressure b);

/// By how much a ΔP should have changed from one set to a later one by temperature and flow alone: ratio of viscosity ×
/// flow, above 0. 1 where either is not known. That of the density, 3 % over 40 °C, is left out.
[[nodiscard]] double changeByOil(const Moment& from, const Moment& to, const RunState& run);

/// Whether valve, pump and elements were left alone between two sets.
[[nodiscard]] bool isUndisturbed(const Moment& from, const Moment& to);

/// A question about typing that tells what was meant, or not. Empty: nothing to ask.
using Rule = std::optional<Question> (*)(const SetAsked& set);

[[nodiscard]] std::optional<Question> askSwapOfLast(const SetAsked& set);
[[nodiscard]] std::optional<Question> askUnit(const SetAsked& set);
[[nodiscard]] std::optional<Question> askDigits(const SetAsked& set);
[[nodiscard]] std::optional<Question> askOrder(const SetAsked& set);

/// One slip, one question: the first rule that sees one asks. What explains the set best comes first.
inline constexpr std::array<Rule, 4> slipRules = {askSwapOfLast, askUnit, askDigits, askOrder};

[[nodiscard]] std::optional<Question> askJump(const SetAsked& set);

/// The gauges of `moment` beyond their dial or the relief setting, one question each. In any mode.
[[nodiscard]] std::vector<Question> askRange(const Moment& moment, const CartRecord& cart);

/// Sets whose times are odd, at most one question each.
[[nodiscard]] std::map<const Fact*, Question> askTimes(const RunState& run);

} // namespace loopside::run
