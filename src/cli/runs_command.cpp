// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "base/text.h"
#include "cli/commands.h"
#include "cli/files.h"
#include "handover/hub_file.h"
#include "handover/joined_journal.h"
#include "handover/others_shelf.h"
#include "ledger/handed.h"
#include "ledger/logbook.h"
#include "run/run_code.h"
#include "run/standing.h"
#include "store/key_file.h"
#include "store/system_clock.h"

#include <nlohmann/json.hpp>

#include <algorithm>
#include <optional>

namespace loopside::cli {

namespace {

using Json = nlohmann::ordered_json;

/// A tablet's journal with what it holds of others, while nobody else writes.
class Ground
{
public:
    [[nodiscard]] Done open(const RunsOptions& options)
    {
        const std::string path = options.data + "/journal.sqlite";
        const Done there = mustBeThere(path);
        auto key = there ? store::loadOrCreateKey(options.data + "/device.key") : fail(there.error());
        auto opened = key ? openToWrite(path, options.language) : fail(key.error());
        if (!opened) {
            return fail(opened.error());
        }
        held_.emplace(*std::move(opened));
        joined_.emplace(*held_->journal);
        hand.device = store::deviceOf(*key);
        if (const Done shown = showOthers(path, options.data + "/site.hub"); !shown) {
            return shown;
        }
        auto logbook = ledger::Logbook::open(*joined_, clock, random_, ledger::Reach::AtHand);
        if (!logbook) {
            return fail(logbook.error());
        }
        logbook_.emplace(*std::move(logbook));
        return logbook_->enrol(hand.device, *std::move(key));
    }

    [[nodiscard]] const run::State& state() const { return logbook_->state(); }

    [[nodiscard]] Done say(const Id& run, run::Said what)
    {
        return logbook_->submit(run::Say{run, std::move(what)}, hand).transform([](const auto&) {});
    }

    ledger::Hand hand = {};
    store::SystemClock clock = {};

private:
    /// Without a hub it holds nothing of others but what came by bundle, which stands in its own journal.
    [[nodiscard]] Done showOthers(const std::string& path, const std::string& hubFile)
    {
        const auto hub = handover::readHub(hubFile);
        if (!hub || !*hub) {
            return hub ? Done() : fail(hub.error());
        }
        const auto shelf = handover::OthersShelf::open(path, (*hub)->site.id);
        auto others = shelf ? (*shelf)->all() : fail(shelf.error());
        return others ? joined_->show(*std::move(others)) : fail(others.error());
    }

    std::optional<Held> held_;
    std::optional<handover::JoinedJournal> joined_;
    store::SystemRandom random_ = {};
    std::optional<ledger::Logbook> logbook_;
};

/// The one run that `typed` names by its six signs.
Result<const run::RunState*> runOf(const run::State& state, const std::string& typed)
{
    const auto code = run::codeFrom(typed);
    if (!code) {
        return fail(code.error());
    }
    const std::vector<Id> found = run::runsWithCode(state, *code);
    if (found.empty()) {
        return fail(Errc::NotFound,
                    "no run with the code " + *code
                        + " is known to this journal. Take in a bundle of the other tablet or hand over to the hub "
                          "first, then try again; nothing was changed");
    }
    return found.size() == 1 ? Result<const run::RunState*>(state.runOf(found.front()))
                             : fail(Errc::Conflict, "several runs show " + *code + ": take it over on the screen");
}

Done mustBeOpen(const run::RunState& run)
{
    return run.phase != run::Phase::Closed ? Done()
                                           : fail(Errc::Conflict,
                                                  "the run " + run::codeOf(run.id) + " at " + run.setup.tank.name
                                                      + " is closed and counts no more turnovers; nothing was changed");
}

/// The tablet among those that wrote something of a run which `typed` begins.
Result<Id> tabletNamed(const run::State& state, const std::string& typed)
{
    std::vector<Id> found;
    const auto look = [&](const Id& device) {
        if (toText(device).starts_with(typed) && std::ranges::find(found, device) == found.end()) {
            found.push_back(device);
        }
    };
    for (const auto& [id, run] : state.runs) {
        look(run.opened.device);
        std::ranges::for_each(run.facts, [&](const run::Fact& fact) { look(fact.header.device); });
    }
    constexpr std::size_t leastDigits = 4;
    if (typed.size() < leastDigits || found.size() != 1) {
        return fail(Errc::NotFound,
                    "--to: \"" + quotable(typed) + "\" begins the id of " + std::to_string(found.size())
                        + " tablets that wrote something here; tell at least four digits of one. A tablet that is not "
                          "known here takes the run over by its code");
    }
    return found.front();
}

Json bandJson(const run::TurnoverBand& band)
{
    return {{"low", band.low}, {"best", band.best}, {"high", band.high}};
}

Json differencesJson(const run::LinkedCredit& credit)
{
    Json all = Json::array();
    for (const run::Disagreement& one : credit.disagreements) {
        all.push_back({{"from_ms", one.fromMs},
                       {"to_ms", one.toMs},
                       {"one", run::codeOf(one.one)},
                       {"other", run::codeOf(one.other)},
                       {"what", one.what}});
    }
    return all;
}

/// The codes of the runs that `run` is one with, or of which nobody said whether it is.
std::vector<std::string> askedOf(const run::RunState& run, const std::vector<run::RunPair>& proposals)
{
    std::vector<std::string> codes;
    for (const run::RunPair& pair : proposals) {
        if (pair.first == run.id || pair.second == run.id) {
            codes.push_back(run::codeOf(pair.first == run.id ? pair.second : pair.first));
        }
    }
    return codes;
}

/// One run with its hands, and with what it comes to as one with others.
class RunLine
{
public:
    RunLine(const Ground& ground, const run::RunState& run, Stamp now, std::vector<std::string> asked)
        : run_{run}, hands_{ledger::handsOf(run)}, asked_{std::move(asked)}, own_{ground.hand.device}
    {
        std::vector<const run::RunState*> all;
        bool isWhole = true;
        for (const Id& id : ledger::linkedWith(ground.state(), run.id)) {
            all.push_back(ground.state().runOf(id));
            isWhole = isWhole && !all.back()->isPutAway;
            if (id != run.id) {
                oneWith_.push_back(run::codeOf(id));
            }
        }
        if (isWhole && all.size() > 1) {
            together_ = run::linkedCredit(all, now.wallMs);
        }
        turnovers_ = run.closed ? run.closed->turnovers
                                : run::standingByGauges(run, run.clock.at(now, ground.hand.device)).credit.turnovers;
    }

    [[nodiscard]] Json json() const
    {
        return {{"run", toText(run_.id)},
                {"code", run::codeOf(run_.id)},
                {"tank", run_.setup.tank.name},
                {"cart", run_.setup.cart.name},
                {"phase", run::nameOf(run_.phase)},
                {"tablet", toText(hands_.device)},
                {"is_here", hands_.device == own_},
                {"person", toText(hands_.since.person)},
                {"offered_to", offered()},
                {"one_with", oneWith_},
                {"maybe_one_with", asked_},
                {"turnovers", bandJson(turnovers_)},
                {"together", together_ ? bandJson(together_->turnovers) : Json()},
                {"differences", together_ ? differencesJson(*together_) : Json::array()}};
    }

    void tell(std::ostream& out) const
    {
        out << run::codeOf(run_.id) << "  " << run_.setup.tank.name << ", " << run_.setup.cart.name << ", "
            << run::nameOf(run_.phase) << ", "
            << (hands_.device == own_ ? std::string("this tablet") : "tablet " + toText(hands_.device).substr(0, 4))
            << ", turnovers " << bandText(turnovers_) << "\n";
        for (const std::string& other : oneWith_) {
            out << "  one with " << other << "\n";
        }
        if (together_) {
            out << "  together " << bandText(together_->turnovers) << ", differences "
                << together_->disagreements.size() << "\n";
        }
        for (const std::string& other : asked_) {
            out << "  may be one with " << other << ": nobody said yet\n";
        }
    }

private:
    [[nodiscard]] static std::string bandText(const run::TurnoverBand& band)
    {
        return fixed(band.best, 2) + " (" + fixed(band.low, 2) + " to " + fixed(band.high, 2) + ")";
    }

    [[nodiscard]] Json offered() const
    {
        return hands_.offered
            ? Json(toText(hands_.offered->device.isNone() ? hands_.offered->person : hands_.offered->device))
            : Json();
    }

    const run::RunState& run_;
    ledger::Hands hands_;
    std::vector<std::string> asked_;
    Id own_;
    std::vector<std::string> oneWith_ = {};
    std::optional<run::LinkedCredit> together_ = {};
    run::TurnoverBand turnovers_ = {};
};

void tellRun(const Ground& ground, const run::RunState& run, const std::vector<run::RunPair>& proposals,
             const RunsOptions& options, Stamp now, std::ostream& out)
{
    const RunLine line(ground, run, now, askedOf(run, proposals));
    if (options.json) {
        out << line.json().dump(-1, ' ', false, Json::error_handler_t::replace) << "\n";
    } else {
        line.tell(out);
    }
}

/// The run that is meant, once the journal is open and the person known.
Result<const run::RunState*> begin(const RunsOptions& options, Ground& ground)
{
    const auto site = readSite(options.site);
    const auto person = site ? personIn(*site, options.person) : fail(site.error());
    const Done opened = person ? ground.open(options) : fail(person.error());
    if (!opened) {
        return fail(opened.error());
    }
    ground.hand.person = *person;
    return runOf(ground.state(), options.run);
}

/// The run as it stands behind what was said.
Done tellAfter(Ground& ground, const Id& run, const RunsOptions& options, std::ostream& out)
{
    const Stamp now = ground.clock.now();
    const auto proposals = run::linkProposals(ground.state(), ledger::linksSaid(ground.state()).all(), now.wallMs);
    tellRun(ground, *ground.state().runOf(run), proposals, options, now, out);
    return {};
}

} // namespace

Done listRuns(const RunsOptions& options, std::ostream& out)
{
    Ground ground;
    if (const Done opened = ground.open(options); !opened) {
        return opened;
    }
    const Stamp now = ground.clock.now();
    const auto proposals = run::linkProposals(ground.state(), ledger::linksSaid(ground.state()).all(), now.wallMs);
    for (const auto& [id, run] : ground.state().runs) {
        if (!run.isPutAway) {
            tellRun(ground, run, proposals, options, now, out);
        }
    }
    return {};
}

Done takeRunOver(const RunsOptions& options, std::ostream& out)
{
    Ground ground;
    const auto valve = run::modeNamed(options.valve);
    if (!valve) {
        return fail(Errc::Malformed, "--valve: how the valve was read, filtering, bypassing or stopped");
    }
    const auto run = begin(options, ground);
    const Done open = run ? mustBeOpen(**run) : fail(run.error());
    if (!open) {
        return open;
    }
    if (ledger::holderOf(**run) == ground.hand.device) {
        return fail(Errc::Conflict, "this tablet goes on with the run " + run::codeOf((*run)->id) + " already");
    }
    const Id id = (*run)->id;
    const run::Mode mode = run::standingByGauges(**run, (*run)->clock.at(ground.clock.now(), ground.hand.device)).mode;
    for (run::Said& said : ledger::takingOn(mode, *valve, ledger::adoption(run::codeOf(id)))) {
        if (const Done written = ground.say(id, std::move(said)); !written) {
            return written;
        }
    }
    return tellAfter(ground, id, options, out);
}

Done handRunOn(const RunsOptions& options, std::ostream& out)
{
    Ground ground;
    const auto run = begin(options, ground);
    const Done open = run ? mustBeOpen(**run) : fail(run.error());
    if (!open) {
        return open;
    }
    const Id id = (*run)->id;
    if (ledger::holderOf(**run) != ground.hand.device) {
        return fail(Errc::Conflict,
                    "another tablet goes on with the run " + run::codeOf(id) + ": take it over first, then hand it on");
    }
    const auto to = tabletNamed(ground.state(), options.to);
    const Done said = to ? ground.say(id, ledger::handoverTo(*to)) : fail(to.error());
    return said ? tellAfter(ground, id, options, out) : said;
}

Done linkRuns(const RunsOptions& options, std::ostream& out)
{
    Ground ground;
    const auto one = begin(options, ground);
    const auto other = one ? runOf(ground.state(), options.other) : fail(one.error());
    if (!other) {
        return fail(other.error());
    }
    const Id oneId = (*one)->id;
    const Id otherId = (*other)->id;
    if (oneId == otherId) {
        return fail(Errc::Malformed, "a run is one with itself: tell the code of another one");
    }
    if ((*one)->setup.tank.name != (*other)->setup.tank.name || (*one)->setup.cart.name != (*other)->setup.cart.name) {
        return fail(Errc::Conflict,
                    "the two are of another tank or cart: they are no one cleaning; nothing was changed");
    }
    Done said = ground.say(oneId, ledger::linkAnswer(otherId, options.isOne));
    said = said ? ground.say(otherId, ledger::linkAnswer(oneId, options.isOne)) : said;
    return said ? tellAfter(ground, oneId, options, out) : said;
}

} // namespace loopside::cli
