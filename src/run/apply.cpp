// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "run/apply.h"

#include "run/cart.h"

#include <algorithm>
#include <array>
#include <type_traits>
#include <utility>

namespace loopside::run {

namespace {

template<class Part>
void replaceIf(Part& part, const Part& with)
{
    if (with) {
        part = with;
    }
}

void amend(ReadingLogged& reading, const Amended& by)
{
    if (!by.gauges.empty()) {
        reading.gauges = by.gauges;
    }
    if (by.unit != nullptr) {
        reading.unit = by.unit;
    }
    replaceIf(reading.oil, by.oil);
    replaceIf(reading.flow, by.flow);
}

void amend(ModeChanged& changed, const Amended& by)
{
    changed.mode = by.mode.value_or(changed.mode);
    replaceIf(changed.flow, by.flow);
}

void amend(ElementsChanged& changed, const Amended& by)
{
    changed.elements = by.elements.value_or(changed.elements);
}

void amend(Noted& note, const Amended& by)
{
    note.text = by.note.value_or(note.text);
}

/// The other events have nothing that an amendment can name; striking them is all there is.
template<class Other>
void amend(Other&, const Amended&)
{
}

std::optional<oil::Fluid> fluidOf(const Setup& setup)
{
    const auto fluid = oil::Fluid::from(setup.tank.fluid.properties());
    return fluid ? std::optional(*fluid) : std::nullopt;
}

/// Handles one event for one run.
class Applier
{
public:
    Applier(RunState& run, const Header& header) : run_{run}, header_{header}
    {
        entered_ = run.clock.enter(header.entered, header.device);
    }

    void operator()(const Amended& amendment)
    {
        keep(amendment);
        const auto fact = std::find_if(run_.facts.begin(), run_.facts.end(),
                                       [&](const Fact& candidate) { return candidate.header.id == amendment.of; });
        if (fact == run_.facts.end()) {
            return;
        }
        std::visit([&](auto& what) { amend(what, amendment); }, fact->effective);
        fact->struck = fact->struck || amendment.struck;
        fact->amendedBy.push_back(header_.id);
        for (Alert& alert : run_.alerts) {
            alert.asToldThen = alert.asToldThen || alert.ground == amendment.of;
        }
    }

    void operator()(const AlertRaised& raised)
    {
        forget(raised.alert, raised.stage);
        if (raised.alert == AlertId::StageAtLimit) {
            giveWay(AlertId::StageNearLimit, raised.stage); // the worse one takes its place
        }
        run_.alerts.push_back({raised.alert, raised.stage, AlertState::Unacknowledged, entered_, std::nullopt,
                               raised.ground, raised.told, false});
        if (raised.alert == AlertId::TargetTurnoversMet && run_.phase == Phase::Open && endsAtTurnovers()) {
            run_.phase = Phase::CloseOut;
        }
        keep(raised);
    }

    void operator()(const AlertCleared& cleared)
    {
        Alert* alert = find(cleared.alert, cleared.stage);
        if (alert != nullptr && alert->state != AlertState::OutOfService) {
            // A reading answers an overdue one: the person at the cart has acted, nothing is left to acknowledge.
            if (alert->state == AlertState::Unacknowledged && cleared.alert != AlertId::ReadingOverdue) {
                alert->state = AlertState::Returned;
            } else {
                forget(cleared.alert, cleared.stage);
            }
        }
        if (cleared.alert == AlertId::TargetTurnoversMet && run_.phase == Phase::CloseOut) {
            run_.phase = Phase::Open;
        }
        keep(cleared);
    }

    void operator()(const AlertAcknowledged& acknowledged)
    {
        if (Alert* alert = find(acknowledged.alert, acknowledged.stage)) {
            if (alert->state == AlertState::Returned) {
                forget(acknowledged.alert, acknowledged.stage);
            } else {
                alert->state = AlertState::Acknowledged;
            }
        }
        keep(acknowledged);
    }

    void operator()(const AlertShelved& shelved)
    {
        if (Alert* alert = find(shelved.alert, shelved.stage)) {
            alert->state = AlertState::Shelved;
            alert->shelvedUntil = entered_ + shelved.forMs;
        }
        keep(shelved);
    }

    /// An alert out of service stays in the list, where it keeps itself from being raised.
    void operator()(const AlertServiced& serviced)
    {
        forget(serviced.alert, serviced.stage);
        if (!serviced.isInService) {
            run_.alerts.push_back({serviced.alert, serviced.stage, AlertState::OutOfService, entered_});
        }
        keep(serviced);
    }

    void operator()(const RunMoved& moved)
    {
        run_.movedFrom.push_back(std::exchange(run_.setup.tank, moved.tank));
        run_.fluid = fluidOf(run_.setup);
        for (Alert& alert : run_.alerts) {
            alert.asToldThen = true;
        }
        keep(moved);
    }

    void operator()(const StockMoved& moved)
    {
        run_.used.push_back(moved);
        keep(moved);
    }

    void operator()(const RunClosed& closed)
    {
        if (run_.phase != Phase::Closed) {
            run_.closed = closed;
            run_.closedAt = entered_;
            run_.phase = Phase::Closed;
        }
        keep(closed);
    }

    void operator()(const LoadingLearned& learned)
    {
        const auto same = std::find_if(run_.taught.begin(), run_.taught.end(), [&](const LoadingLearned& told) {
            return told.stage == learned.stage && told.number == learned.number;
        });
        if (same == run_.taught.end()) {
            run_.taught.push_back(learned);
        } else {
            *same = learned;
        }
        keep(learned);
    }

    void operator()(const RunOpened&) {}

    template<class Other>
    void operator()(const Other& said)
    {
        keep(said);
    }

private:
    void keep(const Event& event)
    {
        const RunTime seen = std::max(RunTime{0}, entered_ - RunTime{header_.observed.agoMs});
        run_.facts.push_back({header_, event, event, {}, false, entered_, seen});
    }

    /// A cleanliness target keeps the run open only where a counter is on site.
    [[nodiscard]] bool endsAtTurnovers() const
    {
        return run_.setup.target.code.empty() || !run_.setup.target.counterOnSite;
    }

    Alert* find(AlertId id, std::optional<int> stage)
    {
        const auto found = std::find_if(run_.alerts.begin(), run_.alerts.end(),
                                        [&](const Alert& alert) { return alert.id == id && alert.stage == stage; });
        return found == run_.alerts.end() ? nullptr : &*found;
    }

    void forget(AlertId id, std::optional<int> stage)
    {
        std::erase_if(run_.alerts, [&](const Alert& alert) { return alert.id == id && alert.stage == stage; });
    }

    void giveWay(AlertId id, std::optional<int> stage)
    {
        const Alert* alert = find(id, stage);
        if (alert != nullptr && alert->state != AlertState::OutOfService) {
            forget(id, stage);
        }
    }

    RunState& run_;
    const Header& header_;
    RunTime entered_{0};
};

/// Handles one event of a job that is no run. What fits no job of its kind changes nothing.
class JobApplier
{
public:
    JobApplier(State& state, const Header& header) : state_{state}, header_{header} {}

    void operator()(const FlushOpened& flush) { open(flush); }
    void operator()(const TransferOpened& transfer) { open(transfer); }

    void operator()(const FlushBatch& batch)
    {
        if (Job* job = find(); job != nullptr && job->flush() != nullptr) {
            keep(*job, batch);
        }
    }

    void operator()(const FlushClosed& closed)
    {
        if (Job* job = find(); job != nullptr && job->flush() != nullptr) {
            close(*job, closed);
        }
    }

    void operator()(const TransferStopped& stopped)
    {
        if (Job* job = find(); job != nullptr && job->transfer() != nullptr) {
            close(*job, stopped);
        }
    }

    template<class OfRun>
    void operator()(const OfRun&)
    {
    }

private:
    void open(JobOpened what)
    {
        state_.jobs.try_emplace(
            header_.run,
            Job{header_.run, std::move(what), header_, RunClock(header_.entered, header_.device), {}, std::nullopt});
    }

    Job* find()
    {
        const auto job = state_.jobs.find(header_.run);
        return job == state_.jobs.end() ? nullptr : &job->second;
    }

    RunTime keep(Job& job, JobSaid said)
    {
        const RunTime seen = job.clock.enter(header_.entered, header_.device) - RunTime{header_.observed.agoMs};
        job.facts.push_back({header_, std::move(said), seen});
        return seen;
    }

    void close(Job& job, JobSaid said)
    {
        const RunTime seen = keep(job, std::move(said));
        job.closedAt = job.closedAt.value_or(seen);
    }

    State& state_;
    const Header& header_;
};

template<class What, class... Records>
constexpr bool isOneOf(const std::variant<Records...>*)
{
    return (std::is_same_v<What, Records> || ...);
}

std::optional<RecordPut> recordIn(const Event& event)
{
    std::optional<RecordPut> record;
    std::visit(
        [&]<class What>(const What& what) {
            if constexpr (isOneOf<What>(static_cast<RecordPut*>(nullptr))) {
                record = what;
            }
        },
        event);
    return record;
}

/// Puts `one` where it belongs in fold order; false if it is there already.
template<class What>
bool putInOrder(std::vector<Entered<What>>& all, Entered<What> one)
{
    const auto behind = std::upper_bound(all.begin(), all.end(), one,
                                         [](const auto& a, const auto& b) { return foldsBefore(a.header, b.header); });
    for (auto same = behind; same != all.begin() && !foldsBefore((same - 1)->header, one.header); --same) {
        if ((same - 1)->header.id == one.header.id) {
            return false;
        }
    }
    all.insert(behind, std::move(one));
    return true;
}

void add(StockStanding& stock, const StockMoved& moved)
{
    stock.elements += moved.elements;
    stock.isCounted = stock.isCounted || moved.of == Id{};
}

RunState opened(const Header& header, const RunOpened& event)
{
    return {
        .id = header.run,
        .setup = event.setup,
        .fluid = fluidOf(event.setup),
        .opened = header,
        .clock = RunClock(header.entered, header.device),
        .past = event.learned,
        .place = event.place,
    };
}

} // namespace

std::string_view nameOf(AlertState state)
{
    constexpr std::array<std::string_view, 5> names = {"unacknowledged", "acknowledged", "returned", "shelved",
                                                       "out-of-service"};
    return names.at(static_cast<std::size_t>(state));
}

std::string_view nameOf(Phase phase)
{
    constexpr std::array<std::string_view, 3> names = {"open", "close-out", "closed"};
    return names.at(static_cast<std::size_t>(phase));
}

const Fact* RunState::factOf(const Id& entry) const
{
    const auto found = std::find_if(facts.begin(), facts.end(),
                                    [&](const Fact& fact) { return fact.header.id == entry; });
    return found == facts.end() ? nullptr : &*found;
}

const Alert* RunState::alertOf(AlertId alert, std::optional<int> stage) const
{
    const auto found = std::find_if(alerts.begin(), alerts.end(), [&](const Alert& candidate) {
        return candidate.id == alert && candidate.stage == stage;
    });
    return found == alerts.end() ? nullptr : &*found;
}

const RunState* State::runOf(const Id& run) const
{
    const auto found = runs.find(run);
    return found == runs.end() ? nullptr : &found->second;
}

const Job* State::jobOf(const Id& job) const
{
    const auto found = jobs.find(job);
    return found == jobs.end() ? nullptr : &found->second;
}

const CartStanding* State::cartOf(const std::string& cart) const
{
    const auto found = carts.find(cart);
    return found == carts.end() ? nullptr : &found->second;
}

const std::string& Job::cart() const
{
    return std::visit([](const auto& opening) -> const std::string& { return opening.cart; }, what);
}

std::vector<TypedVolume> Job::batches() const
{
    std::vector<TypedVolume> volumes;
    for (const JobFact& fact : facts) {
        if (std::holds_alternative<FlushClosed>(fact.said)) {
            break;
        }
        if (const auto* batch = std::get_if<FlushBatch>(&fact.said)) {
            volumes.push_back(batch->volume);
        }
    }
    return volumes;
}

State apply(State state, const Header& header, const Event& event)
{
    applyToRun(state, header, event);
    applyToSite(state, header, event);
    updateCarts(state, header, event);
    return state;
}

void applyToRun(State& state, const Header& header, const Event& event)
{
    if (const auto* opening = std::get_if<RunOpened>(&event)) {
        state.runs.try_emplace(header.run, opened(header, *opening));
    } else if (isOfJob(event)) {
        std::visit(JobApplier(state, header), event);
    } else if (const auto run = state.runs.find(header.run); run != state.runs.end()) {
        std::visit(Applier(run->second, header), event);
    }
}

void applyToSite(State& state, const Header& header, const Event& event)
{
    const auto* moved = std::get_if<StockMoved>(&event);
    if (moved != nullptr && putInOrder(state.stockMoves, {header, *moved})) {
        add(state.stock[moved->type], *moved);
    }
    if (auto put = recordIn(event)) {
        putInOrder(state.records, {header, *std::move(put)});
    }
}

void takeBackFromSite(State& state, const Id& entry)
{
    const auto isIt = [&](const auto& entered) { return entered.header.id == entry; };
    std::erase_if(state.records, isIt);
    const auto found = std::find_if(state.stockMoves.begin(), state.stockMoves.end(), isIt);
    if (found == state.stockMoves.end()) {
        return;
    }
    const std::string type = found->what.type;
    state.stockMoves.erase(found);
    state.stock.erase(type);
    for (const Entered<StockMoved>& left : state.stockMoves) {
        if (left.what.type == type) {
            add(state.stock[type], left.what);
        }
    }
}

} // namespace loopside::run
