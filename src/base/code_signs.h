// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// The signs of codes that people read out and type: of a run, of an enrolment.

#pragma once

#include <string_view>

namespace loopside {

/// Digits, then letters without those that look like others: five bits a sign.
inline constexpr std::string_view codeSigns = "0123456789ABCDEFGHJKMNPQRSTVWXYZ";

/// `sign` as it is written in a code; zero where it stands in none.
[[nodiscard]] constexpr char codeSignOf(char sign)
{
    const char capital = sign >= 'a' && sign <= 'z' ? static_cast<char>(sign - 'a' + 'A') : sign;
    switch (capital) {
    case 'O':
        return '0';
    case 'I':
    case 'L':
        return '1';
    default:
        return codeSigns.find(capital) == std::string_view::npos ? '\0' : capital;
    }
}

} // namespace loopside
