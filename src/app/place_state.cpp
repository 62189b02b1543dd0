// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "app/place_state.h"

#include "app/job_words.h"
#include "app/wording.h"
#include "base/text.h"

#include <algorithm>
#include <ranges>

namespace loopside::app {

namespace {

template<class IsIt>
const run::RunState* latestRun(const Tablet& tablet, IsIt isIt)
{
    const run::RunState* closed = nullptr;
    for (const auto& [id, run] : std::views::reverse(tablet.state().runs)) {
        if (isIt(run) && run.phase != run::Phase::Closed) {
            return &run;
        }
        closed = isIt(run) && closed == nullptr ? &run : closed;
    }
    return closed;
}

} // namespace

PlaceState tankStateOf(const Tablet& tablet, const std::string& tank)
{
    for (const auto& [id, job] : tablet.state().jobs) {
        if (job.isOpen() && job.transfer() != nullptr && job.transfer()->tank == tank) {
            return {tablet.say({"app.place.to-waste", {{"cart", job.cart()}}}), true};
        }
    }
    const auto* run = latestRun(tablet, [&](const run::RunState& one) { return one.setup.tank.name == tank; });
    if (run == nullptr) {
        return {tablet.label("app.place.no-run-yet"), false};
    }
    if (run->phase != run::Phase::Closed) {
        const auto mode = tablet.say({"mode." + std::string(run::nameOf(tablet.standing(*run).mode)), {}});
        return {toQt(run->setup.cart.name) + QStringLiteral(", ") + mode, true};
    }
    return {tablet.say({"app.place.last-run",
                        {{"day", dateText(run->opened.entered).toStdString()},
                         {"turnovers", fixed(run->closed->turnovers.best, 1)}}}),
            false};
}

PlaceState cartStateOf(const Tablet& tablet, const std::string& cart)
{
    for (const auto& [id, job] : tablet.state().jobs) {
        if (job.isOpen() && job.cart() == cart) {
            return {tablet.label(job.flush() != nullptr ? "app.place.flushing" : "app.place.pumps-waste"), true};
        }
    }
    const auto* run = latestRun(tablet, [&](const run::RunState& one) { return one.setup.cart.name == cart; });
    if (run != nullptr && run->phase != run::Phase::Closed) {
        return {tablet.say({"app.place.at", {{"tank", run->setup.tank.name}}}), true};
    }
    if (isMarked(tablet, cart)) {
        return {tablet.label("app.cart.marked"), false};
    }
    const auto& carts = tablet.site().carts;
    const auto known = std::ranges::find_if(carts, [&](const SiteCart& one) { return one.cart.name == cart; });
    const std::string fluid = known == carts.end() ? std::string() : lastFluidOf(tablet, known->cart);
    return {fluid.empty() ? tablet.label("app.place.fluid-unknown")
                          : tablet.say({"app.place.last-fluid", {{"fluid", fluid}}}),
            false};
}

} // namespace loopside::app
