// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// What a person typed: a decimal number and the unit that stood behind it, kept exactly, with the quantity it means.
//
// Accepted symbols are listed in typed.cpp; the first of each unit is the one that is printed. Upper and lower case
// count, as in the trade. A number without a unit is refused: nothing is guessed.

#pragma once

#include "base/decimal.h"
#include "units/quantity.h"
#include "units/temperature.h"

#include <span>
#include <string>
#include <string_view>

namespace loopside::units {

/// A unit with the symbol it is printed and read by.
template<class Q>
struct NamedUnit
{
    std::string_view symbol;
    std::string_view otherSymbols; ///< Further spellings that are read, separated by blanks.
    typename Q::Unit unit;
};

/// Every unit in which a `Q` can be typed, the coherent SI unit first; a part of a whole is never typed bare.
template<class Q>
[[nodiscard]] std::span<const NamedUnit<Q>> namedUnits();

/// The unit that `symbol` names; NotFound with the accepted symbols in the sentence otherwise.
template<class Q>
[[nodiscard]] Result<const NamedUnit<Q>*> unitNamed(std::string_view symbol);

/// A quantity as typed.
template<class Q>
class Typed
{
public:
    Typed(Decimal number, const NamedUnit<Q>& unit) : number_{number}, unit_{&unit} {}

    /// Reads `38 psi`, `2.6 bar`, `72 F`, `-4,5 °C`. Otherwise Malformed, NotFound (the unit) or OutOfRange (more
    /// digits than a `Decimal` takes), in a sentence that quotes what was typed.
    [[nodiscard]] static Result<Typed> parse(std::string_view text);

    [[nodiscard]] const Decimal& number() const { return number_; }
    [[nodiscard]] const NamedUnit<Q>& unit() const { return *unit_; }
    [[nodiscard]] Q value() const { return {number_.toDouble(), unit_->unit}; }

    /// The digits as typed, a blank, the printed symbol.
    [[nodiscard]] std::string toText() const { return number_.toText() + " " + std::string(unit_->symbol); }

    /// Same digits and same unit; 1 bar and 100 kPa are typed differently.
    friend bool operator==(const Typed& a, const Typed& b)
    {
        return a.unit_ == b.unit_ && a.number_ == b.number_ && a.number_.places() == b.number_.places();
    }

private:
    Decimal number_;
    const NamedUnit<Q>* unit_;
};

/// `quantity` in `unit` with `decimals` digits behind the point, the symbol behind a blank.
template<class Q>
[[nodiscard]] std::string print(Q quantity, const NamedUnit<Q>& unit, int decimals);

/// How many digits behind the point make sense for a computed pressure in `unit`: one step is 1 kPa or less.
[[nodiscard]] int computedDecimals(const NamedUnit<Pressure>& unit);

/// A pressure that was computed, not typed, with the digits that make sense in `unit`.
[[nodiscard]] std::string printComputed(Pressure pressure, const NamedUnit<Pressure>& unit);

/// The same with no digit that its error (k = 2) makes meaningless: a step is at least a thirtieth of the error.
[[nodiscard]] std::string printComputed(Pressure pressure, const NamedUnit<Pressure>& unit, Pressure error);

/// What a person would call `Q` in a sentence: "a pressure", "a volume".
template<class Q>
[[nodiscard]] std::string_view kindName();

} // namespace loopside::units
