// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// Where our code solves an equation or gives the closed form of an integral, the GNU Scientific Library solves or
// integrates the same. The equations are ours, so these show the arithmetic alone.

#include "filtration/clean_up.h"
#include "filtration/pipe.h"
#include "filtration/tank.h"
#include "oil/density.h"
#include "oil/saybolt.h"
#include "oil/viscosity_index.h"
#include "published/printed.h"
#include "published/sources.h"
#include "published/topics.h"

#include <gsl/gsl_errno.h>
#include <gsl/gsl_odeiv2.h>
#include <gsl/gsl_roots.h>

#include <array>
#include <functional>
#include <iomanip>
#include <memory>
#include <sstream>

namespace loopside::published {

namespace {

using namespace units;

using Function = std::function<double(double)>;

std::string tenDigits(double number)
{
    std::ostringstream stream;
    stream << std::setprecision(10) << number;
    return stream.str();
}

/// Where `f` is 0 between `low` and `high`, by Brent's method of GSL.
double rootOf(Function f, double low, double high)
{
    const std::unique_ptr<gsl_root_fsolver, void (*)(gsl_root_fsolver*)> solver(
        gsl_root_fsolver_alloc(gsl_root_fsolver_brent), gsl_root_fsolver_free);
    gsl_function function{[](double x, void* self) { return (*static_cast<Function*>(self))(x); }, &f};
    gsl_root_fsolver_set(solver.get(), &function, low, high);
    for (int step = 0; step < 200; ++step) {
        gsl_root_fsolver_iterate(solver.get());
        if (gsl_root_test_interval(gsl_root_fsolver_x_lower(solver.get()), gsl_root_fsolver_x_upper(solver.get()), 0.0,
                                   1e-13)
            == GSL_SUCCESS) {
            break;
        }
    }
    return gsl_root_fsolver_root(solver.get());
}

constexpr const char* brent = "GSL: Brent's method";

void oilChecks(Checks& checks)
{
    std::vector<Value> hot;
    for (const double index : {20.0, 95.0, 150.0}) {
        const auto off = [=](double at100) {
            return valueOf(oil::viscosityIndex(220.0 * centistokes, at100 * centistokes)) - index;
        };
        hot.push_back({"220 cSt at 40 °C, index " + shortest(index), tenDigits(rootOf(off, 5.0, 60.0)),
                       valueOf(oil::viscosityAt100(220.0 * centistokes, index)).in(centistokes)});
    }
    checks.check({"Viscosity at 100 °C from the index, cSt", sources::gslSolvers, Tolerance::exact(), brent}, hot);

    std::vector<Value> fromSeconds;
    for (const double seconds : {40.0, 150.0, 700.0, 7500.0}) {
        const auto off = [=](double cSt) { return valueOf(oil::sayboltSeconds(cSt * centistokes)).in(second)-seconds; };
        fromSeconds.push_back({shortest(seconds) + " SUS", tenDigits(rootOf(off, 2.0, 3000.0)),
                               valueOf(oil::viscosityFromSaybolt(seconds * second)).in(centistokes)});
    }
    checks.check({"Viscosity of Saybolt seconds, cSt", sources::gslSolvers, Tolerance::exact(), brent}, fromSeconds);

    std::vector<Value> densities;
    for (const double at : {-20.0, 40.0, 100.0}) {
        const auto off = [=](double at15) {
            return valueOf(oil::densityAt(at15 * kilogramPerCubicMetre, at * celsius)).in(kilogramPerCubicMetre)-865.0;
        };
        densities.push_back(
            {"865 kg/m³ at " + shortest(at) + " °C", tenDigits(rootOf(off, 805.0, 1100.0)),
             valueOf(oil::densityAt15From(865.0 * kilogramPerCubicMetre, at * celsius)).in(kilogramPerCubicMetre)});
    }
    checks.check({"Density at 15 °C from an observed one, kg/m³", sources::gslSolvers, Tolerance::exact(), brent},
                 densities);
}

void cartChecks(Checks& checks)
{
    using namespace filtration;
    const TankShape tank = LyingCylinder{1.2 * metre, 2.5 * metre};
    std::vector<Value> levels;
    for (const double wanted : {0.05, 0.6, 2.0}) {
        const auto off = [&](double level) { return valueOf(volumeAt(tank, level * metre)).in(cubicMetre)-wanted; };
        levels.push_back({shortest(wanted) + " m³ in 1.2 m by 2.5 m", tenDigits(rootOf(off, 0.0, 1.2)),
                          valueOf(levelFor(tank, wanted * cubicMetre)).in(metre)});
    }
    checks.check({"Level in a lying cylinder, m", sources::gslSolvers, Tolerance::exact(), brent}, levels);

    std::vector<Value> frictions;
    for (const double reynolds : {4000.0, 1e5, 3e6}) {
        const auto off = [=](double f) {
            return 2.0 * std::log10(reynolds * std::sqrt(f) / 2.51) - 1.0 / std::sqrt(f);
        };
        frictions.push_back(
            {"Re " + shortest(reynolds), tenDigits(rootOf(off, 1e-3, 0.5)), turbulentFriction(reynolds)});
    }
    checks.check({"Friction factor of turbulent flow in a smooth pipe", sources::gslSolvers, Tolerance::exact(), brent},
                 frictions);
}

/// A mixed tank that is filtered: dC/dn = k·(floor − C), n in turnovers.
struct Balance
{
    double k;
    double floor;
};

/// The count after `turnovers`, integrated step by step by GSL (Runge, Kutta, Prince and Dormand, order 8).
double integratedCount(double start, double turnovers, Balance balance)
{
    gsl_odeiv2_system system{[](double, const double* count, double* slope, void* self) {
                                 const auto& tank = *static_cast<const Balance*>(self);
                                 *slope = tank.k * (tank.floor - *count);
                                 return static_cast<int>(GSL_SUCCESS);
                             },
                             nullptr, 1, &balance};
    const std::unique_ptr<gsl_odeiv2_driver, void (*)(gsl_odeiv2_driver*)> driver(
        gsl_odeiv2_driver_alloc_y_new(&system, gsl_odeiv2_step_rk8pd, 1e-3, 0.0, 1e-12), gsl_odeiv2_driver_free);
    double at = 0.0;
    double count = start;
    gsl_odeiv2_driver_apply(driver.get(), &at, turnovers, &count);
    return count;
}

void mixedTankChecks(Checks& checks)
{
    using namespace filtration;
    std::vector<Value> counts;
    for (const auto& [k, floor] : {std::pair{1.0, 0.0}, {0.6965, 20.0}, {0.35, 600.0}}) {
        for (const double turnovers : {0.5, 3.0, 7.0}) {
            counts.push_back(
                {"k " + shortest(k) + ", floor " + shortest(floor) + ", " + shortest(turnovers) + " turnovers",
                 tenDigits(integratedCount(5000.0, turnovers, {k, floor})),
                 valueOf(countAfter(5000.0, turnovers, {k, floor}))});
        }
    }
    checks.check({"Count of a mixed tank that is filtered, per mL", sources::gslSolvers, Tolerance::exact(),
                  "GSL: the balance integrated by Runge and Kutta of order 8"},
                 counts);
}

} // namespace

void numericalChecks(Checks& checks)
{
    oilChecks(checks);
    cartChecks(checks);
    mixedTankChecks(checks);
}

} // namespace loopside::published
