// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "app/cart_view.h"

#include "app/draft_places.h"
#include "app/editable.h"
#include "app/job_words.h"
#include "app/place_state.h"
#include "app/setup_words.h"
#include "app/wanted_units.h"
#include "app/wording.h"
#include "ledger/setup_json.h"

#include <nlohmann/json.hpp>

#include <algorithm>

namespace loopside::app {

namespace {

constexpr int longestNumber = 6;
constexpr int longestType = 24;

nlohmann::ordered_json asJson(const run::CartRecord& cart, const std::vector<run::StageRecord>& stages)
{
    nlohmann::ordered_json json = ledger::cartJson(cart);
    for (const run::StageRecord& stage : stages) {
        json["stages"].push_back(ledger::stageJson(stage));
    }
    return json;
}

/// The unit of the dials first: limits are typed in it.
QStringList pressureUnits(const run::CartRecord& cart)
{
    QStringList units = {QStringLiteral("kPa"), QStringLiteral("bar"), QStringLiteral("psi")};
    const QString own = cart.gauges.empty() ? QString() : toQt(cart.gauges.front().unit->symbol);
    if (units.removeOne(own)) {
        units.prepend(own);
    }
    return units;
}

} // namespace

CartView::CartView(Tablet& tablet, QObject* parent)
    : RecordView{tablet, cartDrafts, parent}, put_{tablet.site().carts.front().cart, tablet.site().carts.front().stages}
{
    refresh();
}

std::vector<std::string> CartView::names() const
{
    std::vector<std::string> names;
    for (const SiteCart& cart : tablet().site().carts) {
        names.push_back(cart.cart.name);
    }
    return names;
}

QString CartView::stateOf(const std::string& name) const
{
    return cartStateOf(tablet(), name).text;
}

QList<RowModel::Row> CartView::factsOf(int row) const
{
    const SiteCart& known = tablet().site().carts[static_cast<std::size_t>(row)];
    QList<RowModel::Row> rows = cartFacts(tablet(), known.cart, nullptr);
    rows[1][1] = toQt(lastFluidOf(tablet(), known.cart));
    const auto add = [&](const QString& name, const QString& value) {
        rows.append({name, value.isEmpty() ? tablet().label("app.setup.not-known") : value});
    };
    add(tablet().label("record.relief"),
        known.cart.relief ? asWanted(*known.cart.relief, tablet().wants()) : QString());
    for (std::size_t i = 0; i < known.stages.size(); ++i) {
        const run::StageRecord& stage = known.stages[i];
        add(stageTitle(tablet(), stage, static_cast<int>(i) + 1), toQt(stage.type));
        add(tablet().label("app.record-page.limit"),
            stage.changeLimit ? asWanted(*stage.changeLimit, tablet().wants()) : QString());
    }
    return rows;
}

std::vector<HistoryLine> CartView::historyOf(const std::string& name) const
{
    std::vector<HistoryLine> lines = workOfCart(tablet(), name);
    nlohmann::ordered_json before;
    for (const SiteCart& cart : tablet().siteAsBegun().carts) {
        if (cart.cart.name == name) {
            before = asJson(cart.cart, cart.stages);
        }
    }
    for (const auto& entered : tablet().state().records) {
        const auto* put = std::get_if<run::CartPut>(&entered.what);
        if (put != nullptr && put->cart.name == name) {
            auto after = asJson(put->cart, put->stages);
            lines.push_back(changeLine(tablet(), entered.header, before, after));
            before = std::move(after);
        }
    }
    return lines;
}

std::vector<CartView::Editable> CartView::begin(int row)
{
    const SiteCart& known = tablet().site().carts[static_cast<std::size_t>(row)];
    put_ = {known.cart, known.stages};
    const QStringList pressures = pressureUnits(put_.cart);
    const QStringList flows = {QStringLiteral("L/min"), QStringLiteral("gpm")};
    const auto editable = [&](const QString& name, auto& member, const QStringList& units, int longest = longestNumber,
                              bool takesLetters = false) {
        return Editable{{.name = name,
                         .units = unitsFor(member, units),
                         .longest = longest,
                         .takesLetters = takesLetters,
                         .ghost = toQt(textIn(member))},
                        [&member](const std::string& text) { return readInto(member, text); }};
    };
    run::CartRecord& cart = put_.cart;
    std::vector<Editable> all = {editable(tablet().label("record.flow"), cart.flow, flows),
                                 editable(tablet().label("record.lowest_flow"), cart.lowestFlow, flows),
                                 editable(tablet().label("record.relief"), cart.relief, pressures),
                                 editable(tablet().label("record.static_head"), cart.staticHead, pressures)};
    for (std::size_t i = 0; i < put_.stages.size(); ++i) {
        run::StageRecord& stage = put_.stages[i];
        const QString title = tablet().say({"app.stage", {{"stage", std::to_string(i + 1)}}}) + QLatin1Char(' ');
        all.push_back(editable(title + tablet().label("record.change_limit"), stage.changeLimit, pressures));
        all.push_back(editable(title + tablet().label("record.bypass"), stage.bypass, pressures));
        all.push_back(editable(title + tablet().label("record.clean_dp"), stage.cleanDp, pressures));
        all.push_back(editable(title + tablet().label("record.type"), stage.type, {}, longestType, true));
    }
    return all;
}

} // namespace loopside::app
