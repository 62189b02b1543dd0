// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "base/text.h"
#include "cli/commands.h"
#include "cli/files.h"
#include "cli/site_at_hand.h"
#include "words/words.h"

#include <nlohmann/json.hpp>

namespace loopside::cli {

namespace {

using Json = nlohmann::ordered_json;

Json bandJson(const run::ElementsBand& band)
{
    return {{"low", band.low}, {"best", band.best}, {"high", band.high}};
}

template<class Band>
Json bandJson(const std::optional<Band>& band)
{
    return band ? bandJson(*band) : Json();
}

Json jobJson(const run::JobDemand& job)
{
    return {{"job", job.order},
            {"tank", job.tank},
            {"stage", job.stage},
            {"elements", bandJson(job.elements)},
            {"why", job.why},
            {"lives_behind", job.lives},
            {"lives_of_other_tanks", job.isOtherTank}};
}

Json demandJson(const run::ElementDemand& demand)
{
    Json jobs = Json::array();
    for (const run::JobDemand& job : demand.jobs) {
        jobs.push_back(jobJson(job));
    }
    return {{"type", demand.type},
            {"elements", demand.stock.isCounted ? Json(demand.stock.elements) : Json()},
            {"used", demand.use.used},
            {"changes", demand.use.changes},
            {"days", demand.use.days},
            {"next_30_days", bandJson(demand.use.next30Days)},
            {"jobs", jobs},
            {"planned", bandJson(demand.planned)},
            {"planned_is_all", demand.isAllTold},
            {"short", demand.isShort()},
            {"may_be_short", demand.mayBeShort()}};
}

/// Writes one type after the other.
class Teller
{
public:
    Teller(const words::Words& words, std::ostream& out) : words_{words}, out_{out} {}

    void tell(const run::ElementDemand& demand)
    {
        out_ << demand.type << '\n';
        tellLine(out_, words_.say("across.stock"), stockText(demand.stock));
        tellLine(out_, words_.say("across.used"),
                 words_.say({"across.use",
                             {{"elements", std::to_string(demand.use.used)},
                              {"changes", std::to_string(demand.use.changes)},
                              {"days", fixed(demand.use.days, 0)}}}));
        tellLine(out_, words_.say("across.next"),
                 demand.use.next30Days ? bandText("across.foreseen", *demand.use.next30Days)
                                       : words_.say("across.cannot-foresee"));
        for (const run::JobDemand& job : demand.jobs) {
            tellLine(out_,
                     words_.say({"across.job",
                                 {{"order", job.order}, {"tank", job.tank}, {"stage", std::to_string(job.stage)}}}),
                     jobText(job));
        }
        if (demand.jobs.size() > 1) {
            tellLine(out_, words_.say("across.demand"),
                     bandText(demand.isAllTold ? "across.foreseen" : "across.demand-part", demand.planned));
        }
        if (demand.isShort() || demand.mayBeShort()) {
            tellLine(out_, words_.say("across.short"),
                     words_.say(demand.isShort() ? "across.short.surely" : "across.short.perhaps"));
        }
    }

private:
    [[nodiscard]] std::string stockText(const run::StockStanding& stock) const
    {
        if (stock.isCounted) {
            return words_.say({"app.stock.there", {{"elements", std::to_string(stock.elements)}}});
        }
        return stock.elements == 0
            ? words_.say("app.stock.not-told")
            : words_.say({"app.stock.only-used", {{"elements", std::to_string(-stock.elements)}}});
    }

    [[nodiscard]] std::string bandText(const char* id, const run::ElementsBand& band, int lives = 0) const
    {
        return words_.say({id,
                           {{"least", std::to_string(band.low)},
                            {"most", std::to_string(band.high)},
                            {"middle", std::to_string(band.best)},
                            {"runs", std::to_string(lives)}}});
    }

    [[nodiscard]] std::string jobText(const run::JobDemand& job) const
    {
        return job.elements
            ? bandText(job.isOtherTank ? "across.job.takes-by-others" : "across.job.takes", *job.elements, job.lives)
            : words_.say("across.job." + std::string(job.why));
    }

    const words::Words& words_;
    std::ostream& out_;
};

} // namespace

Done stock(const AcrossOptions& options, std::ostream& out)
{
    const auto words = words::Words::in(options.language);
    const auto at = words ? siteAtHand(options.journal, options.site) : fail(words.error());
    if (!at) {
        return fail(at.error());
    }
    const auto all = run::demandOf(at->state, at->planned, wallMs());
    Teller teller(*words, out);
    for (const run::ElementDemand& demand : all) {
        if (options.json) {
            out << demandJson(demand).dump(-1, ' ', false, Json::error_handler_t::replace) << '\n';
        } else {
            teller.tell(demand);
        }
    }
    if (all.empty() && !options.json) {
        out << words->say("across.nothing") << '\n';
    }
    return {};
}

} // namespace loopside::cli
