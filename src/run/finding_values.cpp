// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "run/finding_values.h"

#include "base/text.h"
#include "filtration/clean_drop.h"
#include "oil/grade.h"

#include <algorithm>
#include <cmath>

namespace loopside::run {

namespace {

using units::celsius;
using units::Pressure;

/// The grade whose mid-point at 40 °C, with the oil's own viscosity index, comes nearest to `viscosity` at `oil`.
std::string gradeLike(const Evidence& e, units::KinematicViscosity viscosity, units::Temperature oil)
{
    const auto told = e.run.fluid ? e.run.fluid->viscosityIndex() : std::nullopt;
    constexpr double usualIndex = 95.0;
    std::string nearest;
    double least = 0.0;
    for (const oil::Grade& grade : oil::grades()) {
        const std::string name = "ISO VG " + std::to_string(grade.vg);
        oil::FluidProperties properties;
        properties.grade = name;
        properties.viscosityIndex = told.value_or(usualIndex);
        const auto fluid = oil::Fluid::from(properties);
        const auto at = fluid ? fluid->viscosityAt(oil) : Result<units::KinematicViscosity>(viscosity);
        if (!fluid || !at) {
            continue;
        }
        const double off = std::abs(std::log(*at / viscosity));
        if (nearest.empty() || off < least) {
            nearest = name;
            least = off;
        }
    }
    return nearest;
}

/// The temperature at which the oil as told would have `viscosity`; nothing outside −20 to 120 °C.
std::optional<units::Temperature> temperatureLike(const Evidence& e, units::KinematicViscosity viscosity)
{
    constexpr double steps_per_c = 2.0;
    constexpr int from_c = -20;
    constexpr int to_c = 120;
    for (int step = 0; step <= (to_c - from_c) * 2; ++step) { // half degrees are enough to be told
        const auto at = (from_c + step / steps_per_c) * celsius;
        const auto there = e.run.fluid->viscosityAt(at);
        if (there && *there <= viscosity) {
            return step == 0 ? std::nullopt : std::optional(at);
        }
    }
    return std::nullopt;
}

class Collector
{
public:
    Collector(const Evidence& e, const Pattern& pattern, std::size_t place) : e_{e}, pattern_{pattern}, place_{place}
    {
        const auto& reading = *e.now.moment->reading;
        unit_ = reading.unit != nullptr ? reading.unit : e.run.setup.cart.gauges.front().unit;
    }

    std::vector<Message::Argument> collect()
    {
        addLoop();
        addOil();
        if (pattern_.about == About::Stage) {
            addStage();
        } else if (pattern_.about == About::Gauge) {
            addGauge();
        }
        return std::move(values_);
    }

private:
    void add(std::string name, std::string value) { values_.emplace_back(std::move(name), std::move(value)); }

    void add(std::string name, Pressure pressure) { add(std::move(name), units::printComputed(pressure, *unit_)); }

    void add(std::string name, const std::optional<Measured>& measured)
    {
        if (measured) {
            add(std::move(name), units::printComputed(measured->value, *unit_, 2.0 * measured->reading));
        }
    }

    void addLoop()
    {
        add("head", e_.now.head);
        add("filters", e_.now.filters);
        add("first", e_.now.gauges.front());
        if (e_.last != nullptr) {
            add("head-before", e_.last->head);
            add("filters-before", e_.last->filters);
            add("first-before", e_.last->gauges.front());
        }
        if (e_.base != nullptr) {
            add("head-base", e_.base->head);
        }
        if (const auto& relief = e_.run.setup.cart.relief; relief && e_.now.gauges.front()) {
            add("relief", relief->toText());
            add("room", relief->value() - e_.now.gauges.front()->value);
        } else {
            add("room", "–");
        }
        if (const auto left = flowLeft(e_)) {
            const double share = std::clamp(left->value, 0.0, 1.0);
            add("flow", fixed(e_.now.moment->flow.in(units::litrePerMinute)*share, 1) + " L/min");
            add("lost", fixed((1.0 - share) * 100.0, 0));
        }
    }

    void addOil()
    {
        if (e_.now.oil) {
            add("oil", fixed(e_.now.oil->in(celsius), 0) + " °C");
        }
        if (e_.base != nullptr && e_.base->oil) {
            add("oil-base", fixed(e_.base->oil->in(celsius), 0) + " °C");
        }
        if (!e_.now.viscosity || !e_.now.oil || pattern_.id != "wrong-fluid-or-temperature") {
            return;
        }
        double sum = e_.now.headAgainstHose ? e_.now.headAgainstHose->value : 0.0;
        double count = e_.now.headAgainstHose ? 1.0 : 0.0;
        for (const auto& loading : e_.now.loading) {
            sum += loading ? loading->value : 0.0;
            count += loading ? 1.0 : 0.0;
        }
        const double thick = std::max(0.01, sum / std::max(1.0, count));
        const auto behaves = *e_.now.viscosity * thick;
        add("thick", fixed(thick, 1));
        add("viscosity", fixed(behaves.in(units::centistokes), 0) + " cSt");
        add("grade", gradeLike(e_, behaves, *e_.now.oil));
        const auto at = temperatureLike(e_, behaves);
        add("behaves-at", at ? fixed(at->in(celsius), 0) + " °C" : "–");
    }

    void addStage()
    {
        const StageRecord& record = e_.run.setup.stages[place_];
        const StageEvidence& stage = e_.stages[place_];
        add("stage", std::to_string(place_ + 1));
        add("elements", std::to_string(record.elements));
        add("upper", "G" + std::to_string(place_ + 1));
        add("lower", "G" + std::to_string(place_ + 2));
        add("drop", e_.now.drops[place_]);
        add("drop-before", stage.last);
        if (stage.base != nullptr) {
            add("drop-base", stage.base->drops[place_]);
        }
        if (const auto& loading = e_.now.loading[place_]) {
            add("loading", fixed(loading->value, 1));
            add("expected", e_.now.drops[place_]->value / std::max(0.01, loading->value));
        }
        if (stage.fresh) {
            add("fresh", fixed(stage.fresh->value, 1));
        }
        if (stage.sinceBase) {
            add("times", fixed(stage.sinceBase->value, 1));
        }
        addBounds(record);
        addRenewal(stage);
    }

    void addBounds(const StageRecord& record)
    {
        if (record.changeLimit) {
            add("limit", record.changeLimit->toText());
        }
        if (e_.now.drops[place_]) {
            add("setting",
                record.bypass ? record.bypass->toText() : units::printComputed(e_.now.drops[place_]->value, *unit_));
        }
        if (e_.coldest != nullptr && e_.now.viscosity && e_.now.drops[place_] && e_.coldest->oil) {
            add("cold", e_.now.drops[place_]->value * (*e_.coldest->viscosity / *e_.now.viscosity));
            add("coldest", fixed(e_.coldest->oil->in(celsius), 0) + " °C");
        }
    }

    void addRenewal(const StageEvidence& stage)
    {
        if (!stage.renewal) {
            return;
        }
        add("new", std::to_string(stage.renewal->elements));
        if (stage.renewal->oldLoading) {
            const double old = stage.renewal->oldLoading->value;
            const auto half = filtration::halfChangedLoading(old);
            add("old", fixed(old, 1));
            add("half", half ? fixed(*half, 1) : "–");
        }
    }

    void addGauge()
    {
        add("gauge", std::to_string(place_ + 1));
        add("sets", std::to_string(e_.needles[place_].sets));
        add("shown", e_.now.gauges[place_]);
        const auto& cart = e_.run.setup.cart;
        if (e_.pumpOff != nullptr && cart.staticHead) {
            if (const auto off = shownBy(*e_.pumpOff->reading, cart, place_)) {
                add("off", off->toText());
                add("zero", cart.staticHead->toText());
            }
        }
    }

    const Evidence& e_;
    const Pattern& pattern_;
    std::size_t place_;
    const PressureUnit* unit_ = nullptr;
    std::vector<Message::Argument> values_;
};

} // namespace

std::vector<Message::Argument> findingValues(const Evidence& evidence, const Pattern& pattern, std::size_t place)
{
    return Collector(evidence, pattern, place).collect();
}

} // namespace loopside::run
