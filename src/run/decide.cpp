// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "run/decide.h"

#include "base/text.h"
#include "run/alert.h"
#include "run/checklist.h"
#include "run/clock_change.h"
#include "run/job.h"
#include "run/learning.h"
#include "run/notes.h"
#include "run/stock.h"
#include "run/tank_learned.h"

#include <algorithm>
#include <cstdlib>
#include <limits>
#include <tuple>

namespace loopside::run {

namespace {

using Refusal = std::optional<Error>;

Refusal refuse(Errc code, std::string id, std::string sentence, std::vector<Message::Argument> arguments = {})
{
    return Error{code, std::move(sentence), {std::move(id), std::move(arguments)}};
}

Refusal refusalOf(const SetupFault& fault)
{
    return Error{Errc::OutOfRange, fault.place + ": " + fault.sentence, fault.say};
}

Refusal gaugesRefusal(const std::vector<std::optional<GaugeTyped>>& gauges, const RunState& run)
{
    const std::size_t wanted = run.setup.cart.gauges.size();
    if (gauges.size() != wanted) {
        return refuse(Errc::OutOfRange, "refused.gauge-count",
                      "this cart has " + std::to_string(wanted) + " gauges, the set has "
                          + std::to_string(gauges.size()),
                      {{"gauges", std::to_string(wanted)}, {"given", std::to_string(gauges.size())}});
    }
    for (const auto& gauge : gauges) {
        if (gauge && gauge->high && *gauge->high < gauge->low) {
            return refuse(Errc::OutOfRange, "refused.swing",
                          "a needle swings from the lower value to the higher, not from " + gauge->low.toText() + " to "
                              + gauge->high->toText(),
                          {{"low", gauge->low.toText()}, {"high", gauge->high->toText()}});
        }
    }
    return std::nullopt;
}

Refusal flowRefusal(const std::optional<TypedFlow>& flow)
{
    if (!flow || flow->number() >= Decimal(0, 0)) {
        return std::nullopt;
    }
    return refuse(Errc::OutOfRange, "refused.flow", "a flow cannot be " + flow->toText(), {{"flow", flow->toText()}});
}

Refusal elementsRefusal(int stage, int elements, const RunState& run)
{
    const auto stages = static_cast<int>(run.setup.stages.size());
    if (stage < 1 || stage > stages) {
        return refuse(Errc::OutOfRange, "refused.stage",
                      "there is no stage " + std::to_string(stage) + "; this cart has " + std::to_string(stages),
                      {{"stage", std::to_string(stage)}, {"stages", std::to_string(stages)}});
    }
    const int there = run.setup.stages[static_cast<std::size_t>(stage - 1)].elements;
    if (elements < 1 || elements > there) {
        return refuse(Errc::OutOfRange, "refused.elements",
                      "stage " + std::to_string(stage) + " has " + std::to_string(there) + " elements, not "
                          + std::to_string(elements),
                      {{"stage", std::to_string(stage)}, {"elements", std::to_string(there)}});
    }
    return std::nullopt;
}

/// Says what of a fact has no place to go.
class Gate
{
public:
    explicit Gate(const RunState& run) : run_{run} {}

    Refusal operator()(const ModeChanged& changed) const
    {
        if (run_.phase == Phase::Closed && changed.mode != Mode::Stopped) {
            return refuse(Errc::Conflict, "refused.run-closed",
                          "this run is closed and counts no more turnovers; a new run would count them");
        }
        return flowRefusal(changed.flow);
    }

    Refusal operator()(const ReadingLogged& reading) const
    {
        Refusal refusal = gaugesRefusal(reading.gauges, run_);
        return refusal ? refusal : flowRefusal(reading.flow);
    }

    Refusal operator()(const ElementsChanged& changed) const
    {
        return elementsRefusal(changed.stage, changed.elements, run_);
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

    Refusal operator()(const Kept& kept) const
    {
        if (kept.what == "fix" && run_.phase == Phase::Closed) {
            return refuse(Errc::Conflict, "refused.position", "a position is kept only while its run is open");
        }
        return std::nullopt;
    }

    Refusal operator()(const Amended& amendment) const
    {
        const Fact* fact = run_.factOf(amendment.of);
        if (fact == nullptr || !isSaid(fact->original) || std::holds_alternative<Amended>(fact->original)) {
            return refuse(Errc::NotFound, "refused.amend-nothing", "there is no such entry in this run to amend");
        }
        if (isOfAttachment(fact->original)) {
            return refuse(Errc::Conflict, "refused.amend-attachment",
                          "an attachment is withdrawn, not amended, and a withdrawal stays");
        }
        if (amendment.why.empty()) {
            return refuse(Errc::Malformed, "refused.amend-why", "an amendment needs a reason");
        }
        const auto* changed = std::get_if<ElementsChanged>(&fact->original);
        Refusal refusal = amendment.gauges.empty() ? std::nullopt : gaugesRefusal(amendment.gauges, run_);
        if (!refusal && amendment.note) {
            refusal = faultInNote(*amendment.note);
        }
        if (!refusal && changed != nullptr && amendment.elements) {
            refusal = elementsRefusal(changed->stage, *amendment.elements, run_);
        }
        return refusal ? refusal : flowRefusal(amendment.flow);
    }

    Refusal operator()(const QuestionAnswered& answer) const
    {
        const bool isQuestion = std::find(questionIds.begin(), questionIds.end(), answer.question) != questionIds.end();
        if (!isQuestion && !isFinding(answer.question)) { // what was found may be confirmed, see credit.h
            return refuse(Errc::NotFound, "refused.question", "there is no question \"" + answer.question + "\"");
        }
        if (run_.factOf(answer.of) == nullptr) {
            return refuse(Errc::NotFound, "refused.answer-nothing", "the entry that this answers is not in this run");
        }
        return std::nullopt;
    }

    Refusal operator()(const AlertServiced& serviced) const
    {
        if (!serviced.isInService && !mayLeaveService(serviced.alert)) {
            return refuse(Errc::Conflict, "refused.stays-in-service",
                          "the alert \"" + std::string(nameOf(serviced.alert))
                              + "\" stays in service: it stops the pump or asks for new elements",
                          {{"alert", std::string(nameOf(serviced.alert))}});
        }
        if (!serviced.isInService && serviced.why.empty()) {
            return refuse(Errc::Malformed, "refused.service-why", "taking an alert out of service needs a reason");
        }
        return isOutOfService(serviced.alert, serviced.stage) == serviced.isInService
            ? std::nullopt
            : noSuchAlert(serviced.alert, serviced.stage);
    }

    Refusal operator()(const RunMoved& moved) const
    {
        if (moved.why.empty()) {
            return refuse(Errc::Malformed, "refused.amend-why", "an amendment needs a reason");
        }
        Setup setup = run_.setup;
        setup.tank = moved.tank;
        if (const auto fault = faultIn(setup)) {
            return refusalOf(*fault);
        }
        return std::nullopt;
    }

    Refusal operator()(const StartTold& judged) const
    {
        Refusal refusal = faultIn(judged);
        return refusal ? refusal : flowRefusal(judged.flow);
    }

    Refusal operator()(const Noted& note) const
    {
        Refusal refusal = faultInNote(note.text);
        return refusal ? refusal : aboutRefusal(note.of);
    }

    Refusal operator()(const AttachmentAdded& added) const
    {
        if (Refusal refusal = faultIn(added)) {
            return refusal;
        }
        if (isTaken(run_, added)) {
            return refuse(Errc::Conflict, "refused.attachment-twice", "this is attached already");
        }
        return aboutRefusal(added.of);
    }

    Refusal operator()(const AttachmentWithdrawn& withdrawn) const
    {
        if (trimmed(withdrawn.why).empty()) {
            return refuse(Errc::Malformed, "refused.withdraw-why", "an attachment is withdrawn only with a reason");
        }
        const auto attachments = attachmentsOf(run_);
        const bool isThere = std::ranges::any_of(attachments, [&](const Attachment& attachment) {
            return attachment.entry == withdrawn.of && !attachment.withdrawn;
        });
        return isThere ? std::nullopt
                       : refuse(Errc::NotFound, "refused.withdraw-nothing",
                                "there is no such attachment in this run that could be withdrawn");
    }

    Refusal operator()(const CheckAnswered& answered) const { return faultIn(answered); }

    Refusal operator()(const WasteTransferred& transfer) const { return faultIn(transfer); }

    Refusal operator()(const AlertAcknowledged& acknowledged) const
    {
        return standingRefusal(acknowledged.alert, acknowledged.stage);
    }

    Refusal operator()(const AlertShelved& shelved) const
    {
        if (shelved.why.empty() || shelved.forMs <= RunTime{0}) {
            return refuse(Errc::Malformed, "refused.shelve-why", "shelving an alert needs a reason and a time");
        }
        const Alert* alert = run_.alertOf(shelved.alert, shelved.stage);
        return alert != nullptr && alert->state == AlertState::Returned ? noSuchAlert(shelved.alert, shelved.stage)
                                                                        : standingRefusal(shelved.alert, shelved.stage);
    }

    template<class Other>
    Refusal operator()(const Other&) const
    {
        return std::nullopt;
    }

private:
    static bool isOfAttachment(const Event& event)
    {
        return std::holds_alternative<AttachmentAdded>(event) || std::holds_alternative<AttachmentWithdrawn>(event);
    }

    /// A note or an attachment is about an entry of this run, or about the run.
    [[nodiscard]] Refusal aboutRefusal(const Id& of) const
    {
        return of.isNone() || run_.factOf(of) != nullptr
            ? std::nullopt
            : refuse(Errc::NotFound, "refused.note-of-nothing", "the entry that this is about is not in this run");
    }

    [[nodiscard]] Refusal standingRefusal(AlertId alert, std::optional<int> stage) const
    {
        const bool isThere = run_.alertOf(alert, stage) != nullptr && !isOutOfService(alert, stage);
        return isThere ? std::nullopt : noSuchAlert(alert, stage);
    }

    [[nodiscard]] bool isOutOfService(AlertId id, std::optional<int> stage) const
    {
        const Alert* alert = run_.alertOf(id, stage);
        return alert != nullptr && alert->state == AlertState::OutOfService;
    }

    static Refusal noSuchAlert(AlertId alert, std::optional<int> stage)
    {
        return refuse(Errc::NotFound, "refused.no-such-alert",
                      "no alert \"" + std::string(nameOf(alert)) + "\" stands"
                          + (stage ? " for stage " + std::to_string(*stage) : std::string()),
                      {{"alert", std::string(nameOf(alert))}});
    }

    const RunState& run_;
};

/// A record says "met" only of a target that the turnovers met, or that was counted on site.
Refusal endingRefusal(Ending ending, const TurnoverBand& turnovers, const Target& target)
{
    const bool claimsTarget = ending == Ending::TargetMet || ending == Ending::TargetMetCodeAwaited;
    const bool isCounted = ending == Ending::TargetMet && !target.code.empty() && target.counterOnSite;
    if (!claimsTarget || isCounted || (target.turnovers && meetsTarget(turnovers, target))) {
        return std::nullopt;
    }
    if (!target.turnovers) {
        return refuse(Errc::Conflict, "refused.no-target",
                      "this run has no target in turnovers that it could have met");
    }
    const std::string best = fixed(turnovers.best, 2);
    return refuse(Errc::Conflict, "refused.target-not-met",
                  "the target of " + target.turnovers->toText() + " turnovers is not met at " + best,
                  {{"target", target.turnovers->toText()}, {"best", best}});
}

/// What `run` comes to with those that it is one with; nothing where it is one with none.
std::optional<TurnoverBand> togetherOf(const Context& context, const Id& run)
{
    const auto known = context.together.find(run);
    return known == context.together.end() ? std::nullopt : std::optional(known->second);
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

    void addAll(const std::vector<Event>& events)
    {
        std::ranges::for_each(events, [&](const Event& event) { add(event); });
    }

    /// Ends the run with its totals. The end is an entry like others, so time is credited up to it.
    Refusal close(Ending ending, std::string why)
    {
        const Target& target = run().setup.target;
        if (ending == Ending::TargetMet && !target.code.empty() && !target.counterOnSite) {
            ending = Ending::TargetMetCodeAwaited; // nobody can have counted yet
        }
        RunClosed closed{ending, std::move(why), {}, 0.0};
        Decider after(run(), context_);
        after.add(closed);
        const Credit credit = standingByGauges(after.run(), after.now()).credit;
        if (Refusal refusal = endingRefusal(ending, towardsTarget(credit.turnovers, together()), target)) {
            return refusal;
        }
        closed.turnovers = credit.turnovers;
        closed.filtered_l = credit.filtered.in(units::litre);
        add(std::move(closed));
        return std::nullopt;
    }

    /// Raises and clears what now stands differently, and keeps what a loading that is over teaches and what a
    /// changeover took out of the stock.
    std::vector<Decided> settled()
    {
        for (Event& change : changes()) {
            add(std::move(change));
        }
        return std::move(decided_);
    }

    [[nodiscard]] RunTime now() const { return run().clock.at(context_.now, context_.device); }

    [[nodiscard]] const RunState& run() const { return state_.runs.begin()->second; }

private:
    [[nodiscard]] std::optional<TurnoverBand> together() const { return togetherOf(context_, run().id); }

    /// None of them changes what the others are judged by.
    [[nodiscard]] std::vector<Event> changes() const
    {
        const Standing standing = standingForAlerts(run(), now());
        std::vector<Event> all;
        for (LoadingLearned& learned : learningChanges(run(), standing)) {
            all.emplace_back(std::move(learned));
        }
        for (StockMoved& moved : stockChanges(run())) {
            all.emplace_back(std::move(moved));
        }
        for (Event& change : alertChanges(run(), standing, together())) {
            all.push_back(std::move(change));
        }
        return all;
    }

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

Refusal catalogueRefusal(const std::string& name, const std::optional<SetupFault>& fault)
{
    if (name.empty()) {
        return refuse(Errc::Malformed, "refused.record-name", "a record needs a name");
    }
    return fault ? refusalOf(*fault) : std::nullopt;
}

Refusal recordRefusal(const TankPut& put)
{
    return catalogueRefusal(put.tank.name, faultIn(put.tank));
}

Refusal recordRefusal(const CartPut& put)
{
    const bool hasStages = !put.stages.empty();
    return catalogueRefusal(put.cart.name, hasStages ? faultIn(put.cart, put.stages) : std::optional(noStages()));
}

Refusal recordRefusal(const PersonPut& put)
{
    return put.person.id.isNone()
        ? refuse(Errc::Malformed, "refused.record-person", "nobody is named whose record this is")
        : std::nullopt;
}

Refusal recordRefusal(const FluidPut& put)
{
    return catalogueRefusal(put.name, faultIn(put.fluid));
}

Refusal recordRefusal(const ElementTypePut& put)
{
    return catalogueRefusal(put.stage.type, faultIn(put.stage));
}

Refusal recordRefusal(const JobPut& put)
{
    return catalogueRefusal(put.job.order, faultIn(put.job));
}

Refusal recordRefusal(const RecordServiced& serviced)
{
    const bool isKind = std::find(recordKinds.begin(), recordKinds.end(), serviced.kind) != recordKinds.end();
    if (!isKind || serviced.name.empty()) {
        return refuse(Errc::Malformed, "refused.record-name", "a record needs a name");
    }
    if (!serviced.isInService && serviced.why.empty()) {
        return refuse(Errc::Malformed, "refused.record-why", "taking a record out of service needs a reason");
    }
    return std::nullopt;
}

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
        if (isTaken(open.run)) {
            return fail(Errc::Conflict, "this run is open already", {"refused.open-already", {}});
        }
        if (const auto fault = faultIn(open.setup)) {
            return fail(*refusalOf(*fault));
        }
        return std::vector<Decided>{
            {open.run, RunOpened{open.setup, learnedFor(state_, open.setup), placeLearned(state_, open.setup)}}};
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
        const bool isClosed = run->phase == Phase::Closed; // its time is over
        const std::vector<Event> clock = isClosed ? std::vector<Event>()
                                                  : clockChanges(*run, context_.now, context_.device);
        decider.add(asEvent(say.what));
        decider.addAll(clock);
        const auto* changed = std::get_if<ModeChanged>(&say.what);
        if (run->phase == Phase::CloseOut && changed != nullptr && changed->mode == Mode::Stopped) {
            // refused where it is one with others no more: then the run goes on, its alert goes, and the stop is kept
            std::ignore = decider.close(Ending::TargetMet, {});
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
            const std::vector<Event> clock = clockChanges(*run, context_.now, context_.device);
            if (Refusal refusal = decider.close(close.ending, close.why)) {
                return fail(std::move(*refusal));
            }
            decider.addAll(clock);
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

    Result<std::vector<Decided>> operator()(const OpenJob& open) const
    {
        if (isTaken(open.job)) {
            return fail(Errc::Conflict, "this job is open already", {"refused.job-open-already", {}});
        }
        if (Refusal refusal = faultIn(open.what)) {
            return fail(std::move(*refusal));
        }
        return std::vector<Decided>{{open.job, asEvent(open.what)}};
    }

    Result<std::vector<Decided>> operator()(const SayOfJob& say) const
    {
        const Job* job = state_.jobOf(say.job);
        if (job == nullptr) {
            return fail(Errc::NotFound, "there is no such job on this tablet", {"refused.no-such-job", {}});
        }
        if (!job->isOpen()) {
            return fail(Errc::Conflict, "this job is closed; a new job would take it", {"refused.job-closed", {}});
        }
        if ((job->transfer() != nullptr) != std::holds_alternative<TransferStopped>(say.what)) {
            return fail(Errc::Conflict, "a flush has batches and a close, a transfer has a stop",
                        {"refused.job-kind", {}});
        }
        if (Refusal refusal = faultIn(say.what)) {
            return fail(std::move(*refusal));
        }
        return std::vector<Decided>{{say.job, asEvent(say.what)}};
    }

    Result<std::vector<Decided>> operator()(const MoveStock& move) const
    {
        constexpr int most = 100'000; // elements; more is a slip of the finger
        if (move.type.empty() || move.elements == 0 || std::abs(move.elements) > most) {
            return fail(Errc::OutOfRange, "stock moves need an element type and a number of elements, in or out",
                        {"refused.stock", {}});
        }
        return std::vector<Decided>{{Id{}, StockMoved{move.type, move.elements, move.why, Id{}}}};
    }

    Result<std::vector<Decided>> operator()(const PutRecord& put) const
    {
        if (Refusal refusal = std::visit([](const auto& record) { return recordRefusal(record); }, put.what)) {
            return fail(std::move(*refusal));
        }
        return std::vector<Decided>{{Id{}, asEvent(put.what)}};
    }

    Result<std::vector<Decided>> operator()(const PutRecords& put) const
    {
        std::vector<Decided> all;
        const auto add = [&](const auto& one) {
            auto decided = (*this)(one);
            if (decided) {
                all.insert(all.end(), decided->begin(), decided->end());
            }
            return decided.transform([](const auto&) {});
        };
        for (const RecordPut& record : put.records) {
            if (const Done added = add(PutRecord{record}); !added) {
                return fail(added.error());
            }
        }
        for (const MoveStock& move : put.stock) {
            if (const Done added = add(move); !added) {
                return fail(added.error());
            }
        }
        return all;
    }

    Result<std::vector<Decided>> operator()(const Tick& tick) const
    {
        std::vector<Decided> all;
        for (const auto& [id, run] : state_.runs) {
            if (run.phase == Phase::Closed) {
                continue;
            }
            for (Event& change : clockChanges(run, context_.now, context_.device)) {
                all.push_back({id, std::move(change)});
            }
            if (tick.sleptMs > 0) {
                all.push_back({id, TabletSlept{tick.sleptMs}});
            }
            const Standing standing = standingForAlerts(run, run.clock.at(context_.now, context_.device));
            for (Event& change : alertChanges(run, standing, togetherOf(context_, id))) {
                all.push_back({id, std::move(change)});
            }
        }
        return all;
    }

private:
    [[nodiscard]] bool isTaken(const Id& id) const
    {
        return state_.runOf(id) != nullptr || state_.jobOf(id) != nullptr;
    }

    /// Whether a close was told after the one that fixed the totals by the target.
    static bool isSignedOff(const RunState& run)
    {
        const auto closes = std::count_if(run.facts.begin(), run.facts.end(), [](const Fact& fact) {
            return std::holds_alternative<RunClosed>(fact.original);
        });
        const bool byTarget = run.closed->ending == Ending::TargetMet
            || run.closed->ending == Ending::TargetMetCodeAwaited;
        return closes > 1 || !byTarget;
    }

    const State& state_;
    const Context& context_;
};

} // namespace

Command::Command(const Command&) = default;
Command::Command(Command&&) noexcept = default;
Command& Command::operator=(const Command&) = default;
Command& Command::operator=(Command&&) noexcept = default;
Command::~Command() = default;

Result<std::vector<Decided>> decide(const State& state, const Command& command, const Context& context)
{
    return std::visit(Commander(state, context), command);
}

} // namespace loopside::run
