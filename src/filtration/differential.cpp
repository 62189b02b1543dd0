// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "filtration/differential.h"

#include <cmath>

namespace loopside::filtration {

using units::pascal;
using units::Pressure;

namespace {

constexpr double coverage = 2.0;

Pressure inQuadrature(Pressure a, Pressure b)
{
    return std::hypot(a.in(pascal), b.in(pascal)) * pascal;
}

std::optional<Pressure> expanded(const std::optional<Pressure>& a, const std::optional<Pressure>& b)
{
    if (!a.has_value() || !b.has_value()) {
        return std::nullopt;
    }
    return coverage * inQuadrature(*a, *b);
}

std::optional<Difference> difference(const std::optional<GaugeValue>& before, const std::optional<GaugeValue>& behind)
{
    if (!before.has_value() || !behind.has_value()) {
        return std::nullopt;
    }
    return Difference{before->value - behind->value, expanded(before->standing, behind->standing),
                      expanded(before->reading, behind->reading)};
}

bool hasStanding(const std::optional<GaugeValue>& gauge)
{
    return gauge.has_value() && gauge->standing.has_value();
}

} // namespace

std::vector<std::optional<Difference>> differences(std::span<const std::optional<GaugeValue>> gauges)
{
    std::vector<std::optional<Difference>> stages;
    for (std::size_t i = 1; i < gauges.size(); ++i) {
        stages.push_back(difference(gauges[i - 1], gauges[i]));
    }
    return stages;
}

std::optional<double> correlation(const std::optional<GaugeValue>& before, const std::optional<GaugeValue>& shared,
                                  const std::optional<GaugeValue>& behind)
{
    if (!hasStanding(before) || !hasStanding(shared) || !hasStanding(behind)) {
        return std::nullopt;
    }
    const Pressure first = inQuadrature(*before->standing, *shared->standing);
    const Pressure second = inQuadrature(*shared->standing, *behind->standing);
    if (!(first > Pressure{} && second > Pressure{})) {
        return std::nullopt;
    }
    return -(*shared->standing / first) * (*shared->standing / second);
}

} // namespace loopside::filtration
