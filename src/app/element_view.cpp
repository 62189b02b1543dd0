// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "app/element_view.h"

#include "app/as_shown.h"
#include "app/draft_places.h"
#include "app/setup_words.h"
#include "app/wanted_units.h"
#include "app/wording.h"

#include <array>

namespace loopside::app {

namespace {

constexpr std::array<const char*, 2> kinds = {"particle", "water"};

/// "20 L/min, 46 cSt".
QString cleanAtText(const run::StageRecord& type)
{
    if (!type.cleanAt) {
        return {};
    }
    QStringList parts = {toQt(type.cleanAt->flow.toText()), toQt(type.cleanAt->viscosity.toText()),
                         toQt(textIn(type.cleanAt->density))};
    parts.removeAll(QString());
    return asShown(parts.join(QStringLiteral(", ")));
}

} // namespace

ElementView::ElementView(Tablet& tablet, QObject* parent) : RecordView{tablet, "element-type", elementDrafts, parent}
{
    refresh();
}

/// What it is, and how many are there.
QString ElementView::stateOf(const run::RecordPut& record) const
{
    const run::StageRecord& type = std::get<run::ElementTypePut>(record).stage;
    QStringList parts = {tablet().label(type.kind == "water" ? "app.stage.water" : "app.stage.particle")};
    if (type.ratingUm) {
        parts.append(toQt(type.ratingUm->toText()) + QStringLiteral(" µm"));
    }
    const auto stock = tablet().state().stock.find(type.type);
    if (stock != tablet().state().stock.end() && stock->second.isCounted) {
        parts.append(tablet().say({"app.stock.there", {{"elements", std::to_string(stock->second.elements)}}}));
    }
    return asShown(joined(parts));
}

QList<RowModel::Row> ElementView::factsOf(const run::RecordPut& record) const
{
    const run::StageRecord& type = std::get<run::ElementTypePut>(record).stage;
    QList<RowModel::Row> rows;
    const auto add = [&](const char* name, const QString& value) {
        rows.append({tablet().label(name), value.isEmpty() ? tablet().label("app.setup.not-known") : value});
    };
    const auto pressure = [&](const std::optional<run::TypedPressure>& value) {
        return value ? asWanted(*value, tablet().wants()) : QString();
    };
    add("record.kind", tablet().label(type.kind == "water" ? "app.stage.water" : "app.stage.particle"));
    add("record.rating_um", toQt(textIn(type.ratingUm)));
    add("record.beta", toQt(textIn(type.beta)));
    add("record.media", toQt(type.media));
    add("record.seals", toQt(type.seals));
    add("app.record-page.in-a-set", toQt(textIn(type.elements)));
    add("record.clean_dp", pressure(type.cleanDp));
    add("record.clean_dp_housing", pressure(type.cleanDpHousing));
    add("app.record-page.clean-at", cleanAtText(type));
    add("record.change_limit", pressure(type.changeLimit));
    add("record.bypass", pressure(type.bypass));
    return rows;
}

std::vector<ElementView::Group> ElementView::begin(const run::RecordPut* record)
{
    const bool isKnown = record != nullptr;
    put_ = isKnown ? std::get<run::ElementTypePut>(*record) : run::ElementTypePut{};
    cleanAt_ = site::CleanAtParts::of(put_.stage.cleanAt);
    return {kindGroup(isKnown), pressureGroup(isKnown)};
}

run::RecordPut ElementView::record() const
{
    run::ElementTypePut put = put_;
    put.stage.cleanAt = cleanAt_.whole();
    return put;
}

ElementView::Group ElementView::kindGroup(bool isKnown)
{
    run::StageRecord& type = put_.stage;
    constexpr int longestText = 16;
    const auto label = [this](const char* id) { return tablet().label(id); };
    const FieldsView::Field words{.name = {}, .longest = longestText, .takesLetters = true};
    Group group;
    group.name = label("app.record-page.make");
    group.fields = {editable(label("record.rating_um"), type.ratingUm, {}, isKnown),
                    editable(label("record.beta"), type.beta, {}, isKnown),
                    editable(label("record.media"), type.media, {}, isKnown, words),
                    editable(label("record.seals"), type.seals, {}, isKnown, words),
                    editable(label("record.water_capacity"), type.waterCapacity,
                             {QStringLiteral("L"), QStringLiteral("mL")}, isKnown),
                    editable(label("app.record-page.elements-in-stage"), type.elements, {}, isKnown)};
    group.choicesTitle = label("record.kind");
    group.isChoiceNeeded = true;
    for (const char* kind : kinds) {
        group.choices.append(choice(tablet().say({std::string("app.stage.") + kind, {}})));
    }
    group.pick = [this](int row) { put_.stage.kind = kinds.at(static_cast<std::size_t>(row)); };
    return group;
}

/// A clean ΔP says something of another oil only with the flow and the viscosity that it was measured at.
ElementView::Group ElementView::pressureGroup(bool isKnown)
{
    run::StageRecord& type = put_.stage;
    const QStringList pressures = {QStringLiteral("kPa"), QStringLiteral("bar"), QStringLiteral("psi")};
    const auto label = [this](const char* id) { return tablet().label(id); };
    Group group;
    group.name = label("app.record-page.pressures");
    group.fields = {editable(label("record.change_limit"), type.changeLimit, pressures, isKnown),
                    editable(label("record.bypass"), type.bypass, pressures, isKnown)};
    for (Editable& field : cleanFields(type, cleanAt_, pressures, isKnown)) {
        group.fields.push_back(std::move(field));
    }
    return group;
}

} // namespace loopside::app
