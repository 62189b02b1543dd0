// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "practice/chance.h"

#include "base/require.h"

#include <boost/math/constants/constants.hpp>
#include <boost/math/special_functions/erf.hpp>

#include <algorithm>
#include <cmath>

namespace loopside::practice {

namespace {

/// A seed for the stream: neighbouring seeds and purposes must not give neighbouring streams.
std::uint64_t streamSeed(std::uint64_t seed, std::uint64_t purpose)
{
    SeededRandom outer(seed);
    SeededRandom inner(outer.next() ^ (purpose * 0x9E3779B97F4A7C15ULL));
    return inner.next();
}

} // namespace

Chance::Chance(std::uint64_t seed, std::uint64_t purpose) : random_(streamSeed(seed, purpose)) {}

double Chance::share()
{
    constexpr double step = 1.0 / 9007199254740992.0; // 2^-53
    return (static_cast<double>(random_.next() >> 11U) + 0.5) * step;
}

double Chance::between(double low, double high)
{
    return low + (high - low) * share();
}

double Chance::logBetween(double low, double high)
{
    require(low > 0.0 && high > 0.0, "a logarithm is drawn between numbers above zero");
    return low * std::exp(std::log(high / low) * share());
}

double Chance::normal()
{
    return -boost::math::constants::root_two<double>() * boost::math::erfc_inv(2.0 * share());
}

double Chance::waiting(double mean)
{
    return -mean * std::log(share());
}

std::size_t Chance::oneOf(std::size_t count)
{
    require(count > 0, "one of nothing cannot be drawn");
    const auto place = static_cast<std::size_t>(share() * static_cast<double>(count));
    return std::min(place, count - 1);
}

} // namespace loopside::practice
