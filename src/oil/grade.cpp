// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "oil/grade.h"

#include "base/text.h"

#include <algorithm>
#include <array>
#include <string>

namespace loopside::oil {

namespace {

using units::centistokes;

constexpr Grade grade(int vg, double mid)
{
    return {vg, 0.9 * mid * centistokes, mid * centistokes, 1.1 * mid * centistokes};
}

constexpr std::array<Grade, 20> iso3448{{
    grade(2, 2.2),     grade(3, 3.2),       grade(5, 4.6),       grade(7, 6.8),       grade(10, 10.0),
    grade(15, 15.0),   grade(22, 22.0),     grade(32, 32.0),     grade(46, 46.0),     grade(68, 68.0),
    grade(100, 100.0), grade(150, 150.0),   grade(220, 220.0),   grade(320, 320.0),   grade(460, 460.0),
    grade(680, 680.0), grade(1000, 1000.0), grade(1500, 1500.0), grade(2200, 2200.0), grade(3200, 3200.0),
}};

constexpr char upper(char sign)
{
    return sign >= 'a' && sign <= 'z' ? static_cast<char>(sign - 'a' + 'A') : sign;
}

/// `text` without `word` and blanks at its start, if it starts so.
std::string_view without(std::string_view word, std::string_view text)
{
    const bool startsSo = text.size() >= word.size()
        && std::equal(word.begin(), word.end(), text.begin(), [](char a, char b) { return a == upper(b); });
    return startsSo ? trimmed(text.substr(word.size())) : text;
}

std::string listOfGrades()
{
    std::string list;
    for (const Grade& grade : iso3448) {
        list += (list.empty() ? "" : ", ") + std::to_string(grade.vg);
    }
    return list;
}

} // namespace

std::span<const Grade> grades()
{
    return iso3448;
}

Result<Grade> gradeNamed(std::string_view name)
{
    const std::string_view number = without("VG", without("ISO", trimmed(name)));
    const auto found = std::ranges::find_if(iso3448, [&](const Grade& g) { return number == std::to_string(g.vg); });
    if (found == iso3448.end()) {
        return fail(Errc::NotFound,
                    "\"" + quotable(name) + "\" is not an ISO viscosity grade; the grades are VG " + listOfGrades()
                        + ".");
    }
    return *found;
}

} // namespace loopside::oil
