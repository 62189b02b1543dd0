// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// Filtration ratio and efficiency, and the limits of a stage.

#include "filtration/element.h"
#include "filtration/element_ratings.h"
#include "filtration/limits.h"
#include "published/csv.h"
#include "published/printed.h"
#include "published/sources.h"
#include "published/topics.h"

#include <array>

namespace loopside::published {

namespace {

using namespace filtration;
using namespace units;

void betaChecks(Checks& checks)
{
    std::vector<Value> read;
    std::vector<Value> computed;
    std::vector<Value> back;
    for (const Row& row : rowsOf("beta_efficiency.csv")) {
        const std::string& efficiency = row.text("efficiency_pct");
        const Value value{"β " + row.text("beta"), efficiency, valueOf(efficiencyOf(row.number("beta"))).in(percent)};
        (row.text("provenance") == "read" ? read : computed).push_back(value);
        if (row.text("provenance") == "read") {
            back.push_back(
                {efficiency + " %", row.text("beta"), valueOf(betaOf(row.number("efficiency_pct") * percent))});
        }
    }
    read.push_back({"5000 particles before, 50 behind", "99", valueOf(efficiencyOf(5000.0 / 50.0)).in(percent)});
    checks.check({"Efficiency of a filtration ratio, %", sources::betaTexts}, read);
    checks.check({"Filtration ratio of an efficiency", sources::betaTexts}, back);
    checks.check({"Efficiency of a filtration ratio, %", sources::computed}, computed);
    checks.check({"Filtration ratio with a leak", sources::computed},
                 {{"β 200, 5 %", "18.265", valueOf(betaWithLeak(200.0, 5.0 * percent))},
                  {"β 200, 10 %", "9.57", valueOf(betaWithLeak(200.0, 10.0 * percent))}});
    checks.check({"Filtration ratio of stages in series", sources::computed, Tolerance::exact()},
                 {{"β 10 and 75", "750", valueOf(betaInSeries(std::array{10.0, 75.0}))}});
}

std::string cleanFinding(double cleanPsi)
{
    StageLimits limits;
    limits.change = 20.0 * psi;
    limits.bypass = 30.0 * psi;
    limits.clean = cleanPsi * psi;
    const auto findings = valueOf(limitFindings(limits));
    if (findings.empty()) {
        return "nothing said";
    }
    return findings.front().conflict == LimitConflict::CleanAboveHalf ? "caution"
        : findings.front().conflict == LimitConflict::CleanAboveThird ? "note"
                                                                      : "something else";
}

void limitChecks(Checks& checks)
{
    checks.check({"What is said of a clean drop", sources::housingHandbook, Tolerance::exact(),
                  "at most 1/2, better 1/3, of the bypass setting"},
                 {{"9.9 psi, bypass 30 psi", "nothing said", cleanFinding(9.9)},
                  {"10.1 psi", "note", cleanFinding(10.1)},
                  {"14.9 psi", "note", cleanFinding(14.9)},
                  {"15.1 psi", "caution", cleanFinding(15.1)}});
}

/// The ratings that our table has from `source` for gear oil of VG 220.
std::string ratingsFrom(std::string_view source, StagePlace place)
{
    std::string text;
    for (const ElementRating& rating :
         ratingsFor(oil::FluidFamily::Gear, valueOf(oil::gradeNamed("ISO VG 220")), place)) {
        if (rating.source == source) {
            const std::string from = rating.role == RatingRole::Limit ? "at most" : shortest(rating.fromUm) + " to";
            text += (text.empty() ? "" : ", ") + from + " " + shortest(rating.toUm);
        }
    }
    return text;
}

void ratingChecks(Checks& checks)
{
    constexpr std::string_view article = "a trade article on gear oil";
    checks.check({"Rating of elements for gear oil of VG 220, µm", sources::gearOilAdvice},
                 {{"first stage", "25 to 25", ratingsFrom(article, {true, false})},
                  {"last stage", "10 to 12", ratingsFrom(article, {false, true})}});
    constexpr std::string_view rolling = "AGMA guideline for rolling bearings as practitioners quote it";
    constexpr std::string_view journal = "AGMA guideline for journal bearings as practitioners quote it";
    checks.check({"Rating of elements for gear drives, µm", sources::agmaThread},
                 {{"rolling bearings", "at most 50", ratingsFrom(rolling, {false, true})},
                  {"journal bearings", "at most 25", ratingsFrom(journal, {false, true})}});
}

} // namespace

void elementChecks(Checks& checks)
{
    betaChecks(checks);
    limitChecks(checks);
    ratingChecks(checks);
}

} // namespace loopside::published
