// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "filtration/motor.h"

#include "base/require.h"
#include "base/text.h"
#include "embedded/nec430_248.h"
#include "filtration/checks.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <cstddef>
#include <numbers>
#include <optional>
#include <string_view>
#include <vector>

namespace loopside::filtration {

using units::ampere;
using units::Current;
using units::horsepower;
using units::Power;
using units::volt;
using units::Voltage;

namespace {

/// The supplies that a column of the table stands for, both ends included.
struct Column
{
    double voltsMin;
    double voltsMax;
};

constexpr std::array<Column, 4> columns{{{110.0, 120.0}, {200.0, 200.0}, {208.0, 208.0}, {220.0, 240.0}}};

struct TableRow
{
    double hp;
    std::array<double, columns.size()> amperes;
    std::string_view label;
};

double takeNumber(std::string_view& line)
{
    double number = 0.0;
    const auto [stop, error] = std::from_chars(line.data(), line.data() + line.size(), number);
    require(error == std::errc{}, "the table of motor currents holds numbers");
    line.remove_prefix(static_cast<std::size_t>(stop - line.data()) + 1); // and the comma
    return number;
}

/// One line, `hp,A,A,A,A,label`.
TableRow parsedRow(std::string_view line)
{
    TableRow row{takeNumber(line), {}, {}};
    for (double& amperes : row.amperes) {
        amperes = takeNumber(line);
    }
    row.label = line;
    return row;
}

/// The rows of the embedded table; lines that do not begin with a digit are its source and its titles.
std::vector<TableRow> parsedTable()
{
    std::vector<TableRow> rows;
    std::string_view text = nec430_248();
    while (!text.empty()) {
        const std::string_view line = text.substr(0, text.find('\n'));
        text.remove_prefix(std::min(text.size(), line.size() + 1));
        if (!line.empty() && line.front() >= '0' && line.front() <= '9') {
            rows.push_back(parsedRow(line));
        }
    }
    return rows;
}

const std::vector<TableRow>& table()
{
    static const std::vector<TableRow> rows = parsedTable();
    return rows;
}

std::string listOfRatings()
{
    std::string list;
    for (const TableRow& row : table()) {
        list += (list.empty() ? "" : ", ") + std::string(row.label);
    }
    return list;
}

Result<TableRow> rowOf(Power rating)
{
    constexpr double sameRating = 0.01;
    const double hp = rating.in(horsepower);
    const auto found = std::ranges::find_if(
        table(), [hp](const TableRow& row) { return std::abs(hp - row.hp) <= sameRating * row.hp; });
    if (found == table().end()) {
        return fail(Errc::NotFound,
                    "The code's table of full-load currents has no motor of " + fixed(hp, 2) + " hp; it has "
                        + listOfRatings() + " hp.");
    }
    return *found;
}

Result<std::size_t> columnOf(Voltage supply)
{
    constexpr double slack = 1e-6;
    const double volts = supply.in(volt);
    const auto found = std::ranges::find_if(columns, [volts](const Column& column) {
        return volts >= column.voltsMin - slack && volts <= column.voltsMax + slack;
    });
    if (found == columns.end()) {
        return fail(Errc::NotFound,
                    "The code's table of full-load currents has no supply of " + fixed(volts, 0)
                        + " V; it has 110 to 120, 200, 208 and 220 to 240 V.");
    }
    return static_cast<std::size_t>(found - columns.begin());
}

Done checkPhases(int phases)
{
    if (phases != 1 && phases != 3) {
        return fail(Errc::OutOfRange, "A motor has 1 or 3 phases; told were " + std::to_string(phases) + ".");
    }
    return {};
}

Done checkPowerFactor(double powerFactor)
{
    if (!(powerFactor > 0.0 && powerFactor <= 1.0)) {
        return fail(Errc::OutOfRange,
                    "The power factor must be above 0 and at most 1; it is " + fixed(powerFactor, 2) + ".");
    }
    return {};
}

std::string sentenceOf(Current drawn, Current capacity, Current circuit, bool fits)
{
    const std::string motor = "The motor draws " + fixed(drawn.in(ampere), 1) + " A";
    const std::string share = fixed(capacity.in(ampere), 1) + " A, 80 % of a circuit of " + fixed(circuit.in(ampere), 1)
        + " A, which is what a load of 3 hours or more may take";
    return motor + (fits ? ", within " : ", more than ") + share
        + " where the local code does not say otherwise. The local code and a qualified electrician decide.";
}

} // namespace

Result<Current> fullLoadCurrent(Power rating, Voltage supply)
{
    return rowOf(rating).and_then([&](const TableRow& row) {
        return columnOf(supply).transform([&](std::size_t column) { return row.amperes.at(column) * ampere; });
    });
}

Result<Current> motorCurrent(Power input, Voltage supply, double powerFactor, int phases)
{
    return checkAboveZero(input.in(units::watt), "electrical power of the motor", "W")
        .and_then([&] { return checkAboveZero(supply.in(volt), "voltage", "V"); })
        .and_then([&] { return checkPowerFactor(powerFactor); })
        .and_then([&] { return checkPhases(phases); })
        .transform([&] {
            const double lines = phases == 3 ? std::numbers::sqrt3 : 1.0;
            return input.in(units::watt) / (lines * supply.in(volt)*powerFactor) * ampere;
        });
}

Current continuousCapacity(Current circuit)
{
    return 0.8 * circuit;
}

Result<CircuitCheck> checkCircuit(Current drawn, Current circuit)
{
    return checkAboveZero(drawn.in(ampere), "current of the motor", "A")
        .and_then([&] { return checkAboveZero(circuit.in(ampere), "rating of the circuit", "A"); })
        .transform([&] {
            const Current capacity = continuousCapacity(circuit);
            const bool fits = drawn <= capacity;
            return CircuitCheck{drawn, capacity, fits, sentenceOf(drawn, capacity, circuit, fits)};
        });
}

} // namespace loopside::filtration
