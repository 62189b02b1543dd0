// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "app/handover_view.h"

#include "app/wording.h"
#include "handover/interest.h"

#include <algorithm>
#include <utility>

namespace loopside::app {

namespace {

const QString note = QStringLiteral("note");
const QString caution = QStringLiteral("caution");

/// The first signs of a digest in groups, to be read out and compared.
QString shortDigest(const std::string& digest)
{
    constexpr std::size_t signsShown = 12;
    constexpr std::size_t group = 4;
    QStringList groups;
    for (std::size_t at = 0; at < std::min(digest.size(), signsShown); at += group) {
        groups.append(toQt(digest.substr(at, group)));
    }
    return groups.join(QLatin1Char(' '));
}

} // namespace

HandoverView::HandoverView(Tablet& tablet, QObject* parent)
    : QObject{parent}, tablet_{tablet}, facts_{{"name", "value"}}, answers_{{"kind", "text"}}
{
    connect(&tablet_, &Tablet::changed, this, &HandoverView::refresh);
    connect(&tablet_, &Tablet::changed, this, [this] { isToAsk_ = true; });
    connect(&tablet_, &Tablet::secondPassed, this, &HandoverView::onSecond);
    refresh();
}

HandoverView::~HandoverView()
{
    if (handover_ != nullptr) {
        handover_->onChanged = [] {};
    }
}

void HandoverView::setHandover(handover::Handover* handover)
{
    if (handover_ != nullptr) {
        handover_->onChanged = [] {};
    }
    handover_ = handover;
    if (handover_ != nullptr) {
        handover_->onChanged = [this] { refresh(); };
    }
    refresh();
}

void HandoverView::setBattery(std::function<std::optional<Battery>()> read)
{
    readBattery_ = std::move(read);
    refresh();
}

void HandoverView::onSecond()
{
    if (handover_ != nullptr) {
        askForRuns();
        handover_->tick();
    }
}

/// Of a run that just came to be known all is asked for at once.
void HandoverView::askForRuns()
{
    if (std::exchange(isToAsk_, false)
        && handover_->setInterest(handover::interestOf(tablet_.state(), tablet_.device(), codes_)) && canBegin()) {
        handover_->begin();
    }
}

void HandoverView::fetch(const QString& code)
{
    codes_.insert(code.toStdString());
    isToAsk_ = true;
    if (handover_ != nullptr) {
        askForRuns();
        begin();
    }
}

void HandoverView::begin()
{
    if (canBegin()) {
        handover_->begin();
    }
}

bool HandoverView::asksEnrolment() const
{
    const std::string why = standing_.trouble ? standing_.trouble->id : std::string();
    return handover_ != nullptr && (!isEnrolled() || why == "handover.not-enrolled" || why == "handover.other-hub");
}

void HandoverView::enrol(const QString& address, const QString& code)
{
    if (!canEnrol()) {
        return;
    }
    const QString trimmed = address.trimmed();
    const auto read = sync::enrolmentCodeFrom(code.toStdString());
    typedWrong_ = trimmed.isEmpty() ? tablet_.label("app.handover.no-address")
        : !read                     ? tablet_.label("app.handover.no-code")
                                    : QString();
    if (typedWrong_.isEmpty()) {
        handover_->enrol(trimmed.toStdString(), *read);
    }
    refresh();
}

void HandoverView::settle()
{
    if (!canSettle()) {
        return;
    }
    std::vector<Id> entries;
    for (const ledger::Entry& entry : handover_->unsettled()) {
        entries.push_back(entry.header.id);
    }
    if (tablet_.settle(entries)) {
        handover_->showOthers();
    }
    refresh();
}

void HandoverView::refresh()
{
    standing_ = handover_ != nullptr ? handover_->standing() : handover::HandoverStanding();
    showFacts();
    showAnswers();
    if (handover_ != nullptr) {
        tablet_.setHanded(isEnrolled(), static_cast<int>(standing_.there));
    }
    Q_EMIT changed();
}

QString HandoverView::dayOf(std::int64_t wallMs) const
{
    Stamp at = tablet_.now(); // in the time of the place
    at.wallMs = wallMs;
    return dayText(at);
}

void HandoverView::showFacts()
{
    QList<RowModel::Row> rows;
    if (handover_ != nullptr) {
        const auto& hub = handover_->hub();
        rows.append(
            {tablet_.label("app.handover.hub"), hub ? toQt(hub->address) : tablet_.label("app.handover.no-hub-yet")});
        rows.append({tablet_.label("app.handover.waiting"), QString::number(standing_.waiting)});
        rows.append({tablet_.label("app.handover.there"), QString::number(standing_.there)});
        rows.append({tablet_.label("app.handover.receipt"),
                     standing_.digest.empty() ? QStringLiteral("–") : shortDigest(standing_.digest)});
        rows.append({tablet_.label("app.handover.last"),
                     standing_.reachedAtMs > 0 ? dayOf(standing_.reachedAtMs) : tablet_.label("app.handover.never")});
    }
    facts_.setRows(std::move(rows));
}

void HandoverView::showAnswers()
{
    QList<RowModel::Row> rows;
    const auto tell = [&](const QString& kind, const Message& message) { rows.append({kind, tablet_.say(message)}); };
    if (handover_ == nullptr) {
        tell(note, {"app.handover.not-here", {}});
        answers_.setRows(std::move(rows));
        return;
    }
    if (!typedWrong_.isEmpty()) {
        rows.append({caution, typedWrong_});
    }
    if (standing_.isUnderWay) {
        tell(note, {"app.handover.under-way", {}});
    } else if (standing_.trouble) {
        tell(caution, *standing_.trouble);
        tell(note, {isEnrolled() ? "app.handover.goes-on" : "app.handover.stays", {}});
    } else if (isEnrolled() && standing_.waiting == 0 && standing_.filesWaiting == 0) {
        tell(note, {"app.handover.all-there", {}});
    } else if (!isEnrolled()) {
        tell(note, {"app.handover.how-to-enrol", {}});
    }
    if (standing_.filesWaiting > 0) {
        tell(note, {"app.handover.files-waiting", {{"files", std::to_string(standing_.filesWaiting)}}});
    }
    if (standing_.clockOffMs != 0) {
        constexpr std::int64_t minuteMs = 60'000;
        tell(caution,
             {standing_.clockOffMs > 0 ? "app.handover.clock-fast" : "app.handover.clock-slow",
              {{"minutes", std::to_string(std::abs(standing_.clockOffMs) / minuteMs)}}});
    }
    if (standing_.isForked) {
        tell(caution, {"app.handover.forked", {}});
    }
    if (canSettle()) {
        tell(caution, {"app.handover.ahead", {{"entries", std::to_string(handover_->unsettled().size())}}});
    }
    if (const auto battery = readBattery_();
        battery && battery->isLow() && (standing_.waiting > 0 || standing_.filesWaiting > 0)) {
        tell(caution, {"app.handover.battery", {{"percent", std::to_string(battery->percent)}}});
    }
    answers_.setRows(std::move(rows));
}

} // namespace loopside::app
