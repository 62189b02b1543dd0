// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "app/tablet.h"

#include "app/as_shown.h"
#include "app/wanted_units.h"
#include "app/wording.h"
#include "run/alert.h"
#include "run/clock_change.h"
#include "run/notes.h"
#include "words/fact_told.h"

#include <algorithm>
#include <cstdlib>
#include <cstring>
#include <limits>
#include <utility>

namespace loopside::app {

Result<std::unique_ptr<Tablet>> Tablet::open(Parts parts, const Id& device, ledger::DeviceKey key)
{
    auto logbook = ledger::Logbook::open(parts.journal, parts.clock, parts.random, parts.reach);
    if (!logbook) {
        return fail(logbook.error());
    }
    if (auto enrolled = logbook->enrol(device, std::move(key)); !enrolled) {
        return fail(enrolled.error());
    }
    auto tablet = std::unique_ptr<Tablet>(new Tablet(std::move(parts), device, *std::move(logbook)));
    const auto entries = tablet->parts_.journal.last();
    if (!entries) {
        return fail(entries.error());
    }
    tablet->entries_ = static_cast<int>(*entries);
    if (const std::string& language = tablet->wants().language; !language.empty()) {
        tablet->speak(language);
    }
    return tablet;
}

Tablet::Tablet(Parts parts, const Id& device, ledger::Logbook logbook)
    : parts_{std::move(parts)},
      device_{device},
      logbook_{std::move(logbook)},
      begun_{parts_.site},
      site_{withRecords(begun_, state().records)},
      language_{parts_.language}
{
    for (const auto& [id, run] : state().runs) { // the youngest open one; ids rise with time
        if (run.phase != run::Phase::Closed) {
            shown_ = id;
        }
    }
    takeWishes();
}

const run::RunState* Tablet::shown() const
{
    return state().runOf(shown_);
}

void Tablet::show(const Id& run)
{
    if (const Done whole = logbook_.takeOut(run); !whole) {
        setTrouble(asShown(parts_.words.say(whole.error())));
    }
    forgetStandings();
    shown_ = run;
    Q_EMIT shownChanged();
    Q_EMIT changed();
}

const run::Standing& Tablet::standing(const run::RunState& run) const
{
    const auto known = standings_.find(run.id);
    if (known != standings_.end()) {
        return known->second;
    }
    auto earlier = earlier_.extract(run.id);
    auto standing = earlier ? run::standingLater(run, runTime(run), std::move(earlier.mapped()))
                            : run::standingOf(run, runTime(run));
    return standings_.emplace(run.id, std::move(standing)).first->second;
}

/// They point into the runs: a run that is taken out is another in memory, and may have another one put away.
void Tablet::forgetStandings()
{
    standings_.clear();
    earlier_.clear();
    linked_.clear();
    proposals_.reset();
}

const std::vector<run::RunPair>& Tablet::linkProposals() const
{
    if (!proposals_) {
        constexpr auto whenever = std::numeric_limits<std::int64_t>::max(); // an open run lasts on after this change
        proposals_ = run::linkProposals(state(), ledger::linksSaid(state()).all(), whenever);
        std::erase_if(*proposals_, [&](const run::RunPair& pair) { // one over others already
            const auto& linked = linkedRuns(*state().runOf(pair.first));
            return std::ranges::find(linked, pair.second, &run::RunState::id) != linked.end();
        });
    }
    return *proposals_;
}

Tablet::Linked& Tablet::linkedOf(const run::RunState& run) const
{
    const auto [known, isNew] = linked_.try_emplace(run.id);
    if (isNew) {
        for (const Id& id : ledger::linkedWith(state(), run.id)) {
            if (id != run.id) {
                known->second.others.push_back(state().runOf(id));
            }
        }
    }
    return known->second;
}

const std::vector<const run::RunState*>& Tablet::linkedRuns(const run::RunState& run) const
{
    return linkedOf(run).others;
}

const run::LinkedCredit* Tablet::linkedCredit(const run::RunState& run) const
{
    constexpr std::int64_t asOfMostMs = 10'000; // a hundredth of a turnover takes as long, and it takes a while to add
    Linked& linked = linkedOf(run);
    std::vector<const run::RunState*> all = linked.others;
    all.push_back(&run);
    std::ranges::sort(all, {}, &run::RunState::id); // so that it comes to the same whichever is shown
    if (all.size() == 1 || std::ranges::any_of(all, &run::RunState::isPutAway)) {
        return nullptr;
    }
    const std::int64_t nowMs = now().wallMs;
    if (!linked.credit || std::abs(nowMs - linked.asOfMs) >= asOfMostMs) {
        linked.credit = run::linkedCredit(all, nowMs);
        linked.asOfMs = nowMs;
    }
    return &*linked.credit;
}

std::optional<run::TurnoverBand> Tablet::together(const run::RunState& run) const
{
    const run::LinkedCredit* linked = linkedCredit(run);
    return linked != nullptr ? std::optional(linked->turnovers) : std::nullopt;
}

run::TurnoverBand Tablet::turnovers(const run::RunState& run) const
{
    if (const run::LinkedCredit* linked = linkedCredit(run)) {
        return linked->turnovers;
    }
    return run.closed ? run.closed->turnovers : standing(run).credit.turnovers;
}

run::RunTime Tablet::runTime(const run::RunState& run) const
{
    return run.clock.at(parts_.clock.now(), device_);
}

bool Tablet::submit(const run::Command& command, const run::Observed& observed)
{
    return submitAs(personId(), command, observed);
}

bool Tablet::submitAs(const Id& person, const run::Command& command, const run::Observed& observed)
{
    const ledger::Hand hand{device_, person};
    const std::size_t records = state().records.size();
    const auto committed = logbook_.submit(command, hand, observed);
    const bool isTick = std::holds_alternative<run::Tick>(command);
    if (!isTick || (committed && !committed->empty())) {
        forgetStandings();
    }
    if (!committed) {
        setTrouble(asShown(parts_.words.say(committed.error())));
        return false;
    }
    if (!isTick) { // time that passes has read nothing of it
        setTrouble({});
    }
    tellClocks(*committed);
    if (!committed->empty()) {
        entries_ += static_cast<int>(committed->size());
        if (state().records.size() != records) {
            const Site before = std::exchange(site_, withRecords(begun_, state().records));
            takeWishes();
            Q_EMIT siteChanged(before);
            Q_EMIT personChanged();
        }
        Q_EMIT changed();
    }
    return true;
}

bool Tablet::say(run::Said what, const run::Observed& observed)
{
    return submit(run::Say{shown_, std::move(what)}, observed);
}

bool Tablet::sayAs(const Id& person, run::Said what, const run::Observed& observed)
{
    return submitAs(person, run::Say{shown_, std::move(what)}, observed);
}

std::optional<std::string> Tablet::keptAlready(const run::RunState& run, std::string_view content) const
{
    for (const run::Attachment& known : run::attachmentsOf(run)) {
        if (!known.withdrawn && known.added.bytes == static_cast<std::int64_t>(content.size())) {
            const auto there = attachment(known.added.hash);
            if (there && *there == content) {
                return known.added.hash;
            }
        }
    }
    return std::nullopt;
}

std::optional<std::string> Tablet::keepAttachment(const run::RunState& run, std::string_view content)
{
    if (parts_.attachments == nullptr) {
        setTrouble(label("app.note.no-place"));
        return std::nullopt;
    }
    if (auto known = keptAlready(run, content)) {
        return known;
    }
    store::Salt salt = {};
    for (std::size_t i = 0; i < salt.size(); i += sizeof(std::uint64_t)) {
        const std::uint64_t number = parts_.random.next();
        std::memcpy(salt.data() + i, &number, sizeof number);
    }
    const auto hash = parts_.attachments->keep(content, salt);
    if (!hash) {
        setTrouble(asShown(parts_.words.say(hash.error())));
        return std::nullopt;
    }
    return *hash;
}

Result<std::string> Tablet::attachment(const std::string& hash) const
{
    return parts_.attachments == nullptr ? fail(Errc::NotFound, "no attachments are kept here")
                                         : parts_.attachments->read(hash);
}

void Tablet::forgetAttachment(const std::string& hash)
{
    if (parts_.attachments != nullptr && store::withdrawnIn(state()).contains(hash)) {
        static_cast<void>(parts_.attachments->remove(hash));
    }
}

bool Tablet::openRun(run::Setup setup)
{
    const Id run = logbook_.newId();
    if (!submit(run::OpenRun{run, std::move(setup)})) {
        return false;
    }
    show(run);
    return true;
}

std::optional<Id> Tablet::openJob(run::JobOpened what)
{
    const Id job = logbook_.newId();
    return submit(run::OpenJob{job, std::move(what)}) ? std::optional(job) : std::nullopt;
}

bool Tablet::sayOfJob(const Id& job, run::JobSaid what, const run::Observed& observed)
{
    return submit(run::SayOfJob{job, std::move(what)}, observed);
}

run::RunTime Tablet::jobTime(const run::Job& job) const
{
    return job.clock.at(parts_.clock.now(), device_);
}

void Tablet::tick()
{
    takeEarlier();
    standings_.merge(earlier_);
    earlier_ = std::exchange(standings_, {});
    bool isDue = false;
    for (const auto& [id, run] : state().runs) {
        // a closed run is not judged each second, nor one that goes on elsewhere
        const bool mayAlert = run.phase != run::Phase::Closed && ledger::isTimedAt(run, device_);
        isDue = isDue
            || (mayAlert
                && (!run::alertChanges(run, standing(run), together(run)).empty()
                    || !run::clockChanges(run, parts_.clock.now(), device_).empty()));
    }
    if (isDue) {
        submit(run::Tick{});
    }
    Q_EMIT secondPassed();
}

void Tablet::noteSlept(std::chrono::milliseconds length)
{
    submit(run::Tick{length.count()});
}

bool Tablet::settle(const std::vector<Id>& entries)
{
    if (const Done settled = logbook_.settle(entries, {device_, personId()}); !settled) {
        setTrouble(asShown(parts_.words.say(settled.error())));
        return false;
    }
    ++entries_;
    return true;
}

void Tablet::setHanded(bool hasHub, int entries)
{
    if (hasHub_ != hasHub || handed_ != entries) {
        hasHub_ = hasHub;
        handed_ = entries;
        Q_EMIT changed();
    }
}

bool Tablet::takeEarlier()
{
    if (!logbook_.isEarlierLeft()) {
        return true;
    }
    if (const Done taken = logbook_.takeEarlier(); !taken) {
        setNotice(asShown(parts_.words.say(taken.error())));
        return false;
    }
    linked_.clear();
    proposals_.reset();
    Q_EMIT changed();
    return true;
}

void Tablet::takeOthers()
{
    const Done folded = logbook_.refold().and_then([&] {
        forgetStandings();
        return logbook_.takeOut(shown_);
    });
    if (!folded) {
        setNotice(asShown(parts_.words.say(folded.error())));
        return;
    }
    const Site before = std::exchange(site_, withRecords(begun_, state().records));
    takeWishes();
    Q_EMIT siteChanged(before);
    Q_EMIT personChanged();
    Q_EMIT changed();
}

/// What was noted of the clocks is told once; it stands in the list of what was logged.
void Tablet::tellClocks(const std::vector<ledger::Committed>& committed)
{
    for (const ledger::Committed& one : committed) {
        const auto* run = state().runOf(one.header.run);
        if (run != nullptr && !run::isSaid(one.event) && words::hasFactLine(one.event)) {
            setNotice(asShown(run->setup.tank.name + ": " + words::factLine(parts_.words, one.event, run->setup.cart)));
        }
    }
}

QString Tablet::person() const
{
    return toQt(site_.people[static_cast<std::size_t>(person_)].name);
}

const run::PersonRecord& Tablet::wants() const
{
    return site_.people[static_cast<std::size_t>(person_)].wants;
}

bool Tablet::speak(const std::string& language)
{
    auto words = words::Words::in(language);
    if (!words) {
        return false;
    }
    parts_.words = *std::move(words);
    takeWishes();
    language_ = language;
    return true;
}

QString Tablet::personTold(const std::string& told) const
{
    const auto id = idFromText(told);
    return id ? nameOf(*id) : toQt(told);
}

QString Tablet::nameOf(const Id& person) const
{
    for (const auto* people : {&site_.people, &site_.peopleOut}) {
        const auto known = std::ranges::find(*people, person, &SitePerson::id);
        if (known != people->end()) {
            return toQt(known->name);
        }
    }
    return {};
}

void Tablet::setPerson(int index)
{
    if (index >= 0 && index < static_cast<int>(site_.people.size())) {
        person_ = index;
    }
    const units::Wanted before = wanted();
    takeWishes();
    Q_EMIT personChanged();
    if (wanted() != before) {
        Q_EMIT changed(); // all that is shown is told anew
    }
}

void Tablet::takeWishes()
{
    parts_.words.want(unitsWanted(wants()));
}

bool Tablet::tellPerson(const site::PersonTold& person)
{
    if (parts_.siteFile == nullptr) {
        setTrouble(label("app.people.no-file"));
        return false;
    }
    const auto told = parts_.siteFile->with(person);
    if (!told) {
        setTrouble(asShown(parts_.words.say(told.error())));
        return false;
    }
    if (std::ranges::find(told->site.people, personId(), &SitePerson::id) == told->site.people.end()) {
        setTrouble(say({"app.people.holds", {{"name", this->person().toStdString()}}}));
        return false;
    }
    if (const Done stored = parts_.siteFile->put(told->text); !stored) {
        setTrouble(asShown(parts_.words.say(stored.error())));
        return false;
    }
    setTrouble({});
    takePeople(told->site);
    return true;
}

void Tablet::takePeople(const Site& told)
{
    const Id holder = personId();
    begun_.people = told.people;
    begun_.peopleOut = told.peopleOut;
    const Site before = std::exchange(site_, withRecords(begun_, state().records));
    const auto holding = std::ranges::find(site_.people, holder, &SitePerson::id);
    person_ = static_cast<int>(holding - site_.people.begin());
    takeWishes();
    Q_EMIT siteChanged(before);
    Q_EMIT personChanged();
    Q_EMIT changed();
}

void Tablet::clearTrouble()
{
    setTrouble({});
}

void Tablet::setTrouble(const QString& sentence)
{
    tell(sentence, true);
}

void Tablet::setNotice(const QString& sentence)
{
    if (!isNothingLogged()) {
        tell(sentence, false);
    }
}

void Tablet::tell(const QString& sentence, bool isNothingLogged)
{
    if (trouble_ != sentence || isNothingLogged_ != isNothingLogged) {
        trouble_ = sentence;
        isNothingLogged_ = isNothingLogged;
        Q_EMIT troubleChanged();
    }
}

QString Tablet::say(const Message& message) const
{
    return asShown(parts_.words.say(message));
}

} // namespace loopside::app
