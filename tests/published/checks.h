// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// The published checks: one check holds one quantity against one source. Each asserts, and is kept as a row of the
// table tests/published/CHECKS.md. A whole table of a source is one check with many values; its row shows the value
// that is furthest off.

#pragma once

#include "base/result.h"
#include "published/source.h"

#include <stdexcept>
#include <string>
#include <vector>

namespace loopside::published {

/// How far a value may be off.
class Tolerance
{
public:
    /// Half of the last digit that the source prints, plus a hundredth of that for values printed from a tie.
    [[nodiscard]] static Tolerance printed() { return {1.01, 0.0, 0.0}; }

    /// Nothing but the rounding of our own arithmetic: a part in 10⁹.
    [[nodiscard]] static Tolerance exact() { return {0.0, 0.0, 1e-9}; }

    /// So much in the unit of the value.
    [[nodiscard]] static Tolerance within(double absolute) { return {0.0, absolute, 0.0}; }

    /// Such a part of the value.
    [[nodiscard]] static Tolerance withinPart(double part) { return {0.0, 0.0, part}; }

    /// The wider of this and such a part of the value.
    [[nodiscard]] Tolerance orPart(double part) const;

    /// For a value that was printed as `expected`.
    [[nodiscard]] double forValue(const std::string& expected) const;

    /// As the table of checks says it.
    [[nodiscard]] std::string toText() const;

private:
    Tolerance(double halfDigits, double absolute, double part)
        : halfDigits_{halfDigits}, absolute_{absolute}, part_{part}
    {
    }

    double halfDigits_; ///< Of the three the widest counts; each may be 0.
    double absolute_;
    double part_;
};

/// What is held against what.
struct Check
{
    std::string quantity; ///< With its unit.
    Source source;
    Tolerance tolerance = Tolerance::printed();
    std::string note = {}; ///< What a reader of the table must know of it.
};

/// One number: where it applies, the expected as the source prints it, what our code gives.
struct Value
{
    std::string at;
    std::string expected;
    double got;
};

/// One text, such as a cleanliness code.
struct Words
{
    std::string at;
    std::string expected;
    std::string got;
};

/// All checks that were made.
class Checks
{
public:
    /// The part of the table that the next checks belong to.
    void begin(const std::string& topic) { topic_ = topic; }

    /// Asserts that each value is within the tolerance, and keeps the check.
    void check(const Check& check, const std::vector<Value>& values);

    /// Asserts that each text is the expected one, and keeps the check.
    void check(const Check& check, const std::vector<Words>& words);

    /// Keeps a value of a source that our code does not meet, and asserts that it does not meet it: `check.note` says
    /// why. When the two agree one day, the test says so.
    void deviates(const Check& check, const Value& value);

    struct Row
    {
        std::string topic;
        Check check;
        std::size_t values;
        Words worst;
        std::string allowed; ///< The tolerance, or that texts must be the same.
        bool deviates;

        /// Whether it is one of the published checks that are counted.
        [[nodiscard]] bool counts() const { return !deviates && isOutside(check.source.provenance); }
    };

    [[nodiscard]] const std::vector<Row>& rows() const { return rows_; }

private:
    std::string topic_;
    std::vector<Row> rows_;
};

/// The value of `result`; throws its sentence if there is none, which fails the test.
template<class T>
[[nodiscard]] T valueOf(const Result<T>& result)
{
    if (!result) {
        throw std::runtime_error(result.error().sentence);
    }
    return *result;
}

} // namespace loopside::published
