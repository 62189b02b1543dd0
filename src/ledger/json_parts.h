// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// Whole numbers, ids and bytes as they stand in the lines of exports, messages and bundles. To be used within
// `readJson`, which turns what does not fit into an error with its place.

#pragma once

#include "base/id.h"
#include "base/text.h"
#include "ledger/chain.h"
#include "ledger/json.h"

#include <array>
#include <charconv>
#include <system_error>

namespace loopside::ledger {

/// A whole number without fraction or exponent that fits into `Number`.
template<class Number>
[[nodiscard]] Number wholeOf(const JsonReader& reader)
{
    Number number = 0;
    const std::string& digits = reader.value().text;
    const char* end = digits.data() + digits.size();
    const auto [read, fault] = std::from_chars(digits.data(), end, number);
    if (!reader.isNumber() || fault != std::errc() || read != end) {
        reader.refuse("this is not a whole number that fits here");
    }
    return number;
}

[[nodiscard]] inline Id idOf(const JsonReader& reader)
{
    return reader.orRefuse(idFromText(reader.text()));
}

/// `Size` bytes, written as twice as many hexadecimal digits.
template<std::size_t Size>
[[nodiscard]] std::array<std::uint8_t, Size> hexOf(const JsonReader& reader)
{
    std::array<std::uint8_t, Size> bytes = {};
    if (!fromHex(reader.text(), bytes)) {
        reader.refuse("this is not " + std::to_string(2 * Size) + " hexadecimal digits");
    }
    return bytes;
}

/// `{chain, after, before}`, with room for at least one entry between the two.
[[nodiscard]] inline Loss lossOf(const JsonReader& loss)
{
    loss.onlyKeys({"chain", "after", "before"});
    const Loss read = {idOf(loss.at("chain")), wholeOf<std::uint64_t>(loss.at("after")),
                       wholeOf<std::uint64_t>(loss.at("before"))};
    if (read.before < 2 || read.after > read.before - 2) {
        loss.refuse("no entry can be missing between these two");
    }
    return read;
}

} // namespace loopside::ledger
