// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "app/practice_view.h"

#include "app/app_view.h"
#include "app/as_shown.h"
#include "app/waiting_alerts.h"
#include "app/wording.h"
#include "run/job.h"

#include <algorithm>

namespace loopside::app {

namespace {

std::string sentence(const practice::ExerciseAbout& about, const char* what)
{
    return "practice." + std::string(about.id) + "." + what;
}

const practice::ExerciseAbout& aboutOf(int number)
{
    return practice::exerciseList()[static_cast<std::size_t>(number - 1)];
}

/// Of a run that is closed only what was to stop the pump still does.
bool asksForSomebody(const Tablet& tablet, const WaitingAlert& waiting)
{
    return tablet.state().runOf(waiting.run)->phase != run::Phase::Closed || takesTheScreen(*waiting.alert);
}

/// Which sentence tells why nobody can practise now; null if one can.
const char* whyNot(const Tablet& tablet)
{
    if (std::ranges::any_of(waitingAlerts(tablet.state(), {}),
                            [&](const WaitingAlert& alert) { return asksForSomebody(tablet, alert); })) {
        return "app.practice.refused.alert";
    }
    for (const auto& [id, run] : tablet.state().runs) {
        if (run.phase != run::Phase::Closed && tablet.standing(run).mode != run::Mode::Stopped) {
            return "app.practice.refused.pumping";
        }
    }
    const bool isPumping = std::ranges::any_of(tablet.state().jobs,
                                               [](const auto& job) { return job.second.isOpen(); });
    return isPumping ? "app.practice.refused.job" : nullptr;
}

} // namespace

PracticeView::PracticeView(Tablet& tablet, QObject* parent)
    : QObject{parent}, tablet_{tablet}, exercises_{{"name", "detail", "isChosen"}}
{
    connect(&tablet_, &Tablet::changed, this, &PracticeView::watch);
    connect(&tablet_, &Tablet::secondPassed, this, &PracticeView::watch);
    refresh();
}

PracticeView::~PracticeView() = default;

QString PracticeView::title() const
{
    return tablet_.say({sentence(aboutOf(chosen_), "title"), {}});
}

QString PracticeView::task() const
{
    return tablet_.say({sentence(aboutOf(chosen_), "task"), {}});
}

QString PracticeView::problem() const
{
    const char* why = whyNot(tablet_);
    return why == nullptr ? problem_ : tablet_.label(why);
}

bool PracticeView::canStart() const
{
    return whyNot(tablet_) == nullptr;
}

void PracticeView::refresh()
{
    QList<RowModel::Row> rows;
    for (const auto& about : practice::exerciseList()) {
        const QString level = tablet_.say({"practice.level." + std::string(practice::nameOf(about.level)), {}});
        const auto result = results_.find(about.number);
        rows.append({QString::number(about.number) + QStringLiteral("  ") + tablet_.say({sentence(about, "title"), {}}),
                     result == results_.end() ? level : level + QStringLiteral(" · ") + result->second,
                     about.number == chosen_});
    }
    exercises_.setRows(std::move(rows));
    Q_EMIT changed();
}

/// An alert of a real run takes the screens back.
void PracticeView::watch()
{
    if (exercise_ != nullptr && whyNot(tablet_) != nullptr) {
        leave();
        problem_ = tablet_.label("app.practice.interrupted");
    }
    Q_EMIT changed();
}

void PracticeView::choose(int row)
{
    if (row >= 0 && row < practice::exerciseCount) {
        chosen_ = row + 1;
        problem_.clear();
        refresh();
    }
}

void PracticeView::start()
{
    if (exercise_ != nullptr || whyNot(tablet_) != nullptr) {
        return;
    }
    auto begun = ExerciseView::begin(tablet_, chosen_, theme_);
    problem_ = begun ? QString() : asShown(tablet_.words().say(begun.error()));
    if (begun) {
        exercise_ = *std::move(begun);
        connect(exercise_.get(), &ExerciseView::over, this, &PracticeView::keepResult);
        Q_EMIT exerciseChanged();
    }
    Q_EMIT changed();
}

void PracticeView::keepResult()
{
    const practice::Debrief* debrief = exercise_->debrief();
    results_[exercise_->number()] = tablet_.say(
        {"app.practice.reached",
         {{"reached", std::to_string(debrief->reached())}, {"goals", std::to_string(debrief->goals.size())}}});
    refresh();
}

/// The files of the exercise before are closed when it is gone, and no sooner.
void PracticeView::again()
{
    if (exercise_ != nullptr) {
        connect(exercise_.get(), &QObject::destroyed, this, &PracticeView::start);
        leave();
    }
}

void PracticeView::leave()
{
    if (exercise_ == nullptr) {
        return;
    }
    auto* left = exercise_.release();
    Q_EMIT exerciseChanged(); // first the screens turn away from it, then it goes
    left->deleteLater();
    refresh();
}

} // namespace loopside::app
