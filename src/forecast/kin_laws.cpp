// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "forecast/kin_laws.h"

#include "forecast/posterior.h"

#include <algorithm>
#include <cmath>
#include <iterator>
#include <numbers>
#include <utility>
#include <vector>

namespace loopside::forecast {

namespace {

using Eigen::ArrayXd;
using Eigen::ArrayXXd;
using Eigen::Index;

constexpr Index gridSize = 48;
constexpr double shortestPart = 0.08; // of the shortest loading seen
constexpr double longestTimes = 60.0; // of the longest
constexpr double usualTimes = 1.5;    // a life before any reading, in times of the usual loading, and
constexpr double usualWidth = 1.1;    // its spread in the logarithm: most cleanings do with one set. Common practice
constexpr double sameWidthMin = 0.1;  // of the logarithm: how lives of one tank differ at least
constexpr double elsewhere = 0.7;     // of the logarithm: how lives differ from tank to tank
constexpr double usualError = 0.02;   // of the limit, standard
constexpr double strays = 0.1;        // of ln(drop): how far a loading strays from its law,
constexpr double straysOver = 0.8;    // and over which phase; both by try-out runs of a simulated cart
constexpr double leastLikely = 1e-12; // of the best: no loading rules a law out for good
constexpr double leastLog = -60.0;    // as good as nothing, and far from numbers that are slow because they are tiny
constexpr double cleanMin = 0.01;     // of the limit
constexpr double cleanMax = 0.6;
constexpr double dropMax = 0.98; // of the limit: beyond, all shapes are 1

/// The loadings that count.
std::vector<const PastLoading*> chosen(std::span<const PastLoading> past)
{
    std::vector<const PastLoading*> all;
    for (const Kinship kinship : {Kinship::SameTank, Kinship::SameType}) {
        for (auto one = past.rbegin(); one != past.rend() && all.size() < kinMax; ++one) {
            if (one->kinship == kinship && one->endLoad > 0.0 && one->curve.size() >= 3) {
                all.push_back(&*one);
            }
        }
    }
    return all;
}

std::vector<Observation> observationsOf(const PastLoading& past, units::Pressure limit)
{
    const double told = past.readingError / limit / 2.0;
    const double error = told > 0.0 ? std::max(told, 1e-3) : usualError;
    std::vector<Observation> all;
    for (const CurvePoint& point : past.curve) {
        const double drop = point.drop / limit;
        if (point.load > 0.0 && point.load <= past.endLoad && drop < dropMax) {
            all.push_back({point.load, drop, error * error});
        }
    }
    std::ranges::sort(all, {}, &Observation::load);
    return gathered(all);
}

/// Clean drops ÷ limit that may be, from the first readings of each loading.
std::vector<double> cleanDrops(const std::vector<const PastLoading*>& past,
                               const std::vector<std::vector<Observation>>& observations)
{
    std::vector<double> fresh;
    std::vector<double> used;
    for (std::size_t i = 0; i < past.size(); ++i) {
        const double drop = std::clamp(firstDrop(observations[i]), cleanMin, cleanMax);
        (past[i]->isUsed ? used : fresh).push_back(drop);
    }
    std::vector<double> drops;
    if (fresh.empty()) {
        for (const double part : {1.0, 0.75, 0.5, 0.33}) {
            drops.push_back(std::max(part * std::ranges::min(used), cleanMin));
        }
        return drops;
    }
    std::ranges::sort(fresh);
    for (const double part : {0.7, 0.85, 1.0, 1.18}) {
        drops.push_back(part * fresh[fresh.size() / 2]);
    }
    return drops;
}

/// Lives of a loading, in equal steps of their logarithm.
class LifeGrid
{
public:
    LifeGrid(double shortest, double longest)
        : lnFirst(std::log(shortestPart * shortest)),
          lnStep((std::log(longestTimes * longest) - lnFirst) / static_cast<double>(gridSize - 1))
    {
    }

    [[nodiscard]] double lnAt(Index i) const { return lnFirst + lnStep * static_cast<double>(i); }

    /// Bells of `width` about each place: no narrower than a step.
    [[nodiscard]] Eigen::MatrixXd bells(double width) const
    {
        const double wide = std::max(width, lnStep);
        Eigen::MatrixXd result(gridSize, gridSize);
        for (Index i = 0; i < gridSize; ++i) {
            for (Index k = 0; k < gridSize; ++k) {
                const double z = lnStep * static_cast<double>(i - k) / wide;
                result(i, k) = std::exp(std::max(-0.5 * z * z, leastLog)) / (wide * std::sqrt(2.0 * std::numbers::pi));
            }
        }
        return result;
    }

    double lnFirst;
    double lnStep;
};

/// Values over lives left at load 0, told over whole lives when a phase of `used` was behind.
ArrayXd overWholeLives(const ArrayXd& left, double used, const LifeGrid& grid)
{
    const double shift = -std::log1p(-used) / grid.lnStep;
    ArrayXd whole = ArrayXd::Zero(gridSize);
    for (Index k = 0; k < gridSize; ++k) {
        const double place = static_cast<double>(k) - shift;
        const double floor = std::floor(place);
        const auto below = static_cast<Index>(floor);
        if (below >= 0 && below + 1 < gridSize) {
            whole(k) = left(below) * (1.0 - place + floor) + left(below + 1) * (place - floor);
        }
    }
    return whole;
}

/// The likelihood of one loading for each law (row) and each whole life of it, the largest being 1.
ArrayXXd likelihoodOf(const PastLoading& past, std::span<const Observation> observations, const Family& laws,
                      const LifeGrid& grid)
{
    std::vector<double> lives;
    for (Index i = 0; i < gridSize; ++i) {
        lives.push_back(std::exp(grid.lnAt(i)));
    }
    ArrayXd firstPhases;
    const ArrayXXd logs = logLikelihoods(observations, {past.endLoad, 0.0, past.isUsed}, laws, lives, firstPhases);
    ArrayXXd likelihood = (logs - logs.maxCoeff()).max(leastLog).exp();
    for (Index j = 0; j < firstPhases.size(); ++j) {
        likelihood.row(j) = overWholeLives(likelihood.row(j).transpose(), firstPhases(j), grid).transpose();
    }
    return likelihood;
}

/// ln p(L₀) before any reading, the same for each of `rows` laws.
ArrayXXd usualLives(const std::vector<const PastLoading*>& past, const LifeGrid& grid, Index rows)
{
    std::vector<double> ends;
    for (const PastLoading* one : past) {
        ends.push_back(std::log(one->endLoad));
    }
    std::ranges::sort(ends);
    const double centre = ends[ends.size() / 2] + std::log(usualTimes);
    ArrayXXd logs(rows, gridSize);
    for (Index k = 0; k < gridSize; ++k) {
        const double z = (grid.lnAt(k) - centre) / usualWidth;
        logs.col(k) = -0.5 * z * z;
    }
    return logs;
}

Family lawsFrom(const std::vector<double>& cleanDrops)
{
    std::vector<Shape> shapes;
    for (const double clean : cleanDrops) {
        std::ranges::copy(lawShapesFrom(clean), std::back_inserter(shapes));
    }
    Family family;
    family.drops.resize(static_cast<Index>(shapes.size()), phaseSteps + 1);
    for (std::size_t i = 0; i < shapes.size(); ++i) {
        family.drops.row(static_cast<Index>(i)) = ArrayXd::Map(shapes[i].data(), phaseSteps + 1).transpose();
    }
    family.deviation = strays;
    family.memory = straysOver;
    return family;
}

} // namespace

std::optional<Family> kinLaws(std::span<const PastLoading> past, units::Pressure limit, double loadUnitError)
{
    std::vector<const PastLoading*> kin;
    std::vector<std::vector<Observation>> observations;
    for (const PastLoading* one : chosen(past)) {
        if (auto seen = observationsOf(*one, limit); !seen.empty()) {
            kin.push_back(one);
            observations.push_back(std::move(seen));
        }
    }
    if (kin.empty()) {
        return std::nullopt;
    }
    Family family = lawsFrom(cleanDrops(kin, observations));
    const auto [shortest, longest] = std::ranges::minmax(kin, {}, &PastLoading::endLoad);
    const LifeGrid grid(shortest->endLoad, longest->endLoad);
    const double here = std::max(loadUnitError, sameWidthMin);
    const Eigen::MatrixXd bellsHere = grid.bells(here);
    const Eigen::MatrixXd bellsElsewhere = grid.bells(std::hypot(here, elsewhere));
    family.lives = {grid.lnFirst, grid.lnStep, ArrayXXd::Ones(family.drops.rows(), gridSize)};
    ArrayXXd logs = usualLives(kin, grid, family.drops.rows());
    for (std::size_t i = 0; i < kin.size(); ++i) {
        const ArrayXXd likelihood = likelihoodOf(*kin[i], observations[i], family, grid);
        const bool isHere = kin[i]->kinship == Kinship::SameTank;
        logs += (likelihood.matrix() * (isHere ? bellsHere : bellsElsewhere)).array().max(leastLikely).log();
    }
    const ArrayXXd weights = (logs - logs.maxCoeff()).max(leastLog).exp();
    family.lives.densities = (weights.matrix() * bellsHere).array() * static_cast<double>(logs.rows()) / weights.sum();
    return family;
}

} // namespace loopside::forecast
