// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "app/close_out_view.h"

#include "app/as_shown.h"
#include "app/caution_text.h"
#include "app/wanted_units.h"
#include "app/wording.h"
#include "base/text.h"
#include "run/kit.h"
#include "words/told.h"

#include <QDir>

#include <algorithm>
#include <array>

namespace loopside::app {

namespace {

constexpr std::array<const char*, 4> stepNames = {"sample", "stop", "disconnect", "sign"};

const QString recordKey = QStringLiteral("record "); ///< Followed by the root of a stick, or by nothing.

/// Whether a bottle shows the oil as it is left: hardly anything was filtered since it was drawn.
bool isLastDrawn(const run::RunState& run, const run::Standing& standing)
{
    const auto samples = run::samplesOf(run, standing);
    return std::ranges::any_of(samples, [&](const run::SampleSeen& sample) {
        return standing.credit.turnovers.best - sample.turnovers < run::lastBottleWithin;
    });
}

} // namespace

CloseOutView::CloseOutView(Tablet& tablet, QObject* parent)
    : QObject{parent},
      tablet_{tablet},
      steps_{{"number", "text", "state", "stateText"}},
      keys_{{"text", "say", "isMain"}},
      totals_{{"name", "value"}},
      points_{tablet, run::Checklist::Restore,
              [this](const auto& answered) { return tablet_.say(run::Said(answered)); }}
{
    connect(&tablet_, &Tablet::changed, this, &CloseOutView::refresh);
}

QString CloseOutView::title() const
{
    return tablet_.shown() == nullptr
        ? QString()
        : tablet_.say({"app.closeout.title", {{"tank", tablet_.shown()->setup.tank.name}}});
}

QString CloseOutView::leftOutText() const
{
    constexpr qsizetype shown = 5;
    if (tablet_.shown() == nullptr) {
        return {};
    }
    QStringList lines;
    for (const std::string& line : words::creditLines(tablet_.words(), tablet_.standing(*tablet_.shown()).credit)) {
        lines.append(asShown(line));
    }
    if (lines.size() > shown) {
        const auto more = std::to_string(lines.size() - shown + 1);
        lines = lines.mid(0, shown - 1) << tablet_.say({"app.total.more", {{"more", more}}});
    }
    return lines.join(QLatin1Char('\n'));
}

QString CloseOutView::proofText() const
{
    return tablet_.label("app.closeout.proof");
}

bool CloseOutView::checked(std::string_view check) const
{
    const auto& facts = tablet_.shown()->facts;
    return std::any_of(facts.begin(), facts.end(), [&](const run::Fact& fact) {
        const auto* answered = std::get_if<run::CheckAnswered>(&fact.original);
        return answered != nullptr && answered->check == check;
    });
}

bool CloseOutView::isSigned() const
{
    return tablet_.shown() != nullptr && checked("close-out-sign");
}

/// Who signed, as the entry says it.
std::string CloseOutView::signer() const
{
    for (const run::Fact& fact : tablet_.shown()->facts) {
        const auto* answered = std::get_if<run::CheckAnswered>(&fact.original);
        if (answered != nullptr && answered->check == "close-out-sign") {
            return answered->say;
        }
    }
    return {};
}

CloseOutView::Step CloseOutView::step() const
{
    const auto& run = *tablet_.shown();
    if (run.phase != run::Phase::Closed) {
        const bool isSettled = checked("close-out-sample") || isLastDrawn(run, tablet_.standing(run));
        return isSettled ? Step::Stop : Step::Sample;
    }
    const auto answers = run::answersIn(run, run::Checklist::Restore);
    const bool isPutBack = std::ranges::all_of(answers, [](const auto& point) { return point.has_value(); });
    return !isPutBack && !isSigned() ? Step::Disconnect : isSigned() ? Step::Done : Step::Sign;
}

QString CloseOutView::recordText() const
{
    if (records_ == nullptr || tablet_.shown() == nullptr) {
        return {};
    }
    const Id& run = tablet_.shown()->id;
    return writtenText(tablet_, *records_, RecordOut::What::Record, run)
        + writtenText(tablet_, *records_, RecordOut::What::Labels, run);
}

QString CloseOutView::recordSign() const
{
    const bool hasFailed = records_ != nullptr && !records_->isBusy() && records_->written() && !*records_->written();
    return hasFailed ? QStringLiteral("caution") : QStringLiteral("note");
}

void CloseOutView::setRecords(RecordOut* records)
{
    if (records_ != nullptr) {
        disconnect(records_, nullptr, this, nullptr);
    }
    records_ = records;
    if (records_ != nullptr) {
        connect(records_, &RecordOut::changed, this, &CloseOutView::refresh);
    }
    refresh();
}

void CloseOutView::lookAt(std::function<QStringList()> media)
{
    media_ = std::move(media);
    refresh();
}

bool CloseOutView::wantsLook() const
{
    return isOpen_ && tablet_.shown() != nullptr && step() == Step::Disconnect;
}

QString CloseOutView::caution() const
{
    if (!isOpen_ || tablet_.shown() == nullptr) {
        return {};
    }
    switch (step()) {
    case Step::Sample:
        return cautionText(tablet_, run::Act::Sample);
    case Step::Stop:
        return cautionText(tablet_, run::Act::Read);
    case Step::Disconnect: // stands at the points
    case Step::Sign:
    case Step::Done:
        break;
    }
    return {};
}

void CloseOutView::open()
{
    isOpen_ = tablet_.shown() != nullptr;
    refresh();
    points_.begin();
}

void CloseOutView::leave()
{
    isOpen_ = false;
    Q_EMIT changed();
    Q_EMIT finished();
}

void CloseOutView::refresh()
{
    if (!isOpen_ || tablet_.shown() == nullptr) {
        return;
    }
    const auto now = static_cast<std::size_t>(step());
    QList<RowModel::Row> rows;
    for (std::size_t i = 0; i < stepNames.size(); ++i) {
        const char* state = i < now ? "done" : i == now ? "now" : "later";
        const bool isSignature = i + 1 == stepNames.size() && isSigned();
        rows.append({static_cast<int>(i) + 1,
                     isSignature ? tablet_.say({"app.closeout.signed", {{"person", signer()}}})
                                 : tablet_.say({std::string("app.closeout.") + stepNames[i], {}}),
                     QString::fromLatin1(state), tablet_.say({std::string("app.step-state.") + state, {}})});
    }
    steps_.setRows(std::move(rows));

    refreshKeys();
    points_.about(toText(tablet_.shown()->id));
    points_.show(run::answersIn(*tablet_.shown(), run::Checklist::Restore), circumstancesOf(tablet_));
    refreshTotals();
    Q_EMIT changed();
}

void CloseOutView::refreshKeys()
{
    QList<RowModel::Row> keys;
    const auto add = [&](const std::string& label, const std::string& say, bool isMain) {
        keys.append({tablet_.say({label, {}}), toQt(say), isMain});
    };
    const auto addHandOn = [&] {
        if (!tablet_.shown()->setup.isPractice) { // of an exercise nobody else knows
            add("app.hand.instead", "hand-on", false);
        }
    };
    switch (step()) {
    case Step::Sample:
        add("app.key.sample-tank", "sample-tank", false);
        add("app.key.sample-before", "sample-before", false);
        add("app.key.sample-after", "sample-after", false);
        add("app.key.no-sample", "no-sample", false);
        addHandOn();
        add("app.key.kit", "kit", true);
        break;
    case Step::Stop:
        add("app.key.stopped", "stop", true);
        addHandOn();
        break;
    case Step::Disconnect: // the points have keys of their own
        break;
    case Step::Sign:
        add("app.key.sign", "sign", true);
        break;
    case Step::Done:
        addRecordKeys(keys);
        break;
    }
    keys_.setRows(std::move(keys));
}

/// The record, and labels where there is something to stick them on: on the tablet, and on each stick that is in it.
void CloseOutView::addRecordKeys(QList<RowModel::Row>& keys) const
{
    if (records_ == nullptr || records_->isBusy()) {
        return;
    }
    const auto add = [&](const std::string& label, const QString& say) {
        keys.append({tablet_.say({label, {}}), say, false});
        for (const QString& root : media_()) {
            keys.append({tablet_.say({label + "-on-stick", {{"stick", QDir(root).dirName().toStdString()}}}),
                         say + root, false});
        }
    };
    add("app.key.record", recordKey);
    if (hasLabels(tablet_, *tablet_.shown())) {
        for (RowModel::Row row : labelKeysFor(tablet_, media_())) {
            keys.append(row << false);
        }
    }
}

void CloseOutView::refreshTotals()
{
    const auto& run = *tablet_.shown();
    const auto& standing = tablet_.standing(run);
    const run::TurnoverBand band = run.closed ? run.closed->turnovers : standing.credit.turnovers;
    const units::Volume filtered = run.closed ? units::Volume(run.closed->filtered_l, units::litre)
                                              : standing.credit.filtered;
    QList<RowModel::Row> rows;
    const auto add = [&](const char* label, const QString& value) { rows.append({tablet_.label(label), value}); };
    const auto bandText = tablet_.say(
        {"app.total.band",
         {{"best", fixed(band.best, 2)}, {"low", fixed(band.low, 2)}, {"high", fixed(band.high, 2)}}});
    add("app.total.turnovers", bandText);
    if (const run::LinkedCredit* linked = tablet_.linkedCredit(run)) {
        const run::TurnoverBand& all = linked->turnovers;
        add("app.total.together",
            tablet_.say({"app.total.band",
                         {{"best", fixed(all.best, 2)}, {"low", fixed(all.low, 2)}, {"high", fixed(all.high, 2)}}}));
    }
    if (run.setup.target.turnovers) {
        add("app.total.target", toQt(run.setup.target.turnovers->toText()));
    }
    add("app.total.litres",
        asShown(units::shown(filtered, *units::unitNamed<units::Volume>("L").value(), tablet_.wanted())));
    add("app.total.filtering", hoursText(standing.credit.filtering) + QStringLiteral(" h"));
    const auto changed = std::count_if(run.facts.begin(), run.facts.end(), [](const run::Fact& fact) {
        return std::holds_alternative<run::ElementsChanged>(fact.original) && !fact.struck;
    });
    add("app.total.changeovers", QString::number(changed));
    const auto readings = std::count_if(run.facts.begin(), run.facts.end(), [](const run::Fact& fact) {
        return std::holds_alternative<run::ReadingLogged>(fact.original);
    });
    add("app.total.readings", QString::number(readings));
    const run::AlertMetrics alerts = run::alertMetrics(run, standing.now);
    add("app.total.alerts",
        tablet_.say({alerts.isRate() ? "app.total.alerts-told" : "app.total.alerts-told-early",
                     {{"raised", std::to_string(alerts.raised)},
                      {"rate", fixed(alerts.perHour, 1)},
                      {"minutes", std::to_string(alerts.minutesOpen)},
                      {"standing", std::to_string(alerts.standing)}}}));
    if (run.closed) {
        add("app.total.ending", tablet_.say({"ending." + std::string(run::nameOf(run.closed->ending)), {}}));
    }
    totals_.setRows(std::move(rows));
}

void CloseOutView::press(const QString& say)
{
    if (tablet_.shown() == nullptr) {
        return;
    }
    const auto& run = *tablet_.shown();
    const std::string what = say.toStdString();
    if (what.starts_with("sample-")) {
        const int last = static_cast<int>(run.setup.cart.gauges.size());
        const int port = what == "sample-after" ? last : what == "sample-before" ? 1 : 0;
        const auto count = std::count_if(run.facts.begin(), run.facts.end(), [](const run::Fact& fact) {
            return std::holds_alternative<run::SampleDrawn>(fact.original);
        });
        const std::string bottle = toText(run.id).substr(30) + "-" + std::to_string(count + 1);
        tablet_.say(run::Said(run::SampleDrawn{bottle, port}));
    } else if (what == "kit") {
        Q_EMIT kitWanted();
    } else if (what == "hand-on") {
        Q_EMIT handOnWanted();
    } else if (what == "no-sample") {
        tablet_.say(run::Said(run::CheckAnswered{"close-out-sample", "none taken"}));
    } else if (what == "stop") {
        const Id shown = run.id;
        Q_EMIT closing();
        if (tablet_.say(run::Said(run::ModeChanged{run::Mode::Stopped, std::nullopt}))
            && tablet_.shown()->phase != run::Phase::Closed) {
            tablet_.submit(run::CloseRun{shown, run::Ending::StoppedEarly, {}});
        }
    } else if (what == "sign") {
        tablet_.say(run::Said(run::CheckAnswered{"close-out-sign", tablet_.person().toStdString()}));
    } else if (say.startsWith(recordKey) && records_ != nullptr) {
        records_->begin(run.id, say.mid(recordKey.size()).toStdString());
    } else if (const auto folder = labelsFolder(say); folder && records_ != nullptr) {
        records_->beginLabels(run, *folder);
    }
}

} // namespace loopside::app
