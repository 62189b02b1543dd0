// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// Run times, and how a mixed tank gets cleaner.

#include "filtration/clean_up.h"
#include "filtration/element.h"
#include "filtration/turnover.h"
#include "published/csv.h"
#include "published/printed.h"
#include "published/sources.h"
#include "published/topics.h"
#include "units/typed.h"

#include <array>
#include <cmath>

namespace loopside::published {

namespace {

using namespace filtration;
using namespace units;

constexpr MixedTank perfect{1.0};

double minutesFor(double turnovers, Volume volume, Flow flow)
{
    return valueOf(runTime(turnovers, volume, flow)).in(minute);
}

void runTimeChecks(Checks& checks)
{
    const std::string quantity = "Time of seven turnovers, min";
    const double small = minutesFor(7.0, 30.0 * gallon, 5.0 * gallonPerMinute);
    const double large = minutesFor(7.0, 50.0 * gallon, 5.0 * gallonPerMinute);
    checks.check({quantity, sources::cartTimingBlog, Tolerance::exact()}, {{"30 gal at 5 gpm", "42", small}});
    checks.check({quantity, sources::ruleOfSeven, Tolerance::exact()},
                 {{"50 gal at 5 gpm", "70", large}, {"the same, two passes", "140", 2.0 * large}});
    checks.deviates({"Time of two passes of seven turnovers, min", sources::cartTimingBlog, Tolerance::exact(),
                     "a slip of the blog: its own first figure doubled is 84"},
                    {"30 gal at 5 gpm", "82", minutesFor(14.0, 30.0 * gallon, 5.0 * gallonPerMinute)});
    checks.check({"Time of one turnover, min", sources::gearOilAdvice, Tolerance::exact()},
                 {{"50 L at 10 L/min", "5", valueOf(turnoverTime(50.0 * litre, 10.0 * litrePerMinute)).in(minute)}});
    checks.check({"Time of turnovers, min", sources::computed, Tolerance::exact()},
                 {{"14 of 30 gal at 5 gpm", "84", minutesFor(14.0, 30.0 * gallon, 5.0 * gallonPerMinute)},
                  {"1 of 24 gal at 4 gpm", "6", minutesFor(1.0, 24.0 * gallon, 4.0 * gallonPerMinute)},
                  {"the same", "6", valueOf(turnoverTime(24.0 * gallon, 4.0 * gallonPerMinute)).in(minute)},
                  {"6 of 24 gal at 4 gpm", "36", minutesFor(6.0, 24.0 * gallon, 4.0 * gallonPerMinute)},
                  {"7 of 24 gal at 4 gpm", "42", minutesFor(7.0, 24.0 * gallon, 4.0 * gallonPerMinute)}});
}

void dilutionChecks(Checks& checks)
{
    checks.check({"Turnovers until all but 0.1 % passed", sources::geist},
                 {{"perfect mixing", "6.90776", valueOf(turnoversBetween(1.0, 0.001, perfect))}});

    std::vector<Value> minutes;
    for (const Row& row : rowsOf("dilution_mmwr1994.csv")) {
        for (const char* share : {"90", "99", "99.9"}) {
            const double left = 1.0 - numberIn(share) / 100.0;
            const double turnovers = valueOf(turnoversBetween(1.0, left, perfect));
            minutes.push_back(
                {row.text("changes_per_hour") + " changes an hour, " + share + " %",
                 row.text(std::string("minutes_") + share + "pct"),
                 minutesFor(turnovers, 1.0 * cubicMetre, row.number("changes_per_hour") * cubicMetrePerHour)});
        }
    }
    checks.check({"Time to dilute what a mixed volume holds, min", sources::mmwr}, minutes);
}

/// A source of 1 a time in a volume of 1, `changes` an hour, after `minutes`: counts per mL where 1 mL is the volume.
double fromSource(double changes, double minutes)
{
    const double floor = valueOf(floorFromIngress(1.0 / 60.0, changes * 1e-3 * litrePerHour, 1.0));
    return valueOf(countAfter(0.0, changes * minutes / 60.0, {1.0, floor}));
}

void sourceChecks(Checks& checks)
{
    checks.check({"Concentration from a steady source in a mixed volume", sources::roomVentilation},
                 {{"1 change an hour, 60 min", "0.6321", fromSource(1.0, 60.0)},
                  {"2 changes an hour, 20 min", "0.2433", fromSource(2.0, 20.0)}});

    const double k = valueOf(captureTimesMixing(std::array{200.0}, 1.0));
    const double floor = valueOf(floorFromIngress(3.766e5, 5.0 * gallonPerMinute, k));
    std::vector<Value> counts;
    for (const auto& [minutes, expected] :
         {std::pair{40.0, "1861.2"}, {80.0, "700.7"}, {120.0, "271.7"}, {240.0, "32.72"}, {280.0, "24.70"}}) {
        counts.push_back(
            {shortest(minutes) + " min", expected, valueOf(countAfter(5000.0, minutes / 40.0, {k, floor}))});
    }
    checks.check({"Count in 200 gal at 5 gpm, β 200, from 5000 per mL to 20", sources::computed,
                  Tolerance::printed().orPart(1e-4), "its ingress is printed to four digits"},
                 counts);
}

void codeChecks(Checks& checks)
{
    std::vector<Value> left;
    std::vector<Value> codes;
    for (const Row& row : rowsOf("codes_down_computed.csv")) {
        const double turnovers = row.number("N_turnovers");
        const std::string at = row.text("N_turnovers") + " turnovers";
        const std::string& share = row.text("fraction_never_passed_exp_minus_N");
        left.push_back({at + ", never passed", share, neverPassed(turnovers)});
        left.push_back({at + ", left behind", share, leftBehind(turnovers, 1.0)});
        for (const char* beta : {"2", "10", "75", "200", "1000"}) {
            const double k = valueOf(captureTimesMixing(std::array{numberIn(beta)}, 1.0));
            codes.push_back(
                {at + ", β " + beta, row.text(std::string("iso_codes_down_beta") + beta), codesDown(turnovers, k)});
        }
    }
    checks.check({"Share left after turnovers of a perfectly mixed tank", sources::computed}, left);
    checks.check({"Scale numbers of ISO 4406 down", sources::computed}, codes);

    std::vector<Value> poor;
    for (const auto& [turnovers, expected] :
         {std::pair{1.0, "0.50"}, {3.0, "0.12"}, {5.0, "0.030"}, {6.0, "0.015"}, {7.0, "0.0074"}, {10.0, "0.0009"}}) {
        poor.push_back({shortest(turnovers) + " turnovers", expected, leftBehind(turnovers, 0.7)});
    }
    checks.check({"Share left at capture × mixing 0.7", sources::practitioner}, poor);

    const double k = valueOf(captureTimesMixing(std::array{1000.0}, 1.0));
    checks.check({"Turnovers from scale number 20 to 16 at β 1000", sources::computed},
                 {{"10 000 to 640 per mL", "2.7516", valueOf(turnoversBetween(10000.0, 640.0, {k}))}});
    checks.check({"Time from scale number 20 to 16 at β 1000, 200 gal at 5 gpm, min", sources::computed},
                 {{"", "110.06",
                   minutesFor(valueOf(turnoversBetween(10000.0, 640.0, {k})), 200.0 * gallon, 5.0 * gallonPerMinute)}});
}

} // namespace

void turnoverChecks(Checks& checks)
{
    runTimeChecks(checks);
    dilutionChecks(checks);
    sourceChecks(checks);
    codeChecks(checks);
}

} // namespace loopside::published
