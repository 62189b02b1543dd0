// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "practice/blocking_law.h"

#include "base/text.h"
#include "filtration/checks.h"

#include <algorithm>
#include <cmath>

namespace loopside::practice {

namespace {

/// A piece of a law, told from its beginning: dℓ/dm = slope·ℓⁿ from ℓ = 1.
struct Piece
{
    double exponent;
    double slope;
};

constexpr double nearlyOne = 1e-9;

double grown(const Piece& piece, double grams)
{
    const double power = 1.0 - piece.exponent;
    if (std::abs(power) < nearlyOne) {
        return std::exp(std::min(piece.slope * grams, std::log(loadingMax)));
    }
    const double base = 1.0 + power * piece.slope * grams;
    return base > 0.0 ? std::pow(base, 1.0 / power) : loadingMax;
}

/// The grams in which the piece grows to `times`.
double gramsToGrow(const Piece& piece, double times)
{
    const double power = 1.0 - piece.exponent;
    const double way = std::abs(power) < nearlyOne ? std::log(times) : (std::pow(times, power) - 1.0) / power;
    return way / piece.slope;
}

Piece firstOf(const BlockingLaw& law)
{
    return {law.exponent, law.perGram};
}

double loadingAtKnee(const BlockingLaw& law)
{
    return std::min(grown(firstOf(law), law.knee->grams), loadingMax);
}

Piece behindKnee(const BlockingLaw& law, double atKnee)
{
    const double slope = law.perGram * std::pow(atKnee, law.exponent - 1.0);
    return {law.knee->exponent, slope * law.knee->steeper};
}

Done checkExponent(double exponent, std::string_view what)
{
    if (!(exponent >= 0.0 && exponent <= 3.0)) {
        return fail(Errc::OutOfRange,
                    "The " + std::string(what) + " must be from 0 to 3; it is " + fixed(exponent, 2) + ".");
    }
    return {};
}

Done checkGrows(double loading, double from)
{
    if (!(loading > from && loading <= loadingMax)) {
        return fail(Errc::OutOfRange,
                    "The loading at the end of a blocking law must be above " + fixed(from, 2) + " and at most "
                        + fixed(loadingMax, 0) + "; it is " + fixed(loading, 2) + ".");
    }
    return {};
}

} // namespace

Done checkLaw(const BlockingLaw& law)
{
    Done checked = checkExponent(law.exponent, "exponent of a blocking law").and_then([&] {
        return filtration::checkAboveZero(law.perGram, "slope of a blocking law", "per gram");
    });
    if (!checked || !law.knee) {
        return checked;
    }
    return checkExponent(law.knee->exponent, "exponent behind the knee of a blocking law")
        .and_then([&] { return filtration::checkAboveZero(law.knee->grams, "dirt up to the knee", "g"); })
        .and_then([&] { return filtration::checkAboveZero(law.knee->steeper, "steepening at the knee", ""); });
}

Result<BlockingLaw> BlockingLaw::through(double exponent, double grams, double loading)
{
    return checkExponent(exponent, "exponent of a blocking law")
        .and_then([&] { return filtration::checkAboveZero(grams, "dirt at the end of a blocking law", "g"); })
        .and_then([&] { return checkGrows(loading, 1.0); })
        .transform([&] { return BlockingLaw{exponent, gramsToGrow({exponent, 1.0}, loading) / grams, std::nullopt}; });
}

Result<BlockingLaw> BlockingLaw::throughKnee(double exponent, Point knee, double exponentBehind, Point end)
{
    Result<BlockingLaw> law = through(exponent, knee.grams, knee.loading);
    const Done checked = checkExponent(exponentBehind, "exponent behind the knee of a blocking law")
                             .and_then([&] { return checkGrows(end.loading, knee.loading); })
                             .and_then([&] {
                                 return filtration::checkAboveZero(end.grams - knee.grams, "dirt behind the knee", "g");
                             });
    if (!law || !checked) {
        return law ? fail(checked.error()) : law;
    }
    law->knee = Knee{knee.grams, exponentBehind, 1.0};
    const Piece unsteepened = behindKnee(*law, knee.loading);
    law->knee->steeper = gramsToGrow(unsteepened, end.loading / knee.loading) / (end.grams - knee.grams);
    return law;
}

double loadingAt(const BlockingLaw& law, double grams)
{
    if (!law.knee || grams <= law.knee->grams) {
        return std::min(grown(firstOf(law), grams), loadingMax);
    }
    const double atKnee = loadingAtKnee(law);
    return std::min(atKnee * grown(behindKnee(law, atKnee), grams - law.knee->grams), loadingMax);
}

double gramsAt(const BlockingLaw& law, double loading)
{
    if (!law.knee) {
        return gramsToGrow(firstOf(law), loading);
    }
    const double atKnee = loadingAtKnee(law);
    return loading <= atKnee ? gramsToGrow(firstOf(law), loading)
                             : law.knee->grams + gramsToGrow(behindKnee(law, atKnee), loading / atKnee);
}

} // namespace loopside::practice
