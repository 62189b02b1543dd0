// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "app/fluid_view.h"

#include "app/as_shown.h"
#include "app/draft_places.h"
#include "app/job_words.h"
#include "app/wording.h"
#include "words/oil_told.h"

#include <algorithm>

namespace loopside::app {

namespace {

run::TypedTemperature measuredAt(const char* text)
{
    return run::TypedTemperature::parse(text).value();
}

std::optional<run::TypedViscosity> viscosityAt(const run::FluidRecord& fluid, const char* temperature)
{
    for (const auto& point : fluid.points) {
        if (point.at == measuredAt(temperature)) {
            return point.viscosity;
        }
    }
    return std::nullopt;
}

/// "46" is typed with a pad, "ISO VG 46" with a keyboard.
bool readGrade(std::string& grade, const std::string& text)
{
    const bool isNumber = text.find_first_not_of("0123456789") == std::string::npos;
    grade = isNumber ? "ISO VG " + text : text;
    return true;
}

} // namespace

FluidView::FluidView(Tablet& tablet, QObject* parent) : RecordView{tablet, "fluid", fluidDrafts, parent}
{
    refresh();
}

QString FluidView::stateOf(const run::RecordPut& record) const
{
    return oilAsShown(tablet(), run::fluidText(std::get<run::FluidPut>(record).fluid));
}

QList<RowModel::Row> FluidView::factsOf(const run::RecordPut& record) const
{
    const run::FluidRecord& fluid = std::get<run::FluidPut>(record).fluid;
    QList<RowModel::Row> rows;
    const auto add = [&](const QString& name, const std::string& value) {
        rows.append({name, value.empty() ? tablet().label("app.setup.not-known") : asShown(value)});
    };
    add(tablet().label("record.fluid.kind"), words::oilText(tablet().words(), fluid.kind));
    add(tablet().label("record.grade"), fluid.grade);
    add(tablet().label("record.vi"), textIn(fluid.viscosityIndex));
    for (const auto& point : fluid.points) {
        add(tablet().say({"app.record-page.viscosity-at", {{"temperature", point.at.toText()}}}),
            point.viscosity.toText());
    }
    add(tablet().label("record.density"), textIn(fluid.density));
    const auto& tanks = tablet().site().tanks;
    QStringList filled;
    for (const run::TankRecord& tank : tanks) {
        if (run::fluidText(tank.fluid) == run::fluidText(fluid)) {
            filled.append(toQt(tank.name));
        }
    }
    rows.append({tablet().label("app.record-page.tanks-with-it"),
                 filled.isEmpty() ? tablet().label("app.record-page.no-tank") : filled.join(QStringLiteral(", "))});
    return rows;
}

std::vector<FluidView::Group> FluidView::begin(const run::RecordPut* record)
{
    const bool isKnown = record != nullptr;
    put_ = isKnown ? std::get<run::FluidPut>(*record) : run::FluidPut{};
    run::FluidRecord& fluid = put_.fluid;
    at40_ = viscosityAt(fluid, "40 °C");
    at100_ = viscosityAt(fluid, "100 °C");
    const auto label = [this](const char* id) { return tablet().label(id); };
    const auto viscosity = [&](const char* at) {
        return tablet().say({"app.record-page.viscosity-at", {{"temperature", at}}});
    };
    const QStringList centistokes = {QStringLiteral("cSt")};
    constexpr int longestGrade = 12;
    Group group;
    Editable grade = editable(label("record.grade"), fluid.grade, {}, isKnown,
                              {.name = {}, .longest = longestGrade, .takesLetters = true});
    grade.set = [&fluid](const std::string& text) { return readGrade(fluid.grade, text); };
    group.fields = {
        std::move(grade), editable(label("record.vi"), fluid.viscosityIndex, {}, isKnown),
        editable(viscosity("40 °C"), at40_, centistokes, isKnown),
        editable(viscosity("100 °C"), at100_, centistokes, isKnown),
        editable(label("record.density"), fluid.density, {QStringLiteral("kg/m³"), QStringLiteral("g/mL")}, isKnown)};
    group.choicesTitle = label("record.fluid.kind");
    group.isChoiceNeeded = true;
    for (const words::OilKind& kind : words::oilKinds()) {
        group.choices.append(choice(label(kind.word)));
    }
    group.pick = [this](int row) { put_.fluid.kind = words::oilKinds()[static_cast<std::size_t>(row)].kind; };
    return {std::move(group)};
}

/// With the two points as they were typed; points at other temperatures stay.
run::RecordPut FluidView::record() const
{
    run::FluidPut put = put_;
    const auto set = [&](const char* temperature, const std::optional<run::TypedViscosity>& viscosity) {
        const auto at = measuredAt(temperature);
        const auto found = std::ranges::find(put.fluid.points, at, &run::FluidRecord::Point::at);
        if (!viscosity) {
            std::erase_if(put.fluid.points, [&](const auto& point) { return point.at == at; });
        } else if (found != put.fluid.points.end()) {
            found->viscosity = *viscosity;
        } else {
            put.fluid.points.push_back({at, *viscosity});
        }
    };
    set("40 °C", at40_);
    set("100 °C", at100_);
    return put;
}

} // namespace loopside::app
