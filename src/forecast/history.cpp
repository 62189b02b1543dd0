// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "forecast/history.h"

#include "forecast/kin_laws.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <numeric>

namespace loopside::forecast {

namespace {

/// The numbers that we chose for a kinship: by cross-validation on the open bench data for the same tank, from how far
/// its groups differ for the rest. See DEVELOPERS.md.
struct Traits
{
    double weight; ///< Of one shape.
    double deviation;
    double memory;
    double ownLife;
    double lifeWidthMin;
};

Traits traitsOf(Kinship kinship)
{
    switch (kinship) {
    case Kinship::SameTank:
        return {1.0, 0.02, 0.15, 0.5, 0.05};
    case Kinship::SameType:
        return {0.5, 0.07, 0.3, 0.5, 0.15};
    case Kinship::SameKind:
        return {0.2, 0.2, 1.0, 0.0, 0.25};
    }
    return {};
}

constexpr double lifeWidthMax = 0.3;
constexpr std::array longerTimes = {1.25, 2.0, 3.5, 6.0, 12.0}; // a life known only to be longer: so many times that
constexpr std::size_t enoughLives = 3;
constexpr int manyLoadings = 12; // whole ones say more than laws
constexpr double wideWidthMin = 0.35;
constexpr double nearlyRight = 0.6; // by try-out runs of a simulated cart: of 0.4, 0.5, 0.6 and 1

/// A loading that counts: its shape where it got to the limit, and the logarithm of its (least) life.
struct Learned
{
    Kinship kinship;
    std::optional<Shape> shape;
    double lnLife;
};

Done check(const PastLoading& past)
{
    bool isFinite = std::isfinite(past.endLoad) && std::isfinite(past.limit.in(units::pascal));
    for (const CurvePoint& point : past.curve) {
        isFinite = isFinite && std::isfinite(point.load) && std::isfinite(point.drop.in(units::pascal));
    }
    if (!isFinite) {
        return fail(Errc::OutOfRange, "a past loading has a number that is not finite");
    }
    return {};
}

std::vector<Learned> nearest(std::span<const PastLoading> past, units::Pressure limit)
{
    std::vector<Learned> all;
    for (const Kinship kinship : {Kinship::SameTank, Kinship::SameType, Kinship::SameKind}) {
        for (auto one = past.rbegin(); one != past.rend() && all.size() < pastMax; ++one) {
            if (one->isUsed || one->kinship != kinship || one->endLoad <= 0.0 || one->curve.size() < 3) {
                continue;
            }
            const auto scaled = shapeOf(*one, limit);
            if (scaled) {
                all.push_back({kinship, scaled->shape, std::log(scaled->life)});
            } else if (one->isCutShort || one->limit < limit) {
                all.push_back({kinship, std::nullopt, std::log(one->endLoad)});
            }
        }
    }
    return all;
}

Family familyOf(const std::vector<Learned>& all, Kinship kinship)
{
    const Traits traits = traitsOf(kinship);
    Family family;
    std::vector<const Shape*> shapes;
    for (const Learned& one : all) {
        if (one.kinship == kinship && one.shape) {
            shapes.push_back(&*one.shape);
            family.lnLives.push_back(one.lnLife);
        }
    }
    family.drops.resize(static_cast<Eigen::Index>(shapes.size()), phaseSteps + 1);
    for (std::size_t i = 0; i < shapes.size(); ++i) {
        for (std::size_t k = 0; k < shapes[i]->size(); ++k) {
            family.drops(static_cast<Eigen::Index>(i), static_cast<Eigen::Index>(k)) = (*shapes[i])[k];
        }
    }
    family.weight = traits.weight * static_cast<double>(shapes.size());
    family.deviation = traits.deviation;
    family.memory = traits.memory;
    family.ownPart = 0.7;
    family.spreadPart = 0.7;
    family.ownLife = traits.ownLife;
    return family;
}

/// How far a loading may stray from every law, and how fast.
struct Straying
{
    double deviation;
    double memory;
};

constexpr Straying rough = {0.4, 0.3};  // lumps land and break off
constexpr Straying smooth = {0.1, 1.0}; // creeps along a law, perhaps to a knee

Family lawFamily(double weight, Straying straying)
{
    const std::vector<Shape> shapes = lawShapes();
    Family family;
    family.drops.resize(static_cast<Eigen::Index>(shapes.size()), phaseSteps + 1);
    for (std::size_t i = 0; i < shapes.size(); ++i) {
        for (std::size_t k = 0; k < shapes[i].size(); ++k) {
            family.drops(static_cast<Eigen::Index>(i), static_cast<Eigen::Index>(k)) = shapes[i][k];
        }
    }
    family.weight = weight;
    family.deviation = straying.deviation;
    family.memory = straying.memory;
    return family;
}

/// Redistributes the weight of lives cut short to the lives that are longer.
std::vector<Life> bellsOf(std::vector<double> lives, std::vector<double> cutShort)
{
    std::ranges::sort(lives);
    std::vector<Life> bells;
    const double share = 1.0 / static_cast<double>(lives.size() + cutShort.size());
    for (const double life : lives) {
        bells.push_back({life, share});
    }
    std::vector<double> beyond;
    for (const double least : cutShort) {
        const auto longer = std::ranges::find_if(bells, [&](const Life& bell) { return bell.lnLoad > least; });
        const auto count = static_cast<double>(bells.end() - longer);
        if (count == 0.0) {
            beyond.push_back(least);
            continue;
        }
        for (auto bell = longer; bell != bells.end(); ++bell) {
            bell->weight += share / count;
        }
    }
    for (const double least : beyond) {
        for (const double times : longerTimes) {
            bells.push_back({least + std::log(times), share / static_cast<double>(longerTimes.size())});
        }
    }
    std::ranges::sort(bells, {}, &Life::lnLoad);
    return bells;
}

/// The median distance of a life to its fifth neighbour: narrow where lives come in bunches, though bunches lie apart.
double neighbourWidth(const std::vector<Life>& bells)
{
    std::vector<double> fifths;
    for (const Life& bell : bells) {
        std::vector<double> distances;
        for (const Life& other : bells) {
            distances.push_back(std::abs(other.lnLoad - bell.lnLoad));
        }
        const auto fifth = std::min<std::size_t>(5, distances.size() - 1);
        std::ranges::nth_element(distances, distances.begin() + static_cast<std::ptrdiff_t>(fifth));
        fifths.push_back(distances[fifth]);
    }
    std::ranges::nth_element(fifths, fifths.begin() + static_cast<std::ptrdiff_t>(fifths.size() / 2));
    return fifths[fifths.size() / 2];
}

/// The lives of the nearest kin that has enough of them, together with all nearer.
struct LifeSource
{
    Kinship farthest;
    std::vector<double> lives;
    std::vector<double> cutShort;
};

LifeSource lifeSource(const std::vector<Learned>& all)
{
    LifeSource source{Kinship::SameTank, {}, {}};
    for (const Learned& one : all) { // nearest first
        if (one.kinship != source.farthest && source.lives.size() >= enoughLives) {
            break;
        }
        source.farthest = one.kinship;
        (one.shape ? source.lives : source.cutShort).push_back(one.lnLife);
    }
    return source;
}

/// The wide bell, from the mean and spread of the others.
void tellWide(Lives& lives, double widthMin, double loadUnitError)
{
    double squares = 0.0;
    for (const Life& bell : lives.bells) {
        lives.wideMean += bell.weight * bell.lnLoad;
        squares += bell.weight * bell.lnLoad * bell.lnLoad;
    }
    const double variance = std::max(squares - lives.wideMean * lives.wideMean, 0.0);
    lives.wideWidth = std::hypot(std::max(widthMin, std::sqrt(variance)), loadUnitError);
}

Lives livesOf(const LifeSource& source, double loadUnitError)
{
    Lives lives;
    lives.bells = bellsOf(source.lives, source.cutShort);
    if (lives.bells.empty()) {
        return lives;
    }
    lives.width = std::clamp(neighbourWidth(lives.bells), traitsOf(source.farthest).lifeWidthMin, lifeWidthMax);
    lives.width = std::hypot(lives.width, loadUnitError);
    tellWide(lives, wideWidthMin, loadUnitError);
    lives.widePart = source.lives.size() < enoughLives ? 0.5 : 0.15;
    return lives;
}

/// The lives of laws that were learned with them, whatever the law.
Lives livesOf(const Family& laws)
{
    Lives lives;
    const Eigen::ArrayXd densities = laws.lives.densities.colwise().sum().transpose();
    for (Eigen::Index i = 0; i < densities.size(); ++i) {
        lives.bells.push_back(
            {laws.lives.lnFirst + laws.lives.lnStep * static_cast<double>(i), densities(i) / densities.sum()});
    }
    lives.width = laws.lives.lnStep;
    tellWide(lives, lives.width, 0.0);
    return lives;
}

} // namespace

Family smoothLaws()
{
    return lawFamily(0.5, smooth);
}

Result<History> learn(std::span<const PastLoading> past, units::Pressure limit, double loadUnitError)
{
    if (!(std::isfinite(limit.in(units::pascal)) && limit.in(units::pascal) > 0.0)) {
        return fail(Errc::OutOfRange, "the limit of the drop has to be above 0");
    }
    if (!(std::isfinite(loadUnitError) && loadUnitError >= 0.0)) {
        return fail(Errc::OutOfRange, "the error of the unit of loads has to be finite and 0 or more");
    }
    for (const PastLoading& one : past) {
        if (Done checked = check(one); !checked) {
            return fail(checked.error());
        }
    }
    const std::vector<Learned> all = nearest(past, limit);
    History history;
    const LifeSource source = lifeSource(all);
    for (const Kinship kinship : {Kinship::SameTank, Kinship::SameType, Kinship::SameKind}) {
        Family family = familyOf(all, kinship);
        if (family.drops.rows() > 0) {
            family.ownLife = kinship <= source.farthest ? family.ownLife : 0.0;
            history.loadings += static_cast<int>(family.drops.rows());
            history.ofType += kinship == Kinship::SameKind ? 0 : static_cast<int>(family.drops.rows());
            history.families.push_back(std::move(family));
        }
    }
    history.cutShort = static_cast<int>(all.size()) - history.loadings;
    history.lives = livesOf(source, loadUnitError);
    const bool isLittle = history.loadings < static_cast<int>(enoughLives);
    if (isLittle || (loadUnitError > 0.0 && history.loadings < manyLoadings)) {
        if (auto laws = kinLaws(past, limit, loadUnitError)) {
            history.lives = history.lives.bells.empty() ? livesOf(*laws) : history.lives;
            history.families.push_back(*std::move(laws));
            history.families.push_back(lawFamily(0.1, rough));
            history.likelihoodPower = nearlyRight;
            return history;
        }
    }
    history.families.push_back(lawFamily(isLittle ? 0.5 : 0.1, rough));
    if (isLittle && !history.lives.bells.empty()) {
        history.families.push_back(smoothLaws());
    }
    return history;
}

} // namespace loopside::forecast
