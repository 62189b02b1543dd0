// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "app/run_name.h"

#include "app/wording.h"
#include "run/run_code.h"

#include <algorithm>

namespace loopside::app {

QString runName(const Tablet& tablet, const run::RunState& run)
{
    const auto& runs = tablet.state().runs;
    const auto isOther = [&](const auto& known) {
        return known.first != run.id && known.second.phase != run::Phase::Closed
            && known.second.setup.tank.name == run.setup.tank.name;
    };
    if (std::ranges::none_of(runs, isOther)) {
        return toQt(run.setup.tank.name);
    }
    const bool isCartToo = std::ranges::any_of(
        runs, [&](const auto& known) { return isOther(known) && known.second.setup.cart.name == run.setup.cart.name; });
    return toQt((isCartToo ? run::codeOf(run.id) : run.setup.cart.name) + " · " + run.setup.tank.name);
}

} // namespace loopside::app
