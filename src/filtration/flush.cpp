// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "filtration/flush.h"

#include "base/text.h"
#include "filtration/checks.h"

#include <cmath>
#include <string>

namespace loopside::filtration {

using units::Fraction;
using units::litre;
using units::Volume;

namespace {

constexpr int batchesMax = 1000; // more is a slip in typing, not a flush

Done checkFlush(Volume left, Volume batch)
{
    return checkAboveZero(left.in(litre), "oil left in the cart", "L").and_then([&] {
        return checkAboveZero(batch.in(litre), "batch of flushing oil", "L");
    });
}

Done checkWanted(Fraction wanted)
{
    if (wanted > Fraction{} && wanted < 1.0 * units::one) {
        return {};
    }
    return fail(Errc::OutOfRange,
                "The wanted rest must be above 0 % and below 100 %, for no number of flushes leaves nothing; it is "
                    + fixed(wanted.in(units::percent), 2) + " %.");
}

double keptByOne(Volume left, Volume batch)
{
    return left / (left + batch);
}

Flush flushOf(Volume left, Volume batch, int batches)
{
    return {batch, batches, batches * batch, std::pow(keptByOne(left, batch), batches) * units::one};
}

Result<Flush> refuseMany()
{
    return fail(Errc::OutOfRange,
                "That takes more than " + std::to_string(batchesMax)
                    + " batches: look at the sizes of batch, left-over and wanted rest.",
                {"flush.too-many", {{"most", std::to_string(batchesMax)}}});
}

} // namespace

Result<Fraction> carryOver(Volume holdUp, Volume tank)
{
    return checkZeroOrMore(holdUp.in(litre), "cart's hold-up", "L")
        .and_then([&] { return checkAboveZero(tank.in(litre), "tank volume", "L"); })
        .transform([&] { return holdUp / tank * units::one; });
}

Result<Fraction> residualAfter(Volume left, Volume batch, int batches)
{
    return checkFlush(left, batch)
        .and_then([&] { return checkZeroOrMore(batches, "number of batches", ""); })
        .transform([&] { return flushOf(left, batch, batches).residual; });
}

Result<Flush> flushTo(Fraction wanted, Volume left, Volume batch)
{
    return checkWanted(wanted).and_then([&] { return checkFlush(left, batch); }).and_then([&]() -> Result<Flush> {
        const double needed = std::log(wanted.in(units::one)) / std::log(keptByOne(left, batch));
        if (!(needed <= batchesMax)) {
            return refuseMany();
        }
        // a rest that just fits must not ask for one more by rounding
        return flushOf(left, batch, static_cast<int>(std::ceil(needed * (1.0 - 1e-12))));
    });
}

Result<Flush> bestFlush(Volume total, Volume left, Volume batchMin)
{
    if (auto checked = checkFlush(left, batchMin); !checked) {
        return fail(checked.error());
    }
    if (auto checked = checkAboveZero(total.in(litre), "total of flushing oil", "L"); !checked) {
        return fail(checked.error());
    }
    const double batches = std::floor(total / batchMin * (1.0 + 1e-12));
    if (batches < 1.0) {
        return fail(Errc::OutOfRange,
                    "The total of flushing oil, " + fixed(total.in(litre), 1) + " L, is less than one batch of "
                        + fixed(batchMin.in(litre), 1) + " L.");
    }
    if (!(batches <= batchesMax)) {
        return refuseMany();
    }
    return flushOf(left, total / batches, static_cast<int>(batches));
}

} // namespace loopside::filtration
