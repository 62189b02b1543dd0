// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "cli/series_loading.h"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <utility>

namespace loopside::cli {

namespace {

constexpr double flowingShare = 0.2;
constexpr std::size_t usualCount = 5;
constexpr std::size_t curvePoints = 250;   // of a past loading: as many parts as its shape is told in
constexpr std::size_t heldMax = 256;       // the forecast gathers into 41 parts of the life: six readings for each
constexpr std::size_t heldAsRead = 16;     // the latest stay as they were read: a sudden fall has to show
constexpr std::size_t residualsMax = 32;   // how far back the scatter is looked at
constexpr std::size_t residualsEnough = 5; // fewer, and the scatter is not known

double medianOf(std::vector<double> values)
{
    const auto middle = values.begin() + static_cast<std::ptrdiff_t>(values.size() / 2);
    std::ranges::nth_element(values, middle);
    return *middle;
}

/// At most about `curvePoints` points: medians of equal numbers of neighbours.
std::vector<forecast::CurvePoint> thinned(const std::vector<forecast::CurvePoint>& points)
{
    const std::size_t size = points.size() / curvePoints + 1;
    if (size == 1) {
        return points;
    }
    std::vector<forecast::CurvePoint> result;
    for (std::size_t first = 0; first < points.size(); first += size) {
        const std::size_t last = std::min(first + size, points.size());
        std::vector<double> drops;
        for (std::size_t i = first; i < last; ++i) {
            drops.push_back(points[i].drop.in(units::pascal));
        }
        result.push_back({points[(first + last) / 2].load, medianOf(drops) * units::pascal});
    }
    return result;
}

} // namespace

void FlowAxis::add(const SeriesReading& reading)
{
    const double share = reference_ ? std::max(reading.flow.value_or(0.0) / *reference_, 0.0) : 1.0;
    const double before = isFirst_ ? share : share_;
    load_ += (reading.seconds - seconds_) * (before + share) / 2.0;
    seconds_ = reading.seconds;
    share_ = share;
    isFirst_ = false;
    if (isFlowing()) {
        lastShares_.push_back(share);
        if (lastShares_.size() > usualCount) {
            lastShares_.erase(lastShares_.begin());
        }
    }
}

bool FlowAxis::isFlowing() const
{
    return share_ >= flowingShare;
}

double FlowAxis::usualShare() const
{
    return lastShares_.empty() ? 1.0 : medianOf(lastShares_);
}

std::optional<double> usualFlow(const SeriesFile& file)
{
    std::vector<double> flows;
    for (const SeriesRun& run : file.runs) {
        for (const SeriesReading& reading : run.readings) {
            if (reading.flow.value_or(0.0) > 0.0) {
                flows.push_back(*reading.flow);
            }
        }
    }
    return flows.empty() ? std::nullopt : std::optional(medianOf(flows));
}

forecast::PastLoading pastLoadingOf(const SeriesRun& run, units::Pressure::Unit unit,
                                    std::optional<double> referenceFlow, forecast::Kinship kinship)
{
    FlowAxis axis(referenceFlow);
    std::vector<forecast::CurvePoint> curve;
    double seconds = 0.0;
    for (const SeriesReading& reading : run.readings) {
        if (reading.seconds > run.limitSeconds.value_or(reading.seconds)) {
            break;
        }
        axis.add(reading);
        seconds = reading.seconds;
        if (axis.isFlowing()) {
            curve.push_back({axis.load(), units::Pressure(reading.drop, unit)});
        }
    }
    const double secondsMore = run.limitSeconds.value_or(seconds) - seconds;
    return {kinship, thinned(curve), axis.load() + secondsMore * axis.usualShare(),
            units::Pressure(run.limit.value_or(0.0), unit), !run.limitSeconds.has_value()};
}

void GrowingLoading::add(const SeriesReading& reading)
{
    axis_.add(reading);
    if (!axis_.isFlowing()) {
        return;
    }
    const Held latest{axis_.load(), units::Pressure(reading.drop, unit_), 1.0};
    noteScatter(latest);
    held_.push_back(latest);
    if (held_.size() > heldMax) {
        thin();
    }
}

/// How far the reading before lies from the line between its neighbours, on the scale of one reading's error.
void GrowingLoading::noteScatter(const Held& latest)
{
    if (lastTwo_.size() == 2) {
        const Held& first = lastTwo_[0];
        const Held& middle = lastTwo_[1];
        const double span = latest.load - first.load;
        const double part = span > 0.0 ? (middle.load - first.load) / span : 0.5;
        const units::Pressure off = middle.drop - (first.drop * (1.0 - part) + latest.drop * part);
        const double scale = std::sqrt(1.0 + part * part + (1.0 - part) * (1.0 - part));
        residualsPa_.push_back(std::abs(off.in(units::pascal)) / scale);
        if (residualsPa_.size() > residualsMax) {
            residualsPa_.erase(residualsPa_.begin());
        }
        lastTwo_.erase(lastTwo_.begin());
    }
    lastTwo_.push_back(latest);
}

void GrowingLoading::thin()
{
    std::vector<Held> fewer;
    const std::size_t old = (held_.size() - heldAsRead) / 2 * 2;
    for (std::size_t i = 0; i < old; i += 2) {
        const Held& one = held_[i];
        const Held& other = held_[i + 1];
        const double count = one.count + other.count;
        fewer.push_back({(one.load * one.count + other.load * other.count) / count,
                         (one.drop * one.count + other.drop * other.count) / count, count});
    }
    fewer.insert(fewer.end(), held_.begin() + static_cast<std::ptrdiff_t>(old), held_.end());
    held_ = std::move(fewer);
}

std::vector<forecast::Reading> GrowingLoading::readings() const
{
    constexpr double sdPerMedian = 1.4826; // of the absolute deviations of a normal distribution
    units::Pressure error = errorLeast_;
    if (residualsPa_.size() >= residualsEnough) {
        error = std::max(error, 2.0 * sdPerMedian * medianOf(residualsPa_) * units::pascal);
    }
    std::vector<forecast::Reading> all;
    for (const Held& held : held_) {
        all.push_back({held.load, held.drop, error / std::sqrt(held.count)});
    }
    return all;
}

} // namespace loopside::cli
