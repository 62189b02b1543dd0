// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "app/run_view.h"

#include "app/alert_rows.h"
#include "app/as_shown.h"
#include "app/caution_text.h"
#include "app/finding_rows.h"
#include "app/hand_card.h"
#include "app/question_keys.h"
#include "app/reading_rows.h"
#include "app/run_level.h"
#include "app/stage_ahead.h"
#include "app/waiting_alerts.h"
#include "app/wanted_units.h"
#include "app/wording.h"
#include "base/text.h"
#include "paper/run_trend.h"
#include "run/alert_log.h"
#include "run/level.h"
#include "run/run_code.h"
#include "words/code_told.h"
#include "words/handed_told.h"
#include "words/outlook_told.h"
#include "words/told.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <tuple>

namespace loopside::app {

namespace {

using run::Mode;
using run::RunTime;

constexpr double fullestColumn = 1.1;
constexpr double leastFlowLeft = 0.05;                  ///< With less no time left is told that anybody would believe.
constexpr RunTime toldAsOne = std::chrono::minutes(10); ///< A range this narrow is told as one time.

bool isInService(const run::Alert& alert)
{
    return alert.state != run::AlertState::OutOfService;
}

bool needsHand(const run::Alert& alert)
{
    return alert.state == run::AlertState::Unacknowledged || alert.state == run::AlertState::Returned;
}

/// What waits for a hand comes first, what stands before what is over, then the graver one; last what is out of
/// service.
std::tuple<bool, bool, bool, run::Priority> rankOf(const run::Alert& alert)
{
    return {isInService(alert), needsHand(alert), alert.state != run::AlertState::Returned, run::priorityOf(alert.id)};
}

} // namespace

RunView::RunView(Tablet& tablet, QObject* parent)
    : QObject{parent},
      tablet_{tablet},
      gauges_{{"name", "valueText", "unitText", "spoken"}},
      stages_{{"number", "title", "dropText", "errorText", "limitText", "fill", "mark", "level", "levelText",
               "correctedText", "loadingText", "bypassAt", "bypassText", "forecastState", "forecastText", "aheadLow",
               "aheadHigh", "spoken"}},
      readings_{readingRoles()},
      answers_{{"text", "say"}},
      part_{tablet},
      findings_{findingRoles()},
      alertLog_{alertRoles()}
{
    connect(&tablet_, &Tablet::changed, this, &RunView::refresh);
    connect(&tablet_, &Tablet::secondPassed, this, &RunView::timeChanged);
    refresh();
}

bool RunView::isThere() const
{
    return run() != nullptr;
}

QString RunView::tankName() const
{
    return isThere() ? toQt(run()->setup.tank.name) : QString();
}

QString RunView::fluidText() const
{
    if (!isThere()) {
        return {};
    }
    const auto& tank = run()->setup.tank;
    return toQt(tank.fluid.grade) + QStringLiteral(" · ") + shownText(tank.volume, tablet_.wanted());
}

QString RunView::cartName() const
{
    return isThere() ? toQt(run()->setup.cart.name) : QString();
}

QString RunView::flowText() const
{
    return isThere()
        ? tablet_.label("app.flow-rated") + QLatin1Char('\n') + shownText(run()->setup.cart.flow, tablet_.wanted())
        : QString();
}

QString RunView::oilText() const
{
    if (!isThere() || standing().lastReading == nullptr || !standing().lastReading->reading->oil) {
        return {};
    }
    return shownText(*standing().lastReading->reading->oil, tablet_.wanted());
}

QString RunView::mode() const
{
    return isThere() ? toQt(run::nameOf(standing().mode)) : QStringLiteral("stopped");
}

QString RunView::modeText() const
{
    if (!isThere()) {
        return {};
    }
    const QString word = tablet_.say({"mode." + mode().toStdString(), {}});
    const auto& moments = standing().moments;
    const auto since = std::find_if(moments.rbegin(), moments.rend(), [](const run::Moment& moment) {
        return std::holds_alternative<run::ModeChanged>(moment.fact->effective);
    });
    if (since == moments.rend()) {
        return word;
    }
    const QString time = agoText(run()->clock.stampAt(since->at), tablet_.now());
    return tablet_.say({"app.mode-since", {{"mode", word.toStdString()}, {"time", time.toStdString()}}});
}

QString RunView::onlyHereText() const
{
    if (isThere() && run()->setup.isPractice) {
        return {}; // it stays here for good
    }
    return tablet_.say({"app.only-here", {{"entries", std::to_string(tablet_.entriesHere())}}});
}

QString RunView::loggedText() const
{
    if (!isThere() || standing().lastReading == nullptr) {
        return tablet_.label("app.nothing-logged");
    }
    const Stamp& stamp = standing().lastReading->fact->header.entered;
    return tablet_.say({"app.logged-at", {{"time", clockText(stamp).toStdString()}}});
}

/// With the runs that it is one with, the union.
run::TurnoverBand RunView::band() const
{
    if (!isThere()) {
        return {};
    }
    const run::LinkedCredit* linked = tablet_.linkedCredit(*run());
    return linked != nullptr ? linked->turnovers : standing().credit.turnovers;
}

QString RunView::runCode() const
{
    return isThere() ? toQt(run::codeOf(run()->id)) : QString();
}

QString RunView::linkedText() const
{
    QStringList codes;
    for (const run::RunState* other : tablet_.linkedRuns(*run())) {
        codes.append(toQt(run::codeOf(other->id)));
    }
    if (codes.isEmpty()) {
        return {};
    }
    const run::LinkedCredit* linked = tablet_.linkedCredit(*run());
    const Message::Argument with{"codes", codes.join(QStringLiteral(", ")).toStdString()};
    return linked == nullptr
        ? tablet_.say({"app.hands.one-put-away", {with}})
        : tablet_.say({"app.hands.one-with", {with, {"count", std::to_string(linked->disagreements.size())}}});
}

QString RunView::handsText() const
{
    if (!isThere()) {
        return {};
    }
    QStringList lines;
    const ledger::Hands hands = ledger::handsOf(*run());
    if (!isClosed() && hands.device != tablet_.device()) {
        lines.append(tablet_.say({"app.hands.other-tablet", {{"holder", holderText(tablet_, *run()).toStdString()}}}));
    }
    if (!isClosed() && hands.offered) {
        const std::string to = hands.offered->device.isNone()
            ? tablet_.nameOf(hands.offered->person).toStdString()
            : words::tabletText(tablet_.words(), hands.offered->device);
        lines.append(tablet_.say({"app.hands.offered", {{"to", to}}}));
    }
    lines.append(linkedText());
    lines.removeAll(QString());
    return lines.join(QLatin1Char(' '));
}

double RunView::turnoversLow() const
{
    return band().low;
}

double RunView::turnoversBest() const
{
    return band().best;
}

double RunView::turnoversHigh() const
{
    return band().high;
}

double RunView::target() const
{
    return isThere() && run()->setup.target.turnovers ? run()->setup.target.turnovers->toDouble() : 0.0;
}

QString RunView::turnoversText() const
{
    return isThere() ? asShown(words::turnoverLine(tablet_.words(), band(), run()->setup.target)) : QString();
}

/// Time to the target if filtering goes on at the rated flow: from the most to the least that may have been filtered.
/// That it is reached is only said where what was read says so.
QString RunView::remainingText() const
{
    if (!isThere() || target() <= 0.0 || isClosed()) {
        return {};
    }
    if (target() <= turnoversBest()) {
        return tablet_.label("app.target-met");
    }
    const double minutesEach = (run()->setup.tank.volume.value() / run()->setup.cart.flow.value()).in(units::minute);
    const auto timeTo = [&](double turnovers) {
        return RunTime{std::llround(std::max(turnovers, 0.0) * minutesEach * 60000.0)};
    };
    const double flowLeft = std::max(run::flowLeftNow(standing()), leastFlowLeft);
    const RunTime most = timeTo((target() - turnoversLow()) / flowLeft);
    const RunTime least = std::min(timeTo(target() - turnoversHigh()), most);
    if (most - least < toldAsOne && least > RunTime{0}) {
        const double now = mode() == QStringLiteral("filtering") ? turnoversHigh() : turnoversBest();
        return tablet_.say({"app.remaining", {{"time", hoursText(timeTo(target() - now)).toStdString()}}});
    }
    return tablet_.say(
        {"app.remaining-range", {{"least", hoursText(least).toStdString()}, {"most", hoursText(most).toStdString()}}});
}

bool RunView::isOverdue() const
{
    return isThere() && standing().due && standing().now > *standing().due;
}

QString RunView::nextText() const
{
    if (!isThere() || !standing().due) {
        return QStringLiteral("–");
    }
    return isOverdue() ? lateTextOf(tablet_, standing().now - *standing().due)
                       : minutesText(*standing().due - standing().now);
}

QString RunView::nextCaption() const
{
    if (!isThere() || !standing().due) {
        return tablet_.label("app.no-reading-due");
    }
    const bool isNow = *standing().due - standing().now < std::chrono::seconds(1);
    return tablet_.label(isOverdue() ? "app.late" : isNow ? "app.read-now" : "app.read-again");
}

double RunView::nextFraction() const
{
    if (!isThere() || !standing().due) {
        return 0.0;
    }
    const auto& moments = standing().moments;
    const auto last = std::find_if(moments.rbegin(), moments.rend(), [](const run::Moment& moment) {
        return moment.reading != nullptr || moment.disturbedAt == moment.at;
    });
    const RunTime from = last == moments.rend() ? RunTime{0} : last->at;
    const auto whole = static_cast<double>((*standing().due - from).count());
    const auto left = static_cast<double>((*standing().due - standing().now).count());
    return whole <= 0.0 ? 0.0 : std::clamp(left / whole, 0.0, 1.0);
}

QString RunView::caution() const
{
    if (tablet_.shown() == nullptr || isClosed()) {
        return {};
    }
    const bool isClickingTold = line_.finding == "static-clicking"; // with what to do, in the line above
    return cautionText(tablet_, run::Act::Read, isClickingTold ? "clicking" : std::string_view());
}

bool RunView::isClosed() const
{
    return isThere() && run()->phase == run::Phase::Closed;
}

void RunView::refresh()
{
    refreshGauges();
    refreshStages();
    readings_.setRows(isThere() ? readingRows(tablet_, *run()) : QList<RowModel::Row>());
    refreshLine();
    refreshCode();
    Q_EMIT changed();
    Q_EMIT timeChanged();
}

void RunView::refreshGauges()
{
    QList<RowModel::Row> rows;
    const std::size_t count = isThere() ? run()->setup.cart.gauges.size() : 0;
    const auto* last = isThere() ? standing().lastReading : nullptr;
    for (std::size_t i = 0; i < count; ++i) {
        const QString name = QStringLiteral("G%1").arg(i + 1);
        const auto* unit = run()->setup.cart.gauges[i].unit;
        QString value = QStringLiteral("–");
        if (last != nullptr) {
            unit = last->reading->unit != nullptr ? last->reading->unit : unit;
            if (const auto& typed = last->reading->gauges[i]) {
                value = numberAsShown(typed->low)
                    + (typed->high ? QStringLiteral("–") + numberAsShown(*typed->high) : QString());
            }
        }
        const QString unitText = toQt(unit->symbol);
        rows.append({name, value, unitText, name + QLatin1Char(' ') + value + QLatin1Char(' ') + unitText});
    }
    gauges_.setRows(std::move(rows));
}

/// It moves with what is credited, which only an entry changes.
void RunView::refreshCode()
{
    const auto ahead = isThere() && !isClosed() ? run::codeAheadOf(*run(), standing()) : std::nullopt;
    codeText_ = ahead ? asShown(words::codeBrief(tablet_.words(), *ahead, *run())) : QString();
}

void RunView::refreshStages()
{
    QList<RowModel::Row> rows;
    for (std::size_t i = 0; isThere() && i < run()->setup.stages.size(); ++i) {
        rows.append(stageRow(i));
    }
    stages_.setRows(std::move(rows));
}

RowModel::Row RunView::stageRow(std::size_t i) const
{
    const auto& stage = run()->setup.stages[i];
    const run::StageDrop drop = standing().stages.empty() ? run::StageDrop{} : standing().stages[i];
    const QString title = tablet_.say({"app.stage", {{"stage", std::to_string(i + 1)}}});
    const double fill = drop.raw && stage.changeLimit ? drop.raw->value() / stage.changeLimit->value() : 0.0;
    const double mark = run::coldestMark(*run(), standing(), i);
    const StageAhead ahead = stageAheadOf(tablet_.words(), *run(), standing(), i);
    const run::StageLevel level = run::stageLevelOf(*run(), standing(), i);
    const QString levelText = tablet_.say({"app.level." + level.word, {}});
    const QString dropText = !drop.raw ? QStringLiteral("–")
        : drop.reading                 ? shownText(*drop.raw, *drop.reading, tablet_.wanted())
                                       : shownText(*drop.raw, tablet_.wanted());
    QString error;
    QString corrected;
    QString loading;
    if (drop.raw && drop.reading) {
        error = asShown(
            "± "
            + units::printComputed(*drop.reading, units::unitOf(*drop.raw->unit, tablet_.wanted()), *drop.reading));
    }
    if (drop.corrected && drop.loading && !level.isDoubtful) {
        corrected = tablet_.say(
            {"app.corrected",
             {{"corrected",
               units::printComputed(*drop.corrected, units::unitOf(*drop.raw->unit, tablet_.wanted()),
                                    *drop.reading)}}});
        loading = tablet_.say({"app.loading", {{"loading", fixed(*drop.loading, 1)}}});
    }
    const QString limit = stage.changeLimit ? shownText(*stage.changeLimit, tablet_.wanted())
                                            : tablet_.label("app.no-limit");
    const double bypassAt = stage.bypass && stage.changeLimit ? stage.bypass->value() / stage.changeLimit->value()
                                                              : -1.0;
    const QString bypass = stage.bypass
        ? tablet_.say({"app.bypass-at", {{"setting", units::shown(*stage.bypass, tablet_.wanted())}}})
        : QString();
    return {static_cast<int>(i) + 1,
            title,
            dropText,
            error,
            limit,
            std::clamp(fill, 0.0, fullestColumn),
            level.isDoubtful ? -1.0 : std::min(mark, fullestColumn),
            toQt(level.sign),
            levelText,
            corrected,
            loading,
            bypassAt,
            bypass,
            ahead.state,
            ahead.label,
            ahead.low,
            ahead.high,
            title + QStringLiteral(", ΔP ") + dropText + QStringLiteral(", ") + levelText + QStringLiteral(". ")
                + (bypass.isEmpty() ? QString() : bypass + QStringLiteral(". ")) + ahead.sentence};
}

bool RunView::lineHasReasons() const
{
    return isThere() && !line_.question;
}

QString RunView::alertsText() const
{
    return isThere() ? asShown(words::alertsLine(tablet_.words(), run::alertMetrics(*run(), standing().now)))
                     : QString();
}

/// The one thing to know first: stop-now, what waits for a hand, a question, what was found, a limit ahead, what else
/// stands.
void RunView::refreshLine()
{
    line_ = {};
    answers_.setRows({});
    const bool isOpen = isThere() && !isClosed();
    findings_.setRows(isOpen ? findingRows(tablet_.words(), *run(), standing()) : QList<RowModel::Row>());
    alertLog_.setRows(isThere() ? alertRows(tablet_, *run()) : QList<RowModel::Row>());
    if (!isThere()) {
        return;
    }
    const auto& alerts = run()->alerts;
    const auto worst = std::max_element(alerts.begin(), alerts.end(),
                                        [](const run::Alert& a, const run::Alert& b) { return rankOf(a) < rankOf(b); });
    const run::Alert* alert = worst == alerts.end() || !isInService(*worst) ? nullptr : &*worst;
    const bool waits = alert != nullptr && needsHand(*alert);
    const run::Question* open = run::firstToAsk(standing().questions);
    const auto& findings = standing().findings;
    const auto level = isOpen && !findings.empty() ? std::optional(findings.front().level) : std::nullopt;
    if (level == run::FindingLevel::Stop) {
        showFinding(findings.front());
    } else if (waits && (open == nullptr || takesTheScreen(*alert))) {
        showAlert(*alert);
    } else if (open != nullptr) {
        showQuestion(*open);
    } else if (level == run::FindingLevel::Caution) {
        showFinding(findings.front());
    } else if (isOpen && firstCaution(standing()) != nullptr) {
        showAhead(*firstCaution(standing()));
    } else if (alert != nullptr) {
        showAlert(*alert);
    } else if (level && stopSinceLastSet(tablet_, *run()).isEmpty()) {
        showFinding(findings.front());
    } else {
        showWhatElse();
    }
}

void RunView::showFinding(const run::Finding& finding)
{
    const bool isStopped = standing().mode == run::Mode::Stopped; // then what says "stop" was done
    line_.level = toQt(run::nameOf(isStopped ? std::min(finding.level, run::FindingLevel::Caution) : finding.level));
    line_.text = asShown(words::findingSentence(tablet_.words(), finding));
    line_.detail = tablet_.say(finding.act);
    line_.finding = finding.id;
}

void RunView::showAlert(const run::Alert& alert)
{
    line_.level = alert.id == run::AlertId::StopNow    ? QStringLiteral("stop")
        : alert.id == run::AlertId::TargetTurnoversMet ? QStringLiteral("note")
                                                       : QStringLiteral("caution");
    // The ring counts the minutes; those of the alert as it was told would stand still beside it.
    line_.text = alert.id == run::AlertId::ReadingOverdue
        ? tablet_.label("app.line.overdue")
        : asShown(words::alertSentence(tablet_.words(), alert.id, alert.told));
    line_.detail = tablet_.say({"alert-state." + std::string(run::nameOf(alert.state)), {}});
    line_.alert = needsHand(alert) ? std::optional(alert) : std::nullopt;
}

void RunView::showQuestion(const run::Question& question)
{
    line_.level = question.id == run::enteredLate ? QStringLiteral("note") : QStringLiteral("caution");
    line_.text = asShown(words::questionSentence(tablet_.words(), question));
    line_.question = question;
    QList<RowModel::Row> rows;
    for (const QuestionKey& key : keysFor(question)) {
        rows.append({tablet_.say({std::string(key.label), question.arguments}), toQt(key.say)});
    }
    answers_.setRows(std::move(rows));
}

void RunView::showAhead(const run::Outlook& ahead)
{
    line_.level = QStringLiteral("caution");
    line_.text = asShown(words::outlookBrief(tablet_.words(), ahead, *run()));
    line_.detail = asShown(words::outlookCaveat(tablet_.words(), ahead, standing()));
}

void RunView::showWhatElse()
{
    if (isClosed()) {
        line_.text = tablet_.label("app.run-over");
    } else if (const QString stop = stopSinceLastSet(tablet_, *run()); !stop.isEmpty()) {
        line_.level = QStringLiteral("caution");
        line_.text = tablet_.say({"app.line.after-stop", {{"what", stop.toStdString()}}});
    } else if (const run::Question* kept = run::gaugesToCheck(standing().questions, standing().moments)) {
        line_.level = QStringLiteral("note");
        line_.text = tablet_.say({"app.gauges-to-check", kept->arguments});
    } else if (!std::ranges::all_of(run()->alerts, isInService)) {
        line_.level = QStringLiteral("note");
        line_.text = tablet_.label("app.line.out-of-service");
    } else {
        line_.text = tablet_.label("app.nothing-stands");
        const run::Outlook* first = firstToReach(standing());
        line_.detail = first != nullptr ? asShown(words::outlookBrief(tablet_.words(), *first, *run())) : QString();
    }
}

void RunView::recordMode(const QString& mode)
{
    if (!isThere() || !run::modeNamed(mode.toStdString())) {
        return;
    }
    pendingMode_ = mode;
    if (hintWasShown_) {
        confirmMode();
        return;
    }
    modeHint_ = tablet_.label("app.mode-hint");
    modeConfirm_ = tablet_.say({"app.record." + mode.toStdString(), {}});
    Q_EMIT modeHintChanged();
}

void RunView::confirmMode()
{
    hintWasShown_ = true;
    modeHint_.clear();
    Q_EMIT modeHintChanged();
    if (const auto mode = run::modeNamed(pendingMode_.toStdString())) {
        tablet_.say(run::Said(run::ModeChanged{*mode, std::nullopt}));
    }
    pendingMode_.clear();
}

void RunView::cancelMode()
{
    modeHint_.clear();
    pendingMode_.clear();
    Q_EMIT modeHintChanged();
}

void RunView::answer(const QString& say)
{
    if (!line_.question) {
        return;
    }
    const run::Question question = *line_.question; // what is said below refreshes the line
    const std::string said = say.toStdString();
    std::optional<run::Amended> amendment;
    if (said == sayMend) {
        amendment = run::proposalOf(question);
        amendment->why = words::questionSentence(tablet_.words(), question);
        answerQuestion(question, "yes");
    } else if (said == sayAgain) {
        amendment = run::Amended{.of = question.of->header.id, .struck = true, .why = {}};
        amendment->why = tablet_.label("app.answer.read-again").toStdString();
    } else if (said == sayPart) {
        part_.ask(question);
    } else {
        answerQuestion(question, said);
    }
    if (amendment) {
        tablet_.say(run::Said(*std::move(amendment)));
    }
}

void RunView::answerQuestion(const run::Question& question, const std::string& say)
{
    std::vector<Id> entries = {question.of->header.id};
    if (question.id == run::enteredLate) {
        entries.clear();
        for (const run::Question& late : standing().questions) {
            if (late.id == run::enteredLate && late.isOpen()) {
                entries.push_back(late.of->header.id);
            }
        }
    }
    for (const Id& entry : entries) {
        tablet_.say(run::Said(run::QuestionAnswered{std::string(question.id), entry, say, std::nullopt}));
    }
}

void RunView::acknowledgeLine()
{
    if (line_.alert) {
        tablet_.say(run::Said(run::AlertAcknowledged{line_.alert->id, line_.alert->stage, {}}));
    }
}

void RunView::confirmFinding(int row)
{
    if (row < 0 || row >= findings_.rowCount()) {
        return;
    }
    if (auto answer = thatItIsSo(standing(), *findingsToShow(*run(), standing())[static_cast<std::size_t>(row)])) {
        tablet_.say(run::Said(*std::move(answer)));
    }
}

paper::Trend RunView::trend() const
{
    return isThere() ? paper::runTrend(tablet_.words(), *run(), standing(), firstToReach(standing())) : paper::Trend();
}

} // namespace loopside::app
