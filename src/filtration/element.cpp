// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "filtration/element.h"

#include "base/text.h"

#include <cmath>
#include <string>

namespace loopside::filtration {

using units::Fraction;
using units::one;
using units::percent;

namespace {

Done checkBeta(double beta)
{
    if (!(beta >= 1.0 && std::isfinite(beta))) {
        return fail(Errc::OutOfRange, "A filtration ratio is at least 1; it is " + fixed(beta, 2) + ".");
    }
    return {};
}

Done checkStages(std::span<const double> stages)
{
    if (stages.empty()) {
        return fail(Errc::OutOfRange, "A filtration ratio in series needs at least one stage; there is none.");
    }
    for (const double beta : stages) {
        const Done checked = checkBeta(beta);
        if (!checked.has_value()) {
            return checked;
        }
    }
    return {};
}

Done checkLeak(Fraction leak)
{
    if (!(leak >= 0.0 * one && leak <= 1.0 * one)) {
        return fail(Errc::OutOfRange,
                    "The part that leaks past an element must be from 0 to 100 %; it is " + fixed(leak.in(percent), 2)
                        + " %.");
    }
    return {};
}

} // namespace

Result<Fraction> efficiencyOf(double beta)
{
    return checkBeta(beta).transform([&] { return (1.0 - 1.0 / beta) * one; });
}

Result<double> betaOf(Fraction efficiency)
{
    if (!(efficiency >= 0.0 * one && efficiency < 1.0 * one)) {
        return fail(Errc::OutOfRange,
                    "The efficiency of an element must be from 0 to below 100 %; it is "
                        + fixed(efficiency.in(percent), 2) + " %.");
    }
    return 1.0 / (1.0 - efficiency.in(one));
}

Result<double> betaInSeries(std::span<const double> stages)
{
    return checkStages(stages).transform([&] {
        double product = 1.0;
        for (const double beta : stages) {
            product *= beta;
        }
        return product;
    });
}

Result<double> betaWithLeak(double beta, Fraction leak)
{
    return checkBeta(beta).and_then([&] { return checkLeak(leak); }).transform([&] {
        const double past = leak.in(one);
        return 1.0 / (past + (1.0 - past) / beta);
    });
}

} // namespace loopside::filtration
