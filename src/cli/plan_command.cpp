// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "base/text.h"
#include "cli/commands.h"
#include "cli/files.h"
#include "run/plan.h"

#include <nlohmann/json.hpp>

namespace loopside::cli {

namespace {

using Json = nlohmann::ordered_json;

std::optional<run::TypedTemperature> firstOilTemperature(const story::Story& story)
{
    for (const auto& entry : story.entries) {
        for (const auto& step : entry.steps) {
            const auto* said = std::get_if<run::Said>(&step);
            const auto* reading = said != nullptr ? std::get_if<run::ReadingLogged>(said) : nullptr;
            if (reading != nullptr && reading->oil) {
                return reading->oil;
            }
        }
    }
    return std::nullopt;
}

template<class Q>
Json number(const std::optional<Q>& quantity, typename Q::Unit unit)
{
    return quantity ? Json(quantity->in(unit)) : Json();
}

Json planJson(const run::Plan& plan, const std::optional<run::TypedTemperature>& oil)
{
    Json clean = Json::array();
    Json why = Json::array();
    for (const auto& stage : plan.stages) {
        clean.push_back(number(stage.cleanDp, units::pascal));
        why.push_back(stage.why.empty() ? Json() : Json(stage.why));
    }
    return {{"oil_c", oil ? Json(oil->value().in(units::celsius)) : Json()},
            {"viscosity_m2_s", number(plan.viscosity, units::squareMetrePerSecond)},
            {"viscosity_why", plan.viscosityWhy.empty() ? Json() : Json(plan.viscosityWhy)},
            {"turnover_s", plan.turnover.in(units::second)},
            {"run_s", number(plan.run, units::second)},
            {"clean_dp_pa", clean},
            {"clean_dp_why", why}};
}

std::string minutes(units::Duration time)
{
    return fixed(time.in(units::minute), 1) + " min";
}

void tellPlan(const run::Plan& plan, const run::Setup& setup, const std::optional<run::TypedTemperature>& oil,
              std::ostream& out)
{
    out << setup.tank.name << ", " << setup.tank.volume.toText() << ", with " << setup.cart.name << " at "
        << setup.cart.flow.toText() << "\n";
    out << "one turnover        " << minutes(plan.turnover) << "\n";
    if (plan.run) {
        out << setup.target.turnovers->toText() << " turnovers         " << minutes(*plan.run) << "\n";
    }
    if (plan.viscosity) {
        out << "oil today           " << fixed(plan.viscosity->in(units::centistokes), 0) << " cSt"
            << (oil ? " at " + oil->toText() : "") << "\n";
    } else {
        out << "oil today           cannot tell: " << plan.viscosityWhy << "\n";
    }
    for (std::size_t i = 0; i < plan.stages.size(); ++i) {
        const auto& stage = plan.stages[i];
        const run::PressureUnit& unit = *setup.cart.gauges[i].unit;
        out << "stage " << i + 1 << " clean ΔP    ";
        if (stage.cleanDp) {
            out << units::print(*stage.cleanDp, unit, 1);
        } else {
            out << "cannot tell: " << stage.why;
        }
        if (setup.stages[i].changeLimit) {
            out << ", change limit " << setup.stages[i].changeLimit->toText();
        }
        out << "\n";
    }
}

} // namespace

Done plan(const std::string& story, bool json, std::ostream& out)
{
    const auto file = readStory(story);
    if (!file) {
        return fail(file.error());
    }
    const auto oil = firstOilTemperature(file->story);
    const auto plan = run::planOf(file->story.setup, oil ? std::optional(oil->value()) : std::nullopt);
    if (json) {
        out << planJson(plan, oil).dump() << "\n";
    } else {
        tellPlan(plan, file->story.setup, oil, out);
    }
    return {};
}

} // namespace loopside::cli
