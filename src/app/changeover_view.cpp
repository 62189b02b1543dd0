// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "app/changeover_view.h"

#include "app/caution_text.h"
#include "app/wording.h"
#include "filtration/gauge.h"
#include "run/stock.h"
#include "words/told.h"

#include <algorithm>
#include <array>

namespace loopside::app {

namespace {

using units::Pressure;

/// The steps as the journal names them, in order.
constexpr std::array<const char*, 7> names = {"pump-off", "valves", "vent", "gauges", "elements", "look", "restart"};

const run::Moment* lastPumpOff(const run::Standing& standing)
{
    const auto found = std::find_if(standing.moments.rbegin(), standing.moments.rend(), [](const run::Moment& moment) {
        return moment.reading != nullptr && moment.mode == run::Mode::Stopped;
    });
    return found == standing.moments.rend() ? nullptr : &*found;
}

} // namespace

ChangeoverView::ChangeoverView(Tablet& tablet, QObject* parent)
    : QObject{parent},
      tablet_{tablet},
      steps_{{"number", "text", "state", "stateText"}},
      keys_{{"text", "say", "isMain"}},
      points_{tablet, run::Checklist::Housing,
              [this](const auto& answered) { return tablet_.say(run::Said(answered)); }}
{
    connect(&tablet_, &Tablet::changed, this, &ChangeoverView::showPoints);
    connect(&points_, &ChecklistView::changed, this, &ChangeoverView::lookedAtAll);
}

bool ChangeoverView::isOpen() const
{
    return stage_ > 0 && tablet_.shown() != nullptr && tablet_.shown()->id == run_;
}

void ChangeoverView::showPoints()
{
    if (isOpen()) {
        points_.about(toText(run_));
        points_.show(run::answersIn(*tablet_.shown(), run::Checklist::Housing), circumstancesOf(tablet_));
    }
}

void ChangeoverView::lookedAtAll()
{
    if (wantsLook() && points_.isComplete()) {
        go(Step::Restart);
    }
}

bool ChangeoverView::wantsLook() const
{
    return isOpen() && step_ == Step::Look;
}

QString ChangeoverView::title() const
{
    return tablet_.say({"app.changeover.title", {{"stage", std::to_string(stage_)}}});
}

QString ChangeoverView::caution() const
{
    return cautionText(tablet_,
                       step_ == Step::Elements || step_ == Step::Look ? run::Act::OpenHousing
                           : step_ == Step::Gauges                    ? run::Act::RestCheck
                           : step_ == Step::Restart                   ? run::Act::Start
                                                                      : run::Act::Isolate);
}

QString ChangeoverView::stockText() const
{
    if (tablet_.shown() == nullptr || stage_ == 0) {
        return {};
    }
    const std::string type = run::elementTypeIn(*tablet_.shown(), stage_);
    const auto stock = tablet_.state().stock.find(type);
    if (stock == tablet_.state().stock.end()) {
        return {};
    }
    const int elements = stock->second.elements;
    return stock->second.isCounted
        ? tablet_.say({"app.stock.left", {{"type", type}, {"elements", std::to_string(elements)}}})
        : tablet_.say({"app.stock.used", {{"type", type}, {"elements", std::to_string(-elements)}}});
}

bool ChangeoverView::wantsGauges() const
{
    return isOpen() && step_ == Step::Gauges;
}

void ChangeoverView::open(int stage)
{
    const Step step = stepReached(stage);
    run_ = tablet_.shown()->id;
    stage_ = stage;
    warning_.clear();
    if (step == Step::Look) {
        showPoints();
        points_.begin();
    }
    go(step == Step::Look && points_.isComplete() ? Step::PumpOff : step); // all was done: another change
}

/// Where it stands if the pump stayed off since: what this view was at, and from the journal whether the elements were
/// changed, which is logged once.
ChangeoverView::Step ChangeoverView::stepReached(int stage) const
{
    const run::RunState& run = *tablet_.shown();
    bool isOff = false;
    bool isChanged = false;
    for (const run::Fact& fact : run.facts) {
        const auto* mode = fact.struck ? nullptr : std::get_if<run::ModeChanged>(&fact.effective);
        const auto* changed = fact.struck ? nullptr : std::get_if<run::ElementsChanged>(&fact.effective);
        isOff = mode == nullptr ? isOff : mode->mode == run::Mode::Stopped;
        isChanged = isOff && (isChanged || (changed != nullptr && changed->stage == stage));
    }
    if (isChanged) {
        return Step::Look;
    }
    return isOff && run_ == run.id && stage_ == stage ? step_ : Step::PumpOff;
}

void ChangeoverView::leave()
{
    stage_ = 0;
    Q_EMIT changed();
    Q_EMIT finished();
}

void ChangeoverView::go(Step step)
{
    step_ = step;
    refresh();
}

void ChangeoverView::refresh()
{
    QList<RowModel::Row> rows;
    const auto now = static_cast<std::size_t>(step_);
    const int elements = tablet_.shown() == nullptr
        ? 0
        : tablet_.shown()->setup.stages[static_cast<std::size_t>(std::max(stage_, 1)) - 1].elements;
    for (std::size_t i = 0; i < names.size(); ++i) {
        const char* state = i < now ? "done" : i == now ? "now" : "later";
        rows.append({static_cast<int>(i) + 1,
                     tablet_.say({std::string("app.step.") + names[i],
                                  {{"elements", words::elementsText(tablet_.words(), elements)},
                                   {"stage", std::to_string(stage_)}}}),
                     QString::fromLatin1(state), tablet_.say({std::string("app.step-state.") + state, {}})});
    }
    steps_.setRows(std::move(rows));

    QList<RowModel::Row> keys;
    const auto add = [&](const char* label, const char* say, bool isMain) {
        keys.append({tablet_.label(label), QString::fromLatin1(say), isMain});
    };
    switch (step_) {
    case Step::PumpOff:
        add("app.key.stopped-isolated", "stopped", true);
        break;
    case Step::Valves:
    case Step::Vent:
        add("app.key.done", "done", true);
        break;
    case Step::Gauges:
        if (!warning_.isEmpty()) {
            add("app.key.found-out", "found-out", false); // the main way on is to read the gauges again
        }
        break;
    case Step::Elements:
        add("app.key.all-changed", "all", true);
        if (elements > 1) {
            add("app.key.one-changed", "one", false);
        }
        break;
    case Step::Look: // the points have keys of their own
        break;
    case Step::Restart:
        add("app.key.set-filter", "filtering", true);
        break;
    case Step::Done:
        break;
    }
    keys_.setRows(std::move(keys));
    Q_EMIT changed();
}

void ChangeoverView::confirm(const std::string& check, const std::string& say)
{
    if (tablet_.say(run::Said(run::CheckAnswered{"changeover-" + check, say}))) {
        go(static_cast<Step>(static_cast<int>(step_) + 1));
    }
}

void ChangeoverView::press(const QString& say)
{
    switch (step_) {
    case Step::PumpOff:
        if (tablet_.say(run::Said(run::ModeChanged{run::Mode::Stopped, std::nullopt}))) {
            confirm("pump-off", "off and isolated");
        }
        break;
    case Step::Valves:
        confirm("valves", "closed or uncoupled");
        break;
    case Step::Vent:
        confirm("vent", "vented");
        break;
    case Step::Gauges:
        if (say == QStringLiteral("found-out")) {
            warning_.clear();
            confirm("gauges", "above no-pressure reading, cause found");
        }
        break;
    case Step::Elements:
        elementsChanged(say == QStringLiteral("one") ? 1 : 0);
        break;
    case Step::Look:
        break;
    case Step::Restart:
        if (tablet_.say(run::Said(run::ModeChanged{run::Mode::Filtering, std::nullopt}))) {
            step_ = Step::Done;
            leave();
        }
        break;
    case Step::Done:
        break;
    }
}

/// `elements` new ones; 0: all of the stage.
void ChangeoverView::elementsChanged(int elements)
{
    const auto& stage = tablet_.shown()->setup.stages[static_cast<std::size_t>(stage_) - 1];
    if (tablet_.say(run::Said(run::ElementsChanged{stage_, elements == 0 ? stage.elements : elements, {}}))) {
        showPoints();
        points_.begin();
        go(Step::Look);
    }
}

/// Which gauges stand above this cart's no-pressure reading by more than their reading error.
QString ChangeoverView::pressureLeft() const
{
    const auto& run = *tablet_.shown();
    const run::Moment* set = lastPumpOff(tablet_.standing(run));
    if (set == nullptr) {
        return {};
    }
    const Pressure head = run.setup.cart.staticHead ? run.setup.cart.staticHead->value() : Pressure{};
    QString above;
    for (std::size_t i = 0; i < run.setup.cart.gauges.size(); ++i) {
        const auto shown = run::shownBy(*set->reading, run.setup.cart, i);
        const auto error = filtration::readingUncertainty(run.setup.cart.gauges[i].gauge(), Pressure{});
        const Pressure graduation = run.setup.cart.gauges[i].gauge().graduation.value_or(Pressure{});
        const Pressure tolerance = std::max(error ? *error * 2.0 : Pressure{}, graduation);
        if (!shown || shown->value() > head + tolerance) {
            above += (above.isEmpty() ? QString() : QStringLiteral(", ")) + QStringLiteral("G%1").arg(i + 1);
        }
    }
    return above;
}

void ChangeoverView::gaugesLogged()
{
    if (!wantsGauges()) {
        return;
    }
    const QString above = pressureLeft();
    if (above.isEmpty()) {
        warning_.clear();
        confirm("gauges", "at no-pressure reading");
        return;
    }
    warning_ = tablet_.say({"app.changeover.pressure", {{"gauges", above.toStdString()}}});
    refresh();
}

} // namespace loopside::app
