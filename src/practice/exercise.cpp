// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "practice/exercise.h"

#include "base/require.h"

#include <algorithm>
#include <cmath>

namespace loopside::practice {

using run::Mode;
using units::Duration;
using units::second;

namespace {

constexpr Duration step = 5.0 * second;
constexpr double noticedDivisions = 1.5; ///< A dial is a mark and a half from where it should be.
constexpr double noticedLoading = 1.5;   ///< As of the finding stage-loading.
constexpr double whineShare = 0.15;      ///< Of the flow that the strainer takes.
constexpr double hazePpm = 100.0;        ///< Above what the oil holds dissolved.

Message sight(std::string_view spot, std::string_view what)
{
    return {"practice.sight." + std::string(spot) + "." + std::string(what), {}};
}

} // namespace

Result<Exercise> Exercise::begin(int number, std::uint64_t seed)
{
    if (number < 1 || number > exerciseCount) {
        return fail(Errc::OutOfRange,
                    "The exercise must be from 1 to " + std::to_string(exerciseCount) + "; it is "
                        + std::to_string(number) + ".");
    }
    ExercisePlan plan = drawExercise(number, seed);
    auto cart = PracticeCart::of(plan.scenario);
    if (!cart) {
        return fail(cart.error());
    }
    return Exercise(std::move(plan), *std::move(cart));
}

Exercise::Exercise(ExercisePlan plan, PracticeCart cart) : plan_{std::move(plan)}, cart_{cart}, twin_{std::move(cart)}
{
    lived_.overLimit.resize(plan_.scenario.stages.size());
    overNow_.resize(plan_.scenario.stages.size());
    if (plan_.comes == ExercisePlan::Comes::FromStart) {
        hideNow();
    }
    watch();
}

void Exercise::advance(Duration time)
{
    const auto steps = static_cast<long>(std::ceil(time / step));
    for (long i = 0; i < steps; ++i) {
        pass(time / static_cast<double>(steps));
    }
}

void Exercise::pass(Duration time)
{
    require(cart_.advance(time).has_value() && twin_.advance(time).has_value(), "time goes on in an exercise");
    takeStock(time);
    const bool isDue = plan_.comes == ExercisePlan::Comes::AfterFiltering && filtering_ >= plan_.after;
    if (isDue && !lived_.faultAt) {
        hideNow();
    }
    watch();
}

/// Counts what the debrief wants of a step.
void Exercise::takeStock(Duration time)
{
    const Snapshot truth = cart_.truth();
    if (cart_.modeTold() != Mode::Stopped && lived_.visibleAt && isFaultStanding()) {
        lived_.ranWithFault += time;
    }
    if (cart_.modeTold() != Mode::Filtering) {
        return;
    }
    filtering_ += time;
    unread_ += time;
    lived_.longestUnread = std::max(lived_.longestUnread, unread_);
    for (std::size_t i = 0; i < truth.drops.size(); ++i) {
        const auto& limit = plan_.scenario.setup.stages[i].changeLimit;
        if (limit && truth.drops[i] >= limit->value()) {
            overNow_[i] += time;
            lived_.overLimit[i] = std::max(lived_.overLimit[i], overNow_[i]);
        }
    }
}

void Exercise::hideNow()
{
    require(plan_.fault.has_value(), "what comes has been drawn");
    static_cast<void>(cart_.lookAtGauges()); // a needle gets stuck where it stands
    const Done done = cart_.inflict(*plan_.fault);
    require(done.has_value(), "the fault of an exercise can happen on its cart");
    lived_.faultAt = cart_.now();
}

bool Exercise::isFaultStanding() const
{
    return plan_.fault && lived_.faultAt && cart_.standing(plan_.fault->kind, plan_.fault->place).has_value();
}

void Exercise::watch()
{
    if (lived_.visibleAt) {
        return;
    }
    const bool isHidden = plan_.comes != ExercisePlan::Comes::Never;
    const Snapshot truth = cart_.truth();
    bool isSeen = isHidden && lived_.faultAt && (differsFromTwin() || !signs().empty());
    for (const int stage : isHidden ? std::vector<int>{} : plan_.stagesToChange) {
        isSeen = isSeen || truth.loading[static_cast<std::size_t>(stage - 1)] >= noticedLoading;
    }
    const bool isCold = std::ranges::find(plan_.goals, Goal::Waited) != plan_.goals.end();
    isSeen = isSeen || (isCold && cart_.modeTold() == Mode::Filtering);
    if (isSeen) {
        lived_.visibleAt = cart_.now();
    }
}

bool Exercise::differsFromTwin()
{
    const auto shown = cart_.lookAtGauges();
    const auto expected = twin_.lookAtGauges();
    for (std::size_t i = 0; i < shown.size(); ++i) {
        const double division = plan_.scenario.setup.cart.gauges[i].graduation->toDouble();
        if (std::abs(shown[i].shown - expected[i].shown) >= noticedDivisions * division
            || shown[i].halfSwing >= division) {
            return true;
        }
    }
    return false;
}

std::vector<std::string_view> Exercise::signs() const
{
    std::vector<std::string_view> signs;
    const bool isRunning = cart_.modeTold() != Mode::Stopped;
    if (isRunning && cart_.standing(FaultKind::Aeration)) {
        signs.emplace_back("foam");
    }
    if (cart_.truth().waterPpm > plan_.scenario.oil.saturationPpm + hazePpm) {
        signs.emplace_back("haze");
    }
    if (isRunning && cart_.standing(FaultKind::StrainerBlocking).value_or(0.0) >= whineShare) {
        signs.emplace_back("whine");
    }
    if (isRunning && cart_.truth().relieved) {
        signs.emplace_back("hiss");
    }
    return signs;
}

Showing Exercise::showing()
{
    return {cart_.lookAtGauges(), cart_.thermometer(), signs()};
}

Result<std::optional<Message>> Exercise::hear(const run::Said& said)
{
    const Act act{cart_.now(), said, cart_.truth(), cart_.modeTold()};
    std::optional<Message> seen;
    if (const auto* changed = std::get_if<run::ElementsChanged>(&said)) {
        if (const Done done = change(*changed); !done) {
            return fail(done.error());
        }
    } else if (const auto* mode = std::get_if<run::ModeChanged>(&said)) {
        setMode(*mode);
    } else if (std::holds_alternative<run::ReadingLogged>(said)) {
        unread_ = {};
    } else if (const auto* check = std::get_if<run::CheckAnswered>(&said);
               check != nullptr && check->check == lookCheck) {
        const auto spot = spotNamed(check->say);
        auto found = spot ? look(*spot) : fail(Errc::NotFound, "There is no such spot to look at.");
        if (!found) {
            return fail(found.error());
        }
        seen = *std::move(found);
    }
    lived_.acts.push_back(act);
    watch();
    return seen;
}

void Exercise::setMode(const run::ModeChanged& changed)
{
    const auto flow = changed.flow ? std::optional(changed.flow->value()) : std::nullopt;
    const bool wasAside = isFaultStanding() && plan_.fault->kind == FaultKind::ValveInBypass;
    require(cart_.setMode(changed.mode, flow).has_value() && twin_.setMode(changed.mode, flow).has_value(),
            "a mode that was told can be set");
    lived_.isPutRight = lived_.isPutRight || (wasAside && !isFaultStanding());
    if (changed.mode == Mode::Filtering && !lived_.firstFiltering) {
        lived_.firstFiltering = cart_.now();
    }
}

Done Exercise::change(const run::ElementsChanged& changed)
{
    const bool stood = isFaultStanding();
    if (const Done done = cart_.changeElements(changed.stage, changed.elements); !done) {
        return done;
    }
    require(twin_.changeElements(changed.stage, changed.elements).has_value(), "the twin goes along");
    overNow_[static_cast<std::size_t>(changed.stage - 1)] = {};
    lived_.isPutRight = lived_.isPutRight || (stood && !isFaultStanding());
    const bool comesNow = plan_.comes == ExercisePlan::Comes::WithChange && !lived_.faultAt
        && plan_.fault->place == changed.stage;
    if (comesNow) {
        hideNow();
    }
    return {};
}

void Exercise::putRight(FaultKind kind)
{
    cart_.putRight(kind);
    lived_.isPutRight = true;
}

Result<Message> Exercise::look(Spot spot)
{
    switch (spot) {
    case Spot::ReturnHose:
        if (cart_.standing(FaultKind::ReturnKinked)) {
            putRight(FaultKind::ReturnKinked);
            return sight("return-hose", "kinked");
        }
        return sight("return-hose", "fine");
    case Spot::Suction:
        return lookAtSuction();
    case Spot::Valve:
        return sight("valve", cart_.truth().mode == Mode::Bypassing ? "bypass" : "filter");
    case Spot::Gauges:
        if (isFaultStanding() && plan_.fault->kind == FaultKind::GaugeStuck) {
            Message stuck = sight("gauges", "stuck");
            stuck.arguments = {{"gauge", std::to_string(plan_.fault->place)}};
            return stuck;
        }
        return sight("gauges", "fine");
    case Spot::Oil: {
        const auto seen = signs();
        const auto is = [&](std::string_view sign) { return std::ranges::find(seen, sign) != seen.end(); };
        return sight("oil", is("haze") ? "haze" : is("foam") ? "foam" : "clear");
    }
    case Spot::Elements:
        return lookAtElements();
    }
    return fail(Errc::NotFound, "There is no such spot to look at.");
}

/// The strainer and the suction coupling are put right with the pump off only.
Message Exercise::lookAtSuction()
{
    const bool isStopped = cart_.modeTold() == Mode::Stopped;
    for (const auto& [kind, name] : {std::pair(FaultKind::StrainerBlocking, std::string("strainer")),
                                     std::pair(FaultKind::Aeration, std::string("coupling"))}) {
        if (cart_.standing(kind)) {
            if (isStopped) {
                putRight(kind);
            }
            return sight("suction", name + (isStopped ? "-done" : "-running"));
        }
    }
    return sight("suction", "fine");
}

Message Exercise::lookAtElements() const
{
    if (cart_.modeTold() != Mode::Stopped) {
        return sight("elements", "running");
    }
    for (const auto& [kind, name] :
         {std::pair(FaultKind::StageTorn, "torn"), std::pair(FaultKind::StageBypassOpen, "open"),
          std::pair(FaultKind::WrongElement, "wrong")}) {
        const int stage = plan_.fault ? plan_.fault->place : 0;
        if (isFaultStanding() && plan_.fault->kind == kind) {
            Message seen = sight("elements", name);
            seen.arguments = {{"stage", std::to_string(stage)}};
            return seen;
        }
    }
    return sight("elements", "fine");
}

void Exercise::findings(const std::vector<run::Finding>& findings)
{
    for (const run::Finding& finding : findings) {
        const bool isKnown = std::ranges::any_of(
            lived_.found, [&](const FoundThen& then) { return then.id == finding.id && then.stage == finding.stage; });
        if (!isKnown) {
            lived_.found.push_back({cart_.now(), std::string(finding.id), finding.stage, finding.headline});
        }
    }
}

Lived Exercise::lived() const
{
    Lived lived = lived_;
    lived.now = cart_.truth();
    return lived;
}

} // namespace loopside::practice
