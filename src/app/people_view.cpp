// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "app/people_view.h"

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
    choose(tablet_.personIndex());
}

QString PeopleView::name() const
{
    return toQt(person().name);
}

QString PeopleView::problem() const
{
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
    std::ptrdiff_t entries = 0;
    for (const auto& [id, run] : tablet_.state().runs) {
        entries += std::ranges::count_if(run.facts, [&](const run::Fact& fact) {
            return fact.header.person == person && run::isSaid(fact.original)
                && isSameDay(fact.header.entered, tablet_.now());
        });
    }
    return static_cast<int>(entries);
}

void PeopleView::showPeople()
{
    QList<RowModel::Row> rows;
    for (const SitePerson& one : tablet_.site().people) {
        const bool isHolding = rows.size() == tablet_.personIndex();
        const QString today = tablet_.say({"app.people.today", {{"entries", std::to_string(entriesToday(one.id))}}});
        rows.append({toQt(one.name), isHolding ? tablet_.label("label.holds") + QStringLiteral(" · ") + today : today,
                     rows.size() == row_});
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
    if (row >= 0 && row < static_cast<int>(tablet_.site().people.size())) {
        row_ = row;
        wants_ = person().wants;
        notice_.clear();
        refresh();
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
    if (problem().isEmpty() && tablet_.submit(run::PutRecord{run::PersonPut{wants_}})) {
        notice_ = tablet_.label("app.pad.logged");
        Q_EMIT changed();
    }
}

} // namespace loopside::app
