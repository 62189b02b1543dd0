// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// The figures here are those of the table in scenario.h.

#include "base/require.h"
#include "filtration/element.h"
#include "filtration/gauge.h"
#include "practice/chance.h"
#include "practice/practice_cart.h"
#include "practice/scenario.h"
#include "units/typed.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <numeric>
#include <string>
#include <utility>
#include <vector>

namespace loopside::practice {

using units::celsius;
using units::kelvins;
using units::litre;
using units::litrePerMinute;
using units::minute;
using units::Pressure;

namespace {

template<class T, std::size_t Size>
const T& oneOf(Chance& chance, const std::array<T, Size>& list)
{
    return list[chance.oneOf(Size)];
}

template<class Q>
units::Typed<Q> typed(double number, int places, std::string_view unit)
{
    return {Decimal::nearest(number, places), *units::unitNamed<Q>(unit).value()};
}

/// A kind of dial that carts have.
struct Dial
{
    std::string_view unit;
    int span;
    std::string_view graduation;
};

constexpr std::array<Dial, 8> psiDials = {{{"psi", 100, "1"},
                                           {"psi", 100, "2"},
                                           {"psi", 60, "1"},
                                           {"psi", 60, "2"},
                                           {"psi", 160, "2"},
                                           {"psi", 160, "5"},
                                           {"psi", 100, "1"},
                                           {"psi", 100, "2"}}};
constexpr std::array<Dial, 4> barDials = {
    {{"bar", 6, "0.1"}, {"bar", 6, "0.2"}, {"bar", 10, "0.2"}, {"bar", 10, "0.1"}}};
constexpr std::array<Dial, 3> kpaDials = {{{"kPa", 600, "10"}, {"kPa", 600, "20"}, {"kPa", 1000, "20"}}};
constexpr std::array<std::string_view, 7> grades = {"1A", "A", "B", "C", "1", "1.6", "2.5"};
constexpr std::array<int, 7> viscosityGrades = {32, 46, 68, 100, 150, 220, 320};
constexpr std::array<double, 3> betas = {75.0, 200.0, 1000.0};
constexpr std::array<double, 3> firstRatingsUm = {10.0, 12.0, 25.0};
constexpr std::array<double, 3> secondRatingsUm = {3.0, 5.0, 10.0};
constexpr std::array<double, 3> boresMm = {19.0, 25.0, 32.0};
constexpr std::array<int, 6> targetTurnovers = {5, 6, 7, 7, 8, 10};
constexpr double typicalTurnovers = 7.0;
constexpr double blockingReferenceUm = 9.0;
constexpr std::uint64_t attempts = 100;       ///< At a place, at a day; also how many streams each of them has.
constexpr std::uint64_t dayPurposes = 10'000; ///< Streams of days, clear of those of the run itself.

/// What of a place is drawn once for all its days.
struct Place
{
    int vg;
    double viscosityIndex;
    double density;
    bool isDensityTold;
    double warmerBy;     ///< °C that a run warms the oil, about.
    double startCelsius; ///< About which the days begin.
    PerClass<double> typicalMgPerL;
    std::vector<double> loadingAtLimit; ///< Per stage, at the end temperature.
};

/// Draws the place, in the order of the table.
class PlaceDrawer
{
public:
    PlaceDrawer(Scenario& scenario, Chance chance) : s_{scenario}, chance_{std::move(chance)} {}

    Place draw()
    {
        drawOil();
        drawTank();
        drawDials();
        drawPump();
        drawDirt();
        for (int stage = 1; stage <= 2; ++stage) {
            drawStage(stage);
        }
        return place_;
    }

private:
    void drawOil();
    void drawTank();
    void drawDials();
    void drawPump();
    void drawDirt();
    void drawStage(int stage);
    [[nodiscard]] double drawCleanDrop(StageTruth& truth, run::StageRecord& told, Pressure limit);
    void drawCapture(StageTruth& truth, run::StageRecord& told, int stage);
    [[nodiscard]] BlockingLaw drawShape(double loadingAtLimit);
    [[nodiscard]] double typicalBlockingGrams(const StageTruth& truth) const;

    [[nodiscard]] oil::Fluid fluid() const { return oil::Fluid::from(s_.oil.properties).value(); }
    [[nodiscard]] double toldNear(double truth) { return truth * std::max(0.7, 1.0 + 0.06 * chance_.normal()); }

    Scenario& s_;
    Chance chance_;
    Place place_ = {};
    std::string_view unit_;
    double span_ = 0.0; ///< In `unit_`.
};

std::string kindOf(int vg)
{
    return vg <= 68 ? "hydraulic" : vg <= 100 ? "circulating" : "gear";
}

void PlaceDrawer::drawOil()
{
    place_.vg = oneOf(chance_, viscosityGrades);
    place_.viscosityIndex = std::round(chance_.between(88.0, 112.0));
    place_.density = std::round(chance_.between(860.0, 890.0));
    place_.isDensityTold = chance_.happens(0.5);
    place_.startCelsius = chance_.between(8.0, 45.0);
    place_.warmerBy = chance_.between(0.0, 30.0);
    run::FluidRecord& told = s_.setup.tank.fluid;
    told.kind = kindOf(place_.vg);
    told.grade = "ISO VG " + std::to_string(place_.vg);
    told.viscosityIndex = Decimal::nearest(place_.viscosityIndex, 0);
    told.density = typed<units::Density>(place_.density, 0, "kg/m³");
    s_.oil.properties = told.properties();
    if (!place_.isDensityTold) {
        told.density.reset();
    }
}

void PlaceDrawer::drawTank()
{
    const double litres = std::round(chance_.logBetween(150.0, 3000.0) / 10.0) * 10.0;
    s_.setup.tank.volume = typed<units::Volume>(litres, 0, "L");
    s_.setup.tank.mixing = Decimal::nearest(0.7, 1);
    s_.tank.volume = litres * std::clamp(1.0 + 0.04 * chance_.normal(), 0.85, 1.15) * litre;
    s_.tank.mixing = chance_.between(0.45, 1.0);
}

void PlaceDrawer::drawDials()
{
    const double which = chance_.share();
    const Dial dial = which < 0.6 ? oneOf(chance_, psiDials)
        : which < 0.85            ? oneOf(chance_, barDials)
                                  : oneOf(chance_, kpaDials);
    const run::GaugeRecord record{units::unitNamed<Pressure>(dial.unit).value(), Decimal(dial.span, 0),
                                  Decimal::parse(dial.graduation).value(), std::string(oneOf(chance_, grades))};
    unit_ = dial.unit;
    span_ = dial.span;
    for (int gauge = 0; gauge < 3; ++gauge) {
        const Pressure limit = filtration::permissibleError(record.gauge(), Pressure{}).value();
        s_.setup.cart.gauges.push_back(record);
        s_.dials.push_back({limit * chance_.between(-1.0, 1.0), chance_.between(0.1, 0.5)});
    }
}

void PlaceDrawer::drawPump()
{
    const double litres = s_.setup.tank.volume.value().in(litre);
    const double flow = std::clamp(std::round(2.0 * litres / chance_.logBetween(9.0, 75.0)) / 2.0, 6.0, 60.0);
    const double slip = chance_.between(0.01, 0.08) * flow;
    run::CartRecord& cart = s_.setup.cart;
    cart.flow = typed<units::Flow>(flow, 1, "L/min");
    cart.lastFluid = "same";
    cart.relief = typed<Pressure>(0.9 * span_, 2, unit_);
    s_.pump.displaced = flow * (1.0 + 0.02 * chance_.normal()) * litrePerMinute;
    s_.pump.slip = slip * litrePerMinute;
    s_.pump.relief = cart.relief->value();
    const double boreMm = oneOf(chance_, boresMm);
    const double metres = std::round(chance_.between(2.0, 5.0));
    cart.returnHose = {typed<units::Length>(boreMm, 0, "mm"), typed<units::Length>(metres, 0, "m"), {}};
    s_.wayBack.hose = filtration::Pipe{boreMm * units::millimetre, metres * units::metre};
    s_.wayBack.staticHead = chance_.between(4.0, 12.0) * units::kilopascal;
    cart.staticHead = typed<Pressure>(s_.wayBack.staticHead.in(cart.gauges[0].unit->unit), 2, unit_);
}

void PlaceDrawer::drawDirt()
{
    DirtCounted dirt;
    dirt.from4PerMl = chance_.logBetween(1000.0, 60000.0);
    dirt.from6PerMl = dirt.from4PerMl * chance_.between(0.2, 0.4);
    dirt.from14PerMl = dirt.from6PerMl * chance_.between(0.05, 0.2);
    dirt.from30PerMl = dirt.from14PerMl * chance_.between(0.03, 0.15);
    dirt.siltMgPerL = chance_.logBetween(3.0, 60.0);
    place_.typicalMgPerL = concentrationsMgPerL(dirt);
    const double ingressPerTurnover = chance_.logBetween(0.005, 0.5);
    const double minutes = s_.setup.tank.volume.value() / s_.setup.cart.flow.value() / (1.0 * minute);
    for (std::size_t i = 0; i < sizeClasses; ++i) {
        s_.tank.ingressMgPerMin[i] = place_.typicalMgPerL[i] * s_.tank.volume.in(litre)*ingressPerTurnover / minutes;
    }
}

/// The law of one gram, as one of so many.
BlockingLaw stretched(BlockingLaw law, double grams)
{
    law.perGram /= grams;
    if (law.knee) {
        law.knee->grams *= grams;
    }
    return law;
}

void PlaceDrawer::drawStage(int stage)
{
    StageTruth truth;
    run::StageRecord told;
    const double share = stage == 1 ? chance_.between(0.12, 0.28) : chance_.between(0.16, 0.36);
    const double graduation = s_.setup.cart.gauges[0].graduation->toDouble();
    const double limit = std::max(std::round(share * span_ / graduation), 2.0) * graduation;
    told.kind = "particle";
    told.type = "practice " + std::to_string(stage);
    told.changeLimit = typed<Pressure>(limit, s_.setup.cart.gauges[0].graduation->places(), unit_);
    truth.elements = told.elements = 1 + static_cast<int>(chance_.oneOf(3));
    place_.loadingAtLimit.push_back(drawCleanDrop(truth, told, told.changeLimit->value()));
    const BlockingLaw shape = drawShape(place_.loadingAtLimit.back());
    if (chance_.happens(0.4)) {
        told.bypass = typed<Pressure>(limit * chance_.between(1.05, 1.5), 2, unit_);
        truth.bypass = StageTruth::Bypass{told.bypass->value()};
    }
    drawCapture(truth, told, stage);
    const double life = chance_.logBetween(0.3, 12.0) * std::max(typicalBlockingGrams(truth), 1e-6);
    truth.law = stretched(shape, life / truth.elements);
    truth.roughness = chance_.logBetween(0.005, 0.04);
    truth.roughnessTime = chance_.logBetween(3.0, 30.0) * minute;
    s_.setup.stages.push_back(told);
    s_.stages.push_back(truth);
}

/// The clean drop is drawn where it matters, at the end temperature, and told where catalogues have it, at 46 cSt.
/// Returns the loading of the elements that brings it to the limit there.
double PlaceDrawer::drawCleanDrop(StageTruth& truth, run::StageRecord& told, Pressure limit)
{
    constexpr double catalogueCst = 46.0;
    const units::Temperature end = (place_.startCelsius + place_.warmerBy) * celsius;
    const double viscosityRatio = fluid().viscosityAt(end).value() / (catalogueCst * units::centistokes);
    const double ofLimit = chance_.logBetween(0.04, 0.3);
    const double housingShare = chance_.between(0.0, 0.25); // at the catalogue's viscosity
    const Pressure media = limit * ofLimit / (viscosityRatio + housingShare / (1.0 - housingShare));
    const Pressure housing = media * (housingShare / (1.0 - housingShare));
    const units::Flow flow = s_.setup.cart.flow.value();
    truth.clean = {media + housing, housing, {flow, catalogueCst * units::centistokes, {}}};
    const Pressure::Unit unit = s_.setup.cart.gauges[0].unit->unit;
    const double toldTotal = toldNear(truth.clean.total.in(unit));
    told.cleanDp = typed<Pressure>(toldTotal, 4, unit_);
    if (chance_.happens(0.5)) {
        told.cleanDpHousing = typed<Pressure>(toldTotal * housingShare, 4, unit_);
    }
    told.cleanAt = run::CleanAt{s_.setup.cart.flow, typed<units::KinematicViscosity>(catalogueCst, 0, "cSt"), {}};
    return (limit - housing) / (media * viscosityRatio);
}

void PlaceDrawer::drawCapture(StageTruth& truth, run::StageRecord& told, int stage)
{
    constexpr double most = 1e6;
    const double ratingUm = stage == 1 ? oneOf(chance_, firstRatingsUm) : oneOf(chance_, secondRatingsUm);
    const double beta = oneOf(chance_, betas);
    const double falls = chance_.between(3.0, 6.0);
    const double smallBlocksMore = chance_.between(0.0, 0.6);
    told.ratingUm = Decimal::nearest(ratingUm, 0);
    told.beta = Decimal::nearest(beta, 0);
    for (std::size_t i = 0; i < sizeClasses; ++i) {
        const double size = meanSizesUm[i];
        truth.beta[i] = std::min(1.0 + (beta - 1.0) * std::pow(size / ratingUm, falls), most);
        truth.blockingPerGram[i] = std::pow(blockingReferenceUm / size, smallBlocksMore);
    }
}

/// What a typical run brings to the next stage to be drawn, of what the stages before it let pass.
double PlaceDrawer::typicalBlockingGrams(const StageTruth& truth) const
{
    const double minutes = typicalTurnovers * (s_.tank.volume / s_.setup.cart.flow.value()).in(minute);
    double grams = 0.0;
    for (std::size_t i = 0; i < sizeClasses; ++i) {
        double arrives = 1.0;
        for (const StageTruth& before : s_.stages) {
            arrives /= before.beta[i];
        }
        const double kept = 1.0 - arrives / truth.beta[i]; // by all stages up to this one
        const double mg = s_.tank.ingressMgPerMin[i] * minutes
            + place_.typicalMgPerL[i] * s_.tank.volume.in(litre)
                * -std::expm1(-typicalTurnovers * s_.tank.mixing * kept);
        grams += 1e-3 * mg * truth.blockingPerGram[i] * arrives * (1.0 - 1.0 / truth.beta[i]) / kept;
    }
    return grams;
}

/// A law that reaches `loadingAtLimit` at one gram.
BlockingLaw PlaceDrawer::drawShape(double loadingAtLimit)
{
    const bool hasKnee = chance_.happens(0.6);
    const double kneePhase = chance_.between(0.45, 0.85);
    const double kneeLoading = 1.0 + chance_.logBetween(0.15, 1.5);
    const double before = chance_.between(0.0, 1.5);
    const double behind = chance_.between(0.5, 2.5);
    const double single = chance_.between(0.0, 2.5);
    // A stage whose limit is hardly above the knee has none.
    return hasKnee && kneeLoading < 0.7 * loadingAtLimit
        ? BlockingLaw::throughKnee(before, {kneePhase, kneeLoading}, behind, {1.0, loadingAtLimit}).value()
        : BlockingLaw::through(single, 1.0, loadingAtLimit).value();
}

/// Draws the day.
void drawDay(Scenario& s, const Place& place, Chance chance)
{
    const double dirtier = std::exp(0.5 * chance.normal());
    for (std::size_t i = 0; i < sizeClasses; ++i) {
        s.tank.dirtMgPerL[i] = place.typicalMgPerL[i] * dirtier * std::exp(0.2 * chance.normal());
        s.tank.ingressMgPerMin[i] *= std::exp(0.5 * chance.normal());
    }
    const double start = std::clamp(place.startCelsius + 3.0 * chance.normal(), 2.0, 50.0);
    s.oil.start = start * celsius;
    s.oil.end = std::min(start + place.warmerBy * chance.between(0.6, 1.4), 70.0) * celsius;
    s.oil.timeConstant = chance.logBetween(30.0, 240.0) * minute;
    s.oil.driftKelvinPerHour = std::clamp(chance.normal(), -3.0, 3.0);
    s.oil.viscosityTimes = std::clamp(1.0 + 0.05 * chance.normal(), 0.85, 1.15);
    s.setup.target.turnovers = Decimal(oneOf(chance, targetTurnovers), 0);
    for (std::size_t i = 0; i < s.stages.size(); ++i) {
        constexpr double leastUsed = 1.1;
        const bool isUsed = chance.happens(0.4);
        const bool isTold = chance.happens(0.6);
        const double used = chance.logBetween(leastUsed, std::max(0.5 * place.loadingAtLimit[i], leastUsed));
        s.stages[i].loadedAtStart = isUsed ? used : 1.0;
        if (isUsed && isTold) {
            s.setup.stages[i].loaded = Decimal::nearest(used, 1);
        }
    }
    s.reader = {.checksPumpOff = chance.happens(0.5),
                .missesShare = 0.08,
                .meanLate = 1.0 * minute,
                .blankShare = 0.02,
                .misreadShare = 0.005};
    s.thermometer = {chance.normal(), 0.5};
}

/// Whether a person could start it: see the end of the table.
bool canStart(const Scenario& s)
{
    auto cart = PracticeCart::of(s);
    require(cart.has_value(), "a drawn scenario can be");
    const Done started = cart->setMode(run::Mode::Filtering);
    require(started.has_value(), "a cart can be started");
    const Snapshot cold = cart->truth();
    for (std::size_t i = 0; i < cold.drops.size(); ++i) {
        if (cold.drops[i] > 0.8 * s.setup.stages[i].changeLimit->value()) {
            return false;
        }
    }
    return cold.gauges.front() <= 0.75 * *s.pump.relief;
}

/// What the drawing begins with; tank and flow are replaced.
Scenario undrawn()
{
    const auto litre = typed<units::Volume>(1.0, 0, "L");
    const auto flow = typed<units::Flow>(1.0, 0, "L/min");
    return {.setup = {.title = "Practice",
                      .tank = {.name = "P-1", .volume = litre, .fluid = {}},
                      .cart = {.name = "P", .flow = flow, .lastFluid = {}, .gauges = {}},
                      .stages = {}}};
}

/// A place at which a run can be started on its typical day with new elements; what is known of it as a scenario.
std::pair<Place, Scenario> drawPlace(std::uint64_t seed)
{
    std::pair<Place, Scenario> drawn = {{}, undrawn()};
    for (std::uint64_t attempt = 0; attempt < attempts; ++attempt) {
        Scenario scenario = undrawn();
        const Place place = PlaceDrawer(scenario, Chance(seed, attempt)).draw();
        drawn = {place, scenario};
        scenario.oil.start = place.startCelsius * celsius;
        scenario.oil.end = (place.startCelsius + place.warmerBy) * celsius;
        scenario.oil.timeConstant = 1.0 * units::hour;
        if (canStart(scenario)) {
            break;
        }
    }
    return drawn;
}

} // namespace

Scenario drawScenario(std::uint64_t seed, int occasion)
{
    require(occasion >= 0, "occasions count from 0");
    const auto [place, known] = drawPlace(seed);
    Scenario scenario = known;
    for (std::uint64_t attempt = 0; attempt < attempts; ++attempt) {
        const std::uint64_t purpose = dayPurposes + attempts * static_cast<std::uint64_t>(occasion) + attempt;
        scenario = known;
        scenario.seed = seed + static_cast<std::uint64_t>(occasion) * 0x9E3779B97F4A7C15ULL;
        drawDay(scenario, place, Chance(seed, purpose));
        if (canStart(scenario)) {
            break;
        }
    }
    return scenario;
}

std::uint64_t testSeed(int number)
{
    constexpr std::uint64_t first = 20'000'000;
    return first + static_cast<std::uint64_t>(number);
}

Scenario testScenario(int number)
{
    return drawScenario(testSeed(number));
}

} // namespace loopside::practice
