// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "app/checklist_view.h"

#include "app/as_shown.h"
#include "app/caution_text.h"
#include "app/draft_places.h"
#include "app/wording.h"
#include "base/text.h"
#include "words/record_told.h"

#include <algorithm>
#include <array>

namespace loopside::app {

namespace {

constexpr std::array<const char*, 3> reasonNames = {"no-access", "by-others", "later"};

} // namespace

ChecklistView::ChecklistView(Tablet& tablet, run::Checklist list, Keep keep, QObject* parent)
    : QObject{parent},
      tablet_{tablet},
      points_{run::pointsOf(list)},
      keep_{std::move(keep)},
      ownWords_{tablet, skippedDrafts},
      rows_{{"text", "state", "stateText", "caution", "isNow"}},
      reasons_{{"text"}},
      known_(points_.size())
{
    QList<RowModel::Row> reasons;
    for (const char* reason : reasonNames) {
        reasons.append({tablet_.say({std::string("app.check.reason.") + reason, {}})});
    }
    reasons_.setRows(std::move(reasons));
    refresh();
}

void ChecklistView::show(Known known, const run::Circumstances& circumstances)
{
    known_ = std::move(known);
    circumstances_ = circumstances;
    refresh();
}

void ChecklistView::begin()
{
    now_ = firstOpen();
    asksWhy_ = false;
    doubted_.reset();
    lastNs_.reset();
    refresh();
}

int ChecklistView::firstOpen() const
{
    const auto open = std::ranges::find_if(known_, [](const auto& point) { return !point; });
    return static_cast<int>(open - known_.begin());
}

int ChecklistView::answered() const
{
    return static_cast<int>(std::ranges::count_if(known_, [](const auto& point) { return point.has_value(); }));
}

bool ChecklistView::isLeftOut(std::size_t point) const
{
    return point < known_.size() && known_[point] && known_[point]->answer == run::Answer::Skipped;
}

bool ChecklistView::isLeftOut(std::string_view check) const
{
    const auto found = std::ranges::find(points_, check, &run::CheckPoint::id);
    return isLeftOut(static_cast<std::size_t>(found - points_.begin()));
}

int ChecklistView::leftOut() const
{
    return static_cast<int>(std::ranges::count_if(
        known_, [](const auto& point) { return point && point->answer == run::Answer::Skipped; }));
}

bool ChecklistView::isComplete() const
{
    return answered() == static_cast<int>(points_.size());
}

QString ChecklistView::standingText() const
{
    return tablet_.say({"app.check.standing",
                        {{"answered", std::to_string(answered())},
                         {"points", std::to_string(points_.size())},
                         {"skipped", std::to_string(leftOut())}}});
}

QString ChecklistView::doubt() const
{
    const double seconds = static_cast<double>(doubtedAfterNs_) / 1e9;
    return doubted_ ? tablet_.say({"app.check.quick", {{"seconds", fixed(seconds, 1)}}}) : QString();
}

/// Of the point that stands now, as long as it has no answer.
std::optional<KeptAnswers::Answer> ChecklistView::before() const
{
    const auto now = static_cast<std::size_t>(now_);
    return before_ && now < points_.size() && !known_[now] ? before_(points_[now].id) : std::nullopt;
}

QString ChecklistView::beforeText() const
{
    const auto known = before();
    const auto answer = known ? run::answerNamed(known->said.say) : std::nullopt;
    return answer
        ? tablet_.say(
              {"app.check.answered-before",
               {{"time", clockText({.wallMs = known->wallMs, .offsetMin = tablet_.now().offsetMin}).toStdString()},
                {"person", tablet_.nameOf(known->person).toStdString()},
                {"answer", words::answerText(tablet_.words(), *answer, known->said.why, false)}}})
        : QString();
}

QString ChecklistView::nowText() const
{
    return rows_.rows().value(now_).value(0).toString();
}

QString ChecklistView::answerText(const run::PointAnswered& answered) const
{
    return asShown(words::answerText(tablet_.words(), answered.answer, answered.why, answered.wasAsked));
}

void ChecklistView::refresh()
{
    QList<RowModel::Row> rows;
    for (std::size_t i = 0; i < points_.size(); ++i) {
        const run::CheckPoint& point = points_[i];
        const bool isNow = static_cast<int>(i) == now_;
        const QString state = isNow ? QStringLiteral("now")
            : known_[i]             ? toQt(std::string(run::nameOf(known_[i]->answer)))
                                    : QStringLiteral("later");
        const bool isOpen = isNow || isLeftOut(i); // what nobody looked at is as dangerous as before
        rows.append({tablet_.say({"check." + std::string(point.id), {}}), state,
                     known_[i] ? answerText(*known_[i]) : tablet_.label(isNow ? "app.check.now" : "app.check.open"),
                     isOpen && point.act ? cautionText(tablet_, *point.act, circumstances_) : QString(), isNow});
    }
    rows_.setRows(std::move(rows));
    Q_EMIT changed();
}

void ChecklistView::answer(const QString& say)
{
    const auto answer = run::answerNamed(say.toStdString());
    if (!answer || now_ >= static_cast<int>(points_.size()) || doubted_) {
        return;
    }
    if (*answer == run::Answer::Skipped) {
        asksWhy_ = true;
        takeOwnWordsAbout(points_[static_cast<std::size_t>(now_)].id);
        Q_EMIT changed();
        return;
    }
    propose(*answer, {});
}

void ChecklistView::takeOwnWordsAbout(std::string_view point)
{
    ownWords_.about(subject_ + " " + std::string(point));
}

void ChecklistView::stillSo()
{
    const auto known = before();
    const auto answer = known ? run::answerNamed(known->said.say) : std::nullopt;
    if (answer && !doubted_ && !asksWhy_) {
        propose(*answer, known->said.why);
    }
}

void ChecklistView::because(int reason)
{
    if (reason >= 0 && reason < reasons_.rowCount()) {
        becauseOf(reasons_.rows()[reason][0].toString());
    }
}

void ChecklistView::becauseOf(const QString& why)
{
    if (asksWhy_ && !why.trimmed().isEmpty()) {
        asksWhy_ = false;
        propose(run::Answer::Skipped, why.trimmed().toStdString());
    }
}

void ChecklistView::noReason()
{
    asksWhy_ = false;
    Q_EMIT changed();
}

/// Keeps the answer, or asks about it first.
void ChecklistView::propose(run::Answer answer, const std::string& why)
{
    const auto quick = static_cast<std::uint64_t>(std::chrono::nanoseconds(run::quickAnswer).count());
    const std::uint64_t now = tablet_.now().monoNs;
    const run::CheckAnswered answered{std::string(points_[static_cast<std::size_t>(now_)].id),
                                      std::string(run::nameOf(answer)), why, false};
    const run::RunState* shown = tablet_.shown();
    const bool isTimed = shown == nullptr || !shown->setup.isPractice; // there the clock stands, or runs
    if (isTimed && lastNs_ && now - *lastNs_ < quick) {
        doubted_ = answered;
        doubtedAfterNs_ = now - *lastNs_;
        Q_EMIT changed();
        return;
    }
    keep(answered);
}

void ChecklistView::keep(const run::CheckAnswered& answered)
{
    lastNs_ = tablet_.now().monoNs;
    doubted_.reset();
    if (keep_(answered)) {
        takeOwnWordsAbout(answered.check);
        ownWords_.clear();
        now_ = firstOpen();
    }
    refresh();
}

void ChecklistView::looked()
{
    if (doubted_) {
        run::CheckAnswered answered = *doubted_;
        answered.wasAsked = true;
        keep(answered);
    }
}

void ChecklistView::notYet()
{
    doubted_.reset();
    Q_EMIT changed();
}

void ChecklistView::back()
{
    now_ = std::max(0, now_ - 1);
    doubted_.reset();
    refresh();
}

} // namespace loopside::app
