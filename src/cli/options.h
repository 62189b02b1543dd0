// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// Reading what stands behind an option; a fault begins with the option's name.

#pragma once

#include "base/result.h"
#include "units/quantity.h"
#include "units/typed.h"

#include <optional>
#include <string>
#include <string_view>

namespace loopside::cli {

/// `error` with the name of the option in front.
[[nodiscard]] Error at(std::string_view option, const Error& error);

/// A plain number. Errors as of `Decimal::parse`.
[[nodiscard]] Result<double> numberOf(std::string_view option, std::string_view text);

/// A whole number from 0 to a million.
[[nodiscard]] Result<int> wholeNumberOf(std::string_view option, std::string_view text);

/// A quantity with its unit. Errors as of `Typed::parse`.
template<class Q>
[[nodiscard]] Result<Q> quantityOf(std::string_view option, std::string_view text)
{
    const auto typed = units::Typed<Q>::parse(text);
    if (!typed) {
        return fail(at(option, typed.error()));
    }
    return typed->value();
}

/// The same, refused with the text in the sentence unless it is above 0.
template<class Q>
[[nodiscard]] Result<Q> aboveZero(std::string_view option, std::string_view text)
{
    auto quantity = quantityOf<Q>(option, text);
    if (quantity && !(*quantity > Q{})) {
        return fail(at(option, {Errc::OutOfRange, "it must be above zero, not " + std::string(text) + "."}));
    }
    return quantity;
}

} // namespace loopside::cli
