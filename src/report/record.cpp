// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "report/record.h"

#include "base/require.h"
#include "base/text.h"
#include "ledger/fold.h"
#include "ledger/handed.h"
#include "ledger/tank_look.h"
#include "report/record_parts.h"
#include "run/moved_note.h"
#include "run/question.h"
#include "run/run_code.h"
#include "words/digits.h"
#include "words/look_told.h"
#include "words/oil_told.h"
#include "words/record_told.h"

#include <algorithm>
#include <cstdlib>

namespace loopside::report {

namespace {

constexpr std::int64_t minuteMs = 60'000;

std::string targetText(const Look& look)
{
    const run::Target& target = look.run.setup.target;
    std::vector<std::string> parts;
    if (target.turnovers) {
        parts.push_back(look.say({"report.run.target-turnovers", {{"turnovers", target.turnovers->toText()}}}));
    }
    if (!target.code.empty()) {
        parts.push_back(look.say({"report.run.target-code", {{"code", target.code}}}));
    }
    return parts.empty() ? look.say("report.run.no-target") : joined(parts);
}

std::string statusText(const Look& look)
{
    if (look.run.phase != run::Phase::Closed) {
        return look.say("report.run.open");
    }
    return joined({look.say("ending." + std::string(run::nameOf(look.run.closed->ending))), look.run.closed->why});
}

std::string movedText(const Look& look)
{
    std::vector<std::string> names;
    for (const run::TankRecord& tank : look.run.movedFrom) {
        names.push_back(tank.name);
    }
    return joined(names);
}

/// How many readings were entered together, later than they were read; empty if none.
std::string enteredLateText(const Look& look)
{
    int late = 0;
    int all = 0;
    for (const run::Fact& fact : look.run.facts) {
        const bool isReading = !fact.struck && std::holds_alternative<run::ReadingLogged>(fact.effective);
        all += isReading ? 1 : 0;
        late += isReading && run::isEnteredLate(fact, look.standing.questions) ? 1 : 0;
    }
    return late == 0
        ? std::string()
        : look.say({"report.run.entered-late-of", {{"late", std::to_string(late)}, {"readings", std::to_string(all)}}});
}

Table runTable(const Look& look)
{
    const run::RunState& run = look.run;
    const run::Setup& setup = run.setup;
    Table table = look.table("run", {"name", "value"});
    const auto add = [&](const std::string& id, const std::string& value) {
        if (!value.empty()) {
            table.rows.push_back({id, {look.say("report.run." + id), value}});
        }
    };
    add("tank", setup.tank.name);
    add("moved", movedText(look));
    if (!setup.isPractice) { // a simulated cart stands at no tank
        add("tank-known", words::knownText(look.words, ledger::tankKnown(run)));
    }
    add("oil", words::oilText(look.words, run::fluidText(setup.tank.fluid)));
    add("volume", units::shown(setup.tank.volume, look.words.wanted()));
    add("cart", joined({setup.cart.name, units::shown(setup.cart.flow, look.words.wanted())}));
    add("target", targetText(look));
    add("job", setup.job);
    add("opened",
        joined(
            {dayText(run.opened.entered) + " UTC" + offsetText(run.opened.entered), look.nameOf(run.opened.person)}));
    add("status", statusText(look));
    add("entered-late", enteredLateText(look));
    const ledger::Entry& last = look.evidence.entries.back();
    add("as-of", dayText(last.header.entered) + " UTC" + offsetText(last.header.entered));
    add("id", toText(run.id));
    return table;
}

Table costTable(const Look& look)
{
    Table table = look.table("cost", {"name", "value"});
    const run::Prices prices = look.prices.value_or(run::Prices{});
    const run::RunCost cost = run::costOf(look.run, look.standing, look.proof, prices);
    const auto add = [&](const std::string& id, const std::string& value) {
        table.rows.push_back({id, {look.say("report.cost." + id), value}});
    };
    const auto money = [&](double amount) { return fixed(amount, 2) + " " + prices.currency; };
    const auto litres = [&](double amount) {
        return units::shown(units::Volume(amount, units::litre), **units::unitNamed<units::Volume>("L"),
                            look.words.wanted());
    };
    add("elements", std::to_string(cost.elements));
    add("hours", fixed(cost.hours, 1) + " h");
    add("filtered", litres(cost.filtered_l));
    add("saved", litres(cost.saved_l));
    if (cost.spent) {
        add("spent", money(*cost.spent));
    }
    if (cost.savedWorth) {
        add("worth", money(*cost.savedWorth));
    }
    if (cost.perCodeLeast && cost.perCodeMost) {
        const std::string least = money(*cost.perCodeLeast);
        const std::string most = money(*cost.perCodeMost);
        add("per-code", least == most ? least : least + " – " + most);
    }
    add("assumed", look.sayAll(cost.assumed));
    return table;
}

/// Digits in groups of four, as people compare them.
std::string grouped(const std::string& digits)
{
    std::string text;
    for (std::size_t i = 0; i < digits.size(); ++i) {
        text += (i > 0 && i % 4 == 0 ? " " : "") + digits.substr(i, 1);
    }
    return text;
}

/// Who wrote on which chain, in the order of the first entries.
std::vector<std::pair<Id, Id>> writers(const Evidence& evidence)
{
    std::vector<std::pair<Id, Id>> pairs;
    for (const ledger::Entry& entry : evidence.entries) {
        const std::pair pair(entry.header.person, entry.chain);
        if (std::ranges::find(pairs, pair) == pairs.end()) {
            pairs.push_back(pair);
        }
    }
    return pairs;
}

Table signaturesTable(const Look& look)
{
    Table table = look.table("signatures", {"person", "entries", "tablet", "sequence", "others", "key"});
    const auto parts = chainsOf(look.evidence);
    for (const auto& [person, chain] : writers(look.evidence)) {
        const auto entries = std::ranges::count_if(look.evidence.entries, [&](const ledger::Entry& entry) {
            return entry.header.person == person && entry.chain == chain;
        });
        const ChainPart& part = *std::ranges::find(parts, chain, &ChainPart::chain);
        constexpr std::size_t shownDigits = 16;
        table.rows.push_back(
            {toText(person),
             {look.nameOf(person), std::to_string(entries), toText(part.device),
              std::to_string(part.first) + "–" + std::to_string(part.last), std::to_string(part.others()),
              part.key ? grouped(toHex(*part.key).substr(0, shownDigits)) + " …" : look.say("report.no-key")}});
    }
    return table;
}

/// The runs that somebody said this one is one with, as its own entries have it.
std::vector<Id> oneWith(const run::RunState& run)
{
    std::map<Id, bool> said;
    for (const run::Fact& fact : run.facts) {
        const auto* kept = std::get_if<run::Kept>(&fact.effective);
        const auto told = kept != nullptr && !fact.struck ? ledger::handedTold(*kept) : std::nullopt;
        if (told && told->what == ledger::HandedTold::What::OneWith) {
            said[told->other] = true;
        } else if (told && told->what == ledger::HandedTold::What::TwoWith) {
            said[told->other] = false;
        }
    }
    std::vector<Id> others;
    for (const auto& [other, isOne] : said) {
        if (isOne) {
            others.push_back(other);
        }
    }
    return others;
}

std::vector<std::string> noticesOf(const Look& look)
{
    std::vector<std::string> notices;
    if (look.run.setup.isPractice) {
        notices.push_back(look.say("report.notice.practice"));
    }
    if (look.run.phase != run::Phase::Closed) {
        notices.push_back(look.say("report.notice.open"));
    }
    for (const Id& other : oneWith(look.run)) {
        notices.push_back(look.say({"report.notice.one-with", {{"code", run::codeOf(other)}}}));
    }
    if (ledger::tankKnown(look.run) == run::TankKnown::AgainstIt) {
        notices.push_back(look.say("report.notice.tank-against"));
    }
    for (const Message& note : run::movedNotes(look.run)) {
        notices.push_back(look.say(note));
    }
    return notices;
}

} // namespace

NameOf nameIn(const std::map<Id, std::string>& names)
{
    return [&names](const Id& person) {
        const auto known = names.find(person);
        constexpr std::size_t shownDigits = 8;
        return known != names.end() ? known->second
            : person.isNone()       ? std::string("–")
                                    : toText(person).substr(0, shownDigits);
    };
}

const Table& RunRecord::table(std::string_view id) const
{
    const auto found = std::ranges::find(tables, id, &Table::id);
    require(found != tables.end(), "a record has all of its tables");
    return *found;
}

Table Look::table(std::string_view id, const std::vector<std::string>& columns) const
{
    const std::string name = "report." + std::string(id);
    const auto sayOr = [&](const std::string& own, const std::string& otherwise) {
        return say(words.has(own) ? own : otherwise);
    };
    Table table{std::string(id), say(name), {}};
    for (const std::string& column : columns) {
        table.columns.push_back({column, sayOr(name + "." + column, "report.column." + column)});
    }
    table.empty = sayOr(name + ".none", "report.none");
    return table;
}

std::string Look::sayAll(const std::vector<Message>& messages) const
{
    std::string text;
    for (const Message& message : messages) {
        text += (text.empty() ? "" : " ") + say(message);
    }
    return text;
}

std::string dayText(const Stamp& stamp, std::int64_t agoMs)
{
    std::string text = utcText(stamp.wallMs - agoMs + stamp.offsetMin * minuteMs);
    constexpr std::size_t toMinutes = 16;
    std::ranges::replace(text, 'T', ' ');
    return text.substr(0, toMinutes);
}

std::string offsetText(const Stamp& stamp)
{
    const int minutes = std::abs(stamp.offsetMin);
    return (stamp.offsetMin < 0 ? "−" : "+") + words::twoDigits(minutes / 60) + ":" + words::twoDigits(minutes % 60);
}

std::string timeText(run::RunTime time)
{
    return (time < run::RunTime{0} ? "−" : "") + words::runTimeText(time < run::RunTime{0} ? -time : time);
}

run::RunTime lastOf(const run::RunState& run)
{
    run::RunTime last = run.closedAt;
    for (const run::Fact& fact : run.facts) {
        last = std::max(last, fact.entered);
    }
    return last;
}

Result<run::RunState> runOf(const Evidence& evidence)
{
    const auto folded = ledger::fold([&](const auto& take) -> Done {
        ledger::Position position = 0;
        for (const ledger::Entry& entry : evidence.entries) {
            if (const Done done = take({++position, entry}); !done) {
                return done;
            }
        }
        return {};
    });
    if (!folded) {
        return fail(folded.error());
    }
    const run::RunState* run = folded->state.runOf(evidence.run);
    return run != nullptr
        ? Result<run::RunState>(*run)
        : fail(Errc::NotFound, "no entry opens run " + toText(evidence.run) + ": without it nothing can be judged");
}

Result<RunRecord> recordOf(const Evidence& evidence, const Telling& telling)
{
    auto words = words::Words::in(telling.language);
    const auto run = words ? runOf(evidence) : fail(words.error());
    if (!run) {
        return fail(run.error());
    }
    words->want(telling.wanted);
    const run::Standing standing = run::standingOf(*run, lastOf(*run));
    const run::Proof proof = run::proofOf(*run, standing);
    const NameOf nameOf = nameIn(telling.names);
    const Look look{*run, standing, proof, evidence, *words, nameOf, telling.prices};
    return RunRecord{look.say("report.title"),
                     joined({run->setup.tank.name, run->setup.cart.name}),
                     run::codeOf(run->id),
                     run->id,
                     run->setup.isPractice,
                     noticesOf(look),
                     verdictOf(look),
                     {runTable(look), resultTable(look), sizesTable(look), pathTable(look), samplesTable(look),
                      stagesTable(look), alertsTable(look), findingsTable(look), readingsTable(look), costTable(look),
                      signaturesTable(look), eventsTable(look)},
                     toHex(digestOf(evidence)),
                     evidence.entries.size()};
}

} // namespace loopside::report
