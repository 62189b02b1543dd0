// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "app/other_tank.h"

#include "app/draft_places.h"
#include "app/wording.h"
#include "ledger/tank_look.h"
#include "words/look_told.h"

#include <algorithm>
#include <array>
#include <functional>
#include <utility>

namespace loopside::app {

namespace {

constexpr std::array<const char*, 3> moveReasons = {"mixed-up", "work-is-here", "told-to"};

} // namespace

OtherTank::OtherTank(Tablet& tablet, QObject* parent) : WrongTank{tablet, tankReasonDrafts, parent}, tablet_{tablet}
{
    QList<RowModel::Row> rows;
    for (const char* reason : moveReasons) {
        rows.append({tablet_.say({std::string("app.right-tank.why.") + reason, {}})});
    }
    reasons_.setRows(std::move(rows));
}

QString OtherTank::mismatchTitle() const
{
    return look_ ? tablet_.say({"app.right-tank.other", {{"tank", look_->of}}}) : QString();
}

QString OtherTank::mismatchText() const
{
    if (!look_) {
        return {};
    }
    return toQt(words::lookLine(tablet_.words(), *look_)) + QLatin1Char(' ')
        + tablet_.say({wantsReason() ? "app.right-tank.other-means" : "app.right-tank.other-open",
                       {{"tank", look_->of}, {"own", look_->expected}}});
}

QString OtherTank::rightText() const
{
    return look_ ? tablet_.say({"app.right-tank.stays", {{"tank", look_->expected}}}) : QString();
}

QString OtherTank::wrongText() const
{
    return look_ ? tablet_.say({wantsReason() ? "app.right-tank.moves" : "app.right-tank.show", {{"tank", look_->of}}})
                 : QString();
}

QString OtherTank::askText() const
{
    return tablet_.label("app.right-tank.ask-why-moved");
}

/// The run that is open at the tank whose tag it is.
std::optional<Id> OtherTank::openThere() const
{
    const auto& runs = tablet_.state().runs;
    const auto open = std::ranges::find_if(runs, [&](const auto& run) {
        return look_ && run.second.phase != run::Phase::Closed && run.second.setup.tank.name == look_->of;
    });
    return open == runs.end() ? std::nullopt : std::optional(open->first);
}

void OtherTank::takeTag(const QString& code, std::size_t of)
{
    look_ = run::TankLook{.by = run::LookBy::Reader,
                          .read = code.trimmed().toStdString(),
                          .expected = tablet_.shown()->setup.tank.name,
                          .of = tablet_.site().tanks[of].name};
    run_ = tablet_.shown()->id;
    person_ = tablet_.personId();
    at_ = tablet_.now();
    moved_ = 0;
    Q_EMIT changed();
}

/// In the name of who read the tag, at the time of reading it.
bool OtherTank::say(const Id& run, const run::Said& what) const
{
    const auto agoMs = static_cast<std::int64_t>((tablet_.now().monoNs - at_.monoNs) / 1'000'000U);
    return tablet_.submitAs(person_, run::Say{run, what}, {agoMs, agoMs > 0 ? "touched" : ""});
}

void OtherTank::goToRight()
{
    if (look_ && say(run_, ledger::asKept(*look_))) {
        look_.reset();
        Q_EMIT changed();
    }
}

void OtherTank::goOnBecause(const QString& why)
{
    if (!look_ || (wantsReason() && why.trimmed().isEmpty())) {
        return;
    }
    run::TankLook there = *look_; // the tag is that of the tank where somebody stands
    there.expected = there.of;
    there.of.clear();
    there.fits = true;
    if (const auto open = openThere()) {
        if (say(*open, ledger::asKept(there))) {
            look_.reset();
            Q_EMIT changed();
            Q_EMIT isOther(*open);
        }
        return;
    }
    if (moveRun(why.trimmed().toStdString(), there)) {
        reasonWords_.clear();
        look_.reset();
    }
    Q_EMIT changed();
}

/// What did not fit, that the run moves, and that the tag is that of its tank now: each once, however often it is
/// tried.
bool OtherTank::moveRun(const std::string& why, const run::TankLook& there)
{
    const auto& tanks = tablet_.site().tanks;
    const auto tank = std::ranges::find(tanks, look_->of, &run::TankRecord::name);
    if (tank == tanks.end()) {
        return false;
    }
    const std::array<std::function<bool()>, 3> entries = {
        [&] { return say(run_, ledger::asKept(*look_)); },
        [&] { return tablet_.submit(run::Say{run_, run::RunMoved{*tank, why}}); },
        [&] { return say(run_, ledger::asKept(there)); }};
    while (moved_ < static_cast<int>(entries.size()) && entries.at(static_cast<std::size_t>(moved_))()) {
        ++moved_;
    }
    return moved_ == static_cast<int>(entries.size());
}

void OtherTank::askWhy()
{
    reasonWords_.about(look_ ? look_->expected + " / " + look_->read : std::string());
}

} // namespace loopside::app
