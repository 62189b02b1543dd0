// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "practice/fault.h"

#include <algorithm>
#include <array>
#include <string>

namespace loopside::practice {

namespace {

using units::Duration;
using units::minute;

constexpr Duration atOnce = {};

constexpr std::array<FaultNature, 21> natures = {{
    {FaultKind::StageTorn, "stage-torn", FaultPlace::Stage, 0.6, atOnce},
    {FaultKind::StageBypassOpen, "stage-bypass-open", FaultPlace::Stage, 0.0, atOnce},
    {FaultKind::ValveInBypass, "valve-in-bypass", FaultPlace::Whole, 0.0, atOnce},
    {FaultKind::StrainerBlocking, "strainer-blocking", FaultPlace::Whole, 0.25, 30.0 * minute},
    {FaultKind::ReturnKinked, "return-kinked", FaultPlace::Whole, 125.0, atOnce},
    {FaultKind::ReturnShut, "return-shut", FaultPlace::Whole, 0.0, atOnce},
    {FaultKind::ReturnOff, "return-off", FaultPlace::Whole, 0.0, atOnce},
    {FaultKind::PrimeLost, "prime-lost", FaultPlace::Whole, 0.0, atOnce},
    {FaultKind::Aeration, "aeration", FaultPlace::Whole, 0.35, atOnce},
    {FaultKind::GaugeStuck, "gauge-stuck", FaultPlace::Gauge, 0.0, atOnce},
    {FaultKind::GaugeOffset, "gauge-offset", FaultPlace::Gauge, 0.05, atOnce},
    {FaultKind::HalfChangedPair, "half-changed-pair", FaultPlace::Stage, 0.0, atOnce},
    {FaultKind::ElementMissing, "element-missing", FaultPlace::Stage, 0.0, atOnce},
    {FaultKind::ElementNotFlowing, "element-not-flowing", FaultPlace::Stage, 0.0, atOnce},
    {FaultKind::WrongElement, "wrong-element", FaultPlace::Stage, 2.0, atOnce},
    {FaultKind::WrongOil, "wrong-oil", FaultPlace::Whole, 2.3, atOnce},
    {FaultKind::ThermometerOff, "thermometer-off", FaultPlace::Whole, 6.0, atOnce},
    {FaultKind::DirtStirred, "dirt-stirred", FaultPlace::Whole, 0.0, atOnce},
    {FaultKind::DirtSlug, "dirt-slug", FaultPlace::Whole, 60.0, atOnce},
    {FaultKind::WaterSlug, "water-slug", FaultPlace::Whole, 1000.0, atOnce},
    {FaultKind::SlowLeak, "slow-leak", FaultPlace::Stage, 0.6, 60.0 * minute},
}};

constexpr bool isInOrder()
{
    for (std::size_t i = 0; i < natures.size(); ++i) {
        if (static_cast<std::size_t>(natures[i].kind) != i) {
            return false;
        }
    }
    return true;
}
static_assert(isInOrder());

} // namespace

std::span<const FaultNature> faultNatures()
{
    return natures;
}

const FaultNature& natureOf(FaultKind kind)
{
    return natures.at(static_cast<std::size_t>(kind));
}

Result<FaultKind> faultNamed(std::string_view name)
{
    std::string names;
    for (const FaultNature& nature : natures) {
        if (nature.name == name) {
            return nature.kind;
        }
        names += (names.empty() ? "" : ", ") + std::string(nature.name);
    }
    return fail(Errc::NotFound, "There is no fault of that name; there are " + names + ".");
}

void FaultsStanding::add(const Fault& fault, Duration at)
{
    standing_.push_back({fault, at});
}

void FaultsStanding::putRight(FaultKind kind, int place)
{
    std::erase_if(standing_, [&](const Standing& one) { return one.fault.kind == kind && one.fault.place == place; });
}

const FaultsStanding::Standing* FaultsStanding::find(FaultKind kind, int place) const
{
    const auto last = std::find_if(standing_.rbegin(), standing_.rend(), [&](const Standing& one) {
        return one.fault.kind == kind && one.fault.place == place;
    });
    return last == standing_.rend() ? nullptr : &*last;
}

std::optional<double> FaultsStanding::size(FaultKind kind, int place, Duration now) const
{
    const Standing* standing = find(kind, place);
    if (standing == nullptr) {
        return std::nullopt;
    }
    const FaultNature& nature = natureOf(kind);
    const double full = standing->fault.size.value_or(nature.typicalSize);
    const Duration over = standing->fault.over.value_or(nature.typicalOver);
    return over > Duration{} ? full * std::clamp((now - standing->since) / over, 0.0, 1.0) : full;
}

bool FaultsStanding::has(FaultKind kind, int place) const
{
    return find(kind, place) != nullptr;
}

} // namespace loopside::practice
