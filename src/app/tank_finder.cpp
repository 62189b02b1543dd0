// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "app/tank_finder.h"

#include "app/draft_places.h"
#include "app/wording.h"
#include "base/text.h"
#include "ledger/tank_look.h"
#include "run/place_typed.h"

#include <algorithm>

namespace loopside::app {

namespace {

constexpr std::size_t mostListed = 3;
constexpr const char* wishKey = "positions";
constexpr const char* onText = "on";

std::string metres(double length_m)
{
    return fixed(length_m, 0) + " m";
}

} // namespace

TankFinder::TankFinder(Tablet& tablet, QObject* parent)
    : QObject{parent}, tablet_{tablet}, nearby_{{"name", "detail", "isChosen"}}, wishes_{{"name", "detail", "isChosen"}}
{
    const auto kept = tablet_.drafts().of(positionWish);
    isOn_ = kept && kept->contains(wishKey) && kept->at(wishKey) == onText;
    connect(&tablet_, &Tablet::changed, this, &TankFinder::turn);
    refresh();
}

TankFinder::~TankFinder()
{
    if (source_ != nullptr) {
        source_->end();
    }
}

void TankFinder::setSource(position::FixSource* source)
{
    source_ = source;
    if (source_ != nullptr) {
        connect(source_, &position::FixSource::moved, this, &TankFinder::refresh);
    }
    turn();
    refresh();
}

void TankFinder::setLooking(bool isLooking)
{
    isLooking_ = isLooking;
    turn();
}

/// Asks for the position exactly as long as it is wanted.
void TankFinder::turn()
{
    if (!isThere()) {
        return;
    }
    const bool isRunOpen = std::ranges::any_of(tablet_.state().runs,
                                               [](const auto& run) { return run.second.phase != run::Phase::Closed; });
    if (isOn_ && (isLooking_ || isRunOpen)) {
        source_->begin();
    } else {
        source_->end();
    }
}

run::TanksAround TankFinder::around() const
{
    const auto fix = isThere() && isOn_ ? source_->latest() : std::nullopt;
    if (!fix) {
        return {};
    }
    const auto places = ledger::placesOf(tablet_.state());
    std::vector<std::optional<run::Fix>> tanks;
    for (const run::TankRecord& tank : tablet_.site().tanks) {
        const auto learned = places.find(tank.name);
        const auto typed = run::placeOf(tank); // somebody says so: it goes before what runs tell
        tanks.push_back(typed || learned == places.end() ? typed : std::optional(learned->second));
    }
    return run::tanksAround(*fix, tanks);
}

void TankFinder::refresh()
{
    const run::TanksAround found = around();
    listed_.clear();
    QList<RowModel::Row> rows;
    for (const run::TankAway& away : found.nearest) {
        if (listed_.size() < mostListed && away.mayBeIt) {
            listed_.push_back(static_cast<int>(away.tank));
            rows.append({toQt(tablet_.site().tanks[away.tank].name),
                         tablet_.say({"app.nearby.away", {{"distance", metres(away.away_m)}}}), false});
        }
    }
    nearby_.setRows(std::move(rows));
    wishes_.setRows({{tablet_.label("app.nearby.off"), QString(), !isOn_},
                     {tablet_.label("app.nearby.on"), tablet_.label("app.nearby.on-means"), isOn_}});
    Q_EMIT changed();
}

QString TankFinder::text() const
{
    if (!isThere()) {
        return tablet_.label("app.nearby.none-here");
    }
    if (!isOn_) {
        return tablet_.label("app.nearby.is-off");
    }
    const auto fix = source_->latest();
    if (!fix) {
        return tablet_.label("app.nearby.no-fix");
    }
    const run::TanksAround found = around();
    const std::string accuracy = metres(fix->accuracy_m.value_or(0.0));
    const auto say = [&](const char* id) { return tablet_.say({id, {{"accuracy", accuracy}}}); };
    switch (found.told) {
    case run::WhereTold::NoPlaces:
        return tablet_.label("app.nearby.no-places");
    case run::WhereTold::AccuracyUnknown:
        return tablet_.label("app.nearby.accuracy-unknown");
    case run::WhereTold::NoneHere:
        return say("app.nearby.none-near");
    case run::WhereTold::CannotTellApart:
        return say("app.nearby.cannot-tell-apart");
    case run::WhereTold::One:
        break;
    }
    return say("app.nearby.one");
}

void TankFinder::record()
{
    const auto fix = isThere() && isOn_ ? source_->latest() : std::nullopt;
    if (fix && tablet_.shown() != nullptr && tablet_.shown()->phase != run::Phase::Closed) {
        tablet_.say(ledger::asKept(*fix));
    }
}

void TankFinder::chooseWish(int row)
{
    isOn_ = row == 1;
    if (!tablet_.drafts().put(positionWish, wishKey, isOn_ ? onText : "off")) {
        tablet_.setNotice(tablet_.label("app.nearby.wish-not-stored"));
    }
    turn();
    refresh();
}

void TankFinder::choose(int row)
{
    if (row >= 0 && row < static_cast<int>(listed_.size())) {
        Q_EMIT chosen(listed_[static_cast<std::size_t>(row)], around().told == run::WhereTold::One);
    }
}

} // namespace loopside::app
