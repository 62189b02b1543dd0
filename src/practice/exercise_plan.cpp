// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "practice/exercise_plan.h"

#include "base/require.h"
#include "practice/practice_cart.h"

#include <array>
#include <cmath>

namespace loopside::practice {

namespace {

using units::bar;
using units::celsius;
using units::centistokes;
using units::Duration;
using units::kilopascal;
using units::litre;
using units::litrePerMinute;
using units::minute;
using units::Pressure;
using Comes = ExercisePlan::Comes;

constexpr double flowLpm = 20.0;
constexpr std::array<double, 2> cleanKpa = {25.0, 45.0};
constexpr std::array<double, 2> limitKpa = {170.0, 240.0};
constexpr double staticHeadKpa = 8.0;

constexpr std::array<ExerciseAbout, exerciseCount> list = {{
    {1, "quiet-run", Level::Easy},
    {2, "cold-morning", Level::Easy},
    {3, "full-stage", Level::Easy},
    {4, "both-stages", Level::Medium},
    {5, "somebody-passed", Level::Medium},
    {6, "still-needle", Level::Medium},
    {7, "gauge-at-rest", Level::Medium},
    {8, "hose-on-floor", Level::Medium},
    {9, "pump-complains", Level::Medium},
    {10, "sudden-fall", Level::Hard},
    {11, "wet-oil", Level::Hard},
    {12, "new-boxes", Level::Hard},
}};

/// One make of dial.
struct DialMake
{
    const char* unit;
    int span;
    Decimal graduation;
    int places; ///< Of the limits.
};

std::array<DialMake, 3> makes()
{
    return {{{"psi", 100, Decimal(1, 0), 0}, {"kPa", 600, Decimal(5, 0), 0}, {"bar", 6, Decimal(1, 1), 1}}};
}

template<class Q>
units::Typed<Q> typed(const std::string& text)
{
    return units::Typed<Q>::parse(text).value();
}

run::TypedPressure pressureIn(const DialMake& make, double kpa, int places)
{
    const auto* unit = units::unitNamed<Pressure>(make.unit).value();
    return {Decimal::nearest((kpa * kilopascal).in(unit->unit), places), *unit};
}

/// Tank and cart with a volume and a flow, and nothing else yet.
Scenario bare()
{
    return {.setup = {.title = {},
                      .tank = {.name = "Practice tank", .volume = typed<units::Volume>("200 L"), .fluid = {}},
                      .cart = {.name = "Practice cart",
                               .flow = typed<units::Flow>("20 L/min"),
                               .lastFluid = "same",
                               .gauges = {}},
                      .stages = {}}};
}

/// Draws one exercise: first what all have in common, then its own.
class Drawing
{
public:
    Drawing(int number, std::uint64_t seed)
        : chance_{seed, static_cast<std::uint64_t>(number) + 5000U},
          plan_{list.at(static_cast<std::size_t>(number - 1)), bare()}
    {
        plan_.scenario.seed = seed;
        plan_.hidden = {"practice." + id() + ".hidden", {}};
        plan_.next = {"practice." + id() + ".next", {}};
        drawCart();
        drawOil("46", 36.0, 44.0, 60.0);
        drawTank();
        addStage(0);
        addStage(1);
    }

    ExercisePlan draw()
    {
        constexpr std::array own = {&Drawing::quietRun,    &Drawing::coldMorning,    &Drawing::fullStage,
                                    &Drawing::bothStages,  &Drawing::somebodyPassed, &Drawing::stillNeedle,
                                    &Drawing::gaugeAtRest, &Drawing::hoseOnFloor,    &Drawing::pumpComplains,
                                    &Drawing::suddenFall,  &Drawing::wetOil,         &Drawing::newBoxes};
        static_assert(own.size() == exerciseCount);
        (this->*own.at(static_cast<std::size_t>(plan_.about.number - 1)))();
        return std::move(plan_);
    }

private:
    [[nodiscard]] std::string id() const { return std::string(plan_.about.id); }
    [[nodiscard]] Scenario& scenario() { return plan_.scenario; }
    [[nodiscard]] StageTruth& stage(int number) { return scenario().stages.at(static_cast<std::size_t>(number - 1)); }
    [[nodiscard]] run::StageRecord& told(int number)
    {
        return scenario().setup.stages.at(static_cast<std::size_t>(number - 1));
    }

    void drawCart()
    {
        make_ = makes().at(chance_.oneOf(makes().size()));
        run::CartRecord& cart = scenario().setup.cart;
        cart.relief = pressureIn(make_, 590.0, make_.places);
        cart.staticHead = pressureIn(make_, staticHeadKpa, make_.places + 1);
        cart.returnHose = {typed<units::Length>("16 mm"), typed<units::Length>("4 m"), {}};
        cart.gauges.assign(
            3, {units::unitNamed<Pressure>(make_.unit).value(), Decimal(make_.span, 0), make_.graduation, "B"});
        for (int i = 0; i < 3; ++i) {
            const double divisions = 0.3 * chance_.normal();
            scenario().dials.push_back({divisions * make_.graduation.toDouble() * cart.gauges.front().unit->unit});
        }
        scenario().pump = {.displaced = flowLpm * litrePerMinute, .relief = cart.relief->value()};
        scenario().wayBack = {filtration::Pipe{16.0 * units::millimetre, 4.0 * units::metre}, cart.staticHead->value()};
    }

    void drawOil(const std::string& grade, double startC, double endC, double minutes)
    {
        run::FluidRecord& fluid = scenario().setup.tank.fluid;
        fluid = {.kind = "hydraulic", .grade = "ISO VG " + grade, .viscosityIndex = Decimal(98, 0)};
        scenario().oil = {.properties = fluid.properties(),
                          .start = (startC + chance_.between(-1.5, 1.5)) * celsius,
                          .end = (endC + chance_.between(-2.0, 2.0)) * celsius,
                          .timeConstant = minutes * minute};
    }

    void drawTank()
    {
        const double litres = 10.0 * std::round(chance_.between(20.0, 27.0));
        run::Setup& setup = scenario().setup;
        setup.isPractice = true;
        setup.title = id();
        setup.tank.volume = run::TypedVolume(Decimal::nearest(litres, 0),
                                             *units::unitNamed<units::Volume>("L").value());
        setup.tank.mixing = Decimal(7, 1);
        setup.target = {.turnovers = Decimal(4, 0), .code = {}};
        TankTruth& tank = scenario().tank;
        tank.volume = litres * litre;
        tank.mixing = 0.75;
        const double dirt = chance_.between(0.8, 1.2);
        tank.dirtMgPerL = {20.0 * dirt, 12.0 * dirt, 8.0 * dirt, 3.0 * dirt, 1.0 * dirt};
        tank.ingressMgPerMin = {6.0, 4.0, 3.0, 1.0, 0.3};
    }

    void addStage(std::size_t index)
    {
        constexpr double neverGrams = 1000.0;
        constexpr std::array<PerClass<double>, 2> betas = {
            {{1.2, 2.0, 30.0, 200.0, 1000.0}, {3.0, 50.0, 1000.0, 1000.0, 1000.0}}};
        run::StageRecord record{.elements = 2, .kind = "particle", .type = index == 0 ? "P10 glass" : "P3 glass"};
        record.ratingUm = Decimal(index == 0 ? 10 : 3, 0);
        record.changeLimit = pressureIn(make_, limitKpa.at(index), make_.places);
        record.cleanDp = pressureIn(make_, cleanKpa.at(index), make_.places + 1);
        record.cleanAt = run::CleanAt{typed<units::Flow>("20 L/min"), typed<units::KinematicViscosity>("46 cSt")};
        record.spareSets = 2;
        scenario().setup.stages.push_back(record);
        StageTruth truth{.elements = 2,
                         .clean = {record.cleanDp->value(), {}, {flowLpm * litrePerMinute, 46.0 * centistokes, {}}},
                         .law = BlockingLaw::through(1.5, neverGrams, 10.0).value()};
        truth.beta = betas.at(index);
        truth.roughness = 0.006;
        scenario().stages.push_back(truth);
    }

    /// Another clean drop, told as it is.
    void setClean(int number, double kpa)
    {
        told(number).cleanDp = pressureIn(make_, kpa, make_.places + 2);
        stage(number).clean.total = told(number).cleanDp->value();
    }

    /// The law of a stage that brings it to its change limit after so much filtering.
    void fillsAfter(int number, Duration filtering)
    {
        auto cart = PracticeCart::of(scenario());
        require(cart.has_value(), "the scenario of an exercise can be");
        require(cart->setMode(run::Mode::Filtering).has_value() && cart->advance(filtering).has_value(),
                "a practice cart can filter");
        const Snapshot then = cart->truth();
        const auto index = static_cast<std::size_t>(number - 1);
        constexpr double milligrams = 1000.0;
        const double grams = then.caughtMg.at(index) / milligrams / stage(number).elements;
        const double loading = told(number).changeLimit->value() / then.drops.at(index);
        const auto law = BlockingLaw::through(1.3, grams, loading);
        require(law.has_value(), "a stage that holds dirt back fills");
        stage(number).law = *law;
    }

    /// So much filtering as is this share of the way to the target.
    [[nodiscard]] Duration share(double ofTarget) const
    {
        const auto& setup = plan_.scenario.setup;
        return setup.tank.volume.value() / setup.cart.flow.value() * setup.target.turnovers->toDouble() * ofTarget;
    }

    void hide(Fault fault, Comes comes, Duration after = {})
    {
        plan_.fault = fault;
        plan_.comes = comes;
        plan_.after = after;
        if (fault.place > 0) {
            const bool isGauge = natureOf(fault.kind).place == FaultPlace::Gauge;
            plan_.hidden.arguments.emplace_back(isGauge ? "gauge" : "stage", std::to_string(fault.place));
        }
    }

    void quietRun()
    {
        plan_.goals = {Goal::ReadEarly,    Goal::KeptReading, Goal::NoNeedlessChange,
                       Goal::NoFalseAlarm, Goal::Sample,      Goal::ReachedTarget};
    }

    void coldMorning()
    {
        drawOil("150", 10.5, 42.0, 22.0);
        scenario().wayBack.hose = filtration::Pipe{25.0 * units::millimetre, 3.0 * units::metre};
        scenario().setup.cart.returnHose = {typed<units::Length>("25 mm"), typed<units::Length>("3 m"), {}};
        scenario().setup.target.turnovers = Decimal(3, 0);
        const auto fluid = oil::Fluid::from(scenario().oil.properties);
        const auto cold = fluid ? fluid->viscosityAt(scenario().oil.start) : fail(fluid.error());
        require(cold.has_value(), "the oil of an exercise has a viscosity");
        constexpr double overLimit = 1.1;
        for (const int number : {1, 2}) {
            const double share = 46.0 / cold->in(centistokes)*overLimit;
            setClean(number, limitKpa.at(static_cast<std::size_t>(number - 1)) * share);
        }
        plan_.right = {{Thought::ColdOil}};
        plan_.goals = {Goal::Said, Goal::Waited, Goal::NoNeedlessChange, Goal::ReachedTarget};
    }

    void fullStage()
    {
        const int number = 1 + static_cast<int>(chance_.oneOf(2));
        fillsAfter(number, share(chance_.between(0.4, 0.55)));
        plan_.stagesToChange = {number};
        plan_.hidden.arguments = {{"stage", std::to_string(number)}};
        plan_.goals = {Goal::ChangedInTime, Goal::NoNeedlessChange, Goal::ReadAfterChange, Goal::ReachedTarget};
    }

    void bothStages()
    {
        const bool isFirstFirst = chance_.happens(0.5);
        const double early = chance_.between(0.28, 0.35);
        const double late = chance_.between(0.55, 0.65);
        fillsAfter(1, share(isFirstFirst ? early : late));
        fillsAfter(2, share(isFirstFirst ? late : early));
        plan_.stagesToChange = {1, 2};
        plan_.goals = {Goal::ChangedInTime, Goal::NoNeedlessChange, Goal::ReadAfterChange, Goal::KeptReading,
                       Goal::ReachedTarget};
    }

    void somebodyPassed()
    {
        hide({FaultKind::ValveInBypass}, Comes::AfterFiltering, share(chance_.between(0.2, 0.45)));
        plan_.right = {{Thought::ValveInBypass}};
        plan_.goals = {Goal::Said, Goal::PutRight, Goal::KeptReading, Goal::NoNeedlessChange, Goal::ReachedTarget};
    }

    void stillNeedle()
    {
        drawOil("46", 20.0, 52.0, 30.0);
        const int gauge = 1 + static_cast<int>(chance_.oneOf(2));
        hide({FaultKind::GaugeStuck, gauge}, Comes::AfterFiltering, chance_.between(3.0, 6.0) * minute);
        plan_.right = {{Thought::GaugeStuck, gauge}};
        plan_.goals = {Goal::Said, Goal::NoNeedlessChange, Goal::KeptReading, Goal::ReachedTarget};
    }

    void gaugeAtRest()
    {
        const int gauge = 1 + static_cast<int>(chance_.oneOf(3));
        hide({FaultKind::GaugeOffset, gauge, chance_.between(0.035, 0.048)}, Comes::FromStart);
        plan_.right = {{Thought::GaugeOffset, gauge}};
        plan_.goals = {Goal::PumpOffCheck, Goal::Said, Goal::NoNeedlessChange, Goal::ReachedTarget};
    }

    void hoseOnFloor()
    {
        hide({FaultKind::ReturnKinked, 0, chance_.between(90.0, 150.0)}, Comes::AfterFiltering,
             share(chance_.between(0.25, 0.5)));
        plan_.right = {{Thought::ReturnRestricted}};
        plan_.goals = {Goal::Said, Goal::PutRight, Goal::NoNeedlessChange, Goal::ReachedTarget};
    }

    void pumpComplains()
    {
        const bool isAir = chance_.happens(0.5);
        const Duration after = share(chance_.between(0.2, 0.4));
        if (isAir) {
            hide({FaultKind::Aeration, 0, chance_.between(0.2, 0.3)}, Comes::AfterFiltering, after);
        } else {
            hide({FaultKind::StrainerBlocking, 0, chance_.between(0.35, 0.5), 10.0 * minute}, Comes::AfterFiltering,
                 after);
        }
        plan_.hidden.id += isAir ? ".air" : ".strainer";
        plan_.right = {{isAir ? Thought::AirInOil : Thought::SuctionStarved}};
        plan_.goals = {Goal::Stopped, Goal::Said, Goal::PutRight, Goal::NoNeedlessChange};
        if (isAir) {
            plan_.goals.push_back(Goal::TypedSwing);
        }
        plan_.goals.push_back(Goal::ReachedTarget);
    }

    void suddenFall()
    {
        const int number = 1 + static_cast<int>(chance_.oneOf(2));
        const bool isTorn = chance_.happens(0.5);
        stage(number).loadedAtStart = 2.0;
        told(number).loaded = Decimal(2, 0);
        if (!isTorn) {
            told(number).bypass = pressureIn(make_, 1.4 * limitKpa.at(static_cast<std::size_t>(number - 1)),
                                             make_.places);
            stage(number).bypass = StageTruth::Bypass{told(number).bypass->value()};
        }
        hide({isTorn ? FaultKind::StageTorn : FaultKind::StageBypassOpen, number}, Comes::AfterFiltering,
             share(chance_.between(0.3, 0.5)));
        plan_.hidden.id += isTorn ? ".torn" : ".open";
        plan_.stagesToChange = {number};
        plan_.right = {{Thought::StageLeaks, number}};
        plan_.goals = {Goal::Stopped, Goal::Said, Goal::ChangedStage, Goal::NoNeedlessChange, Goal::ReachedTarget};
    }

    void wetOil()
    {
        told(1).kind = "water";
        told(1).type = "W water";
        told(1).ratingUm.reset();
        told(1).waterCapacity = typed<units::Volume>("0.3 L");
        const double grams = chance_.between(230.0, 260.0);
        stage(1).water = StageTruth::Water{BlockingLaw::through(1.5, grams, 10.0).value(), 0.9};
        const double ppm = chance_.between(3200.0, 3800.0) * 240.0 / scenario().tank.volume.in(litre);
        hide({FaultKind::WaterSlug, 0, ppm}, Comes::AfterFiltering, chance_.between(4.0, 8.0) * minute);
        plan_.stagesToChange = {1};
        plan_.changesEach = 2;
        plan_.right = {{Thought::WaterInOil}};
        plan_.goals = {Goal::Said, Goal::ChangedInTime, Goal::NoNeedlessChange, Goal::KeptReading, Goal::ReachedTarget};
    }

    void newBoxes()
    {
        const int number = 1 + static_cast<int>(chance_.oneOf(2));
        fillsAfter(number, share(chance_.between(0.35, 0.45)));
        hide({FaultKind::WrongElement, number, chance_.between(2.1, 2.6)}, Comes::WithChange);
        plan_.stagesToChange = {number};
        plan_.changesEach = 2;
        plan_.right = {{Thought::WrongElement, number}, {Thought::CannotTell}};
        plan_.goals = {Goal::ChangedInTime, Goal::ReadAfterChange,  Goal::Said,
                       Goal::PutRight,      Goal::NoNeedlessChange, Goal::ReachedTarget};
    }

    Chance chance_;
    DialMake make_ = {};
    ExercisePlan plan_;
};

} // namespace

std::string_view nameOf(Level level)
{
    constexpr std::array<std::string_view, 3> names = {"easy", "medium", "hard"};
    return names.at(static_cast<std::size_t>(level));
}

std::string_view nameOf(Goal goal)
{
    constexpr std::array<std::string_view, 15> names = {
        "pump-off-check",  "read-early",    "kept-reading",      "no-needless-change",
        "changed-in-time", "changed-stage", "read-after-change", "said",
        "no-false-alarm",  "stopped",       "put-right",         "waited",
        "typed-swing",     "sample",        "reached-target"};
    return names.at(static_cast<std::size_t>(goal));
}

std::span<const ExerciseAbout> exerciseList()
{
    return list;
}

ExercisePlan drawExercise(int number, std::uint64_t seed)
{
    require(number >= 1 && number <= exerciseCount, "there is an exercise of that number");
    return Drawing(number, seed).draw();
}

} // namespace loopside::practice
