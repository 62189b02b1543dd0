// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "app/people_view.h"

#include "app/draft_places.h"
#include "app/history_lines.h"
#include "app/wording.h"
#include "ledger/body.h"

#include <nlohmann/json.hpp>

#include <algorithm>
#include <array>

namespace loopside::app {

namespace {

/// The first of each: as typed.
constexpr std::array<std::string_view, 4> pressureSymbols = {"", "psi", "bar", "kPa"};
constexpr std::array<std::string_view, 3> volumeSymbols = {"", "L", "gal"};
constexpr std::array<std::string_view, 3> temperatureSymbols = {"", "°C", "°F"};
constexpr std::array<std::string_view, 3> languageIds = {"en", "es", "de"};
constexpr std::array<std::string_view, 3> languageNames = {"English", "Español", "Deutsch"};
constexpr std::array<std::string_view, 3> themeIds = {"day", "night", "sun"};
constexpr std::array<int, 4> textPercents = {100, 130, 160, 200};

template<class Q>
const units::NamedUnit<Q>* unitOf(std::string_view symbol)
{
    const auto unit = units::unitNamed<Q>(symbol);
    return unit ? *unit : nullptr;
}

template<class Symbols, class Q>
QList<RowModel::Row> unitRows(const Tablet& tablet, const Symbols& symbols, const units::NamedUnit<Q>* chosen)
{
    QList<RowModel::Row> rows;
    for (const std::string_view symbol : symbols) {
        rows.append({symbol.empty()        ? tablet.label("app.people.as-typed")
                         : symbol == "gal" ? tablet.label("app.people.us-gallon")
                                           : toQt(symbol),
                     QString(), unitOf<Q>(symbol) == chosen});
    }
    return rows;
}

template<class List>
auto at(const List& list, int row)
{
    return list.at(static_cast<std::size_t>(std::clamp(row, 0, static_cast<int>(list.size()) - 1)));
}

} // namespace

PeopleView::PeopleView(Tablet& tablet, QObject* parent)
    : QObject{parent},
      tablet_{tablet},
      people_{{"name", "detail", "isChosen"}},
      pressures_{{"name", "detail", "isChosen"}},
      volumes_{{"name", "detail", "isChosen"}},
      temperatures_{{"name", "detail", "isChosen"}},
      languages_{{"name", "detail", "isChosen"}},
      themes_{{"name", "detail", "isChosen"}},
      hands_{{"name", "detail", "isChosen"}},
      textSizes_{{"name", "detail", "isChosen"}},
      motions_{{"name", "detail", "isChosen"}},
      history_{{"amount", "text", "run"}}
{
    connect(&tablet_, &Tablet::changed, this, &PeopleView::refresh);
    connect(&tablet_, &Tablet::personChanged, this, &PeopleView::refresh);
    open();
}

void PeopleView::open()
{
    naming_ = Naming::Nobody;
    choose(tablet_.personIndex());
}

const SitePerson& PeopleView::person() const
{
    const Site& site = tablet_.site();
    const auto out = std::ranges::find(site.peopleOut, chosen_, &SitePerson::id);
    if (out != site.peopleOut.end()) {
        return *out;
    }
    const auto known = std::ranges::find(site.people, chosen_, &SitePerson::id);
    return known != site.people.end() ? *known : site.people[static_cast<std::size_t>(tablet_.personIndex())];
}

bool PeopleView::isOut() const
{
    const auto& out = tablet_.site().peopleOut;
    return std::ranges::find(out, chosen_, &SitePerson::id) != out.end();
}

QString PeopleView::serviceText() const
{
    return tablet_.label(isOut() ? "app.people.into-service" : "app.people.out-of-service");
}

QString PeopleView::mainText() const
{
    return tablet_.label(isNaming() ? "app.people.store" : "app.people.log");
}

QString PeopleView::nameProblem() const
{
    const std::string name = typedName_.trimmed().toStdString();
    if (name.empty()) {
        return tablet_.label("app.people.type-name");
    }
    for (const auto* people : {&tablet_.site().people, &tablet_.site().peopleOut}) {
        for (const SitePerson& one : *people) {
            const bool isTaken = one.name == name && (naming_ == Naming::New || one.id != chosen_);
            if (isTaken) {
                return tablet_.label("app.people.taken");
            }
        }
    }
    const bool isTheSame = naming_ == Naming::Chosen && name == person().name;
    return isTheSame ? tablet_.label("app.people.type-name") : QString();
}

QString PeopleView::name() const
{
    return naming_ == Naming::New ? tablet_.label("app.people.new") : toQt(person().name);
}

QString PeopleView::problem() const
{
    if (isNaming()) {
        return nameProblem();
    }
    return wants_ == person().wants ? tablet_.label("app.people.choose") : QString();
}

void PeopleView::refresh()
{
    showPeople();
    showChoices();
    showHistory();
    Q_EMIT changed();
}

int PeopleView::entriesToday(const Id& person) const
{
    const auto isByThemToday = [&](const run::Header& header) {
        return header.person == person && isSameDay(header.entered, tablet_.now());
    };
    const auto isSaidByThem = [&](const run::Fact& fact) {
        return run::isSaid(fact.original) && isByThemToday(fact.header);
    };
    const auto isMovedByThem = [&](const run::Entered<run::StockMoved>& moved) {
        return moved.what.of == Id{} && isByThemToday(moved.header); // what a changeover took is no entry of its own
    };
    const run::State& state = tablet_.state();
    std::ptrdiff_t entries = std::ranges::count_if(state.stockMoves, isMovedByThem)
        + std::ranges::count_if(state.records, isByThemToday, &run::Entered<run::RecordPut>::header);
    for (const auto& [id, run] : state.runs) {
        entries += isByThemToday(run.opened) ? 1 : 0;
        entries += std::ranges::count_if(run.facts, isSaidByThem);
    }
    for (const auto& [id, job] : state.jobs) {
        entries += isByThemToday(job.opened) ? 1 : 0;
        entries += std::ranges::count_if(job.facts, isByThemToday, &run::JobFact::header);
    }
    return static_cast<int>(entries);
}

void PeopleView::showPeople()
{
    QList<RowModel::Row> rows;
    const Id& shown = person().id;
    for (const SitePerson& one : tablet_.site().people) {
        const bool isHolding = one.id == tablet_.personId();
        const QString today = tablet_.say({"app.people.today", {{"entries", std::to_string(entriesToday(one.id))}}});
        rows.append({toQt(one.name), isHolding ? tablet_.label("label.holds") + QStringLiteral(" · ") + today : today,
                     one.id == shown});
    }
    for (const SitePerson& one : tablet_.site().peopleOut) {
        rows.append({toQt(one.name), tablet_.label("app.people.is-out"), one.id == shown});
    }
    people_.setRows(std::move(rows));
}

void PeopleView::showChoices()
{
    pressures_.setRows(unitRows(tablet_, pressureSymbols, wants_.pressure));
    volumes_.setRows(unitRows(tablet_, volumeSymbols, wants_.volume));
    temperatures_.setRows(unitRows(tablet_, temperatureSymbols, wants_.temperature));
    QList<RowModel::Row> rows;
    for (std::size_t i = 0; i < languageIds.size(); ++i) {
        rows.append({toQt(languageNames.at(i)), QString(), wants_.language == languageIds.at(i)});
    }
    languages_.setRows(std::exchange(rows, {}));
    for (const std::string_view theme : themeIds) {
        rows.append({tablet_.say({"label.theme-" + std::string(theme), {}}), QString(), wants_.theme == theme});
    }
    themes_.setRows(std::exchange(rows, {}));
    rows.append({tablet_.label("app.people.right"), QString(), !wants_.isLeftHanded});
    rows.append({tablet_.label("app.people.left"), QString(), wants_.isLeftHanded});
    hands_.setRows(std::exchange(rows, {}));
    for (const int percent : textPercents) {
        rows.append({QStringLiteral("%1\u00A0%").arg(percent), QString(), wants_.textPercent == percent});
    }
    textSizes_.setRows(std::exchange(rows, {}));
    rows.append({tablet_.label("app.people.moving"), QString(), !wants_.isStill});
    rows.append({tablet_.label("app.people.still"), QString(), wants_.isStill});
    motions_.setRows(std::move(rows));
}

void PeopleView::showHistory()
{
    const auto asJson = [this](const run::PersonPut& put) {
        auto json = nlohmann::ordered_json::parse(ledger::bodyOf(run::Event(put)));
        json["wished_volume"] = json.value("volume", "");
        json["hand"] = tablet_.label(put.person.isLeftHanded ? "app.people.left" : "app.people.right").toStdString();
        json["motion"] = tablet_.label(put.person.isStill ? "app.people.still" : "app.people.moving").toStdString();
        json["text_percent"] = put.person.textPercent;
        json.erase("still");
        json.erase("volume");
        json.erase("left_handed");
        return json;
    };
    std::vector<HistoryLine> lines;
    auto before = asJson({{.id = person().id}});
    for (const auto& entered : tablet_.state().records) {
        const auto* put = std::get_if<run::PersonPut>(&entered.what);
        if (put != nullptr && put->person.id == person().id) {
            auto after = asJson(*put);
            lines.push_back(changeLine(tablet_, entered.header, before, after));
            before = std::move(after);
        }
    }
    history_.setRows(historyRows(std::move(lines)));
}

void PeopleView::choose(int row)
{
    const Site& site = tablet_.site();
    const int people = static_cast<int>(site.people.size());
    if (!isNaming() && row >= 0 && row < people + static_cast<int>(site.peopleOut.size())) {
        chosen_ = row < people ? site.people[static_cast<std::size_t>(row)].id
                               : site.peopleOut[static_cast<std::size_t>(row - people)].id;
        wants_ = person().wants;
        notice_.clear();
        refresh();
    }
}

void PeopleView::tellNew()
{
    beginNaming(Naming::New);
}

void PeopleView::rename()
{
    beginNaming(Naming::Chosen);
}

/// What was typed before, and not stored, is offered again.
void PeopleView::beginNaming(Naming naming)
{
    naming_ = naming;
    auto drafts = tablet_.drafts().of(peopleDrafts).value_or(std::map<std::string, std::string>{});
    typedName_ = toQt(drafts[nameDraft()]);
    notice_ = typedName_.isEmpty() ? QString() : tablet_.label("app.people.offered-again");
    refresh();
}

std::string PeopleView::nameDraft() const
{
    return naming_ == Naming::New ? "new.name" : toText(chosen_) + ".name";
}

void PeopleView::typeName(const QString& name)
{
    if (isNaming() && name != typedName_) {
        typedName_ = name;
        const bool isKept = tablet_.drafts().put(peopleDrafts, nameDraft(), name.toStdString()).has_value();
        notice_ = isKept ? QString() : tablet_.label("app.pad.draft-not-stored");
        Q_EMIT changed();
    }
}

bool PeopleView::back()
{
    const bool wasNaming = isNaming();
    naming_ = Naming::Nobody;
    notice_.clear();
    refresh();
    return wasNaming;
}

void PeopleView::storeName()
{
    const bool isNew = naming_ == Naming::New;
    const Id id = isNew ? IdMaker(tablet_.random()).next(tablet_.now().wallMs) : chosen_;
    if (!tablet_.tellPerson({id, typedName_.trimmed().toStdString(), !isNew && isOut()})) {
        return;
    }
    typeName({}); // a name that was stored is no draft any more
    back();
    chosen_ = id;
    wants_ = person().wants;
    notice_ = tablet_.label("app.people.stored");
    refresh();
}

void PeopleView::changeService()
{
    if (!isNaming() && tablet_.tellPerson({person().id, person().name, !isOut()})) {
        notice_ = tablet_.label("app.people.stored");
        Q_EMIT changed();
    }
}

void PeopleView::choosePressure(int row)
{
    wants_.pressure = unitOf<units::Pressure>(at(pressureSymbols, row));
    refresh();
}

void PeopleView::chooseVolume(int row)
{
    wants_.volume = unitOf<units::Volume>(at(volumeSymbols, row));
    refresh();
}

void PeopleView::chooseTemperature(int row)
{
    wants_.temperature = unitOf<units::Temperature>(at(temperatureSymbols, row));
    refresh();
}

void PeopleView::chooseLanguage(int row)
{
    wants_.language = at(languageIds, row);
    refresh();
}

void PeopleView::chooseTheme(int row)
{
    wants_.theme = at(themeIds, row);
    refresh();
}

void PeopleView::chooseHand(int row)
{
    wants_.isLeftHanded = row == 1;
    refresh();
}

void PeopleView::chooseTextSize(int row)
{
    wants_.textPercent = at(textPercents, row);
    refresh();
}

void PeopleView::chooseMotion(int row)
{
    wants_.isStill = row == 1;
    refresh();
}

void PeopleView::log()
{
    if (!problem().isEmpty()) {
        return;
    }
    if (isNaming()) {
        storeName();
    } else if (tablet_.submit(run::PutRecord{run::PersonPut{wants_}})) {
        notice_ = tablet_.label("app.pad.logged");
        Q_EMIT changed();
    }
}

} // namespace loopside::app
