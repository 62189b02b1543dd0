// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// What a set-up shows: its rows and sentences. What it decides stands in setup_view.cpp.

#include "app/as_shown.h"
#include "app/job_words.h"
#include "app/planned_job.h"
#include "app/setup_choices.h"
#include "app/wanted_units.h"
#include "app/wording.h"
#include "base/text.h"

#include <algorithm>
#include <utility>

namespace loopside::app {

namespace {

using namespace choices;
using Step = SetupView::Step;

/// Where what suits is decided.
Step stepOf(filtration::SuitSubject subject)
{
    switch (subject) {
    case filtration::SuitSubject::CartFluid:
        return Step::Cart;
    case filtration::SuitSubject::Water:
        return Step::Oil;
    default:
        return Step::Elements;
    }
}

/// How the clean ΔP of a stage is judged; null where nothing is.
const run::ItemJudged* stageItem(const run::StartJudged& start, int stage)
{
    const auto found = std::find_if(start.items.begin(), start.items.end(), [&](const run::ItemJudged& item) {
        return item.item == run::StartItem::StageDrop && item.stage == stage;
    });
    return found == start.items.end() ? nullptr : &*found;
}

/// What runs before taught of the elements: what these gauges showed of new ones, and how many a run uses up.
QList<Heed> taughtHeeds(const Tablet& tablet, const run::Setup& setup, const run::Plan& plan)
{
    QList<Heed> heeds;
    for (std::size_t i = 0; i < plan.stages.size(); ++i) {
        const run::StagePlan& stage = plan.stages[i];
        const std::string number = std::to_string(i + 1);
        if (stage.byDials) {
            const auto text = [&](units::Pressure drop) {
                return units::shown(drop, *setup.cart.gauges[i].unit, tablet.wanted());
            };
            heeds.append({filtration::SuitLevel::Note,
                          asShown(tablet
                                      .say({"app.stage.by-dials",
                                            {{"stage", number},
                                             {"least", text(stage.byDials->least)},
                                             {"most", text(stage.byDials->most)},
                                             {"sets", std::to_string(stage.byDials->sets)}}})
                                      .toStdString())});
        }
        if (stage.usedUp) {
            const run::ElementsBand& elements = stage.usedUp->elements;
            heeds.append({filtration::SuitLevel::Note,
                          tablet.say({"app.stage.used-up",
                                      {{"stage", number},
                                       {"least", std::to_string(elements.low)},
                                       {"most", std::to_string(elements.high)},
                                       {"middle", std::to_string(elements.best)},
                                       {"lives", std::to_string(stage.usedUp->lives)}}})});
        }
    }
    return heeds;
}

} // namespace

QList<Heed> SetupView::heedOf(Step step) const
{
    QList<Heed> heeds;
    const auto add = [&](filtration::SuitLevel level, const QString& text) { heeds.append({level, text}); };
    if (step == Step::Tank && tankCheck_.known() == run::TankKnown::AgainstIt) {
        add(filtration::SuitLevel::Caution, tankCheck_.knownText());
    }
    if (step == Step::Cart && wantsFlush_) {
        add(filtration::SuitLevel::Caution, tablet_.label("app.cart.flush-first"));
    }
    if (step == Step::Hoses && choice_.placement >= 0) {
        const auto& placement = placementAt(choice_.placement);
        add(placement.placement == filtration::HosePlacement::Adjacent ? filtration::SuitLevel::Caution
                                                                       : filtration::SuitLevel::Ok,
            tablet_.say({std::string("app.placement.why.") + placement.name, {}}));
    }
    if (!plan_) {
        return heeds;
    }
    for (const filtration::Suit& suit : plan_->suits) {
        if (step == stepOf(suit.subject)) {
            add(suit.level, tablet_.words().has(suit.told.id) ? tablet_.say(suit.told) : toQt(suit.sentence));
        }
    }
    if (step == Step::Elements) {
        heeds += limitHeeds(tablet_, *setup_, *plan_);
        heeds += taughtHeeds(tablet_, *setup_, *plan_);
        for (const run::ItemJudged& item : plan_->start.items) {
            if (item.item == run::StartItem::StageDrop && item.fit != run::Fit::Fits) {
                // too much is told by the stage's bar
                add(filtration::SuitLevel::Caution, item.fit == run::Fit::Over ? QString() : tablet_.say(item.told));
            }
        }
    } else if (step == Step::Oil && plan_->caution) {
        add(filtration::SuitLevel::Caution, toQt(*plan_->caution));
    } else if (step == Step::Hoses) {
        add(filtration::SuitLevel::Note, levelText(tablet_, *setup_));
        if (plan_ && plan_->tank.fall) {
            const std::string fall = fixed(plan_->tank.fall->in(units::centimetre), 1) + " cm";
            add(filtration::SuitLevel::Note, tablet_.say({"app.hoses.level-fall", {{"fall", fall}}}));
        }
        for (const Message& caution : run::tankCautions(*setup_)) {
            add(filtration::SuitLevel::Caution, tablet_.say(caution));
        }
    } else if (step == Step::Target && plan_->code) {
        const auto& code = *plan_->code;
        add(filtration::SuitLevel::Note,
            code.run || code.gaps > 0 ? codeTimeText(code)
                                      : tablet_.say({"app.target.code-unknown", {{"why", code.why}}}));
    }
    return heeds;
}

/// How long to the code, or that what gets in bars it: by what was told of the tank, or by what its runs taught, with
/// their number.
QString SetupView::codeTimeText(const run::CodePlan& code) const
{
    const auto text = [this](const std::optional<units::Duration>& time) {
        return time ? spanText(*time).toStdString() : tablet_.label("app.target.never").toStdString();
    };
    if (!code.run) {
        return tablet_.say({"app.target.code-barred", {{"gaps", std::to_string(code.gaps)}}});
    }
    const std::string by = code.gaps == 0 ? "-learned" : code.runs == 0 ? "-ingress" : "-both";
    return tablet_.say({"app.target.code-time" + (code.runs + code.gaps == 0 ? std::string() : by),
                        {{"time", text(code.run)},
                         {"least", text(code.runLeast)},
                         {"most", text(code.runMost)},
                         {"runs", std::to_string(code.runs)},
                         {"gaps", std::to_string(code.gaps)}}});
}

filtration::SuitLevel SetupView::levelOf(Step step) const
{
    auto level = filtration::SuitLevel::Ok;
    for (const Heed& heed : heedOf(step)) {
        level = std::max(level, heed.level);
    }
    if (step == Step::Oil && choice_.cart >= 0 && !oilTemperature() && seen_.contains(static_cast<int>(step))) {
        level = filtration::SuitLevel::Caution;
    }
    if (step == Step::Verdict && plan_ && plan_->start.verdict != run::Verdict::Go) {
        level = plan_->start.verdict == run::Verdict::NoGo ? filtration::SuitLevel::Conflict
                                                           : filtration::SuitLevel::Caution;
    }
    return level;
}

QString SetupView::detailOf(Step step) const
{
    switch (step) {
    case Step::Tank:
        return choice_.tank < 0
            ? QString()
            : joined({toQt(tablet_.site().tanks[static_cast<std::size_t>(choice_.tank)].name),
                      tablet_.say({"app.right-tank.short." + std::string(run::nameOf(tankCheck_.known())), {}})});
    case Step::Cart:
        return choice_.cart < 0 ? QString()
                                : toQt(tablet_.site().carts[static_cast<std::size_t>(choice_.cart)].cart.name);
    case Step::Elements:
        return setup_ ? ratings(setup_->stages) : QString();
    case Step::Oil: {
        const auto oil = oilTemperature();
        const QString typed = oil ? shownText(*oil, tablet_.wanted()) : QString();
        return oil && plan_ && plan_->viscosity
            ? joined({typed, asShown(fixed(plan_->viscosity->in(units::centistokes), 0) + " cSt")})
            : typed;
    }
    case Step::Hoses:
        return choice_.placement < 0
            ? QString()
            : tablet_.say({std::string("app.placement.short.") + placementAt(choice_.placement).name, {}});
    case Step::Target: {
        const QString code = setup_ ? toQt(setup_->target.code) : code_.text(0);
        const QString turnovers = targets_.rows().value(choice_.target).value(0).toString();
        return choice_.target < 0 ? code
                                  : joined(QStringList{turnovers + QStringLiteral(" ×")}
                                           + (code.isEmpty() ? QStringList() : QStringList{code}));
    }
    case Step::Verdict:
        return plan_ ? verdict_.word() : QString();
    case Step::Area:
        break;
    }
    const QString answered =
        QStringLiteral("%1 / %2").arg(areaPoints_.answered()).arg(run::pointsOf(run::Checklist::BeforeStart).size());
    const int leftOut = areaPoints_.leftOut();
    return leftOut == 0
        ? answered
        : joined({answered, tablet_.say({"app.step-is.points-left-out", {{"points", std::to_string(leftOut)}}})});
}

void SetupView::showSteps()
{
    QList<RowModel::Row> rows;
    for (int i = 0; i < stepCount; ++i) {
        const auto step = static_cast<Step>(i);
        const auto level = levelOf(step);
        const bool isOpen = !problemOf(step).isEmpty() || (i > 1 && !plan_)
            || (step == Step::Oil && !oilTemperature() && !seen_.contains(i));
        const bool isUnlooked = step == Step::Tank && tankCheck_.known() != run::TankKnown::Twice;
        const bool isLeftOut = isUnlooked || (step == Step::Area && areaPoints_.leftOut() > 0)
            || (step == Step::Verdict && areaPoints_.isLeftOut(areaPoint));
        const char* state = level == filtration::SuitLevel::Conflict ? "conflict"
            : level == filtration::SuitLevel::Caution                ? "caution"
            : isOpen                                                 ? "open"
            : isLeftOut                                              ? "left-out"
                                                                     : "done";
        const QString sign = level >= filtration::SuitLevel::Caution ? signOf(level)
            : isOpen                                                 ? QStringLiteral("later")
            : isLeftOut                                              ? QStringLiteral("left-out")
                                                                     : QStringLiteral("done");
        rows.append({tablet_.say({"label.step-" + nameOf(step), {}}), detailOf(step), sign,
                     tablet_.say({std::string("app.step-is.") + state, {}}), step == step_});
    }
    steps_.setRows(std::move(rows));
}

void SetupView::showChoices()
{
    QList<RowModel::Row> rows;
    for (const auto& tank : tablet_.site().tanks) {
        rows.append(
            {toQt(tank.name),
             joined({oilAsShown(tablet_, run::fluidText(tank.fluid)), shownText(tank.volume, tablet_.wanted())}),
             rows.size() == choice_.tank});
    }
    tanks_.setRows(std::exchange(rows, {}));
    for (const auto& cart : tablet_.site().carts) {
        const auto* known = tablet_.state().cartOf(cart.cart.name);
        const std::string last = known != nullptr && !known->lastFluid.empty() ? known->lastFluid : cart.cart.lastFluid;
        rows.append({toQt(cart.cart.name),
                     joined({shownText(cart.cart.flow, tablet_.wanted()), oilAsShown(tablet_, last)}),
                     rows.size() == choice_.cart});
    }
    carts_.setRows(std::exchange(rows, {}));
    for (const Placement& placement : choices::placements) {
        const double factor = filtration::mixingOf(placement.placement).factor;
        rows.append({tablet_.say({std::string("app.placement.") + placement.name, {}}),
                     tablet_.say({"app.placement.factor", {{"factor", fixed(factor, 1)}}}),
                     rows.size() == choice_.placement});
    }
    placements_.setRows(std::exchange(rows, {}));
    for (const Decimal& turnovers : turnoversOffered()) {
        const QString time = plan_ ? spanText(turnovers.toDouble() * plan_->turnover)
                                   : tablet_.label("app.setup.turnovers");
        rows.append({toQt(turnovers.toText()), time, rows.size() == choice_.target});
    }
    targets_.setRows(std::move(rows));
}

void SetupView::showStages()
{
    QList<RowModel::Row> rows;
    for (std::size_t i = 0; plan_ && i < plan_->stages.size(); ++i) {
        const run::StagePlan& stage = plan_->stages[i];
        const run::StageRecord& record = setup_->stages[i];
        const auto& unit = *setup_->cart.gauges[i].unit;
        const QString expected = stage.cleanDp ? asShown(units::shown(*stage.cleanDp, unit, tablet_.wanted()))
                                               : QStringLiteral("–");
        QStringList allowed;
        if (record.changeLimit) {
            allowed.append(tablet_.say({"app.stage.change", {{"limit", record.changeLimit->toText()}}}));
        }
        if (record.bypass) {
            allowed.append(tablet_.say({"app.stage.bypass", {{"bypass", record.bypass->toText()}}}));
        }
        const run::ItemJudged* judged = stageItem(plan_->start, static_cast<int>(i) + 1);
        const run::Fit fit = judged != nullptr ? judged->fit : run::Fit::Unknown;
        rows.append({stageTitle(tablet_, record, static_cast<int>(i) + 1), expected,
                     allowed.isEmpty() ? tablet_.label("app.no-limit") : joined(allowed),
                     judged != nullptr ? judged->share.value_or(0.0) : 0.0, fitSign(fit),
                     tablet_.say({fitText(fit), {}})});
    }
    stages_.setRows(std::move(rows));
}

void SetupView::showFacts()
{
    const auto volumeText = [&](units::Volume volume) {
        return asShown(units::shown(volume, setup_->tank.volume.unit(), tablet_.wanted()));
    };
    QList<RowModel::Row> facts;
    if (step_ == Step::Tank && choice_.tank >= 0) {
        facts = tankFacts(tablet_, tablet_.site().tanks[static_cast<std::size_t>(choice_.tank)]);
    } else if (step_ == Step::Cart && setup_) {
        facts = cartFacts(tablet_, setup_->cart, &setup_->tank);
    } else if (step_ == Step::Oil && plan_) {
        facts = {{tablet_.label("app.plan.viscosity"),
                  plan_->viscosity ? asShown(fixed(plan_->viscosity->in(units::centistokes), 0) + " cSt")
                                   : toQt(plan_->viscosityWhy)}};
        if (plan_->water) {
            facts.append({tablet_.label("app.fact.water-in-oil"), volumeText(plan_->water->water)});
            if (plan_->water->capacity) {
                facts.append({tablet_.label("app.fact.water-capacity"), volumeText(*plan_->water->capacity)});
            }
        }
    } else if (step_ == Step::Target && plan_) {
        facts = {{tablet_.label("app.plan.turnover"), spanText(plan_->turnover)}};
        if (plan_->run) {
            facts.append({tablet_.label("app.plan.run"), spanText(*plan_->run)});
        }
    }
    if (choice_.job && (step_ == Step::Tank || step_ == Step::Target)) {
        facts.prepend(
            {tablet_.label("app.setup.job"),
             joined({toQt(choice_.job->order), plannedTargetText(tablet_, *choice_.job), toQt(choice_.job->reason)})});
    }
    facts_.setRows(std::move(facts));
    QList<RowModel::Row> notes;
    for (const Heed& heed : heedOf(step_)) {
        if (!heed.text.isEmpty()) {
            notes.append({signOf(heed.level), heed.text});
        }
    }
    notes_.setRows(std::move(notes));
}

} // namespace loopside::app
