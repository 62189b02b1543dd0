// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "forecast/shape.h"

#include "forecast/blocking_law.h"

#include <algorithm>
#include <cmath>
#include <utility>

namespace loopside::forecast {

namespace {

constexpr double softening =
    0.02; // of the limit: below it a drop is mostly gauge error, and its logarithm means nothing
constexpr double kernelWidth = 0.02; // of the life
constexpr std::size_t bins = 250;

/// Means of the points in equal parts of the life: phase and softened logarithm of the drop ÷ limit.
struct Bin
{
    double phase = 0.0;
    double logDrop = 0.0;
    double count = 0.0;
};

std::vector<Bin> binned(const PastLoading& past, units::Pressure limit)
{
    std::vector<Bin> all(bins);
    for (const CurvePoint& point : past.curve) {
        const double phase = point.load / past.endLoad;
        if (!(phase >= 0.0 && phase <= 1.0)) {
            continue;
        }
        Bin& bin = all[std::min(bins - 1, static_cast<std::size_t>(phase * static_cast<double>(bins)))];
        const double drop = std::max(point.drop / limit, -softening / 2.0);
        bin.phase += phase;
        bin.logDrop += std::log(drop + softening);
        bin.count += 1.0;
    }
    std::erase_if(all, [](const Bin& bin) { return bin.count == 0.0; });
    for (Bin& bin : all) {
        bin.phase /= bin.count;
        bin.logDrop /= bin.count;
    }
    return all;
}

/// The straight line through the bins near `phase`, there. Far from any bin the nearest one speaks.
double localLine(const std::vector<Bin>& all, double phase, double width)
{
    double w0 = 0.0, w1 = 0.0, w2 = 0.0, y0 = 0.0, y1 = 0.0;
    for (const Bin& bin : all) {
        const double off = bin.phase - phase;
        const double weight = bin.count * (std::exp(-0.5 * off * off / (width * width)) + 1e-12);
        w0 += weight;
        w1 += weight * off;
        w2 += weight * off * off;
        y0 += weight * bin.logDrop;
        y1 += weight * off * bin.logDrop;
    }
    const double determinant = w0 * w2 - w1 * w1;
    return determinant > 1e-9 * w0 * w0 ? (w2 * y0 - w1 * y1) / determinant : y0 / w0;
}

/// The nearest curve that never falls: pools neighbours that do (pool adjacent violators).
void pool(Shape& values)
{
    std::vector<std::pair<double, std::size_t>> blocks; // mean, how many
    for (const double value : values) {
        blocks.emplace_back(value, 1);
        while (blocks.size() > 1 && blocks[blocks.size() - 2].first > blocks.back().first) {
            const auto [mean, count] = blocks.back();
            blocks.pop_back();
            auto& [before, beforeCount] = blocks.back();
            before = (before * static_cast<double>(beforeCount) + mean * static_cast<double>(count))
                / static_cast<double>(beforeCount + count);
            beforeCount += count;
        }
    }
    auto next = values.begin();
    for (const auto& [mean, count] : blocks) {
        next = std::fill_n(next, count, mean);
    }
}

double at(const Shape& shape, double phase)
{
    const double place = std::clamp(phase, 0.0, 1.0) * phaseSteps;
    const auto below = std::min(static_cast<std::size_t>(place), shape.size() - 2);
    const double part = place - static_cast<double>(below);
    return shape[below] * (1.0 - part) + shape[below + 1] * part;
}

/// The phase at which a shape that never falls first gets to 1.
double phaseAtLimit(const Shape& shape)
{
    const auto above = std::ranges::find_if(shape, [](double drop) { return drop >= 1.0; });
    if (above == shape.begin() || above == shape.end()) {
        return above == shape.end() ? 1.0 : 0.0;
    }
    const double low = *(above - 1);
    const double steps = static_cast<double>(above - shape.begin()) - 1.0 + (1.0 - low) / (*above - low);
    return steps / phaseSteps;
}

Shape lawShape(double clean, double exponent, double knee, double steeper)
{
    const BlockingLaw unit{exponent, clean, 1.0};
    const double whole = loadAt(unit, 1.0).value();
    const double length = knee + steeper * (1.0 - knee);
    Shape shape;
    for (std::size_t i = 0; i < shape.size(); ++i) {
        const double phase = static_cast<double>(i) / phaseSteps;
        const double part = (phase < knee ? phase : knee + steeper * (phase - knee)) / length;
        shape[i] = dropAt(unit, part * whole).value_or(1.0);
    }
    shape.back() = 1.0;
    return shape;
}

/// A law of exponent 0.7 up to a knee, where the drop is `rise` times the clean one, and another from there.
Shape kneeShape(double clean, double knee, double rise, double exponent)
{
    const BlockingLaw before{0.7, clean, 1.0};
    const BlockingLaw behind{exponent, clean * rise, 1.0};
    const double toKnee = loadAt(before, clean * rise).value();
    const double toEnd = loadAt(behind, 1.0).value();
    Shape shape;
    for (std::size_t i = 0; i < shape.size(); ++i) {
        const double phase = static_cast<double>(i) / phaseSteps;
        const auto drop = phase < knee ? dropAt(before, phase / knee * toKnee)
                                       : dropAt(behind, (phase - knee) / (1.0 - knee) * toEnd);
        shape[i] = std::min(drop.value_or(1.0), 1.0);
    }
    shape.back() = 1.0;
    return shape;
}

/// How steeply ln(drop) rises over phase in the last part of a loading; at least 1, which is a slow one.
double steepnessAtEnd(const PastLoading& past)
{
    constexpr double lastPart = 0.7;
    double w = 0.0, x = 0.0, y = 0.0, xx = 0.0, xy = 0.0;
    for (const CurvePoint& point : past.curve) {
        const double phase = point.load / past.endLoad;
        if (phase < lastPart || phase > 1.0 || !(point.drop > units::Pressure())) {
            continue;
        }
        const double value = std::log(point.drop / past.limit);
        w += 1.0;
        x += phase;
        y += value;
        xx += phase * phase;
        xy += phase * value;
    }
    const double determinant = w * xx - x * x;
    return std::max(1.0, determinant > 1e-9 ? (w * xy - x * y) / determinant : 1.0);
}

/// A loading that ended at a limit a little below `limit`, carried on as it rose last. Limits hold for raw drops, so
/// the corrected ones of two days are never quite the same.
PastLoading carriedOn(const PastLoading& past, units::Pressure limit)
{
    constexpr double farthest = 1.3; // times the limit it ran to
    const double ratio = limit / past.limit;
    if (past.isCutShort || !(ratio > 1.0 && ratio <= farthest)) {
        return past;
    }
    PastLoading longer = past;
    longer.endLoad = past.endLoad * (1.0 + std::log(ratio) / steepnessAtEnd(past));
    longer.limit = limit;
    longer.curve.push_back({longer.endLoad, limit});
    return longer;
}

} // namespace

std::optional<ScaledShape> shapeOf(const PastLoading& ended, units::Pressure limit)
{
    const PastLoading past = carriedOn(ended, limit);
    const std::vector<Bin> all = binned(past, limit);
    if (all.size() < 3) {
        return std::nullopt;
    }
    const double width = std::max(kernelWidth, 0.5 / static_cast<double>(all.size()));
    Shape shape;
    for (std::size_t i = 0; i < shape.size(); ++i) {
        shape[i] = localLine(all, static_cast<double>(i) / phaseSteps, width);
    }
    const double end = past.isCutShort ? shape.back() : std::log(past.limit / limit + softening);
    for (double& value : shape) {
        value = std::min(value, end);
    }
    shape.back() = end;
    pool(shape);
    for (double& value : shape) {
        value = std::max(std::exp(value) - softening, -softening / 2.0);
    }
    if (shape.back() < 1.0 - 1e-6) {
        return std::nullopt;
    }
    const double whole = past.limit / limit <= 1.0 + 1e-6 && !past.isCutShort ? 1.0 : phaseAtLimit(shape);
    if (whole <= 0.0) {
        return std::nullopt;
    }
    ScaledShape scaled{{}, past.endLoad * whole};
    for (std::size_t i = 0; i < shape.size(); ++i) {
        scaled.shape[i] = std::min(at(shape, whole * static_cast<double>(i) / phaseSteps), 1.0);
    }
    scaled.shape.back() = 1.0;
    return scaled;
}

std::vector<Shape> lawShapes()
{
    struct Knee
    {
        double phase, steeper;
    };
    std::vector<Shape> shapes;
    for (const double clean : {0.015, 0.03, 0.06, 0.12, 0.25, 0.5}) {
        for (const double exponent : {0.0, 0.5, 1.0, 1.5, 2.0, 2.5}) {
            shapes.push_back(lawShape(clean, exponent, 1.0, 1.0));
        }
        for (const double exponent : {0.0, 1.0}) {
            for (const Knee knee : {Knee{0.5, 5.0}, Knee{0.65, 10.0}, Knee{0.8, 10.0}, Knee{0.8, 30.0}}) {
                shapes.push_back(lawShape(clean, exponent, knee.phase, knee.steeper));
            }
        }
    }
    return shapes;
}

std::vector<Shape> lawShapesFrom(double clean)
{
    std::vector<Shape> shapes;
    for (const double exponent : {0.0, 0.5, 1.0, 1.5, 2.0, 2.5}) {
        shapes.push_back(lawShape(clean, exponent, 1.0, 1.0));
    }
    for (const double phase : {0.5, 0.65, 0.8}) {
        for (const double rise : {1.2, 1.5, 2.0}) {
            for (const double exponent : {0.7, 1.7}) {
                if (clean * rise < 0.7) {
                    shapes.push_back(kneeShape(clean, phase, rise, exponent));
                }
            }
        }
    }
    return shapes;
}

} // namespace loopside::forecast
