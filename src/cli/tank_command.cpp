// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "base/text.h"
#include "cli/commands.h"
#include "cli/site_at_hand.h"
#include "ledger/learned_json.h"
#include "run/tank_learned.h"
#include "words/tank_told.h"

#include <nlohmann/json.hpp>

#include <algorithm>
#include <array>
#include <map>
#include <set>

namespace loopside::cli {

namespace {

using Json = nlohmann::ordered_json;
using filtration::Band;

constexpr std::array<int, 3> sizesUm = {4, 6, 14};

/// What was learned of the clean elements of one stage of a cart.
struct CleanOf
{
    std::string cart;
    int stage;
    std::string type;
    const run::PressureUnit* unit; ///< Of the gauge before it.
    run::CleanLearned learned;
};

/// One tank over all its runs.
struct TankTold
{
    std::string name;
    run::TankPast past;
    std::optional<Decimal> mixingTold;
    std::map<std::string, run::LifeLearned> lives; ///< By element type.
    run::MixingLearned mixing;
    filtration::PerSize<std::optional<run::IngressLearned>> ingress;
    std::vector<CleanOf> clean;
    std::vector<run::JobRecord> planned;
};

/// Where no record of the tank holds, that of its last run does.
std::optional<Decimal> mixingToldOf(const std::string& tank, const SiteAtHand& at)
{
    const auto record = std::ranges::find(at.site.tanks, tank, &run::TankRecord::name);
    if (record != at.site.tanks.end()) {
        return record->mixing;
    }
    std::optional<Decimal> mixing;
    for (const auto& [id, run] : at.state.runs) {
        mixing = run.setup.tank.name == tank ? run.setup.tank.mixing : mixing;
    }
    return mixing;
}

/// The stages that filtered at the tank, each cart's as it was set up last.
std::vector<CleanOf> cleanAt(const std::string& tank, const run::State& state)
{
    std::map<std::string, const run::Setup*> carts;
    for (const auto& [id, run] : state.runs) {
        if (run.setup.tank.name == tank && !run.setup.isPractice) {
            carts[run.setup.cart.name] = &run.setup;
        }
    }
    std::vector<CleanOf> all;
    for (const auto& [cart, setup] : carts) {
        for (std::size_t i = 0; i < setup->stages.size(); ++i) {
            const int stage = static_cast<int>(i) + 1;
            CleanOf clean{cart, stage, setup->stages[i].type, setup->cart.gauges[i].unit,
                          run::cleanLearned(state, *setup, stage)};
            if (!clean.type.empty() && clean.learned.runs > 0 && clean.learned.drop_pa) {
                all.push_back(std::move(clean));
            }
        }
    }
    return all;
}

TankTold tankTold(const std::string& name, const SiteAtHand& at)
{
    TankTold tank;
    tank.name = name;
    tank.past = run::pastOf(at.state, name);
    std::map<std::string, std::vector<run::ElementLife>> byType;
    for (const run::ElementLife& life : tank.past.lives) {
        byType[life.type].push_back(life);
    }
    for (const auto& [type, lives] : byType) {
        tank.lives.emplace(type, run::lifeLearned(lives));
    }
    tank.mixingTold = mixingToldOf(name, at);
    tank.mixing = run::mixingLearned(tank.past, tank.mixingTold);
    tank.ingress = run::ingressLearned(tank.past);
    tank.clean = cleanAt(name, at.state);
    for (const run::PlannedWork& work : at.planned) {
        if (work.job.tank == name) {
            tank.planned.push_back(work.job);
        }
    }
    return tank;
}

std::string_view nameOf(run::Ingress::Verdict verdict)
{
    constexpr std::array<std::string_view, 4> names = {"dirtier", "not-proven", "cannot-tell", "cleaner"};
    return names.at(static_cast<std::size_t>(verdict));
}

Json learnedJson(const TankTold& tank)
{
    Json lives = Json::array();
    for (const auto& [type, life] : tank.lives) {
        lives.push_back({{"type", type},
                         {"life_l", life.litres ? ledger::bandJson(*life.litres) : Json()},
                         {"lives_whole", life.whole},
                         {"half_way_of_limit", life.halfWay ? ledger::bandJson(*life.halfWay) : Json()},
                         {"shapes", life.shapes},
                         {"lives_cut_short", life.cutShort}});
    }
    Json ingress = Json::array();
    for (std::size_t i = 0; i < sizesUm.size(); ++i) {
        if (const auto& size = tank.ingress[i]) {
            ingress.push_back({{"size_um", sizesUm[i]},
                               {"per_ml_day", ledger::bandJson(size->perMlADay)},
                               {"is_told", size->isTold()},
                               {"gaps", size->gaps}});
        }
    }
    Json clean = Json::array();
    for (const CleanOf& one : tank.clean) {
        clean.push_back({{"cart", one.cart},
                         {"stage", one.stage},
                         {"type", one.type},
                         {"clean_pa", one.learned.drop_pa ? ledger::bandJson(*one.learned.drop_pa) : Json()},
                         {"sets", one.learned.runs}});
    }
    return {{"lives", lives},
            {"mixing",
             {{"capture_times_mixing", ledger::bandJson(tank.mixing.captureTimesMixing)},
              {"beforehand", tank.mixing.told},
              {"runs", tank.mixing.runs}}},
            {"ingress", ingress},
            {"clean", clean}};
}

Json tankJson(const TankTold& tank)
{
    Json codes = Json::array();
    for (const run::CodeTold& code : tank.past.codes) {
        codes.push_back({{"code", code.code}, {"drawn", utcText(code.drawn.wallMs)}});
    }
    Json waters = Json::array();
    for (const run::WaterTold& water : tank.past.waters) {
        waters.push_back({{"water", water.water}, {"drawn", utcText(water.drawn.wallMs)}});
    }
    Json ingresses = Json::array();
    for (const run::Ingress& one : tank.past.ingresses) {
        ingresses.push_back({{"from", one.from},
                             {"to", one.to},
                             {"days", one.days},
                             {"numbers", one.numbers},
                             {"verdict", nameOf(one.verdict)},
                             {"of_tank", one.isOfTank}});
    }
    Json planned = Json::array();
    for (const run::JobRecord& job : tank.planned) {
        planned.push_back({{"job", job.order},
                           {"due", job.due},
                           {"cart", job.cart},
                           {"turnovers", job.turnovers ? Json(job.turnovers->toDouble()) : Json()},
                           {"code", job.code}});
    }
    return {{"tank", tank.name},
            {"runs", tank.past.runs},
            {"turnovers", tank.past.turnovers},
            {"filtered_l", tank.past.filtered_l},
            {"codes", codes},
            {"waters", waters},
            {"ingress_seen", ingresses},
            {"learned", learnedJson(tank)},
            {"planned", planned}};
}

Json cartJson(const std::string& cart, const run::CartUse& use)
{
    return {{"cart", cart},
            {"runs", use.runs},
            {"turnovers", use.turnovers},
            {"filtered_l", use.filtered_l},
            {"elements", use.elements},
            {"flushes", use.flushes},
            {"transfers", use.transfers},
            {"last", use.last ? Json(utcText(use.last->wallMs)) : Json()}};
}

std::string joined(const std::vector<std::string>& parts, const char* between)
{
    std::string all;
    for (const std::string& part : parts) {
        all += (all.empty() || part.empty() ? "" : between) + part;
    }
    return all;
}

/// Writes one tank after the other.
class Teller
{
public:
    Teller(const words::Words& words, std::ostream& out) : words_{words}, out_{out} {}

    void tell(const TankTold& tank)
    {
        out_ << tank.name << '\n';
        tellPast(tank.past);
        for (const words::LineTold& learned : words::learnedOfTank(words_, tank.past, tank.mixingTold)) {
            tellLine(out_, learned.label, learned.text);
        }
        for (const CleanOf& clean : tank.clean) {
            line("across.clean", cleanText(clean));
        }
        for (const run::JobRecord& job : tank.planned) {
            line("across.planned", jobText(job));
        }
    }

    void tell(const std::string& cart, const run::CartUse& use)
    {
        line("across.carts",
             words_.say({"across.cart",
                         {{"cart", cart},
                          {"turnovers", fixed(use.turnovers, 1)},
                          {"runs", std::to_string(use.runs)},
                          {"volume", litresText(use.filtered_l)},
                          {"elements", std::to_string(use.elements)},
                          {"flushes", std::to_string(use.flushes)},
                          {"transfers", std::to_string(use.transfers)}}}));
    }

private:
    void line(const char* label, const std::string& text)
    {
        tellLine(out_, words_.say(label), text.empty() ? words_.say("app.past.none") : text);
    }

    void tellPast(const run::TankPast& past)
    {
        line("app.past.turnovers",
             past.runs == 0 ? std::string()
                            : words_.say({"app.past.given",
                                          {{"turnovers", fixed(past.turnovers, 1)},
                                           {"runs", std::to_string(past.runs)},
                                           {"volume", litresText(past.filtered_l)}}}));
        std::vector<std::string> codes;
        for (const run::CodeTold& code : past.codes) {
            codes.push_back(code.code + " (" + dayOf(code.drawn) + ")");
        }
        line("app.past.codes", joined(codes, ", "));
        std::vector<std::string> waters;
        for (const run::WaterTold& water : past.waters) {
            waters.push_back(water.water + " (" + dayOf(water.drawn) + ")");
        }
        line("across.water", joined(waters, ", "));
        for (const run::Ingress& ingress : past.ingresses) {
            line("app.past.ingress", ingressText(ingress));
        }
        if (past.ingresses.empty()) {
            line("app.past.ingress", words_.say("app.past.cannot-tell"));
        }
    }

    [[nodiscard]] std::string ingressText(const run::Ingress& ingress) const
    {
        return words_.say({"app.past." + std::string(nameOf(ingress.verdict)),
                           {{"from", ingress.from},
                            {"to", ingress.to},
                            {"days", fixed(ingress.days, ingress.days < 10.0 ? 1 : 0)},
                            {"numbers", std::to_string(ingress.numbers)}}});
    }

    [[nodiscard]] std::string cleanText(const CleanOf& clean) const
    {
        const auto text = [&](double pa) { return units::printComputed(pa * units::pascal, *clean.unit); };
        return words_.say({"across.cleaned",
                           {{"cart", clean.cart},
                            {"stage", std::to_string(clean.stage)},
                            {"type", clean.type},
                            {"least", text(clean.learned.drop_pa->low)},
                            {"most", text(clean.learned.drop_pa->high)},
                            {"runs", std::to_string(clean.learned.runs)}}});
    }

    [[nodiscard]] std::string jobText(const run::JobRecord& job) const
    {
        std::vector<std::string> parts = {job.order};
        if (!job.due.empty()) {
            parts.push_back(words_.say({"app.planned.due", {{"day", job.due}}}));
        }
        if (job.turnovers) {
            parts.push_back(words_.say({"app.planned.turnovers", {{"turnovers", job.turnovers->toText()}}}));
        }
        parts.push_back(job.code);
        parts.push_back(job.cart);
        return joined(parts, ", ");
    }

    const words::Words& words_;
    std::ostream& out_;
};

/// Names of tanks or carts: of the records, and of runs.
std::set<std::string> tanksOf(const SiteAtHand& at)
{
    std::set<std::string> names;
    for (const run::TankRecord& tank : at.site.tanks) {
        names.insert(tank.name);
    }
    for (const auto& [id, run] : at.state.runs) {
        if (!run.setup.isPractice) {
            names.insert(run.setup.tank.name);
        }
    }
    return names;
}

std::set<std::string> cartsOf(const SiteAtHand& at)
{
    std::set<std::string> names;
    for (const site::SiteCart& cart : at.site.carts) {
        names.insert(cart.cart.name);
    }
    for (const auto& [id, run] : at.state.runs) {
        if (!run.setup.isPractice) {
            names.insert(run.setup.cart.name);
        }
    }
    return names;
}

void print(const Json& json, std::ostream& out)
{
    out << json.dump(-1, ' ', false, Json::error_handler_t::replace) << '\n';
}

} // namespace

Done tankHistory(const AcrossOptions& options, std::ostream& out)
{
    const auto words = words::Words::in(options.language);
    const auto at = words ? siteAtHand(options.journal, options.site) : fail(words.error());
    if (!at) {
        return fail(at.error());
    }
    const auto known = tanksOf(*at);
    if (!options.tank.empty() && !known.contains(options.tank)) {
        return fail(Errc::NotFound, words->say({"across.no-tank", {{"tank", options.tank}}}));
    }
    Teller teller(*words, out);
    for (const std::string& name : options.tank.empty() ? known : std::set{options.tank}) {
        const TankTold tank = tankTold(name, *at);
        options.json ? print(tankJson(tank), out) : teller.tell(tank);
    }
    if (options.tank.empty()) {
        for (const std::string& cart : cartsOf(*at)) {
            const run::CartUse use = run::cartUseOf(at->state, cart);
            options.json ? print(cartJson(cart, use), out) : teller.tell(cart, use);
        }
    }
    return {};
}

} // namespace loopside::cli
