// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "app/setup_view.h"

#include "app/wording.h"
#include "base/text.h"
#include "run/plan.h"
#include "words/told.h"

#include <algorithm>
#include <array>

namespace loopside::app {

namespace {

constexpr std::array<const char*, 4> turnoverChoices = {"5", "6", "7", "10"};
constexpr std::array<const char*, 4> areaChecks = {"permit", "owner", "area", "right-tank"};
constexpr int longestNumber = 6;

QString joined(const QStringList& parts)
{
    return parts.join(QStringLiteral(" · "));
}

} // namespace

SetupView::SetupView(Tablet& tablet, QObject* parent)
    : QObject{parent},
      tablet_{tablet},
      tanks_{{"name", "detail", "isChosen"}},
      carts_{{"name", "detail", "isChosen"}},
      targets_{{"name", "detail", "isChosen"}},
      plan_{{"name", "value"}},
      checks_{{"text", "isAnswered"}},
      answered_(static_cast<qsizetype>(areaChecks.size()), false)
{
    refresh();
}

void SetupView::refresh()
{
    QList<RowModel::Row> tankRows;
    for (const auto& tank : tablet_.site().tanks) {
        const QString detail = joined({toQt(tank.fluid.kind), toQt(tank.fluid.grade), toQt(tank.volume.toText())});
        tankRows.append({toQt(tank.name), detail, tankRows.size() == tank_});
    }
    tanks_.setRows(std::move(tankRows));

    QList<RowModel::Row> cartRows;
    for (const auto& cart : tablet_.site().carts) {
        const QString stages = tablet_.say({"app.setup.stages", {{"stages", std::to_string(cart.stages.size())}}});
        const QString lastOil = tablet_.say({"app.setup.last-oil", {{"oil", cart.cart.lastFluid}}});
        const QString detail = joined({toQt(cart.cart.flow.toText()), cart.cart.lastFluid.empty() ? stages : lastOil});
        cartRows.append({toQt(cart.cart.name), detail, cartRows.size() == cart_});
    }
    carts_.setRows(std::move(cartRows));

    QList<RowModel::Row> targetRows;
    for (const char* target : turnoverChoices) {
        targetRows.append(
            {QString::fromLatin1(target), tablet_.label("app.setup.turnovers"), targetRows.size() == target_});
    }
    targets_.setRows(std::move(targetRows));

    QList<RowModel::Row> checkRows;
    for (std::size_t i = 0; i < areaChecks.size(); ++i) {
        checkRows.append(
            {tablet_.say({std::string("app.check.") + areaChecks[i], {}}), answered_[static_cast<qsizetype>(i)]});
    }
    checks_.setRows(std::move(checkRows));

    refreshOutcome();
    Q_EMIT changed();
}

/// What the choices come to, or what is still missing.
void SetupView::refreshOutcome()
{
    problem_.clear();
    QList<RowModel::Row> planRows;
    const auto setup = chosen();
    if (!setup) {
        problem_ = tablet_.label(tank_ < 0       ? "app.setup.choose-tank"
                                     : cart_ < 0 ? "app.setup.choose-cart"
                                                 : "app.setup.choose-target");
    } else if (const auto fault = run::faultIn(*setup)) {
        problem_ = toQt(fault->place) + QStringLiteral(": ") + toQt(fault->sentence);
    } else {
        const auto typed = Decimal::parse(oil_.toStdString());
        const auto oil = typed ? std::optional(units::Temperature(typed->toDouble(), units::celsius)) : std::nullopt;
        const auto plan = run::planOf(*setup, oil);
        const auto add = [&](const char* label, const std::string& value) {
            planRows.append({tablet_.label(label), toQt(value)});
        };
        add("app.plan.turnover", fixed(plan.turnover.in(units::minute), 0) + " min");
        if (plan.run) {
            add("app.plan.run", fixed(plan.run->in(units::hour), 1) + " h");
        }
        const bool waitsForOil = !typed && !plan.viscosity;
        add("app.plan.viscosity",
            plan.viscosity    ? fixed(plan.viscosity->in(units::centistokes), 0) + " cSt"
                : waitsForOil ? tablet_.label("app.plan.type-oil").toStdString()
                              : plan.viscosityWhy);
        for (std::size_t i = 0; i < plan.stages.size(); ++i) {
            const auto& drop = plan.stages[i].cleanDp;
            const auto& limit = setup->stages[i].changeLimit;
            planRows.append({tablet_.say({"app.plan.clean", {{"stage", std::to_string(i + 1)}}}),
                             drop ? toQt(words::computedText(*drop, *setup->cart.gauges[i].unit)
                                         + (limit ? " / " + limit->toText() : ""))
                                  : QStringLiteral("–")});
        }
        if (!oil_.isEmpty() && !typed) {
            problem_ = tablet_.label("app.pad.not-a-number");
        } else if (answered_.contains(false)) {
            problem_ = tablet_.label("app.setup.answer-checks");
        }
    }
    plan_.setRows(std::move(planRows));
}

std::optional<run::Setup> SetupView::chosen() const
{
    if (tank_ < 0 || cart_ < 0 || target_ < 0) {
        return std::nullopt;
    }
    const auto& tank = tablet_.site().tanks[static_cast<std::size_t>(tank_)];
    const auto& cart = tablet_.site().carts[static_cast<std::size_t>(cart_)];
    const auto turnovers = Decimal::parse(turnoverChoices.at(static_cast<std::size_t>(target_)));
    return run::Setup{tank.name, tank, cart.cart, cart.stages, {*turnovers, {}, counterOnSite_}};
}

void SetupView::chooseTank(int row)
{
    tank_ = row;
    answered_.fill(false); // what was checked held for another tank
    refresh();
}

void SetupView::chooseCart(int row)
{
    cart_ = row;
    refresh();
}

void SetupView::chooseTarget(int row)
{
    target_ = row;
    refresh();
}

void SetupView::toggleCounter()
{
    counterOnSite_ = !counterOnSite_;
    refresh();
}

void SetupView::answerCheck(int row)
{
    if (row >= 0 && row < answered_.size()) {
        answered_[row] = !answered_[row];
        refresh();
    }
}

void SetupView::key(const QString& sign)
{
    if (oil_.size() < longestNumber) {
        oil_ += sign;
        refresh();
    }
}

void SetupView::backspace()
{
    oil_.chop(1);
    refresh();
}

void SetupView::start()
{
    auto setup = chosen();
    if (!setup || !canStart() || !tablet_.openRun(*std::move(setup))) {
        return;
    }
    for (const char* check : areaChecks) {
        tablet_.say(run::Said(run::CheckAnswered{std::string("setup-") + check, "yes"}));
    }
    if (!oil_.isEmpty()) {
        tablet_.say(run::Said(run::CheckAnswered{"setup-oil-temperature", oil_.toStdString() + " °C"}));
    }
    tank_ = -1;
    cart_ = -1;
    target_ = -1;
    oil_.clear();
    answered_.fill(false);
    refresh();
    Q_EMIT started();
}

} // namespace loopside::app
