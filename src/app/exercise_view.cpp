// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "app/exercise_view.h"

#include "app/app_view.h"
#include "app/waiting_alerts.h"
#include "app/wording.h"
#include "base/text.h"
#include "store/key_file.h"
#include "store/sqlite_journal.h"

#include <QDir>
#include <QFile>

#include <algorithm>
#include <array>
#include <cmath>

namespace loopside::app {

using practice::FaultPlace;
using units::Duration;
using units::minute;
using units::second;

namespace {

constexpr std::array<int, 4> speeds = {0, 1, 10, 60}; ///< Seconds of the exercise in one of ours.
constexpr int oneToOne = 1;                           ///< Its row.
constexpr auto tickEvery = std::chrono::milliseconds(250);
constexpr Duration longestStep = 10.0 * second;
constexpr Duration whereNoneIsDue = 5.0 * minute;

/// Who practises: nobody of the site.
Id trainee()
{
    Id id;
    id.bytes = {0x50, 0x52, 0x41, 0x43, 0x54, 0x49, 0x43, 0x45, 0x80, 0, 0, 0, 0, 0, 0, 1};
    return id;
}

/// What an event says, if a person said it.
std::optional<run::Said> saidBy(const run::Event& event)
{
    return std::visit(
        [](const auto& what) -> std::optional<run::Said> {
            if constexpr (std::is_constructible_v<run::Said, decltype(what)>) {
                return run::Said(what);
            } else {
                return std::nullopt;
            }
        },
        event);
}

QStringList dialLabels(const run::GaugeRecord& dial)
{
    constexpr double fewest = 5.0;
    const double span = dial.span->toDouble();
    const double tenth = std::pow(10.0, std::floor(std::log10(span / fewest)));
    const double each = span / tenth / 10.0 >= 1.0 ? 2.0 * tenth : tenth; // 20 of 100, 100 of 700, 1 of 7
    QStringList labels;
    for (int i = 0; i * each <= span * (1.0 + 1e-9); ++i) {
        labels.append(QString::number(i * each));
    }
    return labels;
}

} // namespace

/// What the tablet of an exercise stands on.
struct ExerciseView::Ground
{
    explicit Ground(const Stamp& start) : clock{start} {}

    static Done noFolder(const QString& folder)
    {
        return fail({Errc::Io,
                     "the folder " + folder.toStdString() + " cannot be written to",
                     {"app.practice.no-folder", {{"folder", folder.toStdString()}}}});
    }

    PracticeClock clock;
    std::unique_ptr<store::SqliteJournal> journal;
    std::unique_ptr<store::DraftStore> drafts;
    std::optional<ledger::DeviceKey> key;
    std::optional<store::AttachmentFolder> attachments; ///< Of this exercise alone.
    Site site;

    /// In `folder`, in place of the files of the last time.
    [[nodiscard]] Done make(const QString& folder, int number)
    {
        if (folder.isEmpty() || !QDir().mkpath(folder)) {
            return noFolder(folder);
        }
        const QString base = folder + QLatin1Char('/') + QString::number(number);
        for (const char* file :
             {".loop", ".loop-wal", ".loop-shm", ".loop.end", ".drafts", ".drafts-wal", ".drafts-shm"}) {
            const QString path = base + QLatin1String(file);
            if (QFile::exists(path) && !QFile::remove(path)) {
                return noFolder(folder); // the exercise before would be gone on with
            }
        }
        if (!QDir(base + QStringLiteral(".loop.attachments")).removeRecursively()) {
            return noFolder(folder);
        }
        attachments = store::AttachmentFolder::besideJournal(base.toStdString() + ".loop");
        auto opened = store::SqliteJournal::open(base.toStdString() + ".loop");
        if (!opened) {
            return fail(opened.error());
        }
        auto draftsOpened = store::DraftStore::open(base.toStdString() + ".drafts");
        if (!draftsOpened) {
            return fail(draftsOpened.error());
        }
        auto loaded = store::loadOrCreateKey((folder + QStringLiteral("/device.key")).toStdString());
        if (!loaded) {
            return fail(loaded.error());
        }
        journal = *std::move(opened);
        drafts = *std::move(draftsOpened);
        key = *std::move(loaded);
        return {};
    }
};

Result<std::unique_ptr<ExerciseView>> ExerciseView::begin(const Tablet& tablet, int number, const QString& theme)
{
    auto exercise = practice::Exercise::begin(number, tablet.random().next());
    if (!exercise) {
        return fail(exercise.error());
    }
    auto ground = std::make_unique<Ground>(tablet.now());
    if (const Done made = ground->make(toQt(tablet.practiceFolder()), number); !made) {
        return fail(made.error());
    }
    auto view = std::unique_ptr<ExerciseView>(new ExerciseView(*std::move(exercise), std::move(ground)));
    if (const Done opened = view->open(tablet, theme); !opened) {
        return fail(opened.error());
    }
    return view;
}

ExerciseView::ExerciseView(practice::Exercise exercise, std::unique_ptr<Ground> ground)
    : exercise_{std::move(exercise)},
      ground_{std::move(ground)},
      rates_{{"name", "detail", "isChosen"}},
      dials_{{"name", "unit", "span", "graduation", "labels", "low", "high", "spoken"}},
      signs_{{"text", "sign"}},
      choices_{{"name", "detail", "isChosen"}},
      stages_{{"name"}},
      found_{{"time", "text"}},
      did_{{"time", "text"}},
      goals_{{"text", "sign", "signText"}}
{
}

ExerciseView::~ExerciseView() = default;

Done ExerciseView::open(const Tablet& outer, const QString& theme)
{
    run::Setup setup = exercise_.setup();
    setup.tank.name = outer.words().say("practice.tank");
    setup.cart.name = outer.words().say("practice.cart");
    run::PersonRecord wants = outer.wants();
    wants.id = trainee();
    wants.theme = theme.toStdString();
    ground_->site = {.name = outer.words().say("label.practice"),
                     .tanks = {setup.tank},
                     .carts = {{setup.cart, setup.stages}},
                     .people = {{trainee(), outer.words().say("practice.trainee"), wants}},
                     .plates = {}};
    const Id device = store::deviceOf(*ground_->key);
    auto tablet = Tablet::open({*ground_->journal,
                                *ground_->drafts,
                                ground_->clock,
                                outer.random(),
                                ground_->site,
                                outer.words(),
                                outer.language(),
                                {},
                                {},
                                &*ground_->attachments},
                               device, *std::move(ground_->key));
    if (!tablet) {
        return fail(tablet.error());
    }
    tablet_ = *std::move(tablet);
    connect(tablet_.get(), &Tablet::changed, this, &ExerciseView::hearNew);
    if (!tablet_->openRun(setup)) {
        return fail(Errc::Io, tablet_->trouble().toStdString());
    }
    app_ = std::make_unique<AppView>(*tablet_);
    app_->setExercise(this);
    connect(app_.get(), &AppView::pageChanged, this, [this] {
        isAtCart_ = app_->page() == AppView::Page::Run; // elsewhere it would lie over the steps
        Q_EMIT asked();
    });
    QList<RowModel::Row> rows;
    for (std::size_t i = 1; i <= setup.stages.size(); ++i) {
        rows.append({tablet_->say({"app.practice.change", {{"stage", std::to_string(i)}}})});
    }
    stages_.setRows(std::move(rows));
    showRates();
    showCart();
    connect(&timer_, &QTimer::timeout, this, &ExerciseView::onTimer);
    since_.start();
    timer_.start(tickEvery);
    return {};
}

QString ExerciseView::title() const
{
    return QString::number(number()) + QStringLiteral("  ")
        + label("practice." + std::string(exercise_.plan().about.id) + ".title");
}

QString ExerciseView::task() const
{
    return label("practice." + std::string(exercise_.plan().about.id) + ".task");
}

QString ExerciseView::timeText(Duration at) const
{
    return hoursText(run::RunTime{std::llround(at.in(second) * 1e3)});
}

QString ExerciseView::clockText() const
{
    return tablet_->say({"app.practice.clock", {{"time", timeText(exercise_.now()).toStdString()}}});
}

QString ExerciseView::oilText() const
{
    const auto* wanted = tablet_->wants().temperature;
    const auto& unit = wanted != nullptr ? *wanted : **units::unitNamed<units::Temperature>("°C");
    return QString::number(std::lround(thermometer_.in(unit.unit))) + QLatin1Char(' ') + toQt(unit.symbol);
}

void ExerciseView::showRates()
{
    QList<RowModel::Row> rows;
    for (std::size_t i = 0; i < speeds.size(); ++i) {
        const QString name = speeds.at(i) == 0 ? label("app.practice.pause") : QStringLiteral("× %1").arg(speeds.at(i));
        rows.append({name, QString(), static_cast<int>(i) == rate_});
    }
    rates_.setRows(std::move(rows));
}

void ExerciseView::chooseRate(int row)
{
    if (row >= 0 && row < static_cast<int>(speeds.size())) {
        rate_ = row;
        since_.start();
        showRates();
    }
}

void ExerciseView::onTimer()
{
    const double elapsed_s = static_cast<double>(since_.restart()) * 1e-3;
    if (!isOver() && speeds.at(static_cast<std::size_t>(rate_)) > 0) {
        pass(elapsed_s * speeds.at(static_cast<std::size_t>(rate_)));
    }
}

/// What somebody has to look at: a reading that is due, each alert that waits.
ExerciseView::Wants ExerciseView::wants() const
{
    const auto& run = *tablet_->shown();
    const auto& standing = tablet_->standing(run);
    return {standing.due && *standing.due <= standing.now, waitingAlerts(tablet_->state(), run.id).size()};
}

void ExerciseView::pass(double seconds)
{
    Wants before = wants();
    Duration left = seconds * second;
    while (left > Duration{}) {
        step(std::min(left, longestStep));
        left -= longestStep;
        const Wants now = wants();
        if ((now.reading && !before.reading) || now.alerts > before.alerts) {
            chooseRate(std::min(rate_, oneToOne)); // no faster past what somebody has to see
            break;
        }
        before = now;
    }
    showCart();
}

void ExerciseView::step(Duration time)
{
    exercise_.advance(time);
    ground_->clock.follow(exercise_.now());
    tablet_->tick();
    app_->touched(); // somebody is at the cart all the time
}

void ExerciseView::toNextReading()
{
    const auto& standing = tablet_->standing(*tablet_->shown());
    if (!standing.due) {
        pass(whereNoneIsDue.in(second));
    } else if (*standing.due > standing.now) {
        pass(static_cast<double>((*standing.due - standing.now).count()) * 1e-3);
    }
}

void ExerciseView::hearNew()
{
    const run::RunState* run = tablet_->shown();
    while (run != nullptr && heard_ < run->facts.size()) {
        if (const auto said = saidBy(run->facts[heard_++].original)) {
            hear(*said);
        }
    }
    if (run != nullptr) {
        exercise_.findings(tablet_->standing(*run).findings);
        showCart();
    }
}

void ExerciseView::hear(const run::Said& said)
{
    const auto heard = exercise_.hear(said);
    if (!heard) {
        tablet_->setTrouble(label("app.practice.pump-runs"));
    } else if (*heard) {
        sight_ = tablet_->say(**heard);
        Q_EMIT asked();
    }
}

void ExerciseView::showCart()
{
    const practice::Showing showing = exercise_.showing();
    thermometer_ = showing.thermometer;
    QList<RowModel::Row> rows;
    for (std::size_t i = 0; i < showing.needles.size(); ++i) {
        const run::GaugeRecord& dial = exercise_.setup().cart.gauges[i];
        const practice::Needle& needle = showing.needles[i];
        const double span = dial.span->toDouble();
        const QString name = QStringLiteral("G%1").arg(i + 1);
        const QString unit = toQt(dial.unit->symbol);
        rows.append(
            {name, unit, span, dial.graduation->toDouble(), dialLabels(dial),
             std::max(0.0, needle.shown - needle.halfSwing), std::min(span, needle.shown + needle.halfSwing),
             tablet_->say({"app.practice.dial", {{"gauge", std::to_string(i + 1)}, {"unit", unit.toStdString()}}})});
    }
    dials_.setRows(std::move(rows));
    QList<RowModel::Row> seen;
    for (const std::string_view sign : showing.signs) {
        seen.append({label("practice.sign." + std::string(sign)), QStringLiteral("caution")});
    }
    if (seen.isEmpty()) {
        seen.append({label("practice.sign.none"), QStringLiteral("note")});
    }
    signs_.setRows(std::move(seen));
    Q_EMIT moved();
}

void ExerciseView::ask(const QString& what, QList<RowModel::Row> rows)
{
    asks_ = what;
    choices_.setRows(std::move(rows));
    Q_EMIT asked();
}

void ExerciseView::goToCart()
{
    isAtCart_ = !isAtCart_;
    ask(QStringLiteral("none"));
}

void ExerciseView::askLook()
{
    QList<RowModel::Row> rows;
    for (const std::string_view spot : practice::spotNames()) {
        rows.append({label("practice.spot." + std::string(spot)), QString(), false});
    }
    ask(QStringLiteral("look"), std::move(rows));
}

void ExerciseView::askThink()
{
    QList<RowModel::Row> rows;
    for (const auto& nature : practice::thoughts()) {
        rows.append({label("practice.think." + std::string(nature.name)), QString(), false});
    }
    ask(QStringLiteral("think"), std::move(rows));
}

void ExerciseView::askEnd()
{
    ask(QStringLiteral("end"));
}

void ExerciseView::back()
{
    ask(QStringLiteral("none"));
}

void ExerciseView::say(std::string_view check, const std::string& what)
{
    ask(QStringLiteral("none"));
    sight_.clear();
    if (tablet_->say(run::Said(run::CheckAnswered{std::string(check), what})) && check == practice::thinkCheck) {
        sight_ = tablet_->say(
            {"app.practice.thought", {{"what", tablet_->say(sentenceOf(*practice::opinionOf(what))).toStdString()}}});
    }
    Q_EMIT asked();
}

void ExerciseView::choose(int row)
{
    const auto index = static_cast<std::size_t>(row);
    if (row < 0 || row >= choices_.rowCount()) {
        return;
    }
    if (asks_ == QStringLiteral("look")) {
        say(practice::lookCheck, std::string(practice::spotNames()[index]));
    } else if (asks_ == QStringLiteral("place")) {
        say(practice::thinkCheck, practice::textOf({asked_, row + 1}));
    } else if (asks_ == QStringLiteral("think")) {
        const practice::ThoughtNature& nature = practice::thoughts()[index];
        asked_ = nature.thought;
        if (nature.place == FaultPlace::Whole) {
            say(practice::thinkCheck, practice::textOf({asked_}));
            return;
        }
        const auto& setup = exercise_.setup();
        const std::size_t places = nature.place == FaultPlace::Stage ? setup.stages.size() : setup.cart.gauges.size();
        QList<RowModel::Row> rows;
        for (std::size_t i = 1; i <= places; ++i) {
            rows.append({tablet_->say(practice::sentenceOf({asked_, static_cast<int>(i)})), QString(), false});
        }
        ask(QStringLiteral("place"), std::move(rows));
    }
}

void ExerciseView::change(int stage)
{
    isAtCart_ = false;
    ask(QStringLiteral("none"));
    app_->openChangeover(stage);
}

void ExerciseView::end()
{
    timer_.stop();
    debrief_ = practice::debriefOf(exercise_);
    ask(QStringLiteral("none"));
    showDebrief();
    Q_EMIT over();
}

void ExerciseView::showDebrief()
{
    QList<RowModel::Row> found;
    for (const practice::FoundThen& then : debrief_->found) {
        found.append({timeText(then.at), tablet_->say(then.said)});
    }
    if (found.isEmpty()) {
        found.append({QString(), label("app.practice.found-nothing")});
    }
    found_.setRows(std::move(found));
    QList<RowModel::Row> did;
    for (const practice::DidThen& then : debrief_->did) {
        Message how = then.how;
        if (then.what) {
            how.arguments.emplace_back("what", tablet_->say(*then.what).toStdString());
        }
        did.append({timeText(then.at), tablet_->say(how)});
    }
    did_.setRows(std::move(did));
    QList<RowModel::Row> goals;
    for (const practice::GoalJudged& judged : debrief_->goals) {
        goals.append({label("practice.goal." + std::string(nameOf(judged.goal))),
                      judged.isReached ? QStringLiteral("done") : QStringLiteral("later"),
                      label(judged.isReached ? "app.practice.goal-reached" : "app.practice.goal-open")});
    }
    goals_.setRows(std::move(goals));
}

QString ExerciseView::scoreText() const
{
    return !debrief_ ? QString()
                     : tablet_->say({"app.practice.score",
                                     {{"reached", std::to_string(debrief_->reached())},
                                      {"goals", std::to_string(debrief_->goals.size())},
                                      {"turnovers", fixed(debrief_->turnovers, 1)}}});
}

QString ExerciseView::hiddenText() const
{
    return debrief_ ? tablet_->say(debrief_->hidden) : QString();
}

QString ExerciseView::noticedText() const
{
    if (!debrief_) {
        return {};
    }
    QStringList lines;
    if (debrief_->faultAt) {
        lines.append(tablet_->say({"app.practice.there-at", {{"time", timeText(*debrief_->faultAt).toStdString()}}}));
    }
    if (debrief_->visibleAt) {
        lines.append(
            tablet_->say({"app.practice.noticed-at", {{"time", timeText(*debrief_->visibleAt).toStdString()}}}));
    }
    return lines.join(QLatin1Char(' '));
}

QString ExerciseView::nextText() const
{
    return debrief_ ? tablet_->say(debrief_->next) : QString();
}

} // namespace loopside::app
