// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "forecast/posterior.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numeric>

namespace loopside::forecast {

namespace {

using Row = Eigen::ArrayXf; // single precision: the likelihood needs no more, and it is twice as fast

constexpr int gridSize = 128;
constexpr double aheadMin = 0.002;    // of the load now: the nearest life looked at
constexpr double unknownAhead = 50.0; // the farthest where nothing is known of lives
constexpr double unknownFall = 2.5;   // where nothing is known, lives L weigh as L^−2.5
constexpr double oddAt = 6.0;         // squared standard deviations
constexpr double degreesOfFreedom = 4.0;
constexpr double softeningMin = 0.02;
constexpr double gaugeMax = 0.1; // of ln(drop): a standing error does not change, so it may not pass for a rise

double bell(double x, double mean, double width)
{
    const double z = (x - mean) / width;
    return std::exp(-0.5 * z * z) / width;
}

/// Lives L = load now × (1 + ahead), ahead in equal steps of its logarithm: as fine near the limit as it needs to be.
struct Grid
{
    std::vector<double> loads;
    std::vector<double> steps; ///< d ln L of each.
};

Grid gridFor(double now, const Lives& lives)
{
    double first = aheadMin;
    double last = unknownAhead;
    if (!lives.bells.empty()) {
        const double low = std::min(lives.bells.front().lnLoad - 4.0 * lives.width,
                                    lives.wideMean - 3.0 * lives.wideWidth);
        const double high = std::max(lives.bells.back().lnLoad + 4.0 * lives.width,
                                     lives.wideMean + 3.5 * lives.wideWidth);
        first = std::max(aheadMin, std::exp(low) / now - 1.0);
        last = std::max({first * 5.0, std::exp(high) / now - 1.0, 2.0});
    }
    const double step = std::log(last / first) / (gridSize - 1);
    Grid grid;
    for (int i = 0; i < gridSize; ++i) {
        const double ahead = first * std::exp(step * i);
        grid.loads.push_back(now * (1.0 + ahead));
        grid.steps.push_back(step * ahead / (1.0 + ahead));
    }
    return grid;
}

/// The density of lives on the grid before any reading, when a phase of `used` was behind the elements at load 0.
std::vector<double> prior(const Grid& grid, const Lives& lives, double used)
{
    std::vector<double> densities;
    for (const double load : grid.loads) {
        const double x = std::log(load / (1.0 - used));
        if (lives.bells.empty()) {
            densities.push_back(std::exp(-unknownFall * std::log(load / grid.loads.front())));
            continue;
        }
        double near = 0.0;
        for (const Life& life : lives.bells) {
            near += life.weight * bell(x, life.lnLoad, lives.width);
        }
        densities.push_back((1.0 - lives.widePart) * near + lives.widePart * bell(x, lives.wideMean, lives.wideWidth));
    }
    return densities;
}

/// A family in the softened logarithm, ready for the filter.
struct Table
{
    Eigen::ArrayXXf shapes;         ///< A row for each shape, a column for each phase.
    std::vector<double> deviations; ///< One for each phase.
    double memory;
    double firstPhase = 0.0;         ///< At load 0; above 0 for used elements.
    Eigen::ArrayXd firstPhases = {}; ///< The same shape by shape, where the shapes were cut to begin there.
};

/// The standard deviation over shapes at each phase, smoothed over neighbours; few shapes are drawn to 10 %.
std::vector<double> spreadOf(const Eigen::ArrayXXd& logs, const Eigen::ArrayXd& mean)
{
    const auto count = static_cast<double>(logs.rows());
    std::vector<double> variances;
    for (Eigen::Index k = 0; k < logs.cols(); ++k) {
        const double squares = (logs.col(k) - mean(k)).square().sum();
        const double phase = static_cast<double>(k) / phaseSteps;
        variances.push_back((squares + 2.0 * 0.01 * (1.0 - std::pow(phase, 8.0))) / (count + 1.0));
    }
    std::vector<double> spread;
    for (int k = 0; k <= phaseSteps; ++k) {
        double weights = 0.0, sum = 0.0;
        for (int other = std::max(0, k - 9); other <= std::min(phaseSteps, k + 9); ++other) {
            const double weight = bell(other, k, 3.0);
            weights += weight;
            sum += weight * variances[static_cast<std::size_t>(other)];
        }
        spread.push_back(std::sqrt(sum / weights));
    }
    return spread;
}

/// Cuts each shape to begin where it is as high as `drop`. Returns the phases at which they begin.
Eigen::ArrayXd cutToBegin(Eigen::ArrayXXd& drops, double drop)
{
    constexpr double phaseMax = 0.9;
    Eigen::ArrayXd phases(drops.rows());
    for (Eigen::Index j = 0; j < drops.rows(); ++j) {
        Eigen::Index column = 0;
        while (column < phaseSteps && drops(j, column + 1) < drop) {
            ++column;
        }
        const double rise = drops(j, std::min<Eigen::Index>(column + 1, phaseSteps)) - drops(j, column);
        const double part = rise > 0.0 ? std::clamp((drop - drops(j, column)) / rise, 0.0, 1.0) : 0.0;
        phases(j) = std::min((static_cast<double>(column) + part) / phaseSteps, phaseMax);
        const Eigen::ArrayXd whole = drops.row(j).transpose();
        for (Eigen::Index k = 0; k <= phaseSteps; ++k) {
            const double place = phases(j) * phaseSteps + (1.0 - phases(j)) * static_cast<double>(k);
            const auto below = std::min(static_cast<Eigen::Index>(place), Eigen::Index{phaseSteps - 1});
            const double over = place - static_cast<double>(below);
            drops(j, k) = whole(below) * (1.0 - over) + whole(below + 1) * over;
        }
    }
    return phases;
}

Table tableOf(const Family& whole, double softening, std::span<const Observation> observations,
              const Circumstances& circumstances)
{
    Family family = whole;
    Eigen::ArrayXd firstPhases;
    if (circumstances.isUsed && family.lives.densities.size() > 0) {
        firstPhases = cutToBegin(family.drops, firstDrop(observations));
    }
    const double standing = circumstances.standing;
    const Eigen::ArrayXXd logs = (family.drops.max(-softening / 2.0) + softening).log();
    const Eigen::ArrayXd mean = logs.colwise().mean().transpose();
    Table table{Eigen::ArrayXXf(logs.rows(), logs.cols()), {}, family.memory, 0.0, firstPhases};
    const std::vector<double> spread = spreadOf(logs, mean);
    for (Eigen::Index k = 0; k < logs.cols(); ++k) {
        table.shapes.col(k) = (mean(k) + family.ownPart * (logs.col(k) - mean(k))).cast<float>();
        const double phase = static_cast<double>(k) / phaseSteps;
        const double part = family.spreadPart * spread[static_cast<std::size_t>(k)];
        const double tapered = family.deviation * std::min(1.0, 3.0 * (1.0 - phase));
        const double gauge = std::min(standing / std::exp(mean(k)), gaugeMax);
        table.deviations.push_back(std::sqrt(part * part + tapered * tapered + gauge * gauge + 1e-6));
    }
    return table;
}

/// The phase at which the family's mean shape is as high as the first readings, of used elements at load 0.
double firstPhaseOf(const Family& family, std::span<const Observation> observations)
{
    constexpr double phaseMax = 0.9;
    const double drop = firstDrop(observations);
    const Eigen::ArrayXd mean = family.drops.colwise().mean().transpose();
    Eigen::Index column = 0;
    while (column < phaseSteps && mean(column) < drop) {
        ++column;
    }
    return std::min(static_cast<double>(column) / phaseSteps, phaseMax);
}

/// An observation in the softened logarithm.
struct Seen
{
    double load;
    double value;
    double variance;
};

std::vector<Seen> seenOf(std::span<const Observation> observations, double softening)
{
    std::vector<Seen> all;
    for (const Observation& one : observations) {
        const double soft = std::max(one.drop, 0.0) + softening;
        all.push_back(
            {one.load, std::log(std::max(one.drop, -softening / 2.0) + softening), one.variance / (soft * soft)});
    }
    return all;
}

/// Where an observation falls in the table, if the life is known, and what the filter does with it.
struct Gain
{
    Eigen::Index column;
    float part; ///< Of the next column.
    float deviation;
    float carried;     ///< How much of the deviation is left since the one before.
    float halfInverse; ///< 1/(2F), F the variance of what was not foreseen.
    float gain;
    double variance; ///< F.
};

/// The filter's gains for one life: they do not depend on the shape.
std::vector<Gain> gainsFor(const std::vector<Seen>& seen, const Table& table, double life)
{
    std::vector<Gain> gains;
    double unknown = 1.0; // variance of z
    double before = 0.0;
    for (const Seen& one : seen) {
        const double phase = std::min(table.firstPhase + (1.0 - table.firstPhase) * one.load / life, 1.0);
        const double place = phase * phaseSteps;
        const auto column = std::min(static_cast<int>(place), phaseSteps - 1);
        const double part = place - column;
        const auto at = static_cast<std::size_t>(column);
        const double deviation = table.deviations[at] * (1.0 - part) + table.deviations[at + 1] * part;
        const double carried = gains.empty() ? 0.0 : std::exp(-(phase - before) / table.memory);
        unknown = unknown * carried * carried + 1.0 - carried * carried;
        const double variance = deviation * deviation * unknown + one.variance;
        const double gain = unknown * deviation / variance;
        unknown *= 1.0 - gain * deviation;
        before = phase;
        gains.push_back({column, static_cast<float>(part), static_cast<float>(deviation), static_cast<float>(carried),
                         static_cast<float>(0.5 / variance), static_cast<float>(gain), variance});
    }
    return gains;
}

/// Log likelihood of the readings for each shape, if the life is that of the gains.
Row logLikelihoods(const std::vector<Seen>& seen, const Table& table, const std::vector<Gain>& gains)
{
    Row squares = Row::Zero(table.shapes.rows());
    Row state = Row::Zero(table.shapes.rows());
    Row rest(table.shapes.rows());
    double logs = 0.0;
    for (std::size_t i = 0; i < seen.size(); ++i) {
        const Gain& gain = gains[i];
        state *= gain.carried;
        rest = static_cast<float>(seen[i].value) - table.shapes.col(gain.column) * (1.0F - gain.part)
            - table.shapes.col(gain.column + 1) * gain.part - state * gain.deviation;
        squares += rest.square() * gain.halfInverse;
        state += rest * gain.gain;
        logs += 0.5 * std::log(gain.variance);
    }
    return -squares - static_cast<float>(logs);
}

/// The hypothesis that the readings fit best.
struct Best
{
    double score = -std::numeric_limits<double>::infinity();
    std::size_t family = 0;
    Eigen::Index shape = 0;
    std::size_t life = 0;
};

/// Adds up the probability of each life over all shapes of a family.
class Sum
{
public:
    Sum(const Grid& grid, const History& history)
        : grid_(grid),
          lives_(history.lives),
          power_(history.likelihoodPower),
          logs_(grid.loads.size(), unset),
          shares_(logs_.size())
    {
    }

    void add(std::size_t familyIndex, const Family& family, const Table& table, const std::vector<Seen>& seen)
    {
        used_ = table.firstPhase;
        prior_ = prior(grid_, lives_, used_);
        learned_ = learnedOf(family, table);
        const double perShape = family.weight / static_cast<double>(table.shapes.rows());
        for (std::size_t g = 0; g < grid_.loads.size(); ++g) {
            const Row logs = logLikelihoods(seen, table, gainsFor(seen, table, grid_.loads[g]));
            for (Eigen::Index j = 0; j < logs.size(); ++j) {
                const double density = perShape * lifeDensity(family, j, g) * grid_.steps[g];
                if (density > 0.0) {
                    addOne(power_ * static_cast<double>(logs(j)) + std::log(density), {0.0, familyIndex, j, g});
                }
            }
        }
    }

    [[nodiscard]] const Best& best() const { return best_; }

    [[nodiscard]] Posterior posterior() const
    {
        const double top = *std::ranges::max_element(logs_);
        Posterior result{grid_.loads, {}};
        double total = 0.0;
        for (std::size_t g = 0; g < logs_.size(); ++g) {
            result.masses.push_back(shares_[g] * std::exp(logs_[g] - top));
            total += result.masses.back();
        }
        for (double& mass : result.masses) {
            mass /= total;
        }
        return result;
    }

private:
    static constexpr double unset = -1e30;

    /// The densities of lives that were learned shape by shape, on the grid.
    [[nodiscard]] Eigen::ArrayXXd learnedOf(const Family& family, const Table& table) const
    {
        const LifeTable& lives = family.lives;
        Eigen::ArrayXXd learned;
        if (lives.densities.size() == 0) {
            return learned;
        }
        learned.resize(lives.densities.rows(), static_cast<Eigen::Index>(grid_.loads.size()));
        for (std::size_t g = 0; g < grid_.loads.size(); ++g) {
            const double ln = std::log(grid_.loads[g]);
            for (Eigen::Index j = 0; j < learned.rows(); ++j) {
                const double used = table.firstPhases.size() > 0 ? table.firstPhases(j) : 0.0;
                const double place = (ln - std::log1p(-used) - lives.lnFirst) / lives.lnStep;
                const auto below = static_cast<Eigen::Index>(std::floor(place));
                const double part = place - std::floor(place);
                const bool isInside = below >= 0 && below + 1 < lives.densities.cols();
                learned(j, static_cast<Eigen::Index>(g)) = isInside
                    ? lives.densities(j, below) * (1.0 - part) + lives.densities(j, below + 1) * part
                    : 0.0;
            }
        }
        return learned;
    }

    [[nodiscard]] double lifeDensity(const Family& family, Eigen::Index shape, std::size_t g) const
    {
        if (learned_.size() > 0) {
            return learned_(shape, static_cast<Eigen::Index>(g));
        }
        if (family.ownLife <= 0.0 || family.lnLives.empty()) {
            return prior_[g];
        }
        const double own = bell(std::log(grid_.loads[g] / (1.0 - used_)),
                                family.lnLives[static_cast<std::size_t>(shape)], lives_.width);
        return (1.0 - family.ownLife) * prior_[g] + family.ownLife * (1.0 - lives_.widePart) * own;
    }

    void addOne(double log, Best which)
    {
        if (log > best_.score) {
            which.score = log;
            best_ = which;
        }
        double& top = logs_[which.life];
        double& share = shares_[which.life];
        if (log > top) {
            share = share * std::exp(top - log) + 1.0;
            top = log;
        } else {
            share += std::exp(log - top);
        }
    }

    const Grid& grid_;
    const Lives& lives_;
    double power_;
    std::vector<double> prior_;  ///< For the family that is added,
    double used_ = 0.0;          ///< and its first phase,
    Eigen::ArrayXXd learned_;    ///< and what it learned of lives.
    std::vector<double> logs_;   ///< The largest log of each life,
    std::vector<double> shares_; ///< and the sum of all in units of it.
    Best best_;
};

/// Lets what the best hypothesis finds odd weigh less. Says whether there was any.
bool soften(std::vector<Seen>& seen, const Table& table, Eigen::Index shape, double life)
{
    const std::vector<Gain> gains = gainsFor(seen, table, life);
    double state = 0.0;
    bool isAny = false;
    for (std::size_t i = 0; i < seen.size(); ++i) {
        const Gain& gain = gains[i];
        state *= static_cast<double>(gain.carried);
        const double foreseen = static_cast<double>(table.shapes(shape, gain.column) * (1.0F - gain.part)
                                                    + table.shapes(shape, gain.column + 1) * gain.part)
            + state * static_cast<double>(gain.deviation);
        const double rest = seen[i].value - foreseen;
        state += rest * static_cast<double>(gain.gain);
        const double odd = rest * rest / gain.variance;
        if (odd > oddAt) {
            seen[i].variance += gain.variance * (odd - 1.0) / degreesOfFreedom;
            isAny = true;
        }
    }
    return isAny;
}

/// The usual reading error, which sets how soft the logarithm is.
double softeningFor(std::span<const Observation> observations)
{
    std::vector<double> variances;
    for (const Observation& one : observations) {
        variances.push_back(one.variance);
    }
    const auto middle = variances.begin() + static_cast<std::ptrdiff_t>(variances.size() / 2);
    std::ranges::nth_element(variances, middle);
    return std::max(softeningMin, 2.0 * std::sqrt(*middle));
}

} // namespace

double firstDrop(std::span<const Observation> observations)
{
    const auto few = observations.first(std::min<std::size_t>(3, observations.size()));
    double sum = 0.0;
    for (const Observation& one : few) {
        sum += one.drop;
    }
    return sum / static_cast<double>(few.size());
}

std::vector<Observation> gathered(std::span<const Observation> all)
{
    std::vector<Observation> result;
    if (all.empty()) {
        return result;
    }
    if (all.size() <= observationsMax) {
        return {all.begin(), all.end()};
    }
    const double width = all.back().load / static_cast<double>(observationsMax - 1);
    long part = -1;
    double weights = 0.0;
    for (const Observation& one : all) {
        const auto here = static_cast<long>((all.back().load - one.load) / width); // counted from the end
        const double weight = 1.0 / one.variance;
        if (here != part) {
            result.push_back({0.0, 0.0, 0.0});
            part = here;
            weights = 0.0;
        }
        Observation& mean = result.back();
        mean.load = (mean.load * weights + one.load * weight) / (weights + weight);
        mean.drop = (mean.drop * weights + one.drop * weight) / (weights + weight);
        weights += weight;
        mean.variance = 1.0 / weights;
    }
    return result;
}

Eigen::ArrayXXd logLikelihoods(std::span<const Observation> observations, const Circumstances& circumstances,
                               const Family& family, std::span<const double> lives, Eigen::ArrayXd& firstPhases)
{
    const double softening = softeningFor(observations);
    const Table table = tableOf(family, softening, observations, circumstances);
    const std::vector<Seen> seen = seenOf(observations, softening);
    Eigen::ArrayXXd logs(family.drops.rows(), static_cast<Eigen::Index>(lives.size()));
    for (std::size_t i = 0; i < lives.size(); ++i) {
        logs.col(
            static_cast<Eigen::Index>(i)) = logLikelihoods(seen, table, gainsFor(seen, table, lives[i])).cast<double>();
    }
    firstPhases = table.firstPhases;
    return logs;
}

Posterior posterior(std::span<const Observation> observations, const Circumstances& circumstances,
                    const History& history)
{
    const double softening = softeningFor(observations);
    const Grid grid = gridFor(circumstances.now, history.lives);
    std::vector<Table> tables;
    for (const Family& family : history.families) {
        tables.push_back(tableOf(family, softening, observations, circumstances));
        if (circumstances.isUsed && !family.lnLives.empty()) {
            tables.back().firstPhase = firstPhaseOf(family, observations);
        }
    }
    std::vector<Seen> seen = seenOf(observations, softening);
    const auto sumUp = [&] {
        Sum sum(grid, history);
        for (std::size_t i = 0; i < tables.size(); ++i) {
            sum.add(i, history.families[i], tables[i], seen);
        }
        return sum;
    };
    Sum sum = sumUp();
    const Best best = sum.best();
    if (soften(seen, tables[best.family], best.shape, grid.loads[best.life])) {
        return sumUp().posterior();
    }
    return sum.posterior();
}

Posterior smeared(const Posterior& posterior, double relative)
{
    std::vector<double> steps; // of ln L
    for (std::size_t i = 0; i < posterior.loads.size(); ++i) {
        const std::size_t low = i == 0 ? 0 : i - 1;
        const std::size_t high = std::min(i + 1, posterior.loads.size() - 1);
        steps.push_back(std::log(posterior.loads[high] / posterior.loads[low]) / 2.0);
    }
    Posterior result{posterior.loads, std::vector<double>(posterior.loads.size(), 0.0)};
    for (std::size_t from = 0; from < posterior.loads.size(); ++from) {
        std::vector<double> shares;
        for (std::size_t to = 0; to < posterior.loads.size(); ++to) {
            const double width = std::max(relative, steps[from]); // no narrower than the grid
            shares.push_back(steps[to] * bell(std::log(posterior.loads[to]), std::log(posterior.loads[from]), width));
        }
        const double whole = std::accumulate(shares.begin(), shares.end(), 0.0);
        for (std::size_t to = 0; to < shares.size(); ++to) {
            result.masses[to] += posterior.masses[from] * shares[to] / whole;
        }
    }
    return result;
}

double quantile(const Posterior& posterior, double part)
{
    double sum = 0.0;
    double before = 0.0; // probability below the middle of the cell before
    for (std::size_t i = 0; i < posterior.loads.size(); ++i) {
        const double middle = sum + posterior.masses[i] / 2.0;
        if (middle >= part) {
            if (i == 0 || middle <= before) {
                return posterior.loads[i];
            }
            const double share = (part - before) / (middle - before);
            return posterior.loads[i - 1] + share * (posterior.loads[i] - posterior.loads[i - 1]);
        }
        sum += posterior.masses[i];
        before = middle;
    }
    return posterior.loads.back();
}

double probabilityBy(const Posterior& posterior, double load)
{
    double sum = 0.0;
    for (std::size_t i = 0; i < posterior.loads.size(); ++i) {
        const double low = i == 0 ? posterior.loads[0] : (posterior.loads[i - 1] + posterior.loads[i]) / 2.0;
        const double high = i + 1 == posterior.loads.size() ? posterior.loads[i]
                                                            : (posterior.loads[i] + posterior.loads[i + 1]) / 2.0;
        if (load >= high) {
            sum += posterior.masses[i];
        } else if (load > low && high > low) {
            sum += posterior.masses[i] * (load - low) / (high - low);
        }
    }
    return std::clamp(sum, 0.0, 1.0);
}

} // namespace loopside::forecast
