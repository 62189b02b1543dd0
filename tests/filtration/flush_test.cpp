// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "filtration/flush.h"

#include <catch2/catch.hpp>

#include <cmath>

using Catch::Contains;
using Catch::WithinAbs;
using Catch::WithinRel;
using namespace loopside::filtration;
using namespace loopside::units;

TEST_CASE("a cart's hold-up in a small tank is a large part of it")
{
    // Common practice, computed: 8 L into 60 L are 13 %.
    CHECK_THAT(carryOver(8.0 * litre, 60.0 * litre).value().in(percent), WithinAbs(13.0, 0.5));
    CHECK(carryOver(Volume{}, 60.0 * litre).value() == Fraction{});
    CHECK_THAT(carryOver(-1.0 * litre, 60.0 * litre).error().sentence, Contains("hold-up"));
    CHECK_THAT(carryOver(8.0 * litre, Volume{}).error().sentence, Contains("tank volume"));
}

TEST_CASE("each flush thins what is left by the same factor")
{
    // Common practice, computed: 1.5 L left, 10 L a flush: 13 %, 1.7 %, 0.22 %.
    const auto [batches, percents,
                rounding] = GENERATE(table<int, double, double>({{1, 13.0, 0.5}, {2, 1.7, 0.05}, {3, 0.22, 0.005}}));
    const auto rest = residualAfter(1.5 * litre, 10.0 * litre, batches).value();
    CHECK_THAT(rest.in(percent), WithinAbs(percents, rounding));
    // Computed: 10 % stays each time, three times: 0.1 %.
    CHECK_THAT(residualAfter(1.0 * litre, 9.0 * litre, 3).value().in(percent), WithinRel(0.1, 1e-12));
    CHECK(residualAfter(1.5 * litre, 10.0 * litre, 0).value() == 1.0 * one);
    // Shares multiply.
    CHECK_THAT(rest.in(one)*residualAfter(1.5 * litre, 10.0 * litre, 2).value().in(one),
               WithinRel(residualAfter(1.5 * litre, 10.0 * litre, batches + 2).value().in(one), 1e-12));
}

TEST_CASE("the batches for a wanted rest are the fewest that reach it")
{
    const double wanted = GENERATE(50.0, 13.05, 1.7, 1.0, 0.22, 0.001);
    const double batch = GENERATE(0.5, 1.5, 10.0, 40.0);
    CAPTURE(wanted, batch);
    const Flush flush = flushTo(wanted * percent, 1.5 * litre, batch * litre).value();
    CHECK(flush.batches >= 1);
    CHECK(flush.residual.in(percent) <= wanted * (1.0 + 1e-9));
    CHECK(residualAfter(1.5 * litre, batch * litre, flush.batches - 1).value().in(percent) > wanted);
    CHECK_THAT(flush.total.in(litre), WithinRel(flush.batches * batch, 1e-12));
    // A rest that is just reached asks for no batch more.
    CHECK(flushTo(flush.residual, 1.5 * litre, batch * litre).value().batches == flush.batches);
}

TEST_CASE("the same oil in smaller batches thins more, and never beyond the limit")
{
    const Volume left = 1.5 * litre;
    const Volume total = 30.0 * litre;
    Fraction last = 1.0 * one;
    for (const double least : {30.0, 15.0, 10.0, 5.0, 2.0, 0.5, 0.05}) {
        const Flush flush = bestFlush(total, left, least * litre).value();
        CHECK(flush.residual < last);
        CHECK_THAT(flush.total.in(litre), WithinRel(30.0, 1e-12));
        CHECK(flush.batch.in(litre) >= least * (1.0 - 1e-9));
        CHECK(flush.residual.in(one) > std::exp(-total / left)); // limit of endless small batches, computed here
        last = flush.residual;
    }
    CHECK(bestFlush(29.0 * litre, left, 10.0 * litre).value().batches == 2);
}

TEST_CASE("flushes that cannot be are refused with the fault named")
{
    const double wrong = GENERATE(0.0, -1.0, std::nan(""));
    CAPTURE(wrong);
    CHECK_THAT(residualAfter(wrong * litre, 10.0 * litre, 1).error().sentence, Contains("left in the cart"));
    CHECK_THAT(residualAfter(1.5 * litre, wrong * litre, 1).error().sentence, Contains("batch"));
    CHECK_THAT(residualAfter(1.5 * litre, 10.0 * litre, -1).error().sentence, Contains("number of batches"));
    const auto none = flushTo(wrong * percent, 1.5 * litre, 10.0 * litre);
    REQUIRE_FALSE(none.has_value());
    CHECK(none.error().code == loopside::Errc::OutOfRange);
    CHECK_THAT(none.error().sentence, Contains("wanted rest"));
    CHECK_THAT(flushTo(100.0 * percent, 1.5 * litre, 10.0 * litre).error().sentence, Contains("wanted rest"));
    CHECK_THAT(flushTo(1.0 * percent, wrong * litre, 10.0 * litre).error().sentence, Contains("left in the cart"));
    const auto many = flushTo(1.0 * percent, 1500.0 * litre, 1.0 * litre);
    CHECK_THAT(many.error().sentence, Contains("1000 batches"));
    CHECK(many.error().say == loopside::Message{"flush.too-many", {{"most", "1000"}}});
    CHECK(flushTo(1.0 * percent, wrong * litre, 10.0 * litre).error().say.id == "number.above-zero");
    CHECK_THAT(bestFlush(wrong * litre, 1.5 * litre, 1.0 * litre).error().sentence, Contains("total"));
    CHECK_THAT(bestFlush(9.0 * litre, 1.5 * litre, 10.0 * litre).error().sentence, Contains("less than one batch"));
}
