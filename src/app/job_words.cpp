// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "app/job_words.h"

#include "app/as_shown.h"
#include "app/wording.h"
#include "base/text.h"
#include "words/oil_told.h"

#include <algorithm>

namespace loopside::app {

std::vector<SiteFluid> fluidsOf(const Site& site)
{
    std::vector<SiteFluid> fluids;
    for (const run::FluidPut& known : site::knownFluids(site)) {
        const std::string described = run::fluidText(known.fluid);
        const std::string text = described.empty() ? known.name : described;
        const bool isThere = std::any_of(fluids.begin(), fluids.end(),
                                         [&](const SiteFluid& fluid) { return fluid.text == text; });
        if (!isThere) {
            fluids.push_back({text, known.fluid.kind, known.fluid});
        }
    }
    return fluids;
}

std::vector<std::string> fluidNames(const Site& site)
{
    std::vector<std::string> names;
    for (const SiteFluid& fluid : fluidsOf(site)) {
        names.push_back(fluid.text);
    }
    return names;
}

std::string lastFluidOf(const Tablet& tablet, const run::CartRecord& cart)
{
    const auto* known = tablet.state().cartOf(cart.name);
    return known != nullptr && !known->lastFluid.empty() ? known->lastFluid : cart.lastFluid;
}

bool isMarked(const Tablet& tablet, const std::string& cart)
{
    const auto* known = tablet.state().cartOf(cart);
    return known != nullptr && known->flushBeforeCleanUse;
}

QString oilAsShown(const Tablet& tablet, const std::string& oil)
{
    return toQt(words::oilText(tablet.words(), oil));
}

QList<RowModel::Row> cartRows(const Tablet& tablet, int chosen)
{
    QList<RowModel::Row> rows;
    for (const SiteCart& cart : tablet.site().carts) {
        const QString detail = isMarked(tablet, cart.cart.name) ? tablet.label("app.cart.marked")
                                                                : oilAsShown(tablet, lastFluidOf(tablet, cart.cart));
        rows.append({toQt(cart.cart.name), detail, rows.size() == chosen});
    }
    return rows;
}

QString partText(units::Fraction part)
{
    const double percent = part.in(units::percent);
    return asShown(fixed(percent, percent >= 10.0 ? 0 : percent >= 1.0 ? 1 : 2) + " %");
}

} // namespace loopside::app
