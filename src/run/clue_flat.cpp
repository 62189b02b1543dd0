// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// A ΔP that rises and then stands, though the oil did not thin: what a spring does, not dirt. Dirt that runs out
// flattens too, but no faster than the tank is turned over: its rate falls by e per turnover at most.

#include "run/clue_parts.h"

#include <boost/math/statistics/linear_regression.hpp>
#include <boost/math/statistics/univariate_statistics.hpp>

#include <vector>

namespace loopside::run::clue {

namespace {

using units::pascal;

constexpr std::size_t flatSets = 4;
constexpr std::size_t riseSets = 3;
constexpr std::size_t mostSets = 12; ///< Looked back on: what is older says little of now.

/// One stage on the sets up to now, oldest first, as far back as its elements and the oil are those of now.
struct Course
{
    std::vector<double> turnovers; ///< Since the first of them.
    std::vector<double> drop_Pa;
    std::vector<double> lnPush;
    double dropSd_Pa = 0.0;
    double lnPushSd = 0.0;

    [[nodiscard]] std::size_t size() const { return turnovers.size(); }
};

Course courseOf(const Evidence& e, std::size_t i)
{
    constexpr double sameOil = 0.3; // in ln viscosity × flow; what is less is taken out
    std::size_t first = e.sights.size();
    while (first > 0 && e.sights.size() - first < mostSets) {
        const Sight& sight = e.sights[first - 1];
        const bool isAlike = sight.drops[i] && sight.push
            && sight.moment->elementsSince[i] == e.now.moment->elementsSince[i]
            && std::abs(std::log(expectedFactor(e.now, sight).value)) < sameOil;
        if (!isAlike) {
            break;
        }
        --first;
    }
    Course course;
    const auto perTurnover = e.run.setup.tank.volume.value() / e.now.moment->flow;
    for (const Sight& sight : e.sights.subspan(first)) {
        const auto time = static_cast<double>((sight.at - e.sights[first].at).count()) / 1000.0 * units::second;
        course.turnovers.push_back(time / perTurnover);
        course.drop_Pa.push_back(sight.drops[i]->value.in(pascal));
        course.lnPush.push_back(std::log(*sight.push));
        course.dropSd_Pa = std::max(course.dropSd_Pa, sight.drops[i]->reading.in(pascal));
        course.lnPushSd = std::max(course.lnPushSd, sight.pushSdOfReading);
    }
    return course;
}

std::vector<double> part(const std::vector<double>& all, std::size_t from, std::size_t until)
{
    return {all.begin() + static_cast<std::ptrdiff_t>(from), all.begin() + static_cast<std::ptrdiff_t>(until)};
}

/// The slope of the line through points that each err by `sd`.
Uncertain slopeOf(const std::vector<double>& x, const std::vector<double>& y, double sd)
{
    const double spread = std::sqrt(boost::math::statistics::variance(x) * static_cast<double>(x.size()));
    constexpr double least = 1e-6; // turnovers: sets of one moment have no slope
    if (spread < least) {
        return {0.0, 1e12};
    }
    return {boost::math::statistics::simple_ordinary_least_squares(x, y).second, sd / spread};
}

/// How plainly the ΔP stands since `first`, after it rose: its slope is less than what dirt that runs out would leave.
double flatSince(const Course& course, std::size_t first)
{
    constexpr double atMost = 0.25;   // of the rise, that what stands may rise further
    constexpr double together = 3.5;  // standard uncertainties of one ΔP, between the least and the most that stand
    constexpr double leastRise = 4.0; // of the same
    const std::size_t begin = first > riseSets ? first - riseSets : 0;
    const auto x = [&](std::size_t from, std::size_t until) { return part(course.turnovers, from, until); };
    const Uncertain oil = slopeOf(x(begin, course.size()), part(course.lnPush, begin, course.size()), course.lnPushSd);
    std::vector<double> drops = course.drop_Pa;
    for (std::size_t k = begin; k < drops.size(); ++k) {
        drops[k] *= std::exp(oil.value * (course.turnovers.back() - course.turnovers[k]));
    }
    const Uncertain rise = slopeOf(x(begin, first + 1), part(drops, begin, first + 1), course.dropSd_Pa);
    const Uncertain stand = slopeOf(x(first, drops.size()), part(drops, first, drops.size()), course.dropSd_Pa);
    const auto middle = [&](std::size_t from, std::size_t until) {
        return boost::math::statistics::mean(x(from, until));
    };
    const double later = middle(first, drops.size()) - middle(begin, first + 1);
    const double left = std::exp(-later); // of the rate at which dirt comes, at the fastest
    const double ofOil = course.drop_Pa.back() * oil.sd;
    const double excess = Uncertain{rise.value * left - stand.value, std::hypot(rise.sd * left, stand.sd, ofOil)}.above(
        0.0);
    const double risen = rise.value * (course.turnovers[first] - course.turnovers[begin]);
    const double further = stand.value * (course.turnovers.back() - course.turnovers[first]);
    const auto [low, high] = std::minmax_element(drops.begin() + static_cast<std::ptrdiff_t>(first), drops.end());
    const bool stands = *high - *low < together * course.dropSd_Pa;
    const bool hasRisen = risen > leastRise * course.dropSd_Pa && further < atMost * risen;
    return std::min({excess, rise.above(0.0), plainly(stands && hasRisen)});
}

double holdsFlatAfterRise(const Evidence& e, std::size_t i)
{
    double most = impossible;
    const Course course = courseOf(e, i);
    for (std::size_t first = riseSets - 1; first + flatSets <= course.size(); ++first) {
        most = std::max(most, flatSince(course, first));
    }
    return most;
}

} // namespace

const Clue flatAfterRise = {"flat-after-rise", holdsFlatAfterRise};

} // namespace loopside::run::clue
