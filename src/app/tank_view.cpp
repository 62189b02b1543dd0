// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "app/tank_view.h"

#include "app/as_shown.h"
#include "app/draft_places.h"
#include "app/job_words.h"
#include "app/place_state.h"
#include "app/setup_words.h"
#include "app/wanted_units.h"
#include "app/wording.h"
#include "base/text.h"
#include "ledger/tank_look.h"
#include "paper/tank_charts.h"
#include "run/moved_note.h"
#include "run/tank_past.h"
#include "words/tank_told.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <map>

namespace loopside::app {

namespace {

constexpr int longestCode = 8;
constexpr int longestPlate = 16;
constexpr std::array<const char*, 3> forms = {"box", "upright", "lying"};

constexpr int longestCoordinate = 20;
constexpr const char* degreeKey = "°"; ///< Of the key that tells north from south: neither.

constexpr std::size_t mostShown = 3; ///< Codes, and lives of one type: the latest.

std::string litres(const Tablet& tablet, double number)
{
    const run::TypedVolume volume(Decimal::nearest(number, 0), **units::unitNamed<units::Volume>("L"));
    return asWanted(volume, tablet.wants()).toStdString();
}

/// The latest of `told`, each as `textOf` has it, with the day on which its bottle was drawn.
template<class Told>
QString latestText(const std::vector<Told>& told, std::string Told::* textOf)
{
    QStringList texts;
    for (std::size_t i = 0; i < told.size() && i < mostShown; ++i) {
        texts.append(toQt(told[i].*textOf) + QStringLiteral(" (") + dateText(told[i].drawn) + QLatin1Char(')'));
    }
    return texts.join(QStringLiteral(", "));
}

/// What its runs teach; what has one name in one row.
QList<RowModel::Row> learnedRows(const Tablet& tablet, const std::string& name, const run::TankPast& past)
{
    const auto& tanks = tablet.site().tanks;
    const auto tank = std::ranges::find(tanks, name, &run::TankRecord::name);
    QList<RowModel::Row> rows;
    for (const words::LineTold& line :
         words::learnedOfTank(tablet.words(), past, tank == tanks.end() ? std::nullopt : tank->mixing)) {
        if (!rows.isEmpty() && rows.last()[0] == toQt(line.label)) {
            rows.last()[1] = rows.last()[1].toString() + QLatin1Char('\n') + asShown(line.text);
        } else {
            rows.append({toQt(line.label), asShown(line.text)});
        }
    }
    return rows;
}

/// "P3 glass: 820 L, over 300 L", the latest last.
QString livesText(const Tablet& tablet, const run::TankPast& past)
{
    std::map<std::string, QStringList> byType;
    for (const run::ElementLife& life : past.lives) {
        const std::string volume = litres(tablet, life.litres);
        byType[life.type].append(life.isCutShort ? tablet.say({"app.past.over", {{"volume", volume}}}) : toQt(volume));
    }
    QStringList types;
    for (auto& [type, lives] : byType) {
        while (lives.size() > static_cast<qsizetype>(mostShown)) {
            lives.removeFirst();
        }
        const QString name = type.empty() ? tablet.label("app.past.type-not-told") : toQt(type);
        types.append(name + QStringLiteral(": ") + lives.join(QStringLiteral(", ")));
    }
    return types.join(QStringLiteral("; "));
}

QString ingressText(const Tablet& tablet, const run::Ingress& ingress)
{
    const auto say = [&](const char* id) {
        return tablet.say({id,
                           {{"from", ingress.from},
                            {"to", ingress.to},
                            {"days", fixed(ingress.days, ingress.days < 10.0 ? 1 : 0)},
                            {"numbers", std::to_string(ingress.numbers)}}});
    };
    switch (ingress.verdict) {
    case run::Ingress::Verdict::Dirtier:
        return say("app.past.dirtier");
    case run::Ingress::Verdict::NotProven:
        return say("app.past.not-proven");
    case run::Ingress::Verdict::Cleaner:
        return say("app.past.cleaner");
    case run::Ingress::Verdict::CannotTell:
        break;
    }
    return tablet.label("app.past.cannot-tell");
}

/// "Box 1200 mm × 800 mm × 1 m".
QString shapeText(const Tablet& tablet, const std::optional<run::TankShapeRecord>& shape)
{
    if (!shape) {
        return {};
    }
    QStringList lengths;
    for (const auto* length : {&shape->diameter, &shape->length, &shape->width, &shape->height}) {
        if (*length) {
            lengths.append(toQt((*length)->toText()));
        }
    }
    return tablet.say({"app.shape." + shape->form, {}}) + QLatin1Char(' ')
        + asShown(lengths.join(QStringLiteral(" × ")));
}

std::string degreesText(double degrees, const char* ahead, const char* back)
{
    constexpr int places = 5; // a metre
    return fixed(std::abs(degrees), places) + "° " + (degrees < 0.0 ? back : ahead);
}

/// As it was written, and how it was read; what stands alone or cannot be read as it was written.
QString placeText(const Tablet& tablet, const run::TankRecord& tank)
{
    const auto fix = run::placeOf(tank);
    if (!fix) {
        return toQt(tank.latitude + tank.longitude);
    }
    const run::Place& place = fix->place;
    return tablet.say(
        {"place.read",
         {{"latitude", tank.latitude},
          {"longitude", tank.longitude},
          {"read", degreesText(place.latitude_deg, "N", "S") + " " + degreesText(place.longitude_deg, "E", "W")},
          {"accuracy", fixed(*fix->accuracy_m, 0) + " m"}}});
}

/// What a field of a coordinate holds: "°" stands for no direction, and is not written.
std::string withoutDegreeKey(const std::string& text)
{
    const std::string end = std::string(" ") + degreeKey;
    return text.ends_with(end) ? text.substr(0, text.size() - end.size()) : text;
}

/// Of which nothing is known: no volume can be 0 L, so one that is not typed is refused.
run::TankPut nothingKnown()
{
    return {{.name = {}, .volume = {Decimal(0, 0), **units::unitNamed<units::Volume>("L")}, .fluid = {}}, {}};
}

} // namespace

TankView::TankView(Tablet& tablet, QObject* parent)
    : RecordView{tablet, "tank", tankDrafts, parent}, put_{nothingKnown()}
{
    refresh();
}

QString TankView::stateOf(const run::RecordPut& record) const
{
    return tankStateOf(tablet(), site::nameOf(record)).text;
}

QList<RowModel::Row> TankView::factsOf(const run::RecordPut& record) const
{
    const auto& [tank, plate] = std::get<run::TankPut>(record);
    QList<RowModel::Row> rows = tankFacts(tablet(), tank);
    rows[1][1] = asWanted(tank.volume, tablet().wants());
    const auto add = [&](const char* label, const QString& value) {
        rows.append({tablet().label(label), value.isEmpty() ? tablet().label("app.setup.not-known") : value});
    };
    add("record.capacity", tank.capacity ? asWanted(*tank.capacity, tablet().wants()) : QString());
    add("record.mixing", toQt(textIn(tank.mixing)));
    add("record.plate", toQt(plate));
    add("record.shape.form", shapeText(tablet(), tank.shape));
    add("record.level", toQt(textIn(tank.level)));
    add("record.place", placeText(tablet(), tank));
    return rows;
}

std::vector<HistoryLine> TankView::workOf(const std::string& name) const
{
    return workAtTank(tablet(), name);
}

QList<RowModel::Row> TankView::pastOf(const std::string& name) const
{
    const run::TankPast past = run::pastOf(tablet().state(), name);
    const auto row = [this](const char* label, const QString& value) {
        return RowModel::Row{tablet().label(label), value.isEmpty() ? tablet().label("app.past.none") : value};
    };
    const QString turnovers = past.runs == 0 ? QString()
                                             : tablet().say({"app.past.given",
                                                             {{"turnovers", fixed(past.turnovers, 1)},
                                                              {"runs", std::to_string(past.runs)},
                                                              {"volume", litres(tablet(), past.filtered_l)}}});
    QList<RowModel::Row> rows = {
        row("app.past.turnovers", turnovers), row("app.past.codes", latestText(past.codes, &run::CodeTold::code)),
        row("across.water", latestText(past.waters, &run::WaterTold::water)),
        row("app.past.lives", livesText(tablet(), past)), row("app.past.ingress", ingressText(tablet(), past.ingress))};
    for (const Message& note : run::movedNotesAt(tablet().state(), name)) {
        rows.append(row("app.past.mixed", tablet().say(note)));
    }
    if (past.runs > 0) {
        rows.append(learnedRows(tablet(), name, past));
    }
    return rows;
}

QList<paper::PastChart> TankView::chartsOf(const std::string& name) const
{
    return paper::tankCharts(tablet().words(), run::pastOf(tablet().state(), name));
}

std::vector<TankView::Group> TankView::begin(const run::RecordPut* record)
{
    const bool isKnown = record != nullptr;
    put_ = isKnown ? std::get<run::TankPut>(*record) : nothingKnown();
    shape_ = put_.tank.shape.value_or(run::TankShapeRecord{});
    return {oilGroup(isKnown), shapeGroup(isKnown), placeGroup(isKnown)};
}

run::RecordPut TankView::record() const
{
    run::TankPut put = put_;
    put.tank.shape = shape_ == run::TankShapeRecord{} ? std::nullopt : std::optional(shape_);
    return put;
}

TankView::Group TankView::oilGroup(bool isKnown)
{
    run::TankRecord& tank = put_.tank;
    const QStringList volumes = {QStringLiteral("L"), QStringLiteral("gal"), QStringLiteral("m³")};
    const auto label = [this](const char* id) { return tablet().label(id); };
    Group group;
    group.name = label("app.record-page.tank-and-oil");
    group.fields = {
        editable(label("record.volume"), tank.volume, volumes, isKnown),
        editable(label("record.capacity"), tank.capacity, volumes, isKnown),
        editable(label("record.mixing"), tank.mixing, {}, isKnown),
        editable(label("record.water"), tank.water, {QStringLiteral("ppm"), QStringLiteral("%")}, isKnown),
        editable(label("record.code"), tank.code, {}, isKnown,
                 {.name = {}, .longest = longestCode, .point = QStringLiteral("/")}),
        editable(label("record.plate"), put_.plate, {}, isKnown,
                 {.name = {}, .longest = longestPlate, .point = QStringLiteral("-"), .takesLetters = true})};
    group.fields.front().isNeeded = true;
    group.choicesTitle = label(isKnown ? "app.record-page.fluid" : "app.fact.fluid");
    group.isChoiceNeeded = true;
    for (const run::FluidPut& fluid : site::knownFluids(tablet().site())) {
        const std::string described = run::fluidText(fluid.fluid);
        group.choices.append(choice(oilAsShown(tablet(), fluid.name),
                                    described == fluid.name ? QString() : oilAsShown(tablet(), described)));
    }
    group.pick = [this](int row) {
        put_.tank.fluid = site::knownFluids(tablet().site())[static_cast<std::size_t>(row)].fluid;
    };
    return group;
}

/// Where it stands, kept as it is written. The key beside tells the direction where no keyboard does.
TankView::Group TankView::placeGroup(bool isKnown)
{
    Group group;
    group.name = tablet().label("app.record-page.place");
    group.fields = {coordinate(put_.tank.latitude, run::Axis::Latitude, isKnown),
                    coordinate(put_.tank.longitude, run::Axis::Longitude, isKnown)};
    return group;
}

TankView::Editable TankView::coordinate(std::string& member, run::Axis axis, bool isKnown) const
{
    const bool isLatitude = axis == run::Axis::Latitude;
    const QStringList directions = isLatitude ? QStringList{QStringLiteral("N"), QStringLiteral("S")}
                                              : QStringList{QStringLiteral("E"), QStringLiteral("W")};
    Editable field = editable(
        tablet().label(isLatitude ? "record.latitude" : "record.longitude"), member, {}, isKnown,
        {.name = {}, .longest = longestCoordinate, .takesLetters = true, .alsoTakes = QStringLiteral("°º'’′″\"+,")});
    field.field.units = QStringList{QString::fromUtf8(degreeKey)} + directions;
    const auto read = [axis](const std::string& text) { return run::coordinateIn(withoutDegreeKey(text), axis); };
    field.set = [&member, read](const std::string& text) {
        const bool isOne = read(text).has_value();
        member = isOne ? withoutDegreeKey(text) : member;
        return isOne;
    };
    field.why = [this, read](const std::string& text) {
        return tablet().say(read(text).error().say) + QStringLiteral(". ") + tablet().label("file.do.place");
    };
    return field;
}

QStringList TankView::doubtsAbout(const run::RecordPut& record) const
{
    const run::TankRecord& tank = std::get<run::TankPut>(record).tank;
    const bool isAsBefore = std::ranges::any_of(tablet().site().tanks, [&](const run::TankRecord& before) {
        return before.name == tank.name && before.latitude == tank.latitude && before.longitude == tank.longitude;
    });
    const auto places = ledger::placesOf(tablet().state());
    const auto learned = places.find(tank.name);
    QStringList doubts;
    for (const Message& odd : isAsBefore
             ? std::vector<Message>{}
             : run::oddInPlace(tank, tablet().site().tanks,
                               learned == places.end() ? std::nullopt : std::optional(learned->second))) {
        doubts.append(tablet().say(odd));
    }
    return doubts;
}

/// With its shape a level tells a volume.
TankView::Group TankView::shapeGroup(bool isKnown)
{
    const QStringList lengths = {QStringLiteral("mm"), QStringLiteral("cm"), QStringLiteral("m"), QStringLiteral("in"),
                                 QStringLiteral("ft")};
    const auto label = [this](const char* id) { return tablet().label(id); };
    Group group;
    group.name = label("app.record-page.shape");
    group.fields = {editable(label("record.shape.length"), shape_.length, lengths, isKnown),
                    editable(label("record.shape.width"), shape_.width, lengths, isKnown),
                    editable(label("record.shape.height"), shape_.height, lengths, isKnown),
                    editable(label("record.shape.diameter"), shape_.diameter, lengths, isKnown),
                    editable(label("record.level"), put_.tank.level, lengths, isKnown)};
    group.choicesTitle = label("record.shape.form");
    for (const char* form : forms) {
        group.choices.append(choice(tablet().say({std::string("app.shape.") + form, {}})));
    }
    group.choices.append(choice(label("app.shape.not-known")));
    group.pick = [this](int row) {
        const auto form = static_cast<std::size_t>(row);
        const bool isOther = form >= forms.size() || shape_.form != forms.at(form);
        if (isOther) { // what was measured was of another shape
            shape_ = {.form = form < forms.size() ? forms.at(form) : std::string()};
        }
    };
    return group;
}

} // namespace loopside::app
