// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "past_alarms.h"

#include "run/life_learned.h"
#include "run/standing.h"

#include <algorithm>
#include <numeric>
#include <set>

namespace loopside::evaluation {

namespace {

constexpr std::string_view shortLife = "element-life-short";
constexpr std::string_view longLife = "element-life-long";
constexpr std::string_view cleanLow = "clean-dp-low";
constexpr std::string_view cleanHigh = "clean-dp-high";

bool isOfPast(std::string_view id)
{
    return id == shortLife || id == longLife || id == cleanLow || id == cleanHigh;
}

/// What is said of a stage without anything being wrong.
bool isOrdinary(std::string_view id)
{
    return id == "stage-at-limit" || id == "stage-near-limit" || id == "would-exceed-limit-if-cold" || id == "cold-oil"
        || id == "stage-loading";
}

bool hasHistory(const run::RunState& run, std::size_t stage)
{
    const auto lives = run::livesOf(run.past, run.setup.tank.name, run.setup.stages[stage].type);
    return std::ranges::count(lives, false, &run::ElementLife::isCutShort) >= run::livesForFinding
        || run.place.cleanOf(static_cast<int>(stage) + 1) != nullptr;
}

bool hasHistory(const run::RunState& run)
{
    for (std::size_t stage = 0; stage < run.setup.stages.size(); ++stage) {
        if (hasHistory(run, stage)) {
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

bool isUsedUntold(const FleetDay& day, std::size_t stage)
{
    constexpr double used = 1.1;
    return day.scenario.stages[stage].loadedAtStart >= used && !day.run.setup.stages[stage].loaded;
}

/// Whether the day gives a reason to say `id` of the stage.
bool isTrue(std::string_view id, const std::vector<FleetDay>& days, std::size_t index, std::size_t stage)
{
    constexpr double dirtier = 1.5;
    const bool isUsed = isUsedUntold(days[index], stage);
    return id == shortLife ? isUsed || dirtierThanUsual(days, index) >= dirtier : id == cleanHigh && isUsed;
}

/// What is said at each set of gauges.
template<class Take>
void atSets(const practice::Simulated& simulated, const run::RunState& opened, Take take)
{
    for (const practice::Entry& entry : simulated.entries) {
        if (std::holds_alternative<run::ReadingLogged>(entry.what)) {
            run::RunState run = practice::asRun(simulated, entry.at);
            run.past = opened.past;
            run.place = opened.place;
            take(run::standingByGauges(run, entry.at).findings);
        }
    }
}

} // namespace

void judgeAlarms(const std::vector<FleetDay>& days, PastAlarms& alarms)
{
    for (std::size_t i = 0; i < days.size(); ++i) {
        if (!hasHistory(days[i].run)) {
            continue;
        }
        ++alarms.runs;
        std::set<std::string> said;
        std::set<std::string> untrue;
        atSets(days[i].simulated, days[i].run, [&](const std::vector<run::Finding>& findings) {
            ++alarms.sets;
            for (const run::Finding& finding : findings) {
                if (!isOfPast(finding.id)) {
                    continue;
                }
                const std::string id(finding.id);
                const auto stage = static_cast<std::size_t>(finding.stage.value_or(1)) - 1;
                said.insert(id);
                ++alarms.said[id].sets;
                if (!isTrue(finding.id, days, i, stage)) {
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

void judgeHits(const std::vector<FleetDay>& days, practice::FaultKind kind, std::map<std::string, PastHits>& hits)
{
    const FleetDay& last = days.back();
    const practice::FaultNature& nature = practice::natureOf(kind);
    for (std::size_t stage = 0; stage < last.run.setup.stages.size(); ++stage) {
        const int place = static_cast<int>(stage) + 1;
        practice::Scenario scenario = last.scenario;
        scenario.faults.push_back({{kind, nature.place == practice::FaultPlace::Stage ? place : 0}, {}});
        const bool isNew = last.scenario.stages[stage].loadedAtStart <= 1.0;
        if (!isNew || !hasHistory(last.run, stage) || !practice::checkScenario(scenario)) {
            continue;
        }
        const auto simulated = practice::simulate(scenario);
        if (!simulated) {
            continue;
        }
        bool isByPast = false;
        bool isByOthers = false;
        atSets(*simulated, last.run, [&](const std::vector<run::Finding>& findings) {
            for (const run::Finding& finding : findings) {
                const bool isHere = finding.stage == place && finding.level != run::FindingLevel::Note;
                isByPast |= isHere && isOfPast(finding.id);
                isByOthers |= isHere && !isOfPast(finding.id) && !isOrdinary(finding.id);
            }
        });
        PastHits& of = hits[std::string(nature.name)];
        ++of.runs;
        of.byPast += isByPast ? 1 : 0;
        of.onlyPast += isByPast && !isByOthers ? 1 : 0;
        of.byOthers += isByOthers ? 1 : 0;
    }
}

} // namespace loopside::evaluation
