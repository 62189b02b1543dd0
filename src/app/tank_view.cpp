// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "app/tank_view.h"

#include "app/draft_places.h"
#include "app/editable.h"
#include "app/place_state.h"
#include "app/setup_words.h"
#include "app/wanted_units.h"
#include "app/wording.h"
#include "ledger/setup_json.h"

#include <nlohmann/json.hpp>

#include <algorithm>

namespace loopside::app {

namespace {

constexpr int longestCode = 8;
constexpr int longestPlate = 16;

run::TypedVolume nothing()
{
    return {Decimal(0, 0), **units::unitNamed<units::Volume>("L")};
}

nlohmann::ordered_json asJson(const run::TankRecord& tank, const std::string& plate)
{
    nlohmann::ordered_json json = ledger::tankJson(tank);
    json["plate"] = plate;
    return json;
}

} // namespace

TankView::TankView(Tablet& tablet, QObject* parent)
    : RecordView{tablet, tankDrafts, parent}, put_{tablet.site().tanks.front()}
{
    refresh();
}

std::vector<std::string> TankView::names() const
{
    std::vector<std::string> names;
    for (const run::TankRecord& tank : tablet().site().tanks) {
        names.push_back(tank.name);
    }
    return names;
}

QString TankView::stateOf(const std::string& name) const
{
    return tankStateOf(tablet(), name).text;
}

std::string TankView::plateOf(const std::string& tank) const
{
    const auto plate = tablet().site().plates.find(tank);
    return plate == tablet().site().plates.end() ? std::string() : plate->second;
}

QList<RowModel::Row> TankView::factsOf(int row) const
{
    const auto& tank = tablet().site().tanks[static_cast<std::size_t>(row)];
    QList<RowModel::Row> rows = tankFacts(tablet(), tank);
    rows[1][1] = asWanted(tank.volume, tablet().wants());
    const auto add = [&](const char* label, const QString& value) {
        rows.append({tablet().label(label), value.isEmpty() ? tablet().label("app.setup.not-known") : value});
    };
    add("record.capacity", tank.capacity ? asWanted(*tank.capacity, tablet().wants()) : QString());
    add("record.mixing", toQt(textIn(tank.mixing)));
    add("record.plate", toQt(plateOf(tank.name)));
    return rows;
}

std::vector<HistoryLine> TankView::historyOf(const std::string& name) const
{
    std::vector<HistoryLine> lines = workAtTank(tablet(), name);
    nlohmann::ordered_json before;
    const Site& begun = tablet().siteAsBegun();
    for (const run::TankRecord& tank : begun.tanks) {
        if (tank.name == name) {
            const auto plate = begun.plates.find(name);
            before = asJson(tank, plate == begun.plates.end() ? std::string() : plate->second);
        }
    }
    for (const auto& entered : tablet().state().records) {
        const auto* put = std::get_if<run::TankPut>(&entered.what);
        if (put != nullptr && put->tank.name == name) {
            auto after = asJson(put->tank, put->plate);
            lines.push_back(changeLine(tablet(), entered.header, before, after));
            before = std::move(after);
        }
    }
    return lines;
}

std::vector<TankView::Editable> TankView::begin(int row)
{
    run::TankRecord& tank = put_.tank;
    if (row >= 0) {
        put_ = {tablet().site().tanks[static_cast<std::size_t>(row)], {}};
        put_.plate = plateOf(tank.name);
    } else {
        put_ = {{.name = {}, .volume = nothing(), .fluid = {}}, {}};
    }
    const QStringList volumes = {QStringLiteral("L"), QStringLiteral("gal"), QStringLiteral("m³")};
    const auto editable = [&](const char* label, auto& member, const QStringList& units, int longest = 6,
                              const QString& point = QStringLiteral("."), bool takesLetters = false) {
        return Editable{{.name = tablet().label(label),
                         .units = unitsFor(member, units),
                         .longest = longest,
                         .point = point,
                         .takesLetters = takesLetters,
                         .ghost = row >= 0 ? toQt(textIn(member)) : QString()},
                        [&member](const std::string& text) { return readInto(member, text); }};
    };
    return {editable("record.volume", tank.volume, volumes),
            editable("record.capacity", tank.capacity, volumes),
            editable("record.mixing", tank.mixing, {}),
            editable("record.water", tank.water, {QStringLiteral("ppm"), QStringLiteral("%")}),
            editable("record.code", tank.code, {}, longestCode, QStringLiteral("/")),
            editable("record.plate", put_.plate, {}, longestPlate, QStringLiteral("-"), true)};
}

} // namespace loopside::app
