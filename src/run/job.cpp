// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "run/job.h"

#include "base/text.h"
#include "filtration/flush.h"
#include "filtration/transfer.h"
#include "run/checklist.h"

#include <algorithm>
#include <cmath>

namespace loopside::run {

namespace {

using Fault = std::optional<Error>;

Fault fault(std::string id, std::string sentence, std::vector<Message::Argument> arguments = {})
{
    return Error{Errc::OutOfRange, std::move(sentence), {std::move(id), std::move(arguments)}};
}

/// `what` begins the sentence, such as "a batch".
Fault volumeFault(const TypedVolume& volume, const std::string& id, const std::string& what)
{
    const std::string text = volume.toText();
    return fault(id, what + " cannot be " + text, {{"volume", text}});
}

Fault unlessAbove(const std::optional<TypedVolume>& volume, const std::string& id, const std::string& what)
{
    return volume && volume->number() <= Decimal(0, 0) ? volumeFault(*volume, id, what) : std::nullopt;
}

Fault ifBelow(const std::optional<TypedVolume>& volume, const std::string& id, const std::string& what)
{
    return volume && volume->number() < Decimal(0, 0) ? volumeFault(*volume, id, what) : std::nullopt;
}

Fault firstOf(std::initializer_list<Fault> faults)
{
    const auto* first = std::find_if(faults.begin(), faults.end(), [](const Fault& one) { return one.has_value(); });
    return first == faults.end() ? std::nullopt : *first;
}

Fault overfull(const std::optional<TypedVolume>& capacity, const std::optional<TypedVolume>& holds)
{
    if (!capacity || !holds || holds->value() <= capacity->value()) {
        return std::nullopt;
    }
    return fault("refused.container-holds-more",
                 "a container of " + capacity->toText() + " cannot hold " + holds->toText(),
                 {{"capacity", capacity->toText()}, {"holds", holds->toText()}});
}

Fault containerFault(const std::optional<TypedVolume>& capacity, const std::optional<TypedVolume>& holds)
{
    return firstOf({unlessAbove(capacity, "refused.container-capacity", "the capacity of a container"),
                    ifBelow(holds, "refused.container-holds", "what a container holds"), overfull(capacity, holds)});
}

Fault cartFault(const std::string& cart)
{
    return cart.empty() ? fault("refused.job-cart", "a job needs the name of its cart") : std::nullopt;
}

Fault flowFault(const std::optional<TypedFlow>& flow)
{
    return flow && flow->number() <= Decimal(0, 0)
        ? fault("refused.job-flow", "the flow of a pump that runs cannot be " + flow->toText(),
                {{"flow", flow->toText()}})
        : std::nullopt;
}

Fault wantedFault(const std::optional<units::Typed<units::Fraction>>& wanted)
{
    if (!wanted || (wanted->number() >= Decimal(0, 0) && wanted->value().in(units::one) <= 1.0)) {
        return std::nullopt;
    }
    return fault("refused.flush-wanted", "a part of the old oil cannot be " + wanted->toText(),
                 {{"wanted", wanted->toText()}});
}

Fault checksFault(const std::vector<CheckAnswered>& checks)
{
    for (const CheckAnswered& check : checks) {
        if (Fault found = faultIn(check)) {
            return found;
        }
    }
    return std::nullopt;
}

struct Judge
{
    Fault operator()(const FlushOpened& flush) const
    {
        return firstOf({cartFault(flush.cart),
                        unlessAbove(flush.left, "refused.flush-left", "what stays in a drained cart"),
                        unlessAbove(flush.batch, "refused.flush-batch", "a batch"), wantedFault(flush.wanted)});
    }

    Fault operator()(const TransferOpened& transfer) const
    {
        return firstOf({cartFault(transfer.cart), containerFault(transfer.capacity, transfer.holds),
                        unlessAbove(transfer.planned, "refused.transfer-volume", "a volume to be moved"),
                        flowFault(transfer.flow), checksFault(transfer.checks)});
    }

    Fault operator()(const FlushBatch& batch) const
    {
        return unlessAbove(batch.volume, "refused.flush-batch", "a batch");
    }

    Fault operator()(const FlushClosed&) const { return std::nullopt; }

    /// Nothing may have moved: a pump that did not draw.
    Fault operator()(const TransferStopped& stopped) const
    {
        return ifBelow(stopped.moved, "refused.transfer-moved", "a volume that was moved");
    }
};

FlushStanding standingOf(const FlushOpened& flush, const std::vector<TypedVolume>& batches)
{
    FlushStanding standing;
    standing.batches = static_cast<int>(batches.size());
    std::optional<double> part = 1.0;
    for (const TypedVolume& batch : batches) {
        standing.flushed += batch.value();
        const auto after = filtration::residualAfter(flush.left.value(), batch.value(), 1);
        part = part && after ? std::optional(*part * after->in(units::one)) : std::nullopt;
    }
    if (part) {
        standing.residual = units::Fraction(*part, units::one);
    }
    if (part && flush.wanted) {
        standing.isThinEnough = *standing.residual <= flush.wanted->value();
    }
    return standing;
}

RunTime runTimeOf(units::Duration duration)
{
    return RunTime{std::llround(std::min(duration.in(units::second), 1e9) * 1000.0)};
}

TransferStanding standingOf(const TransferOpened& transfer, RunTime begun)
{
    TransferStanding standing;
    if (!transfer.holds) {
        standing.why = "What the container holds already is not known.";
        return standing;
    }
    const units::Flow anyFlow(1.0, units::litrePerMinute); // stands in where none is known: it changes no volume
    const auto plan = filtration::planTransfer({transfer.planned.value(), transfer.capacity.value(),
                                                transfer.holds->value(),
                                                transfer.flow ? transfer.flow->value() : anyFlow});
    if (!plan) {
        standing.why = plan.error().sentence;
        return standing;
    }
    standing.free = plan->free;
    standing.usable = plan->usable;
    standing.rest = plan->left;
    if (transfer.flow) {
        standing.stopAt = begun + runTimeOf(plan->stopAt);
    }
    return standing;
}

} // namespace

std::optional<Error> faultIn(const JobOpened& opened)
{
    return std::visit(Judge{}, opened);
}

std::optional<Error> faultIn(const JobSaid& said)
{
    return std::visit(Judge{}, said);
}

std::optional<Error> faultIn(const WasteTransferred& transfer)
{
    return firstOf({unlessAbove(transfer.volume, "refused.transfer-moved", "a volume that was moved"),
                    containerFault(transfer.capacity, transfer.holds)});
}

std::optional<Error> faultIn(const StartTold& judged)
{
    if (judged.by.empty() != judged.why.empty()) {
        return fault("refused.override-why", "a start against the verdict needs who starts and why");
    }
    const bool isKnown = std::find(startVerdicts.begin(), startVerdicts.end(), judged.verdict) != startVerdicts.end();
    if (!isKnown && (!judged.verdict.empty() || !judged.isOverride())) {
        return fault("refused.verdict", "there is no verdict \"" + quotable(judged.verdict) + "\" about a start",
                     {{"verdict", judged.verdict}});
    }
    if (judged.verdict == startVerdicts.front() && judged.isOverride()) {
        return fault("refused.override-go", "the verdict is go: there is nothing to start against");
    }
    return std::nullopt;
}

JobStanding jobStanding(const Job& job, RunTime now)
{
    JobStanding standing{.now = now, .isOpen = job.isOpen()};
    if (const FlushOpened* flush = job.flush()) {
        standing.flush = standingOf(*flush, job.batches());
    } else if (const TransferOpened* transfer = job.transfer()) {
        standing.transfer = standingOf(*transfer, job.begun());
        standing.transfer->isStopOverdue = job.isOpen() && standing.transfer->stopAt
            && now >= *standing.transfer->stopAt;
    }
    return standing;
}

} // namespace loopside::run
