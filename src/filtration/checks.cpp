// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "filtration/checks.h"

#include "base/text.h"

#include <cmath>
#include <string>

namespace loopside::filtration {

namespace {

Done refuse(double number, std::string_view what, std::string_view unit, std::string_view rule)
{
    const std::string space = unit.empty() ? "" : " ";
    return fail(Errc::OutOfRange,
                "The " + std::string(what) + " must be " + std::string(rule) + "; it is " + fixed(number, 2) + space
                    + std::string(unit) + ".");
}

} // namespace

Done checkAboveZero(double number, std::string_view what, std::string_view unit)
{
    return number > 0.0 && std::isfinite(number) ? Done{} : refuse(number, what, unit, "above zero");
}

Done checkZeroOrMore(double number, std::string_view what, std::string_view unit)
{
    return number >= 0.0 && std::isfinite(number) ? Done{} : refuse(number, what, unit, "zero or more");
}

} // namespace loopside::filtration
