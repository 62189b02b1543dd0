// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "filtration/checks.h"

#include "base/text.h"

#include <cmath>
#include <string>

namespace loopside::filtration {

namespace {

/// For people there is one sentence of each rule, which does not name what was typed: it stands beside it.
Done refuse(double number, std::string_view what, std::string_view unit, std::string_view rule, const char* say)
{
    const std::string space = unit.empty() ? "" : " ";
    return fail(Errc::OutOfRange,
                "The " + std::string(what) + " must be " + std::string(rule) + "; it is " + fixed(number, 2) + space
                    + std::string(unit) + ".",
                {say, {}});
}

} // namespace

Done checkAboveZero(double number, std::string_view what, std::string_view unit)
{
    return number > 0.0 && std::isfinite(number) ? Done{}
                                                 : refuse(number, what, unit, "above zero", "number.above-zero");
}

Done checkZeroOrMore(double number, std::string_view what, std::string_view unit)
{
    return number >= 0.0 && std::isfinite(number) ? Done{}
                                                  : refuse(number, what, unit, "zero or more", "number.zero-or-more");
}

} // namespace loopside::filtration
