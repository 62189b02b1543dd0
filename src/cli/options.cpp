// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "cli/options.h"

#include "base/decimal.h"
#include "base/text.h"

namespace loopside::cli {

Error at(std::string_view option, const Error& error)
{
    return {error.code, std::string(option) + ": " + error.sentence};
}

Result<double> numberOf(std::string_view option, std::string_view text)
{
    const auto number = Decimal::parse(trimmed(text));
    if (!number) {
        return fail(at(option, number.error()));
    }
    return number->toDouble();
}

Result<int> wholeNumberOf(std::string_view option, std::string_view text)
{
    constexpr double most = 1e6;
    const auto number = numberOf(option, text);
    if (!number) {
        return fail(number.error());
    }
    if (!(*number >= 0.0 && *number <= most) || static_cast<double>(static_cast<int>(*number)) != *number) {
        return fail(
            at(option, {Errc::OutOfRange, "\"" + quotable(text) + "\" is not a whole number from 0 to a million."}));
    }
    return static_cast<int>(*number);
}

} // namespace loopside::cli
