// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "app/row_model.h"
#include "app/tablet.h"

#include <QList>

namespace loopside::app {

/// An oil that the site has, as text and by kind.
struct SiteFluid
{
    std::string text;
    std::string family;
    run::FluidRecord record;
};

/// The different oils of the site's tanks, in their order.
[[nodiscard]] std::vector<SiteFluid> fluidsOf(const Site& site);
[[nodiscard]] std::vector<std::string> fluidNames(const Site& site);

/// What a cart pumped last, as far as journal and site know; empty if they do not.
[[nodiscard]] std::string lastFluidOf(const Tablet& tablet, const run::CartRecord& cart);

/// An oil by its text, with the word for its kind.
[[nodiscard]] QString oilAsShown(const Tablet& tablet, const std::string& oil);

/// Whether a cart is marked "flush before clean use".
[[nodiscard]] bool isMarked(const Tablet& tablet, const std::string& cart);

/// Rows: name, detail, isChosen. The detail is the last oil, or the mark.
[[nodiscard]] QList<RowModel::Row> cartRows(const Tablet& tablet, int chosen);

/// A part as a person says it: "13 %", "1.7 %", "0.22 %".
[[nodiscard]] QString partText(units::Fraction part);

/// The job of this kind that is open, the youngest; null if none is.
template<class Opened>
[[nodiscard]] const run::Job* openJob(const run::State& state)
{
    const run::Job* found = nullptr;
    for (const auto& [id, job] : state.jobs) {
        if (job.isOpen() && std::holds_alternative<Opened>(job.what)) {
            found = &job;
        }
    }
    return found;
}

} // namespace loopside::app
