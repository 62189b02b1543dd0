// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "app/hand_on_view.h"

#include "app/hand_card.h"
#include "app/wording.h"
#include "run/run_code.h"
#include "words/handed_told.h"

#include <algorithm>
#include <map>
#include <utility>

namespace loopside::app {

namespace {

/// The tablets that wrote any entry of a run here, but this one, each with its last entry.
std::map<Id, run::Header> tabletsIn(const run::State& state, const Id& own)
{
    std::map<Id, run::Header> last;
    const auto take = [&](const run::Header& header) {
        if (header.device != own) {
            const auto [known, isNew] = last.try_emplace(header.device, header);
            if (!isNew && foldsBefore(known->second, header)) {
                known->second = header;
            }
        }
    };
    for (const auto& [id, run] : state.runs) {
        take(run.opened);
        for (const run::Fact& fact : run.facts) {
            take(fact.header);
        }
    }
    return last;
}

} // namespace

HandOnView::HandOnView(Tablet& tablet, QObject* parent)
    : QObject{parent},
      tablet_{tablet},
      facts_{{"name", "value"}},
      notes_{{"kind", "text"}},
      receivers_{{"name", "detail", "isChosen"}},
      valves_{{"name", "detail", "isChosen"}},
      keys_{{"text", "say", "isMain"}}
{
    connect(&tablet_, &Tablet::changed, this, &HandOnView::refresh);
    connect(&tablet_, &Tablet::shownChanged, this, &HandOnView::open);
    connect(&tablet_, &Tablet::personChanged, this, &HandOnView::open);
}

QString HandOnView::title() const
{
    return tablet_.shown() == nullptr ? QString()
                                      : tablet_.say({"app.hand.title", {{"tank", tablet_.shown()->setup.tank.name}}});
}

const run::RunState* HandOnView::openRun() const
{
    const run::RunState* run = tablet_.shown();
    return run != nullptr && run->phase != run::Phase::Closed ? run : nullptr;
}

const HandOnView::Receiver* HandOnView::chosen() const
{
    return receiver_ >= 0 && receiver_ < static_cast<int>(listed_.size())
        ? &listed_[static_cast<std::size_t>(receiver_)]
        : nullptr;
}

void HandOnView::open()
{
    receiver_ = -1;
    valve_ = {};
    refresh();
}

void HandOnView::tell(const char* kind, const Message& message)
{
    noteRows_.append({QString::fromLatin1(kind), tablet_.say(message)});
}

void HandOnView::addKey(const Message& label, const char* say, bool isMain)
{
    keyRows_.append({tablet_.say(label), QString::fromLatin1(say), isMain});
}

void HandOnView::refresh()
{
    noteRows_.clear();
    keyRows_.clear();
    question_.clear();
    listReceivers();
    QList<RowModel::Row> valves;
    const run::RunState* run = openRun();
    const auto offer = run == nullptr ? std::nullopt : ledger::handsOf(*run).offered;
    facts_.setRows(run == nullptr ? QList<RowModel::Row>() : handCardRows(tablet_, *run));
    if (run == nullptr) {
        tell("note", {"app.hand.over", {}});
    } else if (offer) {
        receivers_.setRows({});
        showOffer(*run, *offer);
        if (offer->device.isNone()) {
            valves = valveRows(tablet_, valve_);
        }
    } else {
        showChoice(*run);
    }
    if (run != nullptr) {
        showLink(*run);
    }
    valves_.setRows(std::move(valves));
    notes_.setRows(noteRows_);
    keys_.setRows(keyRows_);
    Q_EMIT changed();
}

void HandOnView::listReceivers()
{
    listed_.clear();
    QList<RowModel::Row> rows;
    const auto add = [&](Receiver receiver, const QString& name, const QString& detail) {
        listed_.push_back(std::move(receiver));
        rows.append({name, detail, rows.size() == receiver_});
    };
    const auto& people = tablet_.site().people;
    for (int i = 0; i < static_cast<int>(people.size()); ++i) {
        const SitePerson& person = people[static_cast<std::size_t>(i)];
        if (person.id != tablet_.personId()) {
            add(Person{i, person.id}, toQt(person.name), tablet_.label("app.hand.here"));
        }
    }
    for (const auto& [device, last] : tabletsIn(tablet_.state(), tablet_.device())) {
        add(OtherTablet{device}, toQt(words::tabletText(tablet_.words(), device)),
            tablet_.say({"app.hand.tablet-last",
                         {{"person", tablet_.nameOf(last.person).toStdString()},
                          {"time", dayText(last.entered).toStdString()}}}));
    }
    add(OtherTablet{}, tablet_.label("app.hand.other-tablet"), tablet_.label("app.hand.other-tablet-how"));
    add(Nobody{}, tablet_.label("app.hand.nobody"), QString());
    receivers_.setRows(std::move(rows));
}

void HandOnView::showChoice(const run::RunState& run)
{
    question_ = tablet_.label("app.hand.to-whom");
    if (ledger::handsOf(run).device != tablet_.device()) {
        tell("caution", {"app.hand.not-held", {{"holder", holderText(tablet_, run).toStdString()}}});
    }
    const Receiver* to = chosen();
    if (to == nullptr) {
        return;
    }
    if (std::holds_alternative<Nobody>(*to)) {
        showNobody(run);
    } else if (const auto* other = std::get_if<OtherTablet>(to); other != nullptr && other->device.isNone()) {
        tell("note", {"app.hand.by-its-code", {{"code", run::codeOf(run.id)}}});
    } else {
        tell("note", {other == nullptr ? "app.hand.both" : "app.hand.both-tablets", {}});
        addKey({"app.hand.hand", {{"person", tablet_.person().toStdString()}}}, "hand", true);
    }
}

/// That nobody is at a cart that pumps is never taken for granted: somebody stops it, or stays.
void HandOnView::showNobody(const run::RunState& run)
{
    if (tablet_.standing(run).mode == run::Mode::Stopped) {
        tell("note", {"app.hand.paused", {}});
    } else {
        tell("caution", {"app.hand.unattended", {}});
        addKey({"app.key.stopped", {}}, "stop", true);
    }
    addKey({"app.hand.stay", {}}, "stay", false);
    addKey({"label.end-run", {}}, "end", false);
}

void HandOnView::showOffer(const run::RunState& run, const ledger::Offer& offer)
{
    const std::string by = tablet_.nameOf(offer.by.person).toStdString();
    const std::string at = clockText(offer.by.entered).toStdString();
    if (!offer.device.isNone()) {
        tell("note",
             {"app.hand.offered-tablet",
              {{"person", by}, {"time", at}, {"tablet", words::tabletText(tablet_.words(), offer.device)}}});
        tell("note", {"app.hand.by-its-code", {{"code", run::codeOf(run.id)}}});
    } else {
        const std::string to = tablet_.nameOf(offer.person).toStdString();
        tell("note", {"app.hand.offered", {{"person", by}, {"time", at}, {"to", to}}});
        noteRows_ += handCardNotes(tablet_, run);
        question_ = tablet_.say({"app.hand.reads", {{"person", to}}});
        if (valve_) {
            addKey({"app.hand.take", {{"person", to}}}, "take", true);
        }
    }
    addKey({"app.hand.keep", {}}, "keep", false);
}

void HandOnView::showLink(const run::RunState& run)
{
    if (!tablet_.linkedRuns(run).empty()) {
        addKey({"app.hand.to-link", {}}, "link", false);
    }
}

void HandOnView::chooseReceiver(int row)
{
    receiver_ = row;
    refresh();
}

void HandOnView::chooseValve(int row)
{
    if (row >= 0 && row < static_cast<int>(valveModes.size())) {
        valve_ = valveModes[static_cast<std::size_t>(row)];
        refresh();
    }
}

void HandOnView::press(const QString& say)
{
    const std::string what = say.toStdString();
    if (openRun() == nullptr) {
        return;
    }
    if (what == "hand") {
        hand();
    } else if (what == "keep") {
        keep();
    } else if (what == "take") {
        take();
    } else if (what == "stop" && tablet_.say(run::Said(run::ModeChanged{run::Mode::Stopped, std::nullopt}))) {
        open();
    } else if (what == "stay") {
        open();
        Q_EMIT finished();
    } else if (what == "end") {
        Q_EMIT endWanted();
    } else if (what == "link") {
        Q_EMIT linkWanted(Id(tablet_.shown()->id));
    }
}

void HandOnView::hand()
{
    const Receiver* to = chosen();
    if (to == nullptr) {
        return;
    }
    if (const auto* person = std::get_if<Person>(to)) {
        tablet_.say(run::Said(ledger::handoverToPerson(person->id)));
    } else if (const auto* other = std::get_if<OtherTablet>(to); other != nullptr && !other->device.isNone()) {
        tablet_.say(run::Said(ledger::handoverTo(other->device)));
    }
}

/// The offer stays in the record, struck with its reason.
void HandOnView::keep()
{
    const auto offer = ledger::handsOf(*openRun()).offered;
    if (offer) {
        run::Amended taken{.of = offer->by.id, .struck = true, .why = {}};
        taken.why = tablet_.label("app.hand.kept").toStdString();
        tablet_.say(run::Said(std::move(taken)));
        open();
    }
}

/// In the name of who takes it on, who holds the tablet from then on.
void HandOnView::take()
{
    const auto offer = ledger::handsOf(*openRun()).offered;
    if (!offer || !offer->device.isNone() || !valve_) {
        return;
    }
    if (!takeOn(tablet_, openRun()->id, offer->person, *valve_, ledger::taking(offer->by.person))) {
        return;
    }
    const auto& people = tablet_.site().people;
    const auto person = std::ranges::find(people, offer->person, &SitePerson::id);
    if (person != people.end()) {
        tablet_.setPerson(static_cast<int>(person - people.begin()));
    }
    open();
    Q_EMIT finished();
}

} // namespace loopside::app
