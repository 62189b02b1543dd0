// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "life_alarms.h"

#include "run/life_learned.h"

#include <algorithm>
#include <numeric>
#include <set>

namespace loopside::evaluation {

namespace {

constexpr std::string_view shortLife = "element-life-short";
constexpr std::string_view longLife = "element-life-long";

bool isOfLives(std::string_view id)
{
    return id == shortLife || id == longLife;
}

/// What is said of a stage without anything being wrong.
bool isOrdinary(std::string_view id)
{
    return id == "stage-at-limit" || id == "stage-near-limit" || id == "would-exceed-limit-if-cold" || id == "cold-oil"
        || id == "stage-loading";
}

bool hasLives(const run::RunState& run, std::size_t stage)
{
    const auto lives = run::livesOf(run.past, run.setup.tank.name, run.setup.stages[stage].type);
    return std::ranges::count(lives, false, &run::ElementLife::isCutShort) >= run::livesForFinding;
}

bool hasLives(const run::RunState& run)
{
    for (std::size_t stage = 0; stage < run.setup.stages.size(); ++stage) {
        if (hasLives(run, stage)) {
            return true;
        }
    }
    return false;
}

/// What the oil and its ingress bring in seven turnovers, mg.
double broughtMg(const practice::Scenario& scenario)
{
    constexpr double turnovers = 7.0;
    const auto& tank = scenario.tank;
    const double litres = tank.volume.in(units::litre);
    const double minutes = turnovers * (tank.volume / scenario.setup.cart.flow.value()).in(units::minute);
    return litres * std::accumulate(tank.dirtMgPerL.begin(), tank.dirtMgPerL.end(), 0.0)
        + minutes * std::accumulate(tank.ingressMgPerMin.begin(), tank.ingressMgPerMin.end(), 0.0);
}

/// Against the middle of the days before; 1 on the first.
double dirtierThanUsual(const std::vector<FleetDay>& days, std::size_t index)
{
    std::vector<double> before;
    for (std::size_t i = 0; i < index; ++i) {
        before.push_back(broughtMg(days[i].scenario));
    }
    if (before.empty()) {
        return 1.0;
    }
    const auto middle = before.begin() + static_cast<std::ptrdiff_t>(before.size() / 2);
    std::ranges::nth_element(before, middle);
    return broughtMg(days[index].scenario) / *middle;
}

bool isReasonForShort(const std::vector<FleetDay>& days, std::size_t index, std::size_t stage)
{
    constexpr double dirtier = 1.5;
    constexpr double used = 1.1;
    const auto& day = days[index];
    return dirtierThanUsual(days, index) >= dirtier
        || (day.scenario.stages[stage].loadedAtStart >= used && !day.run.setup.stages[stage].loaded);
}

/// What is said at each set of gauges.
template<class Take>
void atSets(const practice::Simulated& simulated, const std::vector<run::LoadingLearned>& past, Take take)
{
    for (const practice::Entry& entry : simulated.entries) {
        if (std::holds_alternative<run::ReadingLogged>(entry.what)) {
            run::RunState run = practice::asRun(simulated, entry.at);
            run.past = past;
            take(run::standingByGauges(run, entry.at).findings);
        }
    }
}

} // namespace

void judgeAlarms(const std::vector<FleetDay>& days, LifeAlarms& alarms)
{
    for (std::size_t i = 0; i < days.size(); ++i) {
        if (!hasLives(days[i].run)) {
            continue;
        }
        ++alarms.runs;
        std::set<std::string> said;
        std::set<std::string> untrue;
        atSets(days[i].simulated, days[i].run.past, [&](const std::vector<run::Finding>& findings) {
            ++alarms.sets;
            for (const run::Finding& finding : findings) {
                if (!isOfLives(finding.id)) {
                    continue;
                }
                const std::string id(finding.id);
                const auto stage = static_cast<std::size_t>(finding.stage.value_or(1)) - 1;
                const bool isTrue = finding.id == shortLife && isReasonForShort(days, i, stage);
                said.insert(id);
                ++alarms.said[id].sets;
                if (!isTrue) {
                    untrue.insert(id);
                    ++alarms.said[id].untrue;
                }
            }
        });
        for (const std::string& id : said) {
            ++alarms.said[id].runs;
            alarms.said[id].untrueRuns += untrue.contains(id) ? 1 : 0;
        }
    }
}

void judgeHits(const std::vector<FleetDay>& days, practice::FaultKind kind, std::map<std::string, LifeHits>& hits)
{
    const FleetDay& last = days.back();
    const practice::FaultNature& nature = practice::natureOf(kind);
    for (std::size_t stage = 0; stage < last.run.setup.stages.size(); ++stage) {
        const int place = static_cast<int>(stage) + 1;
        practice::Scenario scenario = last.scenario;
        scenario.faults.push_back({{kind, nature.place == practice::FaultPlace::Stage ? place : 0}, {}});
        const bool isNew = last.scenario.stages[stage].loadedAtStart <= 1.0;
        if (!isNew || !hasLives(last.run, stage) || !practice::checkScenario(scenario)) {
            continue;
        }
        const auto simulated = practice::simulate(scenario);
        if (!simulated) {
            continue;
        }
        bool isByLives = false;
        bool isByOthers = false;
        atSets(*simulated, last.run.past, [&](const std::vector<run::Finding>& findings) {
            for (const run::Finding& finding : findings) {
                const bool isHere = finding.stage == place && finding.level != run::FindingLevel::Note;
                isByLives |= isHere && isOfLives(finding.id);
                isByOthers |= isHere && !isOfLives(finding.id) && !isOrdinary(finding.id);
            }
        });
        LifeHits& of = hits[std::string(nature.name)];
        ++of.runs;
        of.byLives += isByLives ? 1 : 0;
        of.onlyLives += isByLives && !isByOthers ? 1 : 0;
        of.byOthers += isByOthers ? 1 : 0;
    }
}

} // namespace loopside::evaluation
