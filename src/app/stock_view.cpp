// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "app/stock_view.h"

#include "app/draft_places.h"
#include "app/wording.h"
#include "run/stock.h"

#include <algorithm>
#include <array>
#include <ranges>

namespace loopside::app {

namespace {

struct KindName
{
    std::string_view why; ///< As the journal has it.
    const char* name;
    const char* detail;
    const char* main;
};

constexpr std::array<KindName, 3> kindNames = {{
    {run::stockReceived, "app.stock.received", "app.stock.received.detail", "app.stock.log-received"},
    {run::stockCounted, "app.stock.counted", "app.stock.counted.detail", "app.stock.log-counted"},
    {run::stockUsedElsewhere, "app.stock.elsewhere", "app.stock.elsewhere.detail", "app.stock.log-elsewhere"},
}};

std::vector<FieldsView::Field> elementsField(const Tablet& tablet)
{
    constexpr int longestCount = 5;
    return {{tablet.label("app.stock.elements"), {tablet.label("app.stock.pieces")}, longestCount, {}}};
}

QString withSign(int elements)
{
    return (elements > 0 ? QStringLiteral("+%1") : QStringLiteral("−%1")).arg(std::abs(elements));
}

void addOnce(std::vector<std::string>& names, const std::string& name)
{
    if (!name.empty() && std::ranges::find(names, name) == names.end()) {
        names.push_back(name);
    }
}

} // namespace

StockView::StockView(Tablet& tablet, QObject* parent)
    : QObject{parent},
      tablet_{tablet},
      types_{{"name", "detail", "isChosen"}},
      facts_{{"name", "value"}},
      kinds_{{"name", "detail", "isChosen"}},
      moves_{{"amount", "text", "run"}},
      fields_{elementsField(tablet)}
{
    connect(&fields_, &FieldsView::changed, this, &StockView::refresh);
    connect(&tablet_, &Tablet::changed, this, &StockView::refresh);
    refresh();
}

const std::string& StockView::type() const
{
    static const std::string none;
    return type_ < 0 ? none : names_[static_cast<std::size_t>(type_)];
}

QString StockView::toQtName() const
{
    return toQt(type());
}

run::StockStanding StockView::standing(const std::string& type) const
{
    const auto found = tablet_.state().stock.find(type);
    return found == tablet_.state().stock.end() ? run::StockStanding{} : found->second;
}

QString StockView::stockText(const std::string& type) const
{
    const run::StockStanding stock = standing(type);
    if (!stock.isCounted) {
        return stock.elements == 0
            ? tablet_.label("app.stock.not-told")
            : tablet_.say({"app.stock.only-used", {{"elements", std::to_string(-stock.elements)}}});
    }
    return tablet_.say({"app.stock.there", {{"elements", std::to_string(stock.elements)}}});
}

void StockView::refresh()
{
    showTypes();
    showFacts();
    showMoves();
    QList<RowModel::Row> rows;
    for (const KindName& kind : kindNames) {
        rows.append({tablet_.label(kind.name), QString(), rows.size() == static_cast<int>(kind_)});
    }
    kinds_.setRows(std::move(rows));
    Q_EMIT changed();
}

void StockView::showTypes()
{
    for (const run::StageRecord& type : tablet_.site().elementTypes) {
        addOnce(names_, type.type);
    }
    for (const SiteCart& cart : tablet_.site().carts) {
        for (const run::StageRecord& stage : cart.stages) {
            addOnce(names_, stage.type);
        }
    }
    for (const auto& [type, stock] : tablet_.state().stock) {
        addOnce(names_, type);
    }
    QList<RowModel::Row> rows;
    for (const std::string& name : names_) {
        rows.append({toQt(name), stockText(name), rows.size() == type_});
    }
    types_.setRows(std::move(rows));
}

/// How many are there, and where they are used.
void StockView::showFacts()
{
    QList<RowModel::Row> rows;
    if (type_ >= 0) {
        rows.append({tablet_.label("app.stock.there-name"), stockText(type())});
        for (const SiteCart& cart : tablet_.site().carts) {
            for (std::size_t i = 0; i < cart.stages.size(); ++i) {
                if (cart.stages[i].type == type()) {
                    rows.append(
                        {tablet_.say(
                             {"app.stock.used-in", {{"cart", cart.cart.name}, {"stage", std::to_string(i + 1)}}}),
                         tablet_.say({"app.stock.a-set", {{"elements", std::to_string(cart.stages[i].elements)}}})});
                }
            }
        }
    }
    facts_.setRows(std::move(rows));
}

void StockView::showMoves()
{
    QList<RowModel::Row> rows;
    for (const auto& move : std::views::reverse(tablet_.state().stockMoves)) {
        if (move.what.type == type()) {
            rows.append({withSign(move.what.elements), moveText(move), QString()});
        }
    }
    moves_.setRows(std::move(rows));
}

/// "received · 2026-05-26 07:12 · Ines"; of a changeover also where.
QString StockView::moveText(const run::Entered<run::StockMoved>& move) const
{
    const std::string id = "app.stock.why." + move.what.why;
    QStringList parts = {tablet_.words().has(id) ? tablet_.say({id, {}}) : toQt(move.what.why)};
    if (const auto* run = tablet_.state().runOf(move.header.run)) {
        parts.append(toQt(run->setup.tank.name) + QStringLiteral(", ") + toQt(run->setup.cart.name));
    }
    parts.append(dayText(move.header.entered));
    parts.append(tablet_.nameOf(move.header.person));
    parts.removeAll(QString());
    return parts.join(QStringLiteral(" · "));
}

std::optional<int> StockView::typed() const
{
    bool isNumber = false;
    const int number = fields_.text(0).toInt(&isNumber);
    return isNumber && number >= 0 ? std::optional(number) : std::nullopt;
}

std::optional<int> StockView::moved() const
{
    const auto number = typed();
    if (!number || type_ < 0) {
        return std::nullopt;
    }
    switch (kind_) {
    case Kind::Received:
        return *number;
    case Kind::Counted:
        return *number - standing(type()).elements;
    case Kind::UsedElsewhere:
        return -*number;
    case Kind::None:
        break;
    }
    return std::nullopt;
}

QString StockView::kindText() const
{
    return kind_ == Kind::None ? QString() : tablet_.label(kindNames.at(static_cast<std::size_t>(kind_)).detail);
}

QString StockView::mainText() const
{
    const auto number = typed();
    return !moved()
        ? tablet_.label("app.stock.log")
        : tablet_.say({kindNames.at(static_cast<std::size_t>(kind_)).main,
                       {{"elements", std::to_string(*number)}, {"moved", withSign(*moved()).toStdString()}}});
}

QString StockView::problem() const
{
    if (type_ < 0) {
        return tablet_.label("app.stock.choose-type");
    }
    if (kind_ == Kind::None) {
        return tablet_.label("app.stock.choose-kind");
    }
    if (!typed()) {
        return tablet_.label("app.stock.type-number");
    }
    if (*moved() == 0) {
        return tablet_.label(kind_ == Kind::Counted && standing(type()).isCounted ? "app.stock.count-agrees"
                                                                                  : "app.stock.type-number");
    }
    return {};
}

/// A draft that was not kept stands in nobody's way, but is told.
QString StockView::notice() const
{
    return fields_.isKept() ? notice_ : tablet_.label("app.pad.draft-not-stored");
}

/// What was typed for another type stays with it.
void StockView::chooseType(int row)
{
    if (row < 0 || row >= static_cast<int>(names_.size())) {
        return;
    }
    type_ = row;
    kind_ = Kind::None;
    const bool wasTyped = fields_.keepIn(tablet_.drafts(), stockDrafts, toQtName());
    notice_ = wasTyped ? tablet_.label("app.pad.offered-again") : QString();
    refresh();
}

void StockView::chooseKind(int row)
{
    kind_ = static_cast<Kind>(row);
    notice_.clear();
    refresh();
}

void StockView::log()
{
    const auto by = moved();
    if (!by || *by == 0) {
        return;
    }
    const std::string why{kindNames.at(static_cast<std::size_t>(kind_)).why};
    if (tablet_.submit(run::MoveStock{type(), *by, why})) {
        kind_ = Kind::None;
        notice_ = tablet_.label("app.pad.logged");
        fields_.clear();
    }
}

} // namespace loopside::app
