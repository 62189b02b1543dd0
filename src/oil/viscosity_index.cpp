// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "oil/viscosity_index.h"

#include "base/require.h"
#include "base/text.h"
#include "embedded/d2270PolynomialTable.h"
#include "embedded/d2270Table.h"
#include "oil/reference_table.h"
#include "oil/root_between.h"
#include "oil/working_range.h"

#include <algorithm>
#include <cmath>
#include <iterator>
#include <string>
#include <vector>

namespace loopside::oil {

using units::celsius;
using units::centistokes;
using units::KinematicViscosity;
using units::Temperature;

namespace {

constexpr double tableMinCst = 2.0;
constexpr double tableMaxCst = 70.0;

struct TableRow
{
    double y;
    double l;
    double h;
};

const std::vector<TableRow>& table()
{
    static const std::vector<TableRow> rows = [] {
        std::vector<TableRow> read;
        for (const ReferenceRow& row : referenceRows(d2270Table(), 3)) {
            read.push_back({row.numbers[0], row.numbers[1], row.numbers[2]});
        }
        require(read.size() == 311 && read.front().y == tableMinCst && read.back().y == tableMaxCst,
                "the table of D2270 goes from 2 to 70 in 311 rows");
        return read;
    }();
    return rows;
}

/// The coefficients of the closed form in one range of y, in the order Y_min, Y_max, a … f.
const std::vector<ReferenceRow>& polynomials()
{
    static const std::vector<ReferenceRow> rows = [] {
        auto read = referenceRows(d2270PolynomialTable(), 8);
        require(read.size() == 16 && read.front().numbers[0] == tableMinCst && std::isinf(read.back().numbers[1]),
                "the closed form of D2270 has 16 ranges from 2 up");
        return read;
    }();
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

/// L and H for `y` mm²/s, at least 2, by the closed form.
TableRow closedReference(double y)
{
    const auto range = std::find_if(polynomials().begin(), polynomials().end(),
                                    [&](const ReferenceRow& row) { return y <= row.numbers[1]; });
    const std::vector<double>& of = range->numbers;
    return {y, (of[2] * y + of[3]) * y + of[4], (of[5] * y + of[6]) * y + of[7]};
}

/// The index of an oil with `u` mm²/s at 40 °C beside `oils`.
double indexBeside(const TableRow& oils, double u)
{
    if (u >= oils.h) {
        return 100.0 * (oils.l - u) / (oils.l - oils.h);
    }
    const double n = std::log10(oils.h / u) / std::log10(oils.y);
    return (std::pow(10.0, n) - 1.0) / 0.00715 + 100.0;
}

/// The index for `u` and `y` in mm²/s, `y` at least 2.
double indexOf(double u, double y)
{
    return indexBeside(reference(y), u);
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

/// Whether viscosities of `u` and `y` mm²/s have an index.
Done checkOil(double u, double y)
{
    return checkAt100(y).and_then([&]() -> Done {
        if (!(u > y && std::isfinite(u))) {
            return fail(Errc::OutOfRange,
                        "The viscosity at 40 °C must be above that at 100 °C, " + cStText(y) + "; it is " + cStText(u)
                            + ".");
        }
        return {};
    });
}

Done checkIndex(double viscosityIndex)
{
    if (!(viscosityIndex >= -100.0 && viscosityIndex <= 500.0)) {
        return fail(Errc::OutOfRange,
                    "The viscosity index of a lubricant is from -100 to 500; it is " + fixed(viscosityIndex, 1) + ".");
    }
    return {};
}

/// The least viscosity at 40 °C, in mm²/s, of an oil with the index: that with 2 mm²/s at 100 °C.
double thinnestAt40(double viscosityIndex)
{
    const TableRow oils = reference(tableMinCst);
    if (viscosityIndex <= 100.0) {
        return oils.l - viscosityIndex * (oils.l - oils.h) / 100.0;
    }
    return oils.h / std::pow(tableMinCst, std::log10(0.00715 * (viscosityIndex - 100.0) + 1.0));
}

/// The line of an oil with `u` mm²/s at 40 °C.
Result<WaltherLine> lineFrom40(double u, double viscosityIndex)
{
    const KinematicViscosity at40 = u * centistokes;
    return viscosityAt100(at40, viscosityIndex).and_then([&](KinematicViscosity at100) {
        return WaltherLine::through(40.0 * celsius, at40, 100.0 * celsius, at100);
    });
}

std::string pointText(Temperature at, KinematicViscosity viscosity)
{
    return fixed(viscosity.in(centistokes), 3) + " cSt at " + fixed(at.in(celsius), 1) + " °C";
}

ReferenceOils oilsOf(const TableRow& row)
{
    return {row.l * centistokes, row.h * centistokes};
}

} // namespace

Result<ReferenceOils> referenceOils(KinematicViscosity at100)
{
    const double y = at100.in(centistokes);
    return checkAt100(y).transform([&] { return oilsOf(reference(y)); });
}

Result<ReferenceOils> referenceOilsClosedForm(KinematicViscosity at100)
{
    const double y = at100.in(centistokes);
    return checkAt100(y).transform([&] { return oilsOf(closedReference(y)); });
}

Result<double> viscosityIndex(KinematicViscosity at40, KinematicViscosity at100)
{
    const double u = at40.in(centistokes);
    const double y = at100.in(centistokes);
    return checkOil(u, y).transform([&] { return indexOf(u, y); });
}

Result<double> viscosityIndexClosedForm(KinematicViscosity at40, KinematicViscosity at100)
{
    const double u = at40.in(centistokes);
    const double y = at100.in(centistokes);
    return checkOil(u, y).transform([&] { return indexBeside(closedReference(y), u); });
}

Result<KinematicViscosity> viscosityAt100(KinematicViscosity at40, double viscosityIndex)
{
    const Done checked = checkIndex(viscosityIndex).and_then([&] {
        return checkViscosity(at40, "viscosity at 40 °C");
    });
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
    return rootBetween([&](double y) { return indexOf(u, y) - viscosityIndex; }, tableMinCst, u) * centistokes;
}

Result<WaltherLine> lineWithIndex(Temperature at, KinematicViscosity viscosity, double viscosityIndex)
{
    if (at == 40.0 * celsius) {
        return lineFrom40(viscosity.in(centistokes), viscosityIndex);
    }
    const Done checked = checkIndex(viscosityIndex)
                             .and_then([&] { return checkWorkingRange(at, "temperature of a viscosity point"); })
                             .and_then([&] { return checkViscosity(viscosity, "viscosity of a point"); });
    if (!checked.has_value()) {
        return fail(checked.error());
    }
    // How much thicker than the point the oil with u at 40 °C is at the point's temperature, as log log Z. Rises with
    // u.
    const auto above = [&](double u) {
        const WaltherLine line = lineFrom40(u, viscosityIndex).value();
        return line.a() - line.b() * std::log10(at.in(units::kelvin)) - std::log10(std::log10(waltherZ(viscosity)));
    };
    const double thinnest = thinnestAt40(viscosityIndex) * (1.0 + 1e-12); // or rounding makes it too thin by a bit
    constexpr double thickest = 2e7;
    if (above(thinnest) > 0.0 || above(thickest) < 0.0) {
        return fail(Errc::OutOfRange,
                    "An oil of " + pointText(at, viscosity) + " with a viscosity index of " + fixed(viscosityIndex, 1)
                        + " would have "
                        + (above(thinnest) > 0.0 ? "less than 2 cSt at 100 °C" : "more than 2e7 cSt at 40 °C")
                        + ", where the index means nothing.");
    }
    return lineFrom40(rootBetween(above, thinnest, thickest), viscosityIndex);
}

double reportedViscosityIndex(double viscosityIndex)
{
    // std::remainder takes the even one of two equally near, whatever the rounding mode.
    return viscosityIndex - std::remainder(viscosityIndex, 1.0);
}

} // namespace loopside::oil
