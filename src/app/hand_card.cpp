// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "app/hand_card.h"

#include "app/as_shown.h"
#include "app/caution_text.h"
#include "app/run_level.h"
#include "app/stage_ahead.h"
#include "app/wording.h"
#include "ledger/handed.h"
#include "run/checklist.h"
#include "run/run_code.h"
#include "words/fact_told.h"
#include "words/handed_told.h"
#include "words/outlook_told.h"
#include "words/record_told.h"
#include "words/told.h"

#include <algorithm>

namespace loopside::app {

namespace {

constexpr std::string_view permitPoint = "setup-permit";

QString modeText(const Tablet& tablet, run::Mode mode)
{
    return tablet.say({"mode." + std::string(run::nameOf(mode)), {}});
}

QString lastSetText(const Tablet& tablet, const run::RunState& run)
{
    const run::Moment* last = tablet.standing(run).lastReading;
    if (last == nullptr) {
        return tablet.label("app.hand.no-set");
    }
    return asShown(words::factLine(tablet.words(), last->fact->effective, run.setup.cart)) + QStringLiteral(" · ")
        + clockText(last->fact->header.entered) + QStringLiteral(" · ") + tablet.nameOf(last->fact->header.person);
}

/// The stage that reaches its limit first, and what to fetch.
QString changeoverText(const Tablet& tablet, const run::RunState& run)
{
    const run::Standing& standing = tablet.standing(run);
    const run::Outlook* caution = firstCaution(standing);
    const run::Outlook* ahead = caution != nullptr ? caution : firstToReach(standing);
    return ahead == nullptr ? tablet.label("app.hand.no-outlook")
                            : asShown(words::outlookBrief(tablet.words(), *ahead, run) + " "
                                      + words::outlookCaveat(tablet.words(), *ahead, standing));
}

/// When a permit ends is written on it, and nowhere here.
QString permitText(const Tablet& tablet, const run::RunState& run)
{
    const auto points = run::pointsOf(run::Checklist::BeforeStart);
    const auto answers = run::answersIn(run, run::Checklist::BeforeStart);
    for (std::size_t i = 0; i < points.size(); ++i) {
        if (points[i].id == permitPoint && answers[i]) {
            const auto& answer = *answers[i];
            const run::Fact* fact = run.factOf(answer.entry);
            const QString when = fact == nullptr ? QString() : clockText(fact->header.entered);
            return tablet.say({"app.hand.permit-asked",
                               {{"answer", words::answerText(tablet.words(), answer.answer, answer.why, false)},
                                {"time", when.toStdString()},
                                {"person", tablet.nameOf(answer.person).toStdString()}}});
        }
    }
    return tablet.label("app.hand.permit-not-asked");
}

QString howText(const Tablet& tablet, ledger::Hands::How how)
{
    return how == ledger::Hands::How::ByCode ? tablet.label("app.hand.by-code") : QString();
}

} // namespace

QList<RowModel::Row> handCardRows(const Tablet& tablet, const run::RunState& run)
{
    const run::Standing& standing = tablet.standing(run);
    QList<RowModel::Row> rows;
    const auto add = [&](const char* name, const QString& value) { rows.append({tablet.label(name), value}); };
    add("app.hand.code", toQt(run::codeOf(run.id)));
    add("app.hand.at", toQt(run.setup.tank.name) + QStringLiteral(" · ") + toQt(run.setup.cart.name));
    add("app.hand.holder", holderText(tablet, run));
    add("app.hand.state",
        modeText(tablet, standing.mode) + QStringLiteral(" · ")
            + asShown(words::turnoverLine(tablet.words(), tablet.turnovers(run), run.setup.target)));
    add("app.hand.last-set", lastSetText(tablet, run));
    add("app.hand.next", dueTextOf(tablet, run));
    add("app.hand.changeover", changeoverText(tablet, run));
    const RunLevel level = runLevelOf(tablet, run);
    add("app.hand.stands",
        !standing.findings.empty() ? asShown(words::findingSentence(tablet.words(), standing.findings.front()))
            : level.isLate         ? tablet.label("app.line.overdue")
                                   : level.word);
    add("app.hand.permit", permitText(tablet, run));
    return rows;
}

QList<RowModel::Row> handCardNotes(const Tablet& tablet, const run::RunState& run)
{
    QList<RowModel::Row> rows = {
        {QStringLiteral("note"),
         tablet.say({"app.hand.read-valve", {{"mode", modeText(tablet, tablet.standing(run).mode).toStdString()}}})}};
    const auto known = run::circumstancesOf(run, tablet.standing(run));
    if (const QString caution = cautionText(tablet, run::Act::Read, known); !caution.isEmpty()) {
        rows.append({QStringLiteral("caution"), caution});
    }
    return rows;
}

QString holderText(const Tablet& tablet, const run::RunState& run)
{
    const ledger::Hands hands = ledger::handsOf(run);
    QStringList parts = {hands.device == tablet.device() ? tablet.label("app.hand.this-tablet")
                                                         : toQt(words::tabletText(tablet.words(), hands.device)),
                         tablet.nameOf(hands.since.person), clockText(hands.since.entered), howText(tablet, hands.how)};
    parts.removeAll(QString());
    return parts.join(QStringLiteral(" · "));
}

QList<RowModel::Row> valveRows(const Tablet& tablet, std::optional<run::Mode> chosen)
{
    QList<RowModel::Row> rows;
    for (const run::Mode mode : valveModes) {
        rows.append({tablet.say({"app.hand.valve-" + std::string(run::nameOf(mode)), {}}), QString(), mode == chosen});
    }
    return rows;
}

bool takeOn(Tablet& tablet, const Id& run, const Id& person, run::Mode valve, const run::Kept& fact)
{
    const run::RunState* known = tablet.state().runOf(run);
    const run::Mode now = known == nullptr ? valve : tablet.standing(*known).mode;
    return std::ranges::all_of(ledger::takingOn(now, valve, fact),
                               [&](const run::Said& said) { return tablet.submitAs(person, run::Say{run, said}); });
}

} // namespace loopside::app
