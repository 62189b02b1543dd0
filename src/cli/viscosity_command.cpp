// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "base/decimal.h"
#include "base/text.h"
#include "cli/commands.h"
#include "oil/fluid.h"
#include "units/typed.h"

#include <nlohmann/json.hpp>

namespace loopside::cli {

Done viscosity(const ViscosityOptions& options, std::ostream& out)
{
    const auto index = Decimal::parse(options.viscosityIndex);
    if (!index) {
        return fail(index.error().code, "--vi: " + index.error().sentence);
    }
    const auto at = units::Typed<units::Temperature>::parse(options.at);
    if (!at) {
        return fail(at.error().code, "--at: " + at.error().sentence);
    }
    oil::FluidProperties properties;
    properties.grade = options.grade;
    properties.viscosityIndex = index->toDouble();
    const auto fluid = oil::Fluid::from(properties);
    if (!fluid) {
        return fail(fluid.error());
    }
    const auto viscosity = fluid->viscosityAt(at->value());
    if (!viscosity) {
        return fail(viscosity.error());
    }
    const double centistokes = viscosity->in(units::centistokes);
    if (options.json) {
        const nlohmann::ordered_json object = {{"grade", options.grade},
                                               {"vi", index->toDouble()},
                                               {"at_c", at->value().in(units::celsius)},
                                               {"viscosity_m2_s", viscosity->in(units::squareMetrePerSecond)},
                                               {"viscosity_cst", centistokes}};
        out << object.dump() << "\n";
    } else {
        out << options.grade << ", VI " << index->toText() << ", at " << at->toText() << ": "
            << fixed(centistokes, centistokes < 100.0 ? 1 : 0) << " cSt\n";
    }
    return {};
}

} // namespace loopside::cli
