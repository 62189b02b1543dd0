// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "run/cart.h"

#include <algorithm>

namespace loopside::run {

namespace {

constexpr std::string_view transferKey = "transfer"; ///< How journals of old keep a transfer within a run.

bool isWaste(const Event& event)
{
    const auto* kept = std::get_if<Kept>(&event);
    return std::holds_alternative<WasteTransferred>(event) || (kept != nullptr && kept->what == transferKey);
}

void mark(CartStanding& cart, const Header& header)
{
    if (!cart.flushBeforeCleanUse) {
        cart.flushBeforeCleanUse = {header.run, header.entered};
    }
}

/// Whether an event of a run can change what is known of its cart.
bool touchesCart(const Event& event)
{
    return std::holds_alternative<ModeChanged>(event) || isWaste(event);
}

void take(CartStanding& cart, const RunState& run, const Header& header, const Event& event)
{
    const auto* changed = std::get_if<ModeChanged>(&event);
    if (changed != nullptr && changed->mode != Mode::Stopped) {
        cart.lastFluid = fluidText(run.setup.tank.fluid);
        cart.lastFamily = run.setup.tank.fluid.kind;
    } else if (isWaste(event)) {
        mark(cart, header);
    }
}

/// A flush counts where it is closed, a transfer where the pump starts.
void take(CartStanding& cart, const Job& job)
{
    if (const TransferOpened* transfer = job.transfer()) {
        cart.lastFluid = transfer->fluid;
        cart.lastFamily = transfer->family;
        mark(cart, job.opened);
    } else if (!job.batches().empty()) {
        cart.lastFluid = job.flush()->toFluid;
        cart.lastFamily = job.flush()->toFamily;
        cart.flushBeforeCleanUse.reset();
        cart.lastFlush = job.id;
    }
}

/// The entry from which on `job` counts for its cart, if there is one yet.
const Header* countingEntry(const Job& job)
{
    if (job.transfer() != nullptr) {
        return &job.opened;
    }
    const auto closing = std::find_if(job.facts.begin(), job.facts.end(), [](const JobFact& fact) {
        return std::holds_alternative<FlushClosed>(fact.said);
    });
    return closing == job.facts.end() ? nullptr : &closing->header;
}

/// One thing a cart went through: a fact of a run, or a job.
struct CartUse
{
    const Header* header = nullptr;
    const RunState* run = nullptr;
    const Fact* fact = nullptr;
    const Job* job = nullptr;
};

std::vector<CartUse> usesOf(const State& state, const std::string& cart)
{
    std::vector<CartUse> uses;
    for (const auto& [id, run] : state.runs) {
        if (run.setup.cart.name != cart) {
            continue;
        }
        for (const Fact& fact : run.facts) {
            if (!fact.struck && touchesCart(fact.effective)) {
                uses.push_back({&fact.header, &run, &fact, nullptr});
            }
        }
    }
    for (const auto& [id, job] : state.jobs) {
        const Header* counting = job.cart() == cart ? countingEntry(job) : nullptr;
        if (counting != nullptr) {
            uses.push_back({counting, nullptr, nullptr, &job});
        }
    }
    std::sort(uses.begin(), uses.end(),
              [](const CartUse& a, const CartUse& b) { return foldsBefore(*a.header, *b.header); });
    return uses;
}

CartStanding afresh(const State& state, const std::string& cart)
{
    CartStanding standing;
    for (const CartUse& use : usesOf(state, cart)) {
        if (use.job != nullptr) {
            take(standing, *use.job);
        } else {
            take(standing, *use.run, *use.header, use.fact->effective);
        }
    }
    return standing;
}

/// Whether anything was ever told that counts for `cart`, also what was struck since.
bool isKnown(const State& state, const std::string& cart)
{
    const auto counts = [](const Fact& fact) {
        return touchesCart(fact.original) || std::holds_alternative<RunMoved>(fact.original);
    };
    return std::any_of(state.runs.begin(), state.runs.end(),
                       [&](const auto& one) {
                           const auto& [id, run] = one;
                           return run.setup.cart.name == cart
                               && std::any_of(run.facts.begin(), run.facts.end(), counts);
                       })
        || std::any_of(state.jobs.begin(), state.jobs.end(), [&](const auto& one) {
               return one.second.cart() == cart && countingEntry(one.second) != nullptr;
           });
}

} // namespace

void updateCarts(State& state, const Header& header, const Event& event)
{
    if (const Job* job = isOfJob(event) ? state.jobOf(header.run) : nullptr) {
        const Header* counting = countingEntry(*job);
        if (counting != nullptr && counting->id == header.id && !job->cart().empty()) {
            take(state.carts[job->cart()], *job);
        }
        return;
    }
    const RunState* run = state.runOf(header.run);
    if (run == nullptr || run->setup.cart.name.empty()) {
        return;
    }
    const std::string& cart = run->setup.cart.name;
    if (touchesCart(event)) {
        take(state.carts[cart], *run, header, event);
    } else if (std::holds_alternative<RunMoved>(event)) {
        state.carts[cart] = afresh(state, cart); // it pumped another oil than was told
    } else if (const auto* amendment = std::get_if<Amended>(&event)) {
        const Fact* amended = run->factOf(amendment->of);
        if (amended != nullptr && touchesCart(amended->original)) {
            state.carts[cart] = afresh(state, cart); // the past changed: all of it counts anew
        }
    }
}

void recountCart(State& state, const std::string& cart)
{
    state.carts.erase(cart);
    if (!cart.empty() && isKnown(state, cart)) {
        state.carts[cart] = afresh(state, cart);
    }
}

std::string fluidText(const FluidRecord& fluid)
{
    const std::string name = fluid.grade.empty() && fluid.viscosity ? fluid.viscosity->toText() : fluid.grade;
    return name.empty() || fluid.kind.empty() ? name + fluid.kind : name + " " + fluid.kind;
}

} // namespace loopside::run
