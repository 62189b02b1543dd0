// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "cli/site_at_hand.h"

#include "base/text.h"
#include "cli/files.h"
#include "ledger/fold_check.h"

#include <algorithm>
#include <utility>

namespace loopside::cli {

namespace {

/// Code points, which are what is seen of labels in our languages.
std::size_t lengthOf(const std::string& text)
{
    return static_cast<std::size_t>(
        std::ranges::count_if(text, [](char sign) { return (static_cast<unsigned char>(sign) & 0xC0U) != 0x80U; }));
}

run::PlannedWork workOf(const run::JobRecord& job, const site::Site& site)
{
    run::PlannedWork work{.job = job};
    const auto tank = std::ranges::find(site.tanks, job.tank, &run::TankRecord::name);
    if (tank != site.tanks.end()) {
        work.tank = *tank;
    }
    const auto cart = std::ranges::find_if(site.carts,
                                           [&](const site::SiteCart& one) { return one.cart.name == job.cart; });
    if (cart != site.carts.end()) {
        work.stages = cart->stages;
    }
    return work;
}

} // namespace

Result<SiteAtHand> siteAtHand(const std::string& journalPath, const std::string& siteFile)
{
    auto site = readSite(siteFile);
    const auto journal = site ? openExisting(journalPath) : fail(site.error());
    if (!journal) {
        return fail(journal.error());
    }
    auto folded = ledger::foldByRun(**journal, [](run::RunState&) { return Done(); });
    if (!folded) {
        return fail(folded.error());
    }
    SiteAtHand all{std::move(folded->state), *std::move(site), {}};
    all.site = site::withRecords(std::move(all.site), all.state.records);
    for (const run::JobRecord& job : all.site.jobs) {
        if (!run::isTakenUp(all.state, job)) {
            all.planned.push_back(workOf(job, all.site));
        }
    }
    std::ranges::stable_sort(
        all.planned, {}, [](const run::PlannedWork& work) { return std::pair(work.job.due.empty(), work.job.due); });
    return all;
}

void tellLine(std::ostream& out, const std::string& label, const std::string& text)
{
    constexpr std::size_t column = 28;
    const std::size_t length = lengthOf(label);
    out << "  " << label << std::string(length < column ? column - length : 2, ' ') << text << '\n';
}

std::string dayOf(const Stamp& stamp)
{
    constexpr std::size_t day = 10;
    return utcText(stamp.wallMs).substr(0, day);
}

std::string litresText(double litres)
{
    return fixed(litres, litres < 100.0 ? 1 : 0) + " L";
}

} // namespace loopside::cli
