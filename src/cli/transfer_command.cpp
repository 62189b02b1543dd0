// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "base/text.h"
#include "cli/commands.h"
#include "cli/options.h"
#include "filtration/transfer.h"

#include <nlohmann/json.hpp>

#include <cmath>

namespace loopside::cli {

namespace {

using Json = nlohmann::ordered_json;
using filtration::Transfer;
using filtration::TransferPlan;
using units::litre;
using units::Volume;

Result<Transfer> transferFrom(const TransferOptions& options)
{
    const auto oil = aboveZero<Volume>("--oil", options.oil);
    if (!oil) {
        return fail(oil.error());
    }
    const auto container = aboveZero<Volume>("--container", options.container);
    if (!container) {
        return fail(container.error());
    }
    const auto flow = aboveZero<units::Flow>("--flow", options.flow);
    if (!flow) {
        return fail(flow.error());
    }
    const auto holds = options.holds.empty() ? Volume{} : quantityOf<Volume>("--holds", options.holds);
    if (!holds) {
        return fail(holds.error());
    }
    return Transfer{*oil, *container, *holds, *flow};
}

Json planJson(const TransferPlan& plan, const std::vector<std::string>& label)
{
    Json cautions = Json::array();
    for (const auto& caution : filtration::transferCautions()) {
        cautions.push_back({{"id", caution.id}, {"sentence", caution.sentence}});
    }
    return {{"free_l", plan.free.in(litre)},
            {"usable_l", plan.usable.in(litre)},
            {"first_l", plan.first.in(litre)},
            {"stop_at_s", plan.stopAt.in(units::second)},
            {"full", plan.fullMax.in(units::one)},
            {"left_l", plan.left.in(litre)},
            {"containers", plan.containers},
            {"last_l", plan.last.in(litre)},
            {"turnovers", filtration::transferTurnovers},
            {"cart_mark", filtration::markAfterTransfer},
            {"label", label},
            {"cautions", cautions}};
}

/// What may be filled is rounded down, what is left over up.
std::string roundedDown(Volume volume)
{
    return fixed(std::floor(volume.in(litre) + 1e-9), 0) + " L";
}

std::string roundedUp(Volume volume)
{
    return fixed(std::ceil(volume.in(litre)-1e-9), 0) + " L";
}

void tellPlan(const TransferPlan& plan, const std::vector<std::string>& label, std::ostream& out)
{
    out << "free " << roundedDown(plan.free) << ", usable " << roundedDown(plan.usable) << "\n"
        << "stop after " << fixed(plan.stopAt.in(units::minute), 1) << " min at the latest: " << roundedDown(plan.first)
        << ", container then " << fixed(plan.fullMax.in(units::percent), 0) << " % full\n";
    if (plan.containers == 2) {
        out << roundedUp(plan.left) << " are left: a second container is needed\n";
    } else if (plan.containers > 2) {
        out << roundedUp(plan.left) << " are left: " << plan.containers - 1 << " more containers are needed, "
            << roundedUp(plan.last) << " in the last\n";
    }
    out << "no turnovers are counted; the cart is marked \"" << filtration::markAfterTransfer << "\"\n\nlabel\n";
    for (const std::string& line : label) {
        out << "  " << line << "\n";
    }
    out << "\nbefore the start\n";
    for (const auto& caution : filtration::transferCautions()) {
        out << "  " << caution.sentence << "\n";
    }
}

} // namespace

Done transfer(const TransferOptions& options, std::ostream& out)
{
    const auto what = transferFrom(options);
    if (!what) {
        return fail(what.error());
    }
    const auto plan = filtration::planTransfer(*what);
    if (!plan) { // what is left to refuse is the room in the container
        return fail(at(options.holds.empty() ? "--container" : "--holds", plan.error()));
    }
    const auto label = filtration::usedOilLabel({options.tank, options.fluid, plan->first});
    if (options.json) {
        out << planJson(*plan, label).dump() << "\n";
    } else {
        tellPlan(*plan, label, out);
    }
    return {};
}

} // namespace loopside::cli
