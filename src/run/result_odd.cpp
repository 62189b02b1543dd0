// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "run/result_odd.h"

#include "base/text.h"
#include "oil/cleanliness_code.h"
#include "oil/fluid.h"

#include <algorithm>
#include <cmath>

namespace loopside::run {

namespace {

constexpr int highestUsual = 24;
constexpr double mostWater_ppm = 5000.0;
constexpr double viscosityPart = 0.2;
constexpr double mostAcid = 5.0; // mg KOH/g
constexpr units::Temperature usualTest = 40.0 * units::celsius;

bool isDirty(const oil::ScaleNumber& scale)
{
    return scale.atLeast().value_or(0) > highestUsual;
}

bool isDirtyIn(const ResultEntered& result)
{
    const auto code = oil::CleanlinessCode::parse(result.code);
    const bool isByCode = code && std::any_of(code->scales().begin(), code->scales().end(), isDirty);
    return isByCode || std::any_of(result.countsPerMl.begin(), result.countsPerMl.end(), [](const Decimal& count) {
               const auto scale = oil::scaleNumberOf(count.toDouble());
               return scale && isDirty(*scale);
           });
}

std::optional<Message> oddViscosity(const ResultEntered& result, const FluidRecord& fluid)
{
    const auto told = units::Typed<units::KinematicViscosity>::parse(result.viscosity);
    const auto oil = oil::Fluid::from(fluid.properties());
    const auto usual = oil ? oil->viscosityAt(usualTest) : fail(oil.error());
    if (!told || !usual) {
        return std::nullopt;
    }
    const double ratio = told->value() / *usual;
    if (std::abs(ratio - 1.0) <= viscosityPart) {
        return std::nullopt;
    }
    return Message{"result.odd.viscosity",
                   {{"viscosity", told->toText()}, {"usual", fixed(usual->in(units::centistokes), 0) + " cSt"}}};
}

} // namespace

std::vector<Message> oddIn(const ResultEntered& result, const FluidRecord& fluid)
{
    std::vector<Message> odd;
    if (isDirtyIn(result)) {
        odd.push_back({"result.odd.dirty", {{"number", std::to_string(highestUsual)}}});
    }
    const auto water = units::Typed<units::Fraction>::parse(result.water);
    if (water && water->value().in(units::partPerMillion) > mostWater_ppm) {
        odd.push_back({"result.odd.water", {{"water", water->toText()}}});
    }
    if (auto viscosity = oddViscosity(result, fluid)) {
        odd.push_back(*std::move(viscosity));
    }
    const auto acid = Decimal::parse(result.acid.substr(0, result.acid.find(' ')));
    if (acid && acid->toDouble() > mostAcid) {
        odd.push_back({"result.odd.acid", {{"acid", result.acid}}});
    }
    return odd;
}

} // namespace loopside::run
