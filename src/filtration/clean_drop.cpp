// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "filtration/clean_drop.h"

#include "base/require.h"
#include "base/text.h"
#include "filtration/checks.h"

#include <string>

namespace loopside::filtration {

using units::Pressure;

namespace {

/// What the two parts of a clean drop are multiplied by from one set of conditions to another.
struct Factors
{
    double element;
    double housing;
};

Done checkConditions(const Conditions& conditions, const std::string& when)
{
    const auto checkDensity = [&]() -> Done {
        if (!conditions.density.has_value()) {
            return {};
        }
        return checkAboveZero(conditions.density->in(units::kilogramPerCubicMetre), "density " + when, "kg/m³");
    };
    return checkAboveZero(conditions.flow.in(units::litrePerMinute), "flow " + when, "L/min")
        .and_then(
            [&] { return checkAboveZero(conditions.viscosity.in(units::centistokes), "viscosity " + when, "cSt"); })
        .and_then(checkDensity);
}

Done checkClean(const CleanDrop& clean)
{
    Done checked = checkAboveZero(clean.total.in(units::kilopascal), "clean differential pressure", "kPa");
    if (checked.has_value() && !(clean.housing >= Pressure{} && clean.housing <= clean.total)) {
        return fail(Errc::OutOfRange,
                    "The housing's part of the clean differential pressure must be from zero to all of it, "
                        + fixed(clean.total.in(units::kilopascal), 2) + " kPa; it is "
                        + fixed(clean.housing.in(units::kilopascal), 2) + " kPa.");
    }
    return checked;
}

Result<Factors> factors(const CleanDrop& clean, const Conditions& now)
{
    return checkClean(clean)
        .and_then([&] { return checkConditions(clean.at, "of the clean differential pressure"); })
        .and_then([&] { return checkConditions(now, "now"); })
        .transform([&] {
            const bool densitiesKnown = now.density.has_value() && clean.at.density.has_value();
            const double density = densitiesKnown ? *now.density / *clean.at.density : 1.0;
            const double flow = now.flow / clean.at.flow;
            return Factors{flow * (now.viscosity / clean.at.viscosity) * density, flow * flow * density};
        });
}

Done checkFlowing(Flowing flowing)
{
    if (!(flowing.flowing >= 1 && flowing.flowing <= flowing.of)) {
        return fail(Errc::OutOfRange,
                    "The number of elements that flow must be from 1 to all " + std::to_string(flowing.of)
                        + " of the stage; it is " + std::to_string(flowing.flowing) + ".");
    }
    return {};
}

} // namespace

Result<Pressure> cleanDropAt(const CleanDrop& clean, const Conditions& now, Flowing flowing)
{
    return checkFlowing(flowing).and_then([&] { return factors(clean, now); }).transform([&](const Factors& times) {
        const double share = static_cast<double>(flowing.of) / flowing.flowing;
        return (clean.total - clean.housing) * times.element * share + clean.housing * times.housing;
    });
}

Result<Pressure> correctedDrop(Pressure measured, const CleanDrop& clean, const Conditions& now)
{
    return factors(clean, now).transform([&](const Factors& times) {
        return (measured - clean.housing * times.housing) / times.element + clean.housing;
    });
}

double loading(Pressure corrected, const CleanDrop& clean)
{
    require(clean.total > Pressure{}, "a loading is told against a clean differential pressure above zero");
    return corrected / clean.total;
}

Result<double> halfChangedLoading(double old)
{
    return checkAboveZero(old, "loading of the old element", "").transform([&] { return 2.0 / (1.0 + 1.0 / old); });
}

} // namespace loopside::filtration
