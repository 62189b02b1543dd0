// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "practice/opinion.h"

#include <algorithm>
#include <array>

namespace loopside::practice {

namespace {

constexpr std::array<ThoughtNature, 13> natures = {{
    {Thought::NothingWrong, "nothing-wrong", FaultPlace::Whole},
    {Thought::CannotTell, "cannot-tell", FaultPlace::Whole},
    {Thought::ColdOil, "cold-oil", FaultPlace::Whole},
    {Thought::StageFull, "stage-full", FaultPlace::Stage},
    {Thought::StageLeaks, "stage-leaks", FaultPlace::Stage},
    {Thought::WrongElement, "wrong-element", FaultPlace::Stage},
    {Thought::WaterInOil, "water-in-oil", FaultPlace::Whole},
    {Thought::ValveInBypass, "valve-in-bypass", FaultPlace::Whole},
    {Thought::ReturnRestricted, "return-restricted", FaultPlace::Whole},
    {Thought::SuctionStarved, "suction-starved", FaultPlace::Whole},
    {Thought::AirInOil, "air-in-oil", FaultPlace::Whole},
    {Thought::GaugeStuck, "gauge-stuck", FaultPlace::Gauge},
    {Thought::GaugeOffset, "gauge-offset", FaultPlace::Gauge},
}};

constexpr std::array<std::string_view, 6> spots = {"return-hose", "suction", "valve", "gauges", "oil", "elements"};

constexpr bool isInOrder()
{
    for (std::size_t i = 0; i < natures.size(); ++i) {
        if (static_cast<std::size_t>(natures[i].thought) != i) {
            return false;
        }
    }
    return true;
}
static_assert(isInOrder());

} // namespace

std::span<const ThoughtNature> thoughts()
{
    return natures;
}

std::string textOf(const Opinion& opinion)
{
    const ThoughtNature& nature = natures.at(static_cast<std::size_t>(opinion.thought));
    return std::string(nature.name)
        + (nature.place == FaultPlace::Whole ? std::string() : " " + std::to_string(opinion.place));
}

std::optional<Opinion> opinionOf(std::string_view text)
{
    for (const ThoughtNature& nature : natures) {
        if (nature.place == FaultPlace::Whole && text == nature.name) {
            return Opinion{nature.thought};
        }
        const bool hasPlace = nature.place != FaultPlace::Whole && text.size() == nature.name.size() + 2
            && text.starts_with(nature.name) && text[nature.name.size()] == ' ';
        if (hasPlace && text.back() >= '1' && text.back() <= '9') {
            return Opinion{nature.thought, text.back() - '0'};
        }
    }
    return std::nullopt;
}

std::span<const std::string_view> spotNames()
{
    return spots;
}

Message sentenceOf(const Opinion& opinion)
{
    const ThoughtNature& nature = natures.at(static_cast<std::size_t>(opinion.thought));
    Message sentence{"practice.thought." + std::string(nature.name), {}};
    if (nature.place != FaultPlace::Whole) {
        sentence.arguments = {{"place", std::to_string(opinion.place)}};
    }
    return sentence;
}

std::optional<Spot> spotNamed(std::string_view name)
{
    const auto* found = std::ranges::find(spots, name);
    return found == spots.end() ? std::nullopt : std::optional(static_cast<Spot>(found - spots.begin()));
}

} // namespace loopside::practice
