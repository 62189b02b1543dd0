// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "filtration/transfer.h"

#include "base/text.h"
#include "filtration/checks.h"

#include <algorithm>
#include <cmath>

namespace loopside::filtration {

using units::litre;
using units::Volume;

namespace {

constexpr double usableOfFree = 0.90;
constexpr double fullestOfContainer = 0.95;
constexpr double containersMax = 1000.0; // more is a slip in typing

Done check(const Transfer& transfer)
{
    return checkAboveZero(transfer.oil.in(litre), "oil to move", "L")
        .and_then([&] { return checkAboveZero(transfer.container.in(litre), "container's volume", "L"); })
        .and_then([&] { return checkZeroOrMore(transfer.holds.in(litre), "oil already in the container", "L"); })
        .and_then([&] { return checkAboveZero(transfer.flow.in(units::litrePerMinute), "flow", "L/min"); });
}

/// What may be added to a container in which so much is already.
Volume usableIn(Volume container, Volume holds)
{
    return std::min(usableOfFree * (container - holds), fullestOfContainer * container - holds);
}

Done checkRoom(const Transfer& transfer)
{
    const std::string holds = fixed(transfer.holds.in(litre), 1) + " L";
    const std::string container = fixed(transfer.container.in(litre), 1) + " L";
    const std::string in = holds + " in " + container;
    const auto refuse = [&](const std::string& sentence, const char* say) {
        return fail(Errc::OutOfRange, sentence, {say, {{"holds", holds}, {"container", container}}});
    };
    if (transfer.holds > transfer.container) {
        return refuse("The container cannot hold more than its volume: " + in + ".", "transfer.over-full");
    }
    if (!(usableIn(transfer.container, transfer.holds) > Volume{})) {
        return refuse("The container is full, nothing may be added: " + in + ", and 95 % is the most.",
                      "transfer.full");
    }
    return {};
}

std::string orBlank(const std::string& text)
{
    return text.empty() ? "__________" : text;
}

} // namespace

Result<TransferPlan> planTransfer(const Transfer& transfer)
{
    return check(transfer).and_then([&] { return checkRoom(transfer); }).and_then([&]() -> Result<TransferPlan> {
        const Volume usable = usableIn(transfer.container, transfer.holds);
        const Volume first = std::min(usable, transfer.oil);
        const Volume left = transfer.oil - first;
        const Volume each = usableIn(transfer.container, Volume{});
        const double further = std::ceil(left / each * (1.0 - 1e-12));
        if (!(further < containersMax)) {
            return fail(Errc::OutOfRange,
                        "That takes more than 1000 containers: look at the oil to move and at the container's volume.",
                        {"transfer.too-many", {}});
        }
        return TransferPlan{transfer.container - transfer.holds,
                            usable,
                            first,
                            first / transfer.flow,
                            (transfer.holds + first) / transfer.container * units::one,
                            left,
                            1 + static_cast<int>(further),
                            further > 0.0 ? left - (further - 1.0) * each : first};
    });
}

std::vector<std::string> usedOilLabel(const UsedOil& oil)
{
    return {"Used Oil", "From: " + orBlank(oil.tank), "Fluid: " + orBlank(oil.fluid),
            "Volume: about " + fixed(std::floor(oil.volume.in(litre)), 0) + " L", "Date: __________"};
}

std::vector<TransferCaution> transferCautions()
{
    return {{"source-confirmed", "Confirm the source tank a second time: read its plate, not the work order."},
            {"known-oil",
             "Is it known to be spent oil, without solvent or coolant? Unknown: do not pump, follow the "
             "site procedure."},
            {"container-fit",
             "The container is meant for used oil, sound, marked and not leaking, and holds nothing "
             "else: never mix with solvents or coolant."},
            {"container-vented",
             "The container is vented, and bonded where the site asks for it: a drum is no pressure "
             "vessel."},
            {"filters-bypassed", "The valve is at bypass: through the filters, elements are spent on waste."},
            {"level-watched", "Somebody watches the level all the time and stops the pump before the time is up."},
            {"cart-marked", "The cart is marked \"flush before clean use\" afterwards, its hoses too."}};
}

} // namespace loopside::filtration
