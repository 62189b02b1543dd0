// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "published/checks.h"

#include "published/printed.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>

namespace loopside::published {

namespace {

/// How much further off a value must be to be shown instead of an earlier one: more than arithmetic differs by.
constexpr double clearlyFurther = 1e-3;

constexpr double exactPart = 1e-9;

/// What a sum that should be 0 may leave.
constexpr double leastTolerance = 1e-12;

} // namespace

Tolerance Tolerance::orPart(double part) const
{
    return {halfDigits_, absolute_, part};
}

double Tolerance::forValue(const std::string& expected) const
{
    return std::max(
        {halfDigits_ * halfDigitOf(expected), absolute_, part_ * std::abs(numberIn(expected)), leastTolerance});
}

std::string Tolerance::toText() const
{
    std::string text;
    const auto add = [&](const std::string& one) { text += (text.empty() ? "" : " or ") + one; };
    if (halfDigits_ > 0.0) {
        add("as printed");
    }
    if (absolute_ > 0.0) {
        add("± " + shortest(absolute_));
    }
    if (part_ > 0.0) {
        add(part_ <= exactPart ? "exact"
                : part_ < 1e-5 ? "± " + shortest(part_) + " of it"
                               : "± " + shortest(100.0 * part_) + " %");
    }
    return text;
}

void Checks::check(const Check& check, const std::vector<Value>& values)
{
    REQUIRE_FALSE(values.empty());
    Row row{topic_, check, values.size(), {}, check.tolerance.toText(), false};
    double furthest = -1.0;
    for (const Value& value : values) {
        CAPTURE(check.quantity, check.source.name, value.at, value.expected);
        const double tolerance = check.tolerance.forValue(value.expected);
        const double off = std::abs(value.got - numberIn(value.expected));
        CHECK_THAT(value.got, Catch::WithinAbs(numberIn(value.expected), tolerance));
        if (off / tolerance > furthest + clearlyFurther || furthest < 0.0) {
            furthest = off / tolerance;
            row.worst = {value.at, value.expected, printedLike(value.got, value.expected)};
        }
    }
    rows_.push_back(row);
}

void Checks::check(const Check& check, const std::vector<Words>& words)
{
    REQUIRE_FALSE(words.empty());
    Row row{topic_, check, words.size(), words.front(), "the same text", false};
    for (const Words& word : words) {
        CAPTURE(check.quantity, check.source.name, word.at);
        CHECK(word.got == word.expected);
    }
    rows_.push_back(row);
}

void Checks::deviates(const Check& check, const Value& value)
{
    CAPTURE(check.quantity, check.source.name, value.at);
    const double tolerance = check.tolerance.forValue(value.expected);
    CHECK_THAT(value.got, !Catch::WithinAbs(numberIn(value.expected), tolerance));
    CHECK_FALSE(check.note.empty());
    rows_.push_back({topic_,
                     check,
                     1,
                     {value.at, value.expected, printedLike(value.got, value.expected)},
                     check.tolerance.toText(),
                     true});
}

} // namespace loopside::published
