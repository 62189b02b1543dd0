// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "oil/viscosity_index.h"

#include "base/require.h"
#include "base/text.h"
#include "embedded/d2270Table.h"
#include "oil/walther.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <iterator>
#include <numeric>
#include <string>
#include <string_view>
#include <vector>

namespace loopside::oil {

using units::centistokes;
using units::KinematicViscosity;

namespace {

constexpr double tableMinCst = 2.0;
constexpr double tableMaxCst = 70.0;

struct TableRow
{
    double y;
    double l;
    double h;
};

/// The three numbers of one line, `Y,L,H`.
TableRow parsedRow(std::string_view line)
{
    std::array<double, 3> numbers{};
    const char* at = line.data();
    const char* const end = line.data() + line.size();
    for (double& number : numbers) {
        const auto [stop, error] = std::from_chars(at, end, number);
        require(error == std::errc{}, "the table of D2270 holds numbers");
        at = stop == end ? end : stop + 1;
    }
    return {numbers[0], numbers[1], numbers[2]};
}

/// The rows of the embedded table; lines that do not begin with a digit are its source and its titles.
std::vector<TableRow> parsedTable()
{
    std::vector<TableRow> rows;
    std::string_view text = d2270Table();
    while (!text.empty()) {
        const std::string_view line = text.substr(0, text.find('\n'));
        text.remove_prefix(std::min(text.size(), line.size() + 1));
        if (!line.empty() && line.front() >= '0' && line.front() <= '9') {
            rows.push_back(parsedRow(line));
        }
    }
    require(rows.size() == 311 && rows.front().y == tableMinCst && rows.back().y == tableMaxCst,
            "the table of D2270 goes from 2 to 70 in 311 rows");
    return rows;
}

const std::vector<TableRow>& table()
{
    static const std::vector<TableRow> rows = parsedTable();
    return rows;
}

/// L and H for `y` mm²/s, at least 2.
TableRow reference(double y)
{
    if (y > tableMaxCst) {
        return {y, 0.8353 * y * y + 14.67 * y - 216.0, 0.1684 * y * y + 11.85 * y - 97.0};
    }
    const auto above = std::lower_bound(table().begin() + 1, table().end() - 1, y,
                                        [](const TableRow& row, double value) { return row.y < value; });
    const TableRow& from = *std::prev(above);
    const double share = (y - from.y) / (above->y - from.y);
    return {y, std::lerp(from.l, above->l, share), std::lerp(from.h, above->h, share)};
}

/// The index for `u` and `y` in mm²/s, `y` at least 2.
double indexOf(double u, double y)
{
    const TableRow oils = reference(y);
    if (u >= oils.h) {
        return 100.0 * (oils.l - u) / (oils.l - oils.h);
    }
    const double n = std::log10(oils.h / u) / std::log10(y);
    return (std::pow(10.0, n) - 1.0) / 0.00715 + 100.0;
}

std::string cStText(double cSt)
{
    return fixed(cSt, 3) + " cSt";
}

Done checkAt100(double y)
{
    if (!(y >= tableMinCst && std::isfinite(y))) {
        return fail(Errc::OutOfRange,
                    "A viscosity index needs a viscosity at 100 °C of 2 cSt or more; it is " + cStText(y) + ".");
    }
    return {};
}

} // namespace

Result<ReferenceOils> referenceOils(KinematicViscosity at100)
{
    return checkAt100(at100.in(centistokes)).transform([&] {
        const TableRow row = reference(at100.in(centistokes));
        return ReferenceOils{row.l * centistokes, row.h * centistokes};
    });
}

Result<double> viscosityIndex(KinematicViscosity at40, KinematicViscosity at100)
{
    const double u = at40.in(centistokes);
    const double y = at100.in(centistokes);
    const Done checked = checkAt100(y);
    if (!checked.has_value()) {
        return fail(checked.error());
    }
    if (!(u > y && std::isfinite(u))) {
        return fail(Errc::OutOfRange,
                    "The viscosity at 40 °C must be above that at 100 °C, " + cStText(y) + "; it is " + cStText(u)
                        + ".");
    }
    return indexOf(u, y);
}

Result<KinematicViscosity> viscosityAt100(KinematicViscosity at40, double viscosityIndex)
{
    if (!(viscosityIndex >= -100.0 && viscosityIndex <= 500.0)) {
        return fail(Errc::OutOfRange,
                    "The viscosity index of a lubricant is from -100 to 500; it is " + fixed(viscosityIndex, 1) + ".");
    }
    const Done checked = checkViscosity(at40, "viscosity at 40 °C");
    if (!checked.has_value()) {
        return fail(checked.error());
    }
    const double u = at40.in(centistokes);
    if (u <= tableMinCst || indexOf(u, tableMinCst) > viscosityIndex) {
        return fail(Errc::OutOfRange,
                    "An oil of " + cStText(u) + " at 40 °C with a viscosity index of " + fixed(viscosityIndex, 1)
                        + " would have less than 2 cSt at 100 °C, where the index means nothing.");
    }
    // At y = u the index is above 690 for every u, so that the answer lies between.
    double low = tableMinCst;
    double high = u;
    while (high - low > 1e-12 * high) {
        const double middle = std::midpoint(low, high);
        (indexOf(u, middle) < viscosityIndex ? low : high) = middle;
    }
    return std::midpoint(low, high) * centistokes;
}

double reportedViscosityIndex(double viscosityIndex)
{
    // std::remainder takes the even one of two equally near, whatever the rounding mode.
    return viscosityIndex - std::remainder(viscosityIndex, 1.0);
}

} // namespace loopside::oil
