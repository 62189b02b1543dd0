// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "app/take_over_view.h"

#include "app/draft_places.h"
#include "app/hand_card.h"
#include "app/wording.h"
#include "base/code_signs.h"
#include "run/run_code.h"

#include <algorithm>

namespace loopside::app {

namespace {

constexpr const char* codeDraft = "code";
constexpr qsizetype signsOfCode = 6;

} // namespace

TakeOverView::TakeOverView(Tablet& tablet, QObject* parent)
    : QObject{parent},
      tablet_{tablet},
      code_{tablet, takeOverDrafts},
      notes_{{"kind", "text"}},
      found_{{"name", "detail", "isChosen"}},
      facts_{{"name", "value"}},
      valves_{{"name", "detail", "isChosen"}},
      keys_{{"text", "say", "isMain"}}
{
    connect(&tablet_, &Tablet::changed, this, &TakeOverView::look);
    open();
}

void TakeOverView::open()
{
    isOffered_ = false;
    run_ = {};
    valve_ = {};
    isMoved_ = false;
    code_.about(codeDraft);
    look();
}

void TakeOverView::openOffered(const Id& run)
{
    isOffered_ = true;
    isMoved_ = false;
    run_ = run;
    valve_ = {};
    sinceSeen_ = {};
    look();
}

void TakeOverView::takeCode(const QString& code)
{
    isOffered_ = false;
    const auto read = run::codeFrom(code.toStdString());
    wrongSign_ = read ? QString() : code;
    if (read) {
        code_.setText(toQt(*read));
    }
    run_ = {};
    look();
}

void TakeOverView::type(const QString& sign)
{
    const std::string typed = sign.toStdString();
    const char kept = typed.size() == 1 ? codeSignOf(typed.front()) : '\0';
    wrongSign_ = kept == '\0' ? sign : QString();
    if (kept != '\0' && code().size() < signsOfCode) {
        code_.setText(code() + QLatin1Char(kept));
    }
    run_ = {};
    look();
}

void TakeOverView::backspace()
{
    isAsked_ = false;
    wrongSign_.clear();
    code_.setText(code().chopped(std::min<qsizetype>(1, code().size())));
    run_ = {};
    look();
}

void TakeOverView::chooseRun(int row)
{
    if (row >= 0 && row < static_cast<int>(runs_.size())) {
        run_ = runs_[static_cast<std::size_t>(row)];
        sinceSeen_ = {};
        look();
    }
}

void TakeOverView::chooseValve(int row)
{
    if (row >= 0 && row < static_cast<int>(valveModes.size())) {
        valve_ = valveModes[static_cast<std::size_t>(row)];
        refresh();
    }
}

/// Finds the run anew, and whether it is in the hands that are shown.
void TakeOverView::look()
{
    runs_.clear();
    if (!isOffered_ && code().size() == signsOfCode) {
        runs_ = run::runsWithCode(tablet_.state(), code().toStdString());
        if (std::ranges::find(runs_, run_) == runs_.end()) {
            run_ = runs_.size() == 1 ? runs_.front() : Id{};
            sinceSeen_ = {};
        }
    }
    if (run_.isNone()) {
        valve_ = {};
        isMoved_ = false;
    } else if (run() != nullptr) {
        const Id since = ledger::handsOf(*run()).since.id;
        if (!sinceSeen_.isNone() && sinceSeen_ != since) {
            isMoved_ = true;
            valve_ = {}; // a finger that is on its way must not take it from somebody who was not seen
        }
        sinceSeen_ = since;
    }
    refresh();
}

bool TakeOverView::canTake() const
{
    return run() != nullptr && run()->phase != run::Phase::Closed && ledger::handsOf(*run()).device != tablet_.device();
}

bool TakeOverView::isOfferedHere(const run::RunState& run) const
{
    const ledger::Hands hands = ledger::handsOf(run);
    return hands.offered && hands.offered->device == tablet_.device();
}

void TakeOverView::tell(const char* kind, const Message& message)
{
    noteRows_.append({QString::fromLatin1(kind), tablet_.say(message)});
}

void TakeOverView::addKey(const char* label, const char* say, bool isMain)
{
    keyRows_.append({tablet_.label(label), QString::fromLatin1(say), isMain});
}

void TakeOverView::refresh()
{
    noteRows_.clear();
    keyRows_.clear();
    if (!wrongSign_.isEmpty()) {
        tell("caution", {"app.take-over.wrong-sign", {{"typed", wrongSign_.toStdString()}}});
    }
    if (run() != nullptr) {
        showRun(*run());
        if (!isOffered_) {
            addKey("app.take-over.other-code", "other-code", false);
        }
    } else {
        facts_.setRows({});
        showFound();
    }
    valves_.setRows(canTake() && (!isOffered_ || isOfferedHere(*run())) ? valveRows(tablet_, valve_)
                                                                        : QList<RowModel::Row>());
    QList<RowModel::Row> several;
    for (const Id& id : runs_.size() > 1 ? runs_ : std::vector<Id>()) {
        const run::RunState& one = tablet_.state().runs.at(id);
        several.append({toQt(one.setup.tank.name), dayText(one.opened.entered), id == run_});
    }
    found_.setRows(std::move(several));
    notes_.setRows(noteRows_);
    keys_.setRows(keyRows_);
    Q_EMIT changed();
}

/// What is to be said while no run is looked at.
void TakeOverView::showFound()
{
    const qsizetype left = signsOfCode - code().size();
    if (isOffered_) {
        tell("caution", {"app.take-over.gone", {}});
    } else if (left > 0) {
        tell("note",
             {code().isEmpty() ? "app.take-over.how" : "app.take-over.more", {{"signs", std::to_string(left)}}});
    } else if (runs_.size() > 1) {
        tell("caution", {"app.take-over.several", {{"code", code().toStdString()}}});
    } else {
        tell("caution", {"app.take-over.unknown", {{"code", code().toStdString()}}});
        tell("note", {"app.take-over.unknown-do", {}});
        if (tablet_.hasHub()) {
            if (isAsked_) {
                tell("note", {"app.take-over.asked", {}});
            }
            addKey("app.take-over.ask-hub", "ask", false);
        } else {
            addKey("app.take-over.to-hub", "hub", false);
        }
        addKey("label.new-run", "set-up", true);
    }
}

void TakeOverView::showRun(const run::RunState& run)
{
    facts_.setRows(handCardRows(tablet_, run));
    const std::string tank = run.setup.tank.name;
    if (run.phase == run::Phase::Closed) {
        tell("caution", {"app.take-over.closed", {{"tank", tank}}});
        addKey("app.take-over.look", "look", true);
        return;
    }
    if (ledger::handsOf(run).device == tablet_.device()) {
        tell("note", {"app.take-over.own", {{"tank", tank}}});
        addKey("app.take-over.to-run", "look", true);
        return;
    }
    if (isMoved_) {
        tell("caution", {"app.take-over.moved", {{"holder", holderText(tablet_, run).toStdString()}}});
    }
    if (isOffered_ && !isOfferedHere(run)) {
        tell("caution", {"app.take-over.not-offered", {{"code", run::codeOf(run.id)}}});
        return;
    }
    tell("note", {isOffered_ ? "app.take-over.offered" : "app.take-over.what-happens", {}});
    noteRows_ += handCardNotes(tablet_, run);
    if (valve_) {
        addKey("app.take-over.take", "take", true);
    } else {
        tell("note", {"app.hand.valve-first", {}});
    }
}

void TakeOverView::press(const QString& say)
{
    const std::string what = say.toStdString();
    if (what == "hub") {
        Q_EMIT hubWanted();
    } else if (what == "ask") {
        isAsked_ = true;
        Q_EMIT codeWanted(code());
        refresh();
    } else if (what == "set-up") {
        Q_EMIT setUpWanted();
    } else if (what == "look" && run() != nullptr) {
        code_.clear();
        Q_EMIT runWanted(Id(run_));
    } else if (what == "other-code") {
        backspace();
    } else if (what == "take") {
        take();
    }
}

/// In the hands in which it is shown; where it went on meanwhile, that is to be read first.
void TakeOverView::take()
{
    if (!canTake() || !valve_ || (isOffered_ && !isOfferedHere(*run()))) {
        return;
    }
    const Id taken = run_;
    const run::Kept fact = isOffered_ ? ledger::adoption() : ledger::adoption(run::codeOf(taken));
    isMoved_ = false;
    if (takeOn(tablet_, taken, tablet_.personId(), *valve_, fact)) {
        code_.clear();
        run_ = {};
        isOffered_ = false;
        look();
        Q_EMIT runWanted(taken);
    }
}

} // namespace loopside::app
