// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "app/kit_view.h"

#include "app/as_shown.h"
#include "app/wording.h"
#include "base/text.h"
#include "paper/labels_pdf.h"
#include "run/code_ahead.h"
#include "store/restore_reason.h"
#include "units/wanted.h"

#include <QByteArray>

#include <algorithm>

namespace loopside::app {

namespace {

constexpr const char* anotherKey = "another";

std::string keyOf(const run::KitBottle& bottle)
{
    const bool isAtStage = bottle.part == run::KitPart::Between || bottle.part == run::KitPart::Behind;
    return isAtStage ? "port" + std::to_string(*bottle.port) : std::string(run::nameOf(bottle.part));
}

std::string keyOf(const run::SampleSeen& sample)
{
    return toText(sample.fact->header.id);
}

} // namespace

KitView::KitView(Tablet& tablet, QObject* parent)
    : QObject{parent},
      tablet_{tablet},
      bottles_{{"name", "detail", "isChosen"}},
      draw_{tablet},
      result_{tablet},
      facts_{{"name", "value"}},
      labelKeys_{{"text", "say"}}
{
    connect(&tablet_, &Tablet::changed, this, &KitView::refresh);
    connect(&tablet_, &Tablet::shownChanged, this, &KitView::refresh);
    connect(&draw_, &DrawView::told, this, &KitView::forgetAsked);
    connect(&result_, &ResultView::told, this, &KitView::forgetAsked);
}

void KitView::setRecords(RecordOut* records)
{
    if (records_ != nullptr) {
        disconnect(records_, nullptr, this, nullptr);
    }
    records_ = records;
    if (records_ != nullptr) {
        connect(records_, &RecordOut::changed, this, &KitView::refresh);
    }
    refresh();
}

void KitView::lookAt(std::function<QStringList()> media)
{
    media_ = std::move(media);
    refresh();
}

void KitView::open()
{
    isOpen_ = tablet_.shown() != nullptr;
    notice_.clear();
    if (isOpen_ && run_ != tablet_.shown()->id) {
        run_ = tablet_.shown()->id;
        chosen_.clear();
    }
    refresh();
    if (isOpen_ && row() == nullptr) {
        const auto wanted = std::ranges::find_if(
            rows_, [](const Row& row) { return row.wanted && row.wanted->state == run::KitState::Wanted; });
        chosen_ = wanted == rows_.end() ? std::string() : wanted->key;
        take();
        refresh();
    }
}

void KitView::leave()
{
    isOpen_ = false;
}

void KitView::refresh()
{
    if (!isOpen_ || tablet_.shown() == nullptr || tablet_.shown()->id != run_) {
        return;
    }
    read();
    showBottles();
    showFacts();
    showLabel();
    showLabelKeys();
    Q_EMIT changed();
}

/// What the shown run says of its bottles now.
void KitView::read()
{
    const run::RunState& run = *tablet_.shown();
    const run::Standing& standing = tablet_.standing(run);
    samples_ = run::samplesOf(run, standing);
    rows_.clear();
    std::vector<bool> isTold(samples_.size(), false);
    for (const run::KitBottle& bottle : run::kitOf(run, standing, samples_)) {
        if (bottle.drawn) {
            isTold[*bottle.drawn] = true;
        }
        rows_.push_back({bottle.drawn ? keyOf(samples_[*bottle.drawn]) : keyOf(bottle), bottle, bottle.drawn});
    }
    for (std::size_t i = 0; i < samples_.size(); ++i) {
        if (!isTold[i]) {
            rows_.push_back({keyOf(samples_[i]), std::nullopt, i});
        }
    }
    rows_.push_back({anotherKey});
    QStringList ahead;
    if (const auto code = run.phase == run::Phase::Closed ? std::nullopt : run::codeAheadOf(run, standing)) {
        for (const Message& line : run::tellCodeAhead(*code, run)) {
            ahead.append(asShown(tablet_.words().say(line)));
        }
    }
    aheadText_ = ahead.join(QLatin1Char(' '));
}

const KitView::Row* KitView::row() const
{
    const auto found = std::ranges::find(rows_, chosen_, &Row::key);
    return found == rows_.end() ? nullptr : &*found;
}

const run::SampleSeen* KitView::sample() const
{
    const Row* chosen = row();
    return chosen != nullptr && chosen->sample ? &samples_[*chosen->sample] : nullptr;
}

const run::SampleSeen* KitView::first() const
{
    return !rows_.empty() && rows_.front().sample ? &samples_[*rows_.front().sample] : nullptr;
}

/// Of a bottle of the tank with the first one.
std::optional<run::Comparability> KitView::compared() const
{
    const run::SampleSeen* chosen = sample();
    const bool isOther = chosen != nullptr && first() != nullptr && chosen != first();
    return isOther && chosen->isOfTank() ? std::optional(run::compareSamples(*first(), *chosen)) : std::nullopt;
}

QString KitView::nameOf(const Row& row) const
{
    if (row.sample) {
        const run::SampleDrawn& drawn = *samples_[*row.sample].drawn;
        const QString place = drawn.port == 0
            ? tablet_.label("report.samples.tank")
            : tablet_.say({"report.samples.port", {{"port", std::to_string(drawn.port)}}});
        return toQt(drawn.id) + QStringLiteral(" · ") + place;
    }
    if (!row.wanted) {
        return tablet_.label("app.kit.another");
    }
    return tablet_.say({"app.kit." + std::string(run::nameOf(row.wanted->part)),
                        {{"port", std::to_string(row.wanted->port.value_or(0))}}});
}

QString KitView::detailOf(const Row& row) const
{
    if (row.sample) {
        const run::SampleSeen& sample = samples_[*row.sample];
        return tablet_.say({sample.code ? "app.kit.counted" : "app.kit.awaited",
                            {{"time", clockText(sample.fact->header.entered).toStdString()},
                             {"code", sample.code ? sample.code->toText() : std::string()}}});
    }
    return row.wanted ? tablet_.say({"app.kit.state." + std::string(run::nameOf(row.wanted->state)), {}})
                      : tablet_.label("app.kit.another.detail");
}

void KitView::showBottles()
{
    QList<RowModel::Row> rows;
    for (const Row& one : rows_) {
        rows.append({nameOf(one), detailOf(one), one.key == chosen_});
    }
    bottles_.setRows(std::move(rows));
}

void KitView::showFacts()
{
    QList<RowModel::Row> rows;
    const auto add = [&](const char* name, const QString& value) {
        rows.append({tablet_.label(name), value.isEmpty() ? tablet_.label("app.kit.not-told") : value});
    };
    if (const run::SampleSeen* seen = sample()) {
        const run::SampleDrawn& drawn = *seen->drawn;
        add("app.kit.drawn-at", dayText(seen->fact->header.entered));
        add("app.kit.by", tablet_.nameOf(seen->fact->header.person));
        add("app.draw.point", toQt(drawn.point));
        add("app.draw.oil", drawn.oil ? asShown(units::shown(*drawn.oil, tablet_.wanted())) : QString());
        add("app.draw.purged", drawn.purged ? asShown(units::shown(*drawn.purged, tablet_.wanted())) : QString());
        add("app.kit.purged-for", drawn.purgedS ? minutesText(std::chrono::seconds(*drawn.purgedS)) : QString());
        add("app.kit.machine",
            drawn.machine.empty() ? QString() : tablet_.say({"app.draw.machine." + drawn.machine, {}}));
        add("app.kit.turnovers", toQt(fixed(seen->turnovers, 1)));
    }
    facts_.setRows(std::move(rows));
}

void KitView::showLabel()
{
    label_ = {};
    const run::SampleSeen* seen = sample();
    if (seen == nullptr) {
        return;
    }
    const auto labels = report::labelsOf(tablet_.words(), *tablet_.shown(),
                                         [&](const Id& person) { return tablet_.nameOf(person).toStdString(); });
    const auto own = std::ranges::find(labels, seen->drawn->id, &report::Label::code);
    if (own != labels.end()) {
        const std::string png = paper::labelPng(tablet_.words(), *own);
        label_ = QImage::fromData(QByteArray(png.data(), static_cast<qsizetype>(png.size())), "PNG");
    }
}

void KitView::showLabelKeys()
{
    const bool areWanted = records_ != nullptr && !records_->isBusy() && hasLabels(tablet_, *tablet_.shown());
    labelKeys_.setRows(areWanted ? labelKeysFor(tablet_, media_()) : QList<RowModel::Row>());
}

void KitView::writeLabels(const QString& say)
{
    const auto folder = labelsFolder(say);
    if (records_ != nullptr && folder && tablet_.shown() != nullptr) {
        records_->beginLabels(*tablet_.shown(), *folder);
    }
}

QString KitView::labelsText() const
{
    return records_ == nullptr || tablet_.shown() == nullptr
        ? QString()
        : writtenText(tablet_, *records_, RecordOut::What::Labels, tablet_.shown()->id);
}

/// The words of what is chosen, as they were begun.
void KitView::take()
{
    asked_.clear();
    if (const run::SampleSeen* seen = sample()) {
        result_.about(*seen);
        notice_ = result_.wasTyped() ? tablet_.label("app.pad.offered-again") : QString();
    } else if (const Row* chosen = row()) {
        draw_.about(chosen->key, chosen->wanted, first());
        notice_ = draw_.wasTyped() ? tablet_.label("app.pad.offered-again") : QString();
    }
}

void KitView::forgetAsked()
{
    if (notice_ == tablet_.label("app.pad.logged")) {
        notice_.clear(); // it was what stood there before
    }
    asked_.clear();
    Q_EMIT changed();
}

QString KitView::title() const
{
    const Row* chosen = row();
    return chosen == nullptr ? QString() : nameOf(*chosen);
}

QString KitView::compareText() const
{
    const auto all = compared();
    if (!all) {
        return {};
    }
    QStringList lines;
    for (const auto* told : {&all->differs, &all->untold}) {
        for (const Message& line : *told) {
            lines.append(asShown(tablet_.words().say(line)));
        }
    }
    const char* head = !all->isComparable() ? "app.kit.not-comparable"
        : all->untold.empty()               ? "app.kit.comparable"
                                            : "app.kit.comparable-as-told";
    lines.prepend(tablet_.say({head, {{"first", first()->drawn->id}}}));
    return lines.join(QLatin1Char(' '));
}

bool KitView::isComparable() const
{
    const auto all = compared();
    return !all || all->isComparable();
}

QString KitView::mainText() const
{
    return tablet_.label(!asked_.isEmpty() ? "app.kit.log-so"
                             : isDrawn()   ? "app.kit.log-result"
                                           : "app.kit.log-bottle");
}

QString KitView::problem() const
{
    return row() == nullptr ? tablet_.label("app.kit.choose") : isDrawn() ? result_.problem() : draw_.problem();
}

/// A draft that was not kept stands in nobody's way, but is told.
QString KitView::notice() const
{
    const bool isKept = result_.areKept() && draw_.areKept();
    return isKept ? notice_ : tablet_.label("app.pad.draft-not-stored");
}

void KitView::takeTag(const QString& code)
{
    const auto known = std::ranges::find_if(
        rows_, [&](const Row& row) { return row.sample && toQt(samples_[*row.sample].drawn->id) == code; });
    if (known != rows_.end()) {
        choose(static_cast<int>(known - rows_.begin()));
    } else if (isDrawing()) {
        draw_.takeTag(code);
    } else {
        tablet_.setTrouble(tablet_.say({"app.kit.tag-of-none", {{"tag", code.toStdString()}}}));
    }
}

void KitView::choose(int row)
{
    if (row >= 0 && row < static_cast<int>(rows_.size())) {
        chosen_ = rows_[static_cast<std::size_t>(row)].key;
        take();
        refresh();
    }
}

void KitView::goOn()
{
    if (row() == nullptr || !problem().isEmpty()) {
        return;
    }
    if (asked_.isEmpty() && !doubts().isEmpty()) {
        asked_ = doubts();
        Q_EMIT changed();
        return;
    }
    if (isDrawn()) {
        if (result_.log()) {
            take();
            notice_ = tablet_.label("app.pad.logged");
            refresh();
        }
    } else if (const auto name = draw_.log()) {
        const auto drawn = std::ranges::find_if(samples_.rbegin(), samples_.rend(),
                                                [&](const auto& seen) { return seen.drawn->id == *name; });
        chosen_ = drawn == samples_.rend() ? std::string() : keyOf(*drawn);
        take();
        notice_ = tablet_.label("app.pad.logged");
        refresh();
    }
}

} // namespace loopside::app
