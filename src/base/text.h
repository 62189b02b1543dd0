// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include <cstdint>
#include <span>
#include <string>
#include <string_view>

namespace loopside {

/// `text` without spaces and tabs at its ends.
[[nodiscard]] std::string_view trimmed(std::string_view text);

/// At most 40 signs of `text`, with control signs shown as '?': fit to stand in a sentence, whatever came in.
[[nodiscard]] std::string quotable(std::string_view text);

/// Whether `text` is well-formed UTF-8.
[[nodiscard]] bool isUtf8(std::string_view text);

/// Two lower-case hexadecimal digits for each byte.
[[nodiscard]] std::string toHex(std::span<const std::uint8_t> bytes);

/// Fills `bytes` from exactly twice as many hexadecimal digits; false, with `bytes` undefined, if `hex` is not that.
[[nodiscard]] bool fromHex(std::string_view hex, std::span<std::uint8_t> bytes);

/// `number` with exactly `decimals` (0 to 20) digits behind the point, never "-0".
[[nodiscard]] std::string fixed(double number, int decimals);

/// The moment `wallMs` (UTC, milliseconds since 1970) to the second, such as "2026-07-12T06:15:00Z"; a moment outside
/// the years 0 to 9999 as its number with "ms" behind it.
[[nodiscard]] std::string utcText(std::int64_t wallMs);

} // namespace loopside
