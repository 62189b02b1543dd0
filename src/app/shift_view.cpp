// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "app/shift_view.h"

#include "app/place_state.h"
#include "app/planned_job.h"
#include "app/run_level.h"
#include "app/run_name.h"
#include "app/setup_words.h"
#include "app/wording.h"
#include "base/text.h"
#include "run/job.h"
#include "run/run_code.h"

#include <algorithm>
#include <ranges>

namespace loopside::app {

namespace {

int rankOf(const RunLevel& level)
{
    return level.sign == QStringLiteral("stop") ? 4
        : level.isGrave                         ? 3
        : level.isLate                          ? 2
                                                : level.sign != QStringLiteral("ok");
}

constexpr qsizetype placesShown = 6;
constexpr std::ptrdiff_t linksAsked = 2; ///< At a time: the runs behind them are to stay in sight.

/// In use first; how many more there are where there are too many.
QList<RowModel::Row> placeRows(const Tablet& tablet, const std::vector<std::string>& places,
                               PlaceState (*stateOf)(const Tablet&, const std::string&))
{
    QList<RowModel::Row> used;
    QList<RowModel::Row> others;
    for (const std::string& name : places) {
        const PlaceState state = stateOf(tablet, name);
        (state.isInUse ? used : others).append({toQt(name), state.text});
    }
    QList<RowModel::Row> rows = used + others;
    if (rows.size() > placesShown) {
        const auto more = rows.size() - placesShown + 1;
        rows.resize(placesShown - 1);
        rows.append({tablet.say({"app.shift.more", {{"places", std::to_string(more)}}}), QString()});
    }
    return rows;
}

/// Its opening and all that followed; the end of a run is one of its facts.
std::ptrdiff_t entriesOf(const run::RunState& run)
{
    return 1 + static_cast<std::ptrdiff_t>(run.facts.size());
}

} // namespace

ShiftView::ShiftView(Tablet& tablet, QObject* parent)
    : QObject{parent},
      tablet_{tablet},
      work_{{"name", "detail", "sign", "signText", "isLoud", "isOpen"}},
      tanks_{{"name", "value"}},
      carts_{{"name", "value"}},
      onlyHere_{{"name", "value"}}
{
    connect(&tablet_, &Tablet::changed, this, &ShiftView::refresh);
    connect(&tablet_, &Tablet::secondPassed, this, &ShiftView::showWork);
    refresh();
}

QString ShiftView::onlyHereText() const
{
    return tablet_.say({tablet_.hasHub() ? "app.shift.only-here-hub" : "app.shift.only-here",
                        {{"entries", std::to_string(tablet_.entriesHere())}}});
}

void ShiftView::refresh()
{
    showWork();
    std::vector<std::string> names;
    for (const run::TankRecord& tank : tablet_.site().tanks) {
        names.push_back(tank.name);
    }
    tanks_.setRows(placeRows(tablet_, names, tankStateOf));
    names.clear();
    for (const SiteCart& cart : tablet_.site().carts) {
        names.push_back(cart.cart.name);
    }
    carts_.setRows(placeRows(tablet_, names, cartStateOf));
    showOnlyHere();
    Q_EMIT changed();
}

/// Runs whose facts are put away in the journal are among the rest.
void ShiftView::showOnlyHere()
{
    QList<RowModel::Row> rows;
    if (tablet_
            .hasHub()) { // of which run an entry is that waits, nobody counts: the page of the handover tells how many
        onlyHere_.setRows(std::move(rows));
        return;
    }
    std::ptrdiff_t told = 0;
    const auto tell = [&](const std::string& name, std::ptrdiff_t entries, const QString& value) {
        if (rows.size() < placesShown) {
            rows.append({toQt(name), value});
            told += entries;
        }
    };
    for (const auto& [id, run] : std::views::reverse(tablet_.state().runs)) {
        if (!run.isPutAway && (run.phase != run::Phase::Closed || isSameDay(run.opened.entered, tablet_.now()))) {
            const auto readings = std::ranges::count_if(run.facts, [](const run::Fact& fact) {
                return std::holds_alternative<run::ReadingLogged>(fact.original);
            });
            const auto entries = entriesOf(run);
            tell(run.setup.tank.name, entries,
                 tablet_.say({"app.shift.here-run",
                              {{"entries", std::to_string(entries)}, {"readings", std::to_string(readings)}}}));
        }
    }
    const auto tellEntries = [&](const std::string& name, std::ptrdiff_t entries) {
        tell(name, entries, tablet_.say({"app.shift.here-entries", {{"entries", std::to_string(entries)}}}));
    };
    for (const auto& [id, job] : std::views::reverse(tablet_.state().jobs)) {
        if (job.isOpen() || isSameDay(job.opened.entered, tablet_.now())) {
            tellEntries(job.flush() != nullptr ? job.cart() : job.transfer()->tank,
                        1 + static_cast<std::ptrdiff_t>(job.facts.size()));
        }
    }
    if (const auto rest = tablet_.entriesHere() - told; !rows.isEmpty() && rest > 0) {
        rows.append({tablet_.label("app.shift.here-rest"),
                     tablet_.say({"app.shift.here-entries", {{"entries", std::to_string(rest)}}})});
    }
    onlyHere_.setRows(std::move(rows));
}

void ShiftView::showWork()
{
    places_.clear();
    QList<RowModel::Row> rows;
    addOffered(rows);
    addRuns(rows);
    addLinks(rows);
    addJobs(rows);
    addPlanned(rows);
    addClosed(rows);
    work_.setRows(std::move(rows));
}

/// "filtering · 3.1 of 7 turnovers".
QString ShiftView::progressOf(const run::RunState& run) const
{
    const auto& standing = tablet_.standing(run);
    const QString mode = tablet_.say({"mode." + std::string(run::nameOf(standing.mode)), {}});
    const std::string best = fixed(tablet_.turnovers(run).best, 1);
    const auto& target = run.setup.target.turnovers;
    return joined({mode,
                   target ? tablet_.say({"app.shift.turnovers-of", {{"best", best}, {"target", target->toText()}}})
                          : tablet_.say({"app.shift.turnovers", {{"best", best}}}),
                   oneWithText(run)});
}

/// "one with 7K3M9Q", where it is.
QString ShiftView::oneWithText(const run::RunState& run) const
{
    QStringList codes;
    for (const run::RunState* other : tablet_.linkedRuns(run)) {
        codes.append(toQt(run::codeOf(other->id)));
    }
    return codes.isEmpty()
        ? QString()
        : tablet_.say({"app.shift.one-with", {{"codes", codes.join(QStringLiteral(", ")).toStdString()}}});
}

/// "7K3M9Q Ines 08:12–10:40".
QString ShiftView::timesText(const run::RunState& run) const
{
    Stamp end = run.opened.entered;
    end.wallMs += run.closedAt.count();
    const QString until = run.phase == run::Phase::Closed ? clockText(end) : QStringLiteral("…");
    return toQt(run::codeOf(run.id)) + QLatin1Char(' ') + tablet_.nameOf(run.opened.person) + QLatin1Char(' ')
        + clockText(run.opened.entered) + QStringLiteral("–") + until;
}

void ShiftView::addOffered(QList<RowModel::Row>& rows)
{
    for (const auto& [id, run] : tablet_.state().runs) {
        if (run.isPutAway || run.phase == run::Phase::Closed) {
            continue;
        }
        const auto offer = ledger::handsOf(run).offered;
        if (offer && offer->device == tablet_.device()) {
            places_.emplace_back(Offered{id});
            rows.append(
                {toQt(run.setup.tank.name),
                 joined({toQt(run.setup.cart.name), tablet_.nameOf(offer->by.person), clockText(offer->by.entered)}),
                 QStringLiteral("now"), tablet_.label("app.shift.handed"), true, true});
        }
    }
}

void ShiftView::addLinks(QList<RowModel::Row>& rows)
{
    const auto& proposals = tablet_.linkProposals();
    for (const run::RunPair& pair : proposals | std::views::take(linksAsked)) {
        const run::RunState* one = tablet_.state().runOf(pair.first);
        const run::RunState* other = tablet_.state().runOf(pair.second);
        if (one != nullptr && other != nullptr) {
            places_.emplace_back(pair);
            rows.append({toQt(one->setup.tank.name),
                         joined({toQt(one->setup.cart.name), timesText(*one), timesText(*other)}),
                         QStringLiteral("unknown"), tablet_.label("app.shift.one-or-two"), false, true});
        }
    }
}

void ShiftView::addRuns(QList<RowModel::Row>& rows)
{
    struct Open
    {
        const run::RunState* run;
        RunLevel level;
    };
    std::vector<Open> open;
    for (const auto& [id, run] : tablet_.state().runs) {
        if (run.phase != run::Phase::Closed) {
            open.push_back({&run, runLevelOf(tablet_, run)});
        }
    }
    std::ranges::stable_sort(open, std::greater{}, [](const Open& one) { return rankOf(one.level); });
    for (const auto& [run, level] : open) {
        QStringList detail = {toQt(run->setup.cart.name), progressOf(*run)};
        if (tablet_.standing(*run).due) { // first: what has to be done is never cut
            detail.prepend(tablet_.say({"app.shift.read", {{"when", dueTextOf(tablet_, *run).toStdString()}}}));
        }
        places_.emplace_back(run->id);
        rows.append(
            {runName(tablet_, *run), joined(detail), level.sign, level.word, level.isLate || level.isGrave, true});
    }
}

RowModel::Row ShiftView::rowOf(const run::Job& job) const
{
    const auto standing = run::jobStanding(job, tablet_.jobTime(job));
    if (job.flush() != nullptr) {
        return {toQt(job.cart()),
                tablet_.say({"app.shift.flush", {{"batches", std::to_string(standing.flush->batches)}}}),
                QStringLiteral("flush"),
                tablet_.label("app.chip.flush"),
                false,
                true};
    }
    const bool isOverdue = standing.transfer->isStopOverdue;
    return {toQt(job.transfer()->tank),
            tablet_.say({"app.shift.transfer", {{"cart", job.cart()}, {"volume", job.transfer()->planned.toText()}}}),
            isOverdue ? QStringLiteral("stop") : QStringLiteral("waste"),
            tablet_.label(isOverdue ? "app.chip.stop-now" : "app.chip.waste"),
            isOverdue,
            true};
}

void ShiftView::addJobs(QList<RowModel::Row>& rows)
{
    for (const auto& [id, job] : tablet_.state().jobs) {
        if (job.isOpen()) {
            places_.emplace_back(id);
            rows.append(rowOf(job));
        }
    }
}

/// Those without a day come last.
void ShiftView::addPlanned(QList<RowModel::Row>& rows)
{
    std::vector<std::pair<const run::JobRecord*, PlannedJobState>> jobs;
    for (const run::JobRecord& job : tablet_.site().jobs) {
        const auto state = plannedStateOf(tablet_, job);
        if (state.step == PlannedJobState::Step::Planned) {
            jobs.emplace_back(&job, state);
        }
    }
    std::ranges::stable_sort(jobs, {},
                             [](const auto& one) { return std::pair(one.first->due.empty(), one.first->due); });
    for (const auto& [job, state] : jobs) {
        places_.emplace_back(job->order);
        rows.append({toQt(job->tank), joined({state.dueText, toQt(job->order), toQt(job->cart), toQt(job->reason)}),
                     QStringLiteral("later"),
                     tablet_.label(state.isOverdue ? "app.planned.overdue" : "app.planned.job"), state.isOverdue,
                     false});
    }
}

void ShiftView::addClosed(QList<RowModel::Row>& rows)
{
    for (const auto& [id, run] : std::views::reverse(tablet_.state().runs)) {
        if (run.phase == run::Phase::Closed && isSameDay(run.opened.entered, tablet_.now())) {
            places_.emplace_back(id);
            const QString turnovers = tablet_.say(
                {"app.shift.turnovers", {{"best", fixed(tablet_.turnovers(run).best, 1)}}});
            const QString ending = tablet_.say({"ending." + std::string(run::nameOf(run.closed->ending)), {}});
            rows.append({toQt(run.setup.tank.name),
                         joined({toQt(run.setup.cart.name), turnovers, oneWithText(run), ending}),
                         QStringLiteral("done"), tablet_.label("app.shift.closed"), false, false});
        }
    }
}

void ShiftView::open(int row)
{
    if (row < 0 || row >= static_cast<int>(places_.size())) {
        return;
    }
    const Place place = places_[static_cast<std::size_t>(row)];
    if (const auto* order = std::get_if<std::string>(&place)) {
        if (const run::JobRecord* planned = plannedJob(tablet_.site(), *order)) {
            Q_EMIT jobWanted(run::JobRecord(*planned));
        }
        return;
    }
    if (const auto* offered = std::get_if<Offered>(&place)) {
        Q_EMIT takeOverWanted(offered->run);
        return;
    }
    if (const auto* pair = std::get_if<run::RunPair>(&place)) {
        Q_EMIT linkWanted(*pair);
        return;
    }
    const Id id = std::get<Id>(place);
    if (tablet_.state().runOf(id) != nullptr) {
        Q_EMIT runWanted(id);
    } else if (const run::Job* job = tablet_.state().jobOf(id)) {
        job->flush() != nullptr ? Q_EMIT flushWanted() : Q_EMIT transferWanted();
    }
}

} // namespace loopside::app
