// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "app/setup_view.h"

#include "app/caution_text.h"
#include "app/draft_places.h"
#include "app/learned_text.h"
#include "app/setup_choices.h"
#include "app/wanted_units.h"
#include "app/wording.h"
#include "base/text.h"
#include "run/learning.h"
#include "run/tank_learned.h"

#include <algorithm>
#include <cmath>

namespace loopside::app {

namespace {

using namespace choices;
using Step = SetupView::Step;

constexpr int longestCode = 8;

std::vector<FieldsView::Field> oilFields(const Tablet& tablet)
{
    return {{.name = tablet.label("app.field.oil"),
             .units = {QStringLiteral("°C"), QStringLiteral("°F")},
             .canBeBelowZero = true},
            {tablet.label("app.field.water"), {QStringLiteral("ppm"), QStringLiteral("%")}}};
}

} // namespace

SetupView::SetupView(Tablet& tablet, QObject* parent)
    : QObject{parent},
      tablet_{tablet},
      steps_{{"name", "detail", "sign", "signText", "isNow"}},
      facts_{{"name", "value"}},
      notes_{{"kind", "text"}},
      tanks_{{"name", "detail", "isChosen"}},
      tankCheck_{tablet},
      carts_{{"name", "detail", "isChosen"}},
      placements_{{"name", "detail", "isChosen"}},
      targets_{{"name", "detail", "isChosen"}},
      stages_{{"title", "expected", "allowed", "fraction", "kind", "kindText"}},
      hosePoints_{tablet, run::Checklist::HookUp, [this](const auto& answered) { return look(answered); }},
      areaPoints_{tablet, run::Checklist::BeforeStart, [this](const auto& answered) { return look(answered); }},
      overrideReasons_{{"text"}},
      oil_{oilFields(tablet)},
      code_{{{tablet.label("app.field.code"), {}, longestCode, QStringLiteral("/")}}},
      verdict_{tablet.words()},
      kept_{tablet, setupAnswers},
      overrideWords_{tablet, overrideDrafts}
{
    QList<RowModel::Row> reasons;
    for (const char* reason : choices::overrideReasons) {
        reasons.append({tablet.say({std::string("app.override.") + reason, {}})});
    }
    overrideReasons_.setRows(std::move(reasons));
    hosePoints_.offer([this](auto check) { return kept_.before(lookedAt(run::Checklist::HookUp), check); });
    areaPoints_.offer([this](auto check) { return kept_.before(lookedAt(run::Checklist::BeforeStart), check); });
    const QString typedBefore = tablet_.label("app.field.typed-before");
    oil_.keepIn(tablet_.drafts(), setupDrafts, QStringLiteral("oil"), typedBefore);
    code_.keepIn(tablet_.drafts(), setupDrafts, QStringLiteral("code"), typedBefore);
    for (FieldsView* fields : {&oil_, &code_}) {
        connect(fields, &FieldsView::changed, this, [this] {
            decideAnew();
            refresh();
        });
    }
    const auto takeWishes = [this] { preferUnits(oil_, tablet_.wants()); };
    connect(&tablet_, &Tablet::personChanged, this, takeWishes);
    takeWishes();
    connect(&tablet_, &Tablet::siteChanged, this, [this](const Site& before) {
        choice_.tank = keptRow(tankNames(before), choice_.tank, tankNames(tablet_.site()));
        choice_.cart = keptRow(cartNames(before), choice_.cart, cartNames(tablet_.site()));
    });
    connect(&tankCheck_, &TankCheck::isOther, this, &SetupView::chooseTank);
    connect(&tankCheck_, &TankCheck::changed, this, &SetupView::refresh);
    connect(&tablet_, &Tablet::changed, this, &SetupView::refresh);
    refresh();
}

void SetupView::decideAnew()
{
    choice_.by.clear();
    choice_.why.clear();
    choice_.takesSlower = false;
}

void SetupView::refresh()
{
    showPoints();
    judge();
    showChoices();
    showStages();
    showFacts();
    showSteps();
    Q_EMIT changed();
}

const units::NamedUnit<units::Temperature>& SetupView::temperatureUnit() const
{
    return **units::unitNamed<units::Temperature>(oil_.unit(OilTemperature).toStdString());
}

std::optional<run::TypedTemperature> SetupView::oilTemperature() const
{
    return oil_.typed<units::Temperature>(OilTemperature);
}

/// The set-up as far as it can be judged: a tank and a cart are enough.
std::optional<run::Setup> SetupView::chosen() const
{
    if (choice_.tank < 0 || choice_.cart < 0) {
        return std::nullopt;
    }
    const auto& tank = tablet_.site().tanks[static_cast<std::size_t>(choice_.tank)];
    const auto& cart = tablet_.site().carts[static_cast<std::size_t>(choice_.cart)];
    run::Setup setup{tank.name, tank, cart.cart, cart.stages, {{}, code_.text(0).toStdString(), choice_.counterOnSite}};
    if (choice_.job) {
        setup.job = choice_.job->order;
    }
    if (choice_.target >= 0) {
        setup.target.turnovers = turnoversOffered().at(static_cast<std::size_t>(choice_.target));
    }
    if (choice_.placement >= 0) {
        const auto& placement = placementAt(choice_.placement);
        setup.tank.mixing = Decimal::nearest(filtration::mixingOf(placement.placement).factor, 1);
    }
    if (const auto water = oil_.typed<units::Fraction>(OilWater)) {
        setup.tank.water = water;
    }
    const auto* known = tablet_.state().cartOf(cart.cart.name);
    if (known != nullptr && !known->lastFluid.empty()) {
        setup.cart.lastFluid = known->lastFluid;
    }
    return setup;
}

void SetupView::judge()
{
    setup_ = chosen();
    plan_.reset();
    fault_.clear();
    if (!setup_) {
        learned_.clear();
        learnedOf_.clear();
    }
    const auto* known = setup_ ? tablet_.state().cartOf(setup_->cart.name) : nullptr;
    wantsFlush_ = known != nullptr && known->flushBeforeCleanUse;
    if (!setup_) {
        verdict_.showNothing(tablet_.label(choice_.tank < 0 ? "app.setup.choose-tank" : "app.setup.choose-cart"));
        return;
    }
    if (const auto fault = run::faultIn(*setup_)) {
        fault_ = asShown(tablet_.say(fault->say));
        verdict_.showNothing(fault_);
        return;
    }
    learn();
    const auto oil = oilTemperature();
    plan_ = run::planOf(*setup_, oil ? std::optional(oil->value()) : std::nullopt, taught_);
    verdict_.show(plan_->start, setup_->cart, temperatureUnit());
    if (areaPoints_.isLeftOut(areaPoint)) {
        verdict_.holdBackForArea();
    }
}

/// What is learned takes its time: it is made anew only for another tank or cart, or when a run was added.
void SetupView::learn()
{
    std::string of = setup_->tank.name + "\n" + setup_->cart.name + "\n" + std::to_string(tablet_.state().runs.size())
        + "\n" + (setup_->tank.mixing ? setup_->tank.mixing->toText() : std::string());
    for (const run::StageRecord& stage : setup_->stages) {
        of += "\n" + stage.type;
    }
    if (of != learnedOf_) {
        learnedOf_ = of;
        learned_ = app::learnedText(tablet_, *setup_);
        taught_ = {run::learnedFor(tablet_.state(), *setup_), run::placeLearned(tablet_.state(), *setup_)};
    }
}

QString SetupView::problemOf(Step step) const
{
    const auto need = [&](bool isThere, const char* id) { return isThere ? QString() : tablet_.label(id); };
    switch (step) {
    case Step::Tank:
        return choice_.tank < 0 || !tankCheck_.isMismatch() ? need(choice_.tank >= 0, "app.setup.choose-tank")
                                                            : tankCheck_.mismatchTitle();
    case Step::Cart:
        return need(choice_.cart >= 0, "app.setup.choose-cart");
    case Step::Elements:
        return fault_;
    case Step::Oil:
        return need((oil_.isEmpty(OilTemperature) || oilTemperature())
                        && (oil_.isEmpty(OilWater) || oil_.typed<units::Fraction>(OilWater)),
                    "app.pad.not-a-number");
    case Step::Hoses:
        return need(choice_.placement >= 0, "app.setup.choose-placement")
            + (choice_.placement >= 0 ? need(hosePoints_.isComplete(), "app.check.answer-each") : QString());
    case Step::Target:
        return need(choice_.target >= 0, "app.setup.choose-target");
    case Step::Verdict:
        return need(!wantsOverride() && (slowerText().isEmpty() || choice_.takesSlower),
                    wantsOverride() ? "app.setup.verdict-stands" : "app.setup.take-slower");
    case Step::Area:
        break;
    }
    return need(areaPoints_.isComplete(), "app.check.answer-each");
}

bool SetupView::needsSomebody(Step step) const
{
    const bool isSeen = seen_.contains(static_cast<int>(step));
    if (step == Step::Oil && !oilTemperature() && !isSeen) {
        return true;
    }
    return !problemOf(step).isEmpty() || (levelOf(step) >= filtration::SuitLevel::Caution && !isSeen);
}

std::optional<Step> SetupView::nextStep() const
{
    for (int i = 1; i < stepCount; ++i) {
        const auto step = static_cast<Step>((static_cast<int>(step_) + i) % stepCount);
        if (needsSomebody(step)) {
            return step;
        }
    }
    return std::nullopt;
}

bool SetupView::isReady() const
{
    return plan_ && problemOf(step_).isEmpty() && !nextStep();
}

QString SetupView::nextText() const
{
    if (isReady()) {
        return tablet_.label(choice_.by.isEmpty() ? "label.start-run" : "label.start-against");
    }
    const auto next = nextStep();
    return next ? tablet_.say({*next < step_ ? "app.setup.back-to" : "app.setup.next",
                               {{"step", tablet_.say({"label.step-" + nameOf(*next), {}}).toStdString()}}})
                : tablet_.label("label.start-run");
}

void SetupView::goOn()
{
    if (isReady()) {
        start();
    } else if (const auto next = problem().isEmpty() ? nextStep() : std::nullopt) {
        show(static_cast<int>(*next));
    }
}

void SetupView::show(int step)
{
    if (step >= 0 && step < stepCount) {
        seen_.insert(static_cast<int>(step_));
        step_ = static_cast<Step>(step);
        refresh();
    }
}

QString SetupView::question() const
{
    return tablet_.say({"app.setup.ask." + nameOf(step_), {}});
}

QString SetupView::reason() const
{
    return tablet_.say({"app.setup.why." + nameOf(step_), {}});
}

QString SetupView::slowerText() const
{
    if (!plan_ || plan_->start.verdict != run::Verdict::GoSlower || !plan_->start.slower) {
        return {};
    }
    return tablet_.say({"app.verdict.take-slower", {{"flow", told().flow->toText()}}});
}

bool SetupView::wantsOverride() const
{
    if (!plan_) {
        return false;
    }
    const auto verdict = plan_->start.verdict;
    return verdict != run::Verdict::Go && verdict != run::Verdict::GoSlower && choice_.by.isEmpty();
}

void SetupView::askOverride()
{
    overrideWords_.about(lookedAt(run::Checklist::HookUp));
}

QString SetupView::overrideText() const
{
    return choice_.by.isEmpty()
        ? QString()
        : tablet_.say(
              {"app.override.told", {{"person", choice_.by.toStdString()}, {"why", choice_.why.toStdString()}}});
}

/// What was told, with the flow at which it goes: rounded down, so that it does go.
run::StartTold SetupView::told() const
{
    run::StartTold told;
    const auto& start = plan_->start;
    told.verdict = run::nameOf(start.verdict);
    told.limiting = start.limitingItem() != nullptr ? run::nameOf(start.limitingItem()->item) : std::string_view();
    told.oil = oilTemperature();
    const auto& unit = setup_->cart.flow.unit();
    if (start.verdict == run::Verdict::Go) {
        told.flow = setup_->cart.flow;
    } else if (start.slower) {
        told.flow = run::TypedFlow(Decimal::nearest(std::floor(start.slower->in(unit.unit) * 10.0 + 1e-6) / 10.0, 1),
                                   unit);
    }
    told.by = choice_.by.isEmpty() ? std::string() : toText(choice_.byId);
    told.why = choice_.why.toStdString();
    return told;
}

std::vector<Decimal> SetupView::turnoversOffered() const
{
    std::vector<Decimal> offered;
    for (const char* turnovers : choices::turnovers) {
        offered.push_back(*Decimal::parse(turnovers));
    }
    if (choice_.job && choice_.job->turnovers && std::ranges::find(offered, *choice_.job->turnovers) == offered.end()) {
        offered.push_back(*choice_.job->turnovers);
    }
    return offered;
}

void SetupView::beginFor(const run::JobRecord& job)
{
    const auto rowOf = [](const std::vector<std::string>& names, const std::string& name) {
        const auto found = std::ranges::find(names, name);
        return found == names.end() ? -1 : static_cast<int>(found - names.begin());
    };
    chooseTank(rowOf(tankNames(tablet_.site()), job.tank));
    chooseCart(rowOf(cartNames(tablet_.site()), job.cart));
    choice_.job = job;
    tankCheck_.forOrder(job.order);
    if (code_.text(0).isEmpty()) { // typed like by hand, so that it can be taken back
        for (const char sign : job.code) {
            code_.key(QString(QLatin1Char(sign)));
        }
    }
    const auto offered = turnoversOffered();
    const auto target = job.turnovers ? std::ranges::find(offered, *job.turnovers) : offered.end();
    choice_.target = target == offered.end() ? -1 : static_cast<int>(target - offered.begin());
    seen_.clear();
    show(static_cast<int>(Step::Tank));
}

void SetupView::chooseTank(int row)
{
    if (row != choice_.tank && choice_.job) {
        if (code_.text(0) == toQt(choice_.job->code)) {
            code_.clear();
        }
        choice_.job.reset(); // it was planned for another tank
        tankCheck_.forOrder({});
        choice_.target = -1;
    }
    choice_.tank = row;
    tankCheck_.about(row);
    choice_.placement = -1;
    lookAnew(run::Checklist::HookUp);
    lookAnew(run::Checklist::BeforeStart); // what was looked at held for another tank
    decideAnew();
    refresh();
}

void SetupView::chooseNearby(int row, bool isOnly)
{
    if (row != choice_.tank) {
        chooseTank(row);
    }
    if (isOnly) {
        tankCheck_.takePosition(tablet_.site().tanks.at(static_cast<std::size_t>(row)).name);
    }
}

void SetupView::chooseCart(int row)
{
    choice_.cart = row;
    lookAnew(run::Checklist::HookUp);
    decideAnew();
    refresh();
}

void SetupView::choosePlacement(int row)
{
    choice_.placement = row;
    refresh();
}

void SetupView::chooseTarget(int row)
{
    choice_.target = row;
    refresh();
}

void SetupView::toggleCounter()
{
    choice_.counterOnSite = !choice_.counterOnSite;
    refresh();
}

bool SetupView::look(const run::CheckAnswered& answered)
{
    std::erase_if(looked_, [&](const Looked& looked) { return looked.answered.check == answered.check; });
    looked_.push_back({answered, tablet_.personId(), tablet_.now()});
    kept_.keep(lookedAt(run::pointNamed(answered.check)->list), answered);
    refresh();
    return true;
}

std::string SetupView::lookedAt(run::Checklist list) const
{
    const auto nameIn = [](const auto& names, int row) {
        return row < 0 ? std::string() : names.at(static_cast<std::size_t>(row));
    };
    const std::string tank = nameIn(tankNames(tablet_.site()), choice_.tank);
    return list == run::Checklist::HookUp ? tank + " / " + nameIn(cartNames(tablet_.site()), choice_.cart) : tank;
}

void SetupView::lookAnew(run::Checklist list)
{
    std::erase_if(looked_, [&](const Looked& looked) { return run::pointNamed(looked.answered.check)->list == list; });
    showPoints();
    (list == run::Checklist::HookUp ? hosePoints_ : areaPoints_).begin();
}

void SetupView::showPoints()
{
    const run::Circumstances circumstances{.oil = oilTemperature()};
    for (const auto& [list, view] :
         {std::pair(run::Checklist::HookUp, &hosePoints_), std::pair(run::Checklist::BeforeStart, &areaPoints_)}) {
        ChecklistView::Known known;
        for (const run::CheckPoint& point : run::pointsOf(list)) {
            const auto looked = std::ranges::find_if(looked_,
                                                     [&](const Looked& one) { return one.answered.check == point.id; });
            known.push_back(looked == looked_.end() ? std::nullopt
                                                    : std::optional(run::PointAnswered{
                                                          *run::answerNamed(looked->answered.say), looked->answered.why,
                                                          looked->answered.wasAsked, Id{}, looked->person}));
        }
        view->about(lookedAt(list));
        view->show(std::move(known), circumstances);
    }
}

QString SetupView::hoseCaution() const
{
    return cautionText(tablet_, run::Act::HookUp, {.oil = oilTemperature()});
}

void SetupView::takeSlower()
{
    choice_.takesSlower = !choice_.takesSlower;
    refresh();
}

void SetupView::startAgainst(int person, const QString& why)
{
    const auto& people = tablet_.site().people;
    if (person < 0 || person >= static_cast<int>(people.size()) || why.trimmed().isEmpty()) {
        return;
    }
    choice_.by = toQt(people[static_cast<std::size_t>(person)].name);
    choice_.byId = people[static_cast<std::size_t>(person)].id;
    choice_.why = why.trimmed();
    refresh();
}

/// Each answer in the name of who looked, at the time of the touch. Stops at the first that cannot be written.
bool SetupView::sayWhatWasLookedAt()
{
    const auto say = [&](const Looked& looked) {
        const auto agoMs = static_cast<std::int64_t>((tablet_.now().monoNs - looked.at.monoNs) / 1'000'000U);
        return tablet_.sayAs(looked.person, looked.answered, {agoMs, agoMs > 0 ? "touched" : ""});
    };
    return std::ranges::all_of(looked_, say)
        && tablet_.say(run::Said(run::CheckAnswered{"setup-placement", placementAt(choice_.placement).name}));
}

void SetupView::start()
{
    const run::StartTold judged = told();
    if (!tablet_.openRun(*setup_)) {
        return;
    }
    if (tankCheck_.say() && sayWhatWasLookedAt() && tablet_.say(run::Said(judged))) {
        kept_.forget(); // else the trouble is told, and the answers stay as drafts
        overrideWords_.clear();
    }
    choice_ = {};
    tankCheck_.begin();
    lookAnew(run::Checklist::HookUp);
    lookAnew(run::Checklist::BeforeStart);
    seen_.clear();
    step_ = Step::Tank;
    code_.clear();
    oil_.clear();
    Q_EMIT started();
}

} // namespace loopside::app
