// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "filtration/clean_up_learned.h"

#include "filtration/checks.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <numbers>
#include <string>

namespace loopside::filtration {

namespace {

constexpr std::array<double, 5> errorTimes = {8.0, 4.0, 2.0, 1.0, 1.0}; // of each laying of the grid
constexpr std::size_t cellsPerSide = 28;
constexpr double forgottenBelow = 8.0; // ln: four standard deviations from the likeliest

/// A count as the fit takes it.
struct Observed
{
    double turnovers; ///< Since the first count.
    double logPerMl;
    double deviation;
};

struct Side
{
    double from;
    double to;

    [[nodiscard]] double width() const { return (to - from) / cellsPerSide; }
    [[nodiscard]] double middle(std::size_t cell) const { return from + (static_cast<double>(cell) + 0.5) * width(); }
};

/// The three sides of the grid.
struct Grid
{
    Side logStart;
    Side capture;
    Side logFloor;
};

struct Cell
{
    std::array<std::size_t, 3> at; ///< On the sides of the grid, in their order.
    double logWeight;
};

Done check(const CountSeen& count)
{
    return checkZeroOrMore(count.turnovers, "number of turnovers at a count", "")
        .and_then([&] { return checkAboveZero(count.perMl, "count", "per mL"); })
        .and_then([&] { return checkAboveZero(count.particles.value_or(1.0), "number of particles counted", ""); })
        .and_then([&] { return checkZeroOrMore(count.spread, "spread of a count", ""); });
}

Result<std::vector<Observed>> observedFrom(std::span<const CountSeen> counts, double scatter)
{
    if (auto checked = checkAboveZero(scatter, "scatter of a test", ""); !checked) {
        return fail(checked.error());
    }
    std::vector<Observed> all;
    for (const CountSeen& count : counts) {
        if (auto checked = check(count); !checked) {
            return fail(checked.error());
        }
        const double counting = count.particles ? 1.0 / *count.particles : 0.0;
        all.push_back({count.turnovers, std::log(count.perMl),
                       std::sqrt(scatter * scatter + counting + count.spread * count.spread)});
    }
    std::stable_sort(all.begin(), all.end(), [](const auto& a, const auto& b) { return a.turnovers < b.turnovers; });
    if (all.empty() || !(all.back().turnovers > all.front().turnovers)) {
        return fail(Errc::Unavailable, "Two counts at different turnovers are needed to learn from them.");
    }
    const double first = all.front().turnovers;
    for (Observed& one : all) {
        one.turnovers -= first;
    }
    return all;
}

Grid widestGrid(const std::vector<Observed>& counts)
{
    const auto lowest = *std::min_element(counts.begin(), counts.end(),
                                          [](const auto& a, const auto& b) { return a.logPerMl < b.logPerMl; });
    const Observed& first = counts.front();
    return {{first.logPerMl - 5.0 * first.deviation, first.logPerMl + 5.0 * first.deviation},
            {0.0, 1.0},
            {lowest.logPerMl - std::log(1000.0), lowest.logPerMl + 3.0 * lowest.deviation}};
}

/// Every cell of the grid with the logarithm of its weight, errors taken `times` their size.
std::vector<Cell> weighed(const Grid& grid, const std::vector<Observed>& counts, double times)
{
    std::vector<Cell> cells;
    cells.reserve(cellsPerSide * cellsPerSide * cellsPerSide);
    std::vector<double> left(counts.size());
    for (std::size_t capture = 0; capture < cellsPerSide; ++capture) {
        std::transform(counts.begin(), counts.end(), left.begin(),
                       [&](const Observed& one) { return std::exp(-one.turnovers * grid.capture.middle(capture)); });
        for (std::size_t start = 0; start < cellsPerSide; ++start) {
            const double startPerMl = std::exp(grid.logStart.middle(start));
            for (std::size_t low = 0; low < cellsPerSide; ++low) {
                const double floorPerMl = std::exp(grid.logFloor.middle(low));
                double squares = 0.0;
                for (std::size_t i = 0; i < counts.size(); ++i) {
                    const double expected = std::log(floorPerMl + (startPerMl - floorPerMl) * left[i]);
                    const double off = (counts[i].logPerMl - expected) / (counts[i].deviation * times);
                    squares += off * off;
                }
                cells.push_back({{start, capture, low}, -0.5 * squares});
            }
        }
    }
    return cells;
}

double heaviest(const std::vector<Cell>& cells)
{
    return std::max_element(cells.begin(), cells.end(),
                            [](const Cell& a, const Cell& b) { return a.logWeight < b.logWeight; })
        ->logWeight;
}

/// The side about the cells that count, with a cell to spare where the side goes on.
Side closer(const Side& side, std::size_t least, std::size_t most)
{
    const std::size_t from = least == 0 ? 0 : least - 1;
    const std::size_t to = std::min(most + 2, cellsPerSide);
    return {side.from + static_cast<double>(from) * side.width(), side.from + static_cast<double>(to) * side.width()};
}

Grid closerGrid(const Grid& grid, const std::vector<Cell>& cells)
{
    std::array<std::size_t, 3> least{cellsPerSide, cellsPerSide, cellsPerSide};
    std::array<std::size_t, 3> most{};
    const double enough = heaviest(cells) - forgottenBelow;
    for (const Cell& cell : cells) {
        for (std::size_t side = 0; side < 3 && cell.logWeight >= enough; ++side) {
            least[side] = std::min(least[side], cell.at[side]);
            most[side] = std::max(most[side], cell.at[side]);
        }
    }
    return {closer(grid.logStart, least[0], most[0]), closer(grid.capture, least[1], most[1]),
            closer(grid.logFloor, least[2], most[2])};
}

/// A number and how likely it is.
struct Weighed
{
    double number;
    double weight;
};

/// The number below which `share` of the weights lies; nothing beyond all of them.
std::optional<double> quantile(const std::vector<Weighed>& sorted, double share)
{
    double sum = 0.0;
    for (const Weighed& one : sorted) {
        sum += one.weight;
        if (sum >= share) {
            return one.number;
        }
    }
    return std::nullopt;
}

template<class Of>
std::vector<Weighed> sortedBy(std::span<const LearnedTank::Case> cases, const Of& of)
{
    std::vector<Weighed> all;
    all.reserve(cases.size());
    for (const auto& one : cases) {
        if (const std::optional<double> number = of(one)) {
            all.push_back({*number, one.weight});
        }
    }
    std::sort(all.begin(), all.end(), [](const Weighed& a, const Weighed& b) { return a.number < b.number; });
    return all;
}

template<class Of>
Band bandOf(std::span<const LearnedTank::Case> cases, const Of& of)
{
    const auto sorted = sortedBy(cases, [&](const auto& one) { return std::optional<double>(of(one)); });
    const double most = sorted.back().number; // where rounding leaves the weights a little below 1
    return {quantile(sorted, 0.05).value_or(most), quantile(sorted, 0.5).value_or(most),
            quantile(sorted, 0.95).value_or(most)};
}

} // namespace

Result<CountSeen> countSeen(double turnovers, const oil::ScaleNumber& scale)
{
    const auto range = scale.countRange();
    if (!range || !range->upToPerMl) {
        return fail(Errc::Unavailable,
                    "\"" + scale.toText() + "\" tells no count: a number from 0 to 28 of ISO 4406 is needed.");
    }
    const double low = range->moreThanPerMl > 0.0 ? range->moreThanPerMl : *range->upToPerMl / 4.0;
    const double spread = std::log(*range->upToPerMl / low) / std::sqrt(12.0); // evenly likely within the range
    return CountSeen{turnovers, std::sqrt(low * *range->upToPerMl), {}, spread};
}

Result<LearnedTank> LearnedTank::from(std::span<const CountSeen> counts, double scatter)
{
    const auto observed = observedFrom(counts, scatter);
    if (!observed) {
        return fail(observed.error());
    }
    Grid grid = widestGrid(*observed);
    std::vector<Cell> cells;
    for (const double times : errorTimes) {
        grid = cells.empty() ? grid : closerGrid(grid, cells);
        cells = weighed(grid, *observed, times);
    }
    const double most = heaviest(cells);
    std::vector<Case> cases;
    double sum = 0.0;
    for (const Cell& cell : cells) {
        if (cell.logWeight < most - forgottenBelow) {
            continue;
        }
        const double weight = std::exp(cell.logWeight - most);
        sum += weight;
        cases.push_back({std::exp(grid.logStart.middle(cell.at[0])),
                         {grid.capture.middle(cell.at[1]), std::exp(grid.logFloor.middle(cell.at[2]))},
                         weight});
    }
    for (Case& one : cases) {
        one.weight /= sum;
    }
    return LearnedTank(std::move(cases));
}

Band LearnedTank::captureTimesMixing() const
{
    return bandOf(cases_, [](const Case& one) { return one.tank.captureTimesMixing; });
}

Band LearnedTank::floorPerMl() const
{
    return bandOf(cases_, [](const Case& one) { return one.tank.floorPerMl; });
}

bool LearnedTank::isFloorTold() const
{
    const Band band = floorPerMl();
    return band.low >= band.best / 10.0;
}

const LearnedTank::Case& LearnedTank::likeliest() const
{
    return *std::max_element(cases_.begin(), cases_.end(),
                             [](const Case& a, const Case& b) { return a.weight < b.weight; });
}

Result<Band> LearnedTank::countAfter(double turnovers) const
{
    return checkZeroOrMore(turnovers, "number of turnovers", "").transform([&] {
        return bandOf(cases_, [&](const Case& one) {
            return filtration::countAfter(one.startPerMl, turnovers, one.tank).value();
        });
    });
}

Result<Reach> LearnedTank::turnoversTo(double targetPerMl) const
{
    return checkAboveZero(targetPerMl, "target", "per mL").transform([&] {
        const auto sorted = sortedBy(cases_, [&](const Case& one) {
            const auto turnovers = turnoversBetween(one.startPerMl, targetPerMl, one.tank);
            return turnovers ? std::optional(*turnovers) : std::nullopt;
        });
        double reached = 0.0;
        for (const Weighed& one : sorted) {
            reached += one.weight;
        }
        return Reach{quantile(sorted, 0.05), quantile(sorted, 0.5), quantile(sorted, 0.95),
                     std::clamp(1.0 - reached, 0.0, 1.0)};
    });
}

} // namespace loopside::filtration
