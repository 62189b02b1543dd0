// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "run/decide.h"

#include "run/alert.h"

#include <algorithm>
#include <cstdlib>
#include <limits>

namespace loopside::run {

namespace {

constexpr std::int64_t clockJumpMs = 2 * 60 * 1000;

using Refusal = std::optional<Error>;

Refusal refuse(Errc code, std::string id, std::string sentence, std::vector<Message::Argument> arguments = {})
{
    return Error{code, std::move(sentence), {std::move(id), std::move(arguments)}};
}

Refusal gaugesRefusal(std::size_t given, const RunState& run)
{
    const std::size_t wanted = run.setup.cart.gauges.size();
    if (given == wanted) {
        return std::nullopt;
    }
    return refuse(Errc::OutOfRange, "refused.gauge-count",
                  "this cart has " + std::to_string(wanted) + " gauges, the set has " + std::to_string(given),
                  {{"gauges", std::to_string(wanted)}, {"given", std::to_string(given)}});
}

/// Says what of a fact has no place to go.
class Gate
{
public:
    explicit Gate(const RunState& run) : run_{run} {}

    Refusal operator()(const ReadingLogged& reading) const { return gaugesRefusal(reading.gauges.size(), run_); }

    Refusal operator()(const ElementsChanged& changed) const
    {
        const int stages = static_cast<int>(run_.setup.stages.size());
        if (changed.stage < 1 || changed.stage > stages) {
            return refuse(Errc::OutOfRange, "refused.stage",
                          "there is no stage " + std::to_string(changed.stage) + "; this cart has "
                              + std::to_string(stages),
                          {{"stage", std::to_string(changed.stage)}, {"stages", std::to_string(stages)}});
        }
        const int elements = run_.setup.stages[static_cast<std::size_t>(changed.stage - 1)].elements;
        if (changed.elements < 1 || changed.elements > elements) {
            return refuse(Errc::OutOfRange, "refused.elements",
                          "stage " + std::to_string(changed.stage) + " has " + std::to_string(elements)
                              + " elements, not " + std::to_string(changed.elements),
                          {{"stage", std::to_string(changed.stage)}, {"elements", std::to_string(elements)}});
        }
        return std::nullopt;
    }

    Refusal operator()(const SampleDrawn& sample) const
    {
        if (sample.port < 0 || sample.port > static_cast<int>(run_.setup.cart.gauges.size())) {
            return refuse(Errc::OutOfRange, "refused.port",
                          "there is no port " + std::to_string(sample.port) + " on this cart",
                          {{"port", std::to_string(sample.port)}});
        }
        return std::nullopt;
    }

    Refusal operator()(const Amended& amendment) const
    {
        const Fact* fact = run_.factOf(amendment.of);
        if (fact == nullptr || !isSaid(fact->original) || std::holds_alternative<Amended>(fact->original)) {
            return refuse(Errc::NotFound, "refused.amend-nothing", "there is no such entry in this run to amend");
        }
        if (amendment.why.empty()) {
            return refuse(Errc::Malformed, "refused.amend-why", "an amendment needs a reason");
        }
        return amendment.gauges.empty() ? std::nullopt : gaugesRefusal(amendment.gauges.size(), run_);
    }

    Refusal operator()(const QuestionAnswered& answer) const
    {
        if (std::find(questionIds.begin(), questionIds.end(), answer.question) == questionIds.end()) {
            return refuse(Errc::NotFound, "refused.question", "there is no question \"" + answer.question + "\"");
        }
        if (run_.factOf(answer.of) == nullptr) {
            return refuse(Errc::NotFound, "refused.answer-nothing", "the entry that this answers is not in this run");
        }
        return std::nullopt;
    }

    Refusal operator()(const AlertAcknowledged& acknowledged) const
    {
        return standingRefusal(acknowledged.alert, acknowledged.stage);
    }

    Refusal operator()(const AlertShelved& shelved) const
    {
        if (shelved.why.empty() || shelved.forMs <= RunTime{0}) {
            return refuse(Errc::Malformed, "refused.shelve-why", "shelving an alert needs a reason and a time");
        }
        return standingRefusal(shelved.alert, shelved.stage);
    }

    template<class Other>
    Refusal operator()(const Other&) const
    {
        return std::nullopt;
    }

private:
    [[nodiscard]] Refusal standingRefusal(AlertId alert, std::optional<int> stage) const
    {
        if (run_.alertOf(alert, stage) != nullptr) {
            return std::nullopt;
        }
        return refuse(Errc::NotFound, "refused.no-such-alert",
                      "no alert \"" + std::string(nameOf(alert)) + "\" stands"
                          + (stage ? " for stage " + std::to_string(*stage) : std::string()),
                      {{"alert", std::string(nameOf(alert))}});
    }

    const RunState& run_;
};

/// The jump of the wall clock since this device's last entry of the run, if there was one.
std::optional<ClockJumped> clockJump(const RunState& run, const Context& context)
{
    const auto last = std::find_if(run.facts.rbegin(), run.facts.rend(), [&](const Fact& fact) {
        return fact.header.device == context.device && fact.header.entered.boot == context.now.boot;
    });
    const Stamp& before = last == run.facts.rend() ? run.opened.entered : last->header.entered;
    if (before.boot != context.now.boot) {
        return std::nullopt; // after a restart the two clocks cannot be compared
    }
    const auto elapsedNs = static_cast<std::int64_t>(context.now.monoNs) - static_cast<std::int64_t>(before.monoNs);
    const std::int64_t jumpMs = context.now.wallMs - before.wallMs - elapsedNs / 1'000'000;
    return std::abs(jumpMs) > clockJumpMs ? std::optional(ClockJumped{jumpMs}) : std::nullopt;
}

/// Decides one command. Works on a copy of the run, so that each event is judged with the ones before it applied.
class Decider
{
public:
    Decider(const RunState& run, const Context& context) : context_{context} { state_.runs.emplace(run.id, run); }

    void add(Event event)
    {
        state_ = apply(std::move(state_), nextHeader(), event);
        decided_.push_back({run().id, std::move(event)});
    }

    /// Ends the run with its totals. The end is an entry like others, so time is credited up to it.
    void close(Ending ending, std::string why)
    {
        RunClosed closed{ending, std::move(why), {}, 0.0};
        Decider after(run(), context_);
        after.add(closed);
        const Credit credit = after.standing().credit;
        closed.turnovers = credit.turnovers;
        closed.filtered_l = credit.filtered.in(units::litre);
        add(std::move(closed));
    }

    /// Raises and clears what now stands differently.
    std::vector<Decided> settled()
    {
        for (Event& change : alertChanges(run(), standing())) {
            add(std::move(change));
        }
        return std::move(decided_);
    }

    [[nodiscard]] Standing standing() const
    {
        return standingOf(run(), run().clock.at(context_.now, context_.device));
    }

    [[nodiscard]] const RunState& run() const { return state_.runs.begin()->second; }

private:
    /// As the entry will have it, but for its place in the chain: it folds last.
    Header nextHeader()
    {
        Header header;
        header.id = decided_.empty() ? context_.firstEntry : Id{};
        header.device = context_.device;
        header.clock = std::numeric_limits<std::uint64_t>::max();
        header.sequence = ++added_;
        header.run = run().id;
        header.entered = context_.now;
        header.observed = decided_.empty() ? context_.observed : Observed{};
        header.person = context_.person;
        return header;
    }

    State state_;
    const Context& context_;
    std::vector<Decided> decided_;
    std::uint64_t added_ = 0;
};

Error unknownRun()
{
    return {Errc::NotFound, "there is no such run on this tablet", {"refused.no-such-run", {}}};
}

class Commander
{
public:
    Commander(const State& state, const Context& context) : state_{state}, context_{context} {}

    Result<std::vector<Decided>> operator()(const OpenRun& open) const
    {
        if (state_.runOf(open.run) != nullptr) {
            return fail(Errc::Conflict, "this run is open already", {"refused.open-already", {}});
        }
        if (const auto fault = faultIn(open.setup)) {
            return fail(Errc::OutOfRange, fault->place + ": " + fault->sentence,
                        {"refused.setup", {{"place", fault->place}, {"fault", fault->sentence}}});
        }
        return std::vector<Decided>{{open.run, RunOpened{open.setup}}};
    }

    Result<std::vector<Decided>> operator()(const Say& say) const
    {
        const RunState* run = state_.runOf(say.run);
        if (run == nullptr) {
            return fail(unknownRun());
        }
        if (Refusal refusal = std::visit(Gate(*run), say.what)) {
            return fail(std::move(*refusal));
        }
        Decider decider(*run, context_);
        const auto jump = clockJump(*run, context_);
        decider.add(asEvent(say.what));
        if (jump) {
            decider.add(*jump);
        }
        const auto* changed = std::get_if<ModeChanged>(&say.what);
        if (run->phase == Phase::CloseOut && changed != nullptr && changed->mode == Mode::Stopped) {
            const bool codeAwaited = !run->setup.target.code.empty();
            decider.close(codeAwaited ? Ending::TargetMetCodeAwaited : Ending::TargetMet, {});
        }
        return decider.settled();
    }

    Result<std::vector<Decided>> operator()(const CloseRun& close) const
    {
        const RunState* run = state_.runOf(close.run);
        if (run == nullptr) {
            return fail(unknownRun());
        }
        Decider decider(*run, context_);
        if (run->phase != Phase::Closed) {
            decider.close(close.ending, close.why);
            return decider.settled();
        }
        if (isSignedOff(*run)) {
            return fail(Errc::Conflict, "this run is closed already", {"refused.closed-already", {}});
        }
        RunClosed signOff = *run->closed; // the totals were fixed by the stop
        signOff.why = close.why;
        decider.add(std::move(signOff));
        return decider.settled();
    }

    Result<std::vector<Decided>> operator()(const Tick&) const
    {
        std::vector<Decided> all;
        for (const auto& [id, run] : state_.runs) {
            auto changes = Decider(run, context_).settled();
            all.insert(all.end(), std::make_move_iterator(changes.begin()), std::make_move_iterator(changes.end()));
        }
        return all;
    }

private:
    /// Whether a close was told after the one that fixed the totals by the target.
    static bool isSignedOff(const RunState& run)
    {
        const auto closes = std::count_if(run.facts.begin(), run.facts.end(), [](const Fact& fact) {
            return std::holds_alternative<RunClosed>(fact.original);
        });
        const bool byTarget
            = run.closed->ending == Ending::TargetMet || run.closed->ending == Ending::TargetMetCodeAwaited;
        return closes > 1 || !byTarget;
    }

    const State& state_;
    const Context& context_;
};

} // namespace

Result<std::vector<Decided>> decide(const State& state, const Command& command, const Context& context)
{
    return std::visit(Commander(state, context), command);
}

} // namespace loopside::run
