// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "app/element_view.h"

#include "app/draft_places.h"
#include "app/setup_words.h"
#include "app/wanted_units.h"
#include "app/wording.h"

#include <array>

namespace loopside::app {

namespace {

constexpr std::array<const char*, 2> kinds = {"particle", "water"};

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
    return joined(parts);
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
    add("record.clean_dp", pressure(type.cleanDp));
    add("record.change_limit", pressure(type.changeLimit));
    add("record.bypass", pressure(type.bypass));
    return rows;
}

std::vector<ElementView::Group> ElementView::begin(const run::RecordPut* record)
{
    const bool isKnown = record != nullptr;
    put_ = isKnown ? std::get<run::ElementTypePut>(*record) : run::ElementTypePut{};
    run::StageRecord& type = put_.stage;
    const QStringList pressures = {QStringLiteral("kPa"), QStringLiteral("bar"), QStringLiteral("psi")};
    constexpr int longestText = 16;
    const auto label = [this](const char* id) { return tablet().label(id); };
    Group group;
    group.fields = {editable(label("record.rating_um"), type.ratingUm, {}, isKnown),
                    editable(label("record.beta"), type.beta, {}, isKnown),
                    editable(label("record.change_limit"), type.changeLimit, pressures, isKnown),
                    editable(label("record.bypass"), type.bypass, pressures, isKnown),
                    editable(label("record.clean_dp"), type.cleanDp, pressures, isKnown),
                    editable(label("record.media"), type.media, {}, isKnown,
                             {.name = {}, .longest = longestText, .takesLetters = true}),
                    editable(label("record.seals"), type.seals, {}, isKnown,
                             {.name = {}, .longest = longestText, .takesLetters = true}),
                    editable(label("record.water_capacity"), type.waterCapacity,
                             {QStringLiteral("L"), QStringLiteral("mL")}, isKnown)};
    group.choicesTitle = label("record.kind");
    group.isChoiceNeeded = true;
    for (const char* kind : kinds) {
        group.choices.append(choice(tablet().say({std::string("app.stage.") + kind, {}})));
    }
    group.pick = [this](int row) { put_.stage.kind = kinds.at(static_cast<std::size_t>(row)); };
    return {std::move(group)};
}

} // namespace loopside::app
