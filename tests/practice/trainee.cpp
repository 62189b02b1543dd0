// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "practice/trainee.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>

namespace loopside::test {

using practice::FaultKind;
using practice::Goal;
using run::Mode;
using units::minute;

namespace {

Decimal nearestMark(double shown, const Decimal& graduation)
{
    const double division = graduation.toDouble();
    return Decimal::nearest(std::round(shown / division) * division, graduation.places());
}

} // namespace

Stamp Trainee::CartClock::now()
{
    Stamp stamp;
    stamp.wallMs = ms;
    stamp.monoNs = static_cast<std::uint64_t>(ms) * 1'000'000U;
    stamp.boot.bytes[0] = 1;
    return stamp;
}

Trainee::Trainee(int number, std::uint64_t seed) : exercise_{practice::Exercise::begin(number, seed).value()}
{
    logbook_ = std::make_unique<ledger::Logbook>(ledger::Logbook::open(journal_, clock_, random_).value());
    hand_.device.bytes[0] = 7;
    hand_.person.bytes[0] = 8;
    REQUIRE(logbook_->enrol(hand_.device, ledger::DeviceKey::fromSeed(std::array<std::uint8_t, 32>{4})).has_value());
    run_ = logbook_->newId();
    submit(run::OpenRun{run_, exercise_.setup()});
}

void Trainee::submit(const run::Command& command)
{
    const auto done = logbook_->submit(command, hand_);
    if (!done) {
        FAIL(done.error().sentence);
    }
}

const run::RunState& Trainee::run() const
{
    return *logbook_->state().runOf(run_);
}

void Trainee::pass(double minutes)
{
    exercise_.advance(minutes * minute);
    clock_.ms = std::llround(exercise_.now().in(units::second) * 1e3);
    submit(run::Tick{});
}

void Trainee::say(const run::Said& said)
{
    submit(run::Say{run_, said});
    const auto heard = exercise_.hear(said);
    if (!heard) {
        FAIL(heard.error().sentence);
    }
}

void Trainee::think(const practice::Opinion& opinion)
{
    say(run::CheckAnswered{std::string(practice::thinkCheck), practice::textOf(opinion)});
}

void Trainee::read()
{
    const practice::Showing showing = exercise_.showing();
    run::ReadingLogged set;
    for (std::size_t i = 0; i < showing.needles.size(); ++i) {
        const practice::Needle& needle = showing.needles[i];
        const Decimal& graduation = *exercise_.setup().cart.gauges[i].graduation;
        run::GaugeTyped typed{nearestMark(needle.shown - needle.halfSwing, graduation), std::nullopt};
        if (needle.halfSwing > graduation.toDouble()) {
            typed.high = nearestMark(needle.shown + needle.halfSwing, graduation);
        }
        set.gauges.emplace_back(typed);
    }
    set.oil = run::TypedTemperature(Decimal::nearest(showing.thermometer.in(units::celsius), 0),
                                    *units::unitNamed<units::Temperature>("°C").value());
    say(set);
    exercise_.findings(run::standingOf(run(), run().clock.at(clock_.now(), hand_.device)).findings);
}

void Trainee::waitToRead()
{
    const auto standing = run::standingOf(run(), run().clock.at(clock_.now(), hand_.device));
    const double due = standing.due ? static_cast<double>((*standing.due - standing.now).count()) / 60e3 : 15.0;
    pass(std::clamp(due, 1.0, 15.0));
}

void Trainee::change(int stage)
{
    mode(Mode::Stopped);
    pass(6.0);
    say(run::ElementsChanged{stage, 2, {}});
    mode(Mode::Filtering);
    pass(2.0);
    read();
}

bool Trainee::wants(Goal goal) const
{
    const auto& goals = exercise_.plan().goals;
    return std::ranges::find(goals, goal) != goals.end();
}

bool Trainee::isAtTarget() const
{
    return exercise_.lived().now.turnovers >= exercise_.setup().target.turnovers->toDouble();
}

/// What is hidden can be noticed now: says it and does what it asks for.
void Trainee::answerFault()
{
    const auto& plan = exercise_.plan();
    if (hasAnswered_ || !exercise_.lived().visibleAt || !plan.fault) {
        return;
    }
    hasAnswered_ = true;
    think(plan.right.front());
    switch (plan.fault->kind) {
    case FaultKind::ValveInBypass:
        look("valve");
        mode(Mode::Filtering);
        break;
    case FaultKind::ReturnKinked:
        look("return-hose");
        break;
    case FaultKind::StrainerBlocking:
    case FaultKind::Aeration:
        mode(Mode::Stopped);
        look("suction");
        mode(Mode::Filtering);
        break;
    case FaultKind::StageTorn:
    case FaultKind::StageBypassOpen:
    case FaultKind::WrongElement:
        change(plan.fault->place);
        break;
    default:
        break;
    }
}

void Trainee::answerLimits()
{
    for (const int stage : exercise_.plan().stagesToChange) {
        const auto* alert = run().alertOf(run::AlertId::StageAtLimit, stage);
        if (alert != nullptr && alert->state == run::AlertState::Unacknowledged) {
            change(stage);
        }
    }
}

void Trainee::doItWell()
{
    read(); // with the pump off
    answerFault();
    pass(1.0);
    mode(Mode::Filtering);
    if (wants(Goal::Waited)) {
        pass(2.0);
        read();
        think({practice::Thought::ColdOil});
        mode(Mode::Bypassing);
        pass(15.0);
        mode(Mode::Filtering);
    }
    for (int sets = 0; sets < 200 && !isAtTarget(); ++sets) {
        waitToRead();
        read();
        answerFault();
        answerLimits();
    }
    sample();
    mode(Mode::Stopped);
}

void Trainee::doNothing()
{
    mode(Mode::Filtering);
    pass(2.0);
    read();
    const auto& setup = exercise_.setup();
    const auto left = setup.tank.volume.value() / setup.cart.flow.value() * setup.target.turnovers->toDouble();
    pass(left.in(minute) * 0.9);
    mode(Mode::Stopped);
}

void Trainee::onlyRead()
{
    read();
    pass(1.0);
    mode(Mode::Filtering);
    const auto isMet = [&] { return run().alertOf(run::AlertId::TargetTurnoversMet, {}) != nullptr; };
    for (int sets = 0; sets < 60 && !isMet(); ++sets) {
        waitToRead();
        read();
    }
    mode(Mode::Stopped);
}

bool Trainee::hasHeard(std::string_view finding) const
{
    return std::ranges::any_of(exercise_.lived().found, [&](const auto& found) { return found.id == finding; });
}

} // namespace loopside::test
