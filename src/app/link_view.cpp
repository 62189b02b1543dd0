// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "app/link_view.h"

#include "app/as_shown.h"
#include "app/hand_card.h"
#include "app/wording.h"
#include "base/text.h"
#include "run/run_code.h"
#include "words/handed_told.h"
#include "words/told.h"

#include <algorithm>

namespace loopside::app {

namespace {

constexpr std::size_t differencesShown = 12;

run::RunPair ordered(const run::RunPair& pair)
{
    return pair.first < pair.second ? pair : run::RunPair{pair.second, pair.first};
}

} // namespace

LinkView::LinkView(Tablet& tablet, QObject* parent)
    : QObject{parent},
      tablet_{tablet},
      one_{{"name", "value"}},
      other_{{"name", "value"}},
      notes_{{"kind", "text"}},
      keys_{{"text", "say", "isMain"}}
{
    connect(&tablet_, &Tablet::changed, this, &LinkView::refresh);
}

QString LinkView::title() const
{
    const run::RunState* run = tablet_.state().runOf(pair_.first);
    return run == nullptr ? QString() : tablet_.say({"app.link.title", {{"tank", run->setup.tank.name}}});
}

QString LinkView::titleOf(const Id& run) const
{
    const run::RunState* known = tablet_.state().runOf(run);
    return known == nullptr
        ? QString()
        : tablet_.say({"handed.author",
                       {{"code", run::codeOf(run)}, {"person", tablet_.nameOf(known->opened.person).toStdString()}}});
}

void LinkView::open(const run::RunPair& pair)
{
    pair_ = pair;
    refresh();
}

void LinkView::openOf(const Id& run)
{
    const run::RunState* known = tablet_.state().runOf(run);
    if (known != nullptr && !tablet_.linkedRuns(*known).empty()) {
        open({run, tablet_.linkedRuns(*known).front()->id});
    }
}

QList<RowModel::Row> LinkView::rowsOf(const run::RunState& run) const
{
    QList<RowModel::Row> rows;
    const auto add = [&](const char* name, const QString& value) { rows.append({tablet_.label(name), value}); };
    Stamp end = run.opened.entered;
    end.wallMs += run.closedAt.count();
    const auto readings = std::ranges::count_if(run.facts, [](const run::Fact& fact) {
        return !fact.struck && std::holds_alternative<run::ReadingLogged>(fact.effective);
    });
    const run::TurnoverBand band = run.closed ? run.closed->turnovers : tablet_.standing(run).credit.turnovers;
    add("app.link.cart", toQt(run.setup.cart.name));
    add("app.link.opened", dayText(run.opened.entered));
    add("app.link.closed", run.phase == run::Phase::Closed ? dayText(end) : tablet_.label("app.link.still-open"));
    add("app.hand.holder", holderText(tablet_, run));
    add("app.total.readings", QString::number(readings));
    add("app.link.alone", asShown(words::turnoverLine(tablet_.words(), band, run.setup.target)));
    return rows;
}

void LinkView::refresh()
{
    const run::RunState* one = tablet_.state().runOf(pair_.first);
    const run::RunState* other = tablet_.state().runOf(pair_.second);
    if (one == nullptr || other == nullptr) {
        return;
    }
    noteRows_.clear();
    QList<RowModel::Row> keys;
    const auto addKey = [&](const char* label, const char* say, bool isMain) {
        keys.append({tablet_.label(label), QString::fromLatin1(say), isMain});
    };
    const ledger::LinksSaid said = ledger::linksSaid(tablet_.state());
    const auto tell = [&](const char* id) { noteRows_.append({QStringLiteral("note"), tablet_.label(id)}); };
    if (said.accepted.contains(ordered(pair_))) {
        tell("app.link.are-one");
        showUnion(*one);
        addKey("app.link.two-after-all", "two", false);
    } else if (said.declined.contains(ordered(pair_))) {
        tell("app.link.are-two");
        addKey("app.link.one-after-all", "one", false);
    } else {
        tell("app.link.asked");
        addKey("app.link.one", "one", true);
        addKey("app.link.two", "two", true);
    }
    one_.setRows(rowsOf(*one));
    other_.setRows(rowsOf(*other));
    notes_.setRows(noteRows_);
    keys_.setRows(std::move(keys));
    Q_EMIT changed();
}

void LinkView::showUnion(const run::RunState& run)
{
    const run::LinkedCredit* linked = tablet_.linkedCredit(run);
    if (linked == nullptr) {
        noteRows_.append({QStringLiteral("note"), tablet_.label("app.link.put-away")});
        return;
    }
    noteRows_.append(
        {QStringLiteral("note"),
         tablet_.say(
             {"app.link.together",
              {{"turnovers",
                asShown(words::turnoverLine(tablet_.words(), linked->turnovers, run.setup.target)).toStdString()}}})});
    const auto nameOf = [&](const Id& person) { return tablet_.nameOf(person).toStdString(); };
    for (std::size_t i = 0; i < std::min(linked->disagreements.size(), differencesShown); ++i) {
        noteRows_.append({QStringLiteral("unknown"),
                          asShown(words::disagreementLine(tablet_.words(), linked->disagreements[i], tablet_.state(),
                                                          nameOf, tablet_.now().offsetMin))});
    }
    if (linked->disagreements.size() > differencesShown) {
        const auto more = std::to_string(linked->disagreements.size() - differencesShown);
        noteRows_.append({QStringLiteral("note"), tablet_.say({"app.total.more", {{"more", more}}})});
    }
}

void LinkView::press(const QString& say)
{
    if (say == QStringLiteral("one") || say == QStringLiteral("two")) {
        answer(say == QStringLiteral("one"));
    }
}

/// Written to both, so that the record of each knows of it.
void LinkView::answer(bool isOne)
{
    const run::RunPair pair = pair_;
    if (tablet_.submit(run::Say{pair.first, run::Said(ledger::linkAnswer(pair.second, isOne))})
        && tablet_.submit(run::Say{pair.second, run::Said(ledger::linkAnswer(pair.first, isOne))})) {
        Q_EMIT answered();
    }
}

} // namespace loopside::app
