// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "words/oil_told.h"

#include "units/typed.h"

#include <array>

namespace loopside::words {

namespace {

constexpr std::array<OilKind, 13> kinds = {{{"hydraulic", "app.fluid-kind.hydraulic"},
                                            {"gear", "app.fluid-kind.gear"},
                                            {"turbine", "app.fluid-kind.turbine"},
                                            {"circulating", "app.fluid-kind.circulating"},
                                            {"compressor", "app.fluid-kind.compressor"},
                                            {"multigrade", "app.fluid-kind.multigrade"},
                                            {"PAO", "app.fluid-kind.pao"},
                                            {"ester", "app.fluid-kind.ester"},
                                            {"polyglycol", "app.fluid-kind.polyglycol"},
                                            {"water-glycol", "app.fluid-kind.water-glycol"},
                                            {"emulsion", "app.fluid-kind.emulsion"},
                                            {"phosphate ester", "app.fluid-kind.phosphate-ester"},
                                            {"food-grade", "app.fluid-kind.food-grade"}}};

/// What stands before a kind where `run::fluidText` wrote it: a grade or a viscosity.
bool isGrade(std::string_view text)
{
    constexpr std::string_view iso = "ISO VG ";
    const bool isIso = text.starts_with(iso) && text.size() > iso.size()
        && text.find_first_not_of("0123456789", iso.size()) == std::string_view::npos;
    return isIso || units::Typed<units::KinematicViscosity>::parse(text).has_value();
}

} // namespace

std::span<const OilKind> oilKinds()
{
    return kinds;
}

std::string oilText(const Words& words, std::string_view oil)
{
    for (const OilKind& known : kinds) {
        if (oil == known.kind) {
            return words.say(known.word);
        }
        const std::string behind = " " + std::string(known.kind);
        if (oil.ends_with(behind) && isGrade(oil.substr(0, oil.size() - behind.size()))) {
            return std::string(oil.substr(0, oil.size() - known.kind.size())) + words.say(known.word);
        }
    }
    return std::string(oil);
}

} // namespace loopside::words
