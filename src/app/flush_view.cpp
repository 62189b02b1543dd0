// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "app/flush_view.h"

#include "app/as_shown.h"
#include "app/caution_text.h"
#include "app/draft_places.h"
#include "app/job_words.h"
#include "app/wanted_units.h"
#include "app/wording.h"
#include "base/text.h"
#include "run/job.h"

#include <algorithm>
#include <array>

namespace loopside::app {

namespace {

/// What may stay behind. 1 % within a family is common practice, no source; the others are finer choices.
constexpr std::array<const char*, 3> wantedParts = {"1", "0.5", "0.1"};

enum Field
{
    LeftOver,
    Batch
};

std::vector<FieldsView::Field> flushFields(const Tablet& tablet)
{
    const QStringList volumes = {QStringLiteral("L"), QStringLiteral("gal")};
    return {{tablet.label("app.flush.left"), volumes}, {tablet.label("app.flush.batch"), volumes}};
}

/// What is left after batches of different size.
units::Fraction residualOf(units::Volume left, const std::vector<run::TypedVolume>& batches)
{
    double part = 1.0;
    for (const run::TypedVolume& batch : batches) {
        part *=
            filtration::residualAfter(left, batch.value(), 1).value_or(units::Fraction{1.0, units::one}).in(units::one);
    }
    return part * units::one;
}

} // namespace

FlushView::FlushView(Tablet& tablet, QObject* parent)
    : QObject{parent},
      tablet_{tablet},
      carts_{{"name", "detail", "isChosen"}},
      fluids_{{"name", "detail", "isChosen"}},
      wanted_{{"name", "detail", "isChosen"}},
      approvers_{{"name", "detail", "isChosen"}},
      fields_{flushFields(tablet)},
      outcome_{{"name", "value"}},
      batches_{{"number", "volume", "rest", "isDone"}}
{
    fields_.keepIn(tablet_.drafts(), flushDrafts, QStringLiteral("flush"), tablet_.label("app.field.typed-before"));
    connect(&fields_, &FieldsView::changed, this, &FlushView::refresh);
    const auto takeWishes = [this] { preferUnits(fields_, tablet_.wants()); };
    connect(&tablet_, &Tablet::personChanged, this, takeWishes);
    takeWishes();
    connect(&tablet_, &Tablet::siteChanged, this, [this](const Site& before) {
        cart_ = keptRow(cartNames(before), cart_, cartNames(tablet_.site()));
        fluid_ = keptRow(fluidNames(before), fluid_, fluidNames(tablet_.site()));
        approver_ = keptRow(personIds(before), approver_, personIds(tablet_.site()));
    });
    connect(&tablet_, &Tablet::changed, this, &FlushView::refresh);
    refresh();
}

void FlushView::open()
{
    const run::Job* open = openJob<run::FlushOpened>(tablet_.state());
    if (open != nullptr) {
        job_ = open->id;
        phase_ = Phase::Flushing;
        fields_.select(Batch);
    } else if (phase_ == Phase::Closed) {
        planAnother();
    }
    refresh();
}

void FlushView::planFor(const std::string& cart)
{
    open();
    if (phase_ == Phase::Plan) {
        const auto& carts = tablet_.site().carts;
        const auto found = std::find_if(carts.begin(), carts.end(),
                                        [&](const SiteCart& known) { return known.cart.name == cart; });
        chooseCart(found == carts.end() ? -1 : static_cast<int>(found - carts.begin()));
    }
}

void FlushView::planAnother()
{
    phase_ = Phase::Plan;
    job_ = {};
    cart_ = fluid_ = part_ = approver_ = -1;
    fields_.clear();
    refresh();
}

QString FlushView::missing() const
{
    if (cart_ < 0) {
        return tablet_.label("app.setup.choose-cart");
    }
    if (fluid_ < 0) {
        return tablet_.label("app.flush.choose-fluid");
    }
    if (!fields_.typed<units::Volume>(LeftOver) || !fields_.typed<units::Volume>(Batch)) {
        return tablet_.label("app.flush.type-volumes");
    }
    return part_ < 0    ? tablet_.label("app.flush.choose-part")
        : approver_ < 0 ? tablet_.label("app.flush.choose-approver")
                        : QString();
}

std::optional<run::FlushOpened> FlushView::planned() const
{
    if (!missing().isEmpty()) {
        return std::nullopt;
    }
    const auto& cart = tablet_.site().carts[static_cast<std::size_t>(cart_)].cart;
    const SiteFluid fluid = fluidsOf(tablet_.site())[static_cast<std::size_t>(fluid_)];
    const std::string part = wantedParts.at(static_cast<std::size_t>(part_));
    return run::FlushOpened{.cart = cart.name,
                            .fromFluid = lastFluidOf(tablet_, cart),
                            .toFluid = fluid.text,
                            .toFamily = fluid.family,
                            .left = *fields_.typed<units::Volume>(LeftOver),
                            .batch = fields_.typed<units::Volume>(Batch),
                            .wanted = *run::TypedFraction::parse(part + " %"),
                            .approver = toText(tablet_.site().people[static_cast<std::size_t>(approver_)].id)};
}

void FlushView::refresh()
{
    carts_.setRows(cartRows(tablet_, cart_));
    QList<RowModel::Row> rows;
    for (const SiteFluid& fluid : fluidsOf(tablet_.site())) {
        rows.append({oilAsShown(tablet_, fluid.text), QString(), rows.size() == fluid_});
    }
    fluids_.setRows(std::exchange(rows, {}));
    for (const char* part : wantedParts) {
        rows.append({QString::fromLatin1(part) + QStringLiteral(" %"), QString(), rows.size() == part_});
    }
    wanted_.setRows(std::exchange(rows, {}));
    for (const SitePerson& person : tablet_.site().people) {
        rows.append({toQt(person.name), QString(), rows.size() == approver_});
    }
    approvers_.setRows(std::move(rows));
    if (const run::Job* known = job(); known != nullptr && phase_ != Phase::Plan) {
        showJob(*known);
    } else {
        showPlan();
    }
    Q_EMIT changed();
}

QString FlushView::sayPart(const char* id, units::Fraction part) const
{
    return tablet_.say({id, {{"part", partText(part).toStdString()}}});
}

void FlushView::showPlan()
{
    problem_ = missing();
    standing_.clear();
    isThinEnough_ = false;
    outcome_.setRows({});
    batches_.setRows({});
    const auto left = fields_.typed<units::Volume>(LeftOver);
    const auto batch = fields_.typed<units::Volume>(Batch);
    if (!left || !batch || part_ < 0) {
        return;
    }
    const auto wanted = run::TypedFraction::parse(std::string(wantedParts.at(static_cast<std::size_t>(part_))) + " %");
    const auto flush = filtration::flushTo(wanted->value(), left->value(), batch->value());
    if (!flush) {
        problem_ = tablet_.say(flush.error().say);
        return;
    }
    showBatches({}, {left->value(), batch->value(), wanted->value()});
    outcome_.setRows(
        {{tablet_.label("app.flush.batches"), QString::number(flush->batches)},
         {tablet_.label("app.flush.oil-needed"), asShown(units::shown(flush->total, batch->unit(), tablet_.wanted()))},
         {tablet_.label("app.flush.then-left"), partText(flush->residual)}});
}

void FlushView::showBatches(const std::vector<run::TypedVolume>& done, const Numbers& numbers)
{
    constexpr qsizetype shown = 6;
    QList<RowModel::Row> rows;
    std::vector<run::TypedVolume> through;
    for (const run::TypedVolume& batch : done) {
        through.push_back(batch);
        rows.append({QString::number(rows.size() + 1), asWanted(batch, tablet_.wants()),
                     partText(residualOf(numbers.left, through)), true});
    }
    double part = residualOf(numbers.left, done).in(units::one);
    while (numbers.batch && part > numbers.wanted.in(units::one) && rows.size() < 100) {
        const auto next = filtration::residualAfter(numbers.left, *numbers.batch, 1);
        if (!next) {
            break;
        }
        part *= next->in(units::one);
        rows.append(
            {QString::number(rows.size() + 1), tablet_.label("app.flush.planned"), partText(part * units::one), false});
    }
    if (rows.size() > shown) { // the first ones of a long flush are of the least interest
        const qsizetype from = std::clamp<qsizetype>(static_cast<qsizetype>(done.size()) - 2, 0, rows.size() - shown);
        rows = rows.mid(from, shown);
    }
    batches_.setRows(std::move(rows));
}

void FlushView::showJob(const run::Job& job)
{
    const run::FlushOpened& flush = *job.flush();
    const auto done = job.batches();
    const units::Fraction wanted = flush.wanted ? flush.wanted->value() : units::Fraction{1.0, units::percent};
    const auto standing = run::jobStanding(job, tablet_.jobTime(job)).flush;
    isThinEnough_ = !done.empty() && standing->isThinEnough.value_or(false);
    standing_ = done.empty() ? tablet_.label("app.flush.none-yet")
                             : sayPart(isThinEnough_ ? "app.flush.thin-enough" : "app.flush.still",
                                       standing->residual.value_or(units::Fraction{1.0, units::one}));
    problem_ = fields_.isEmpty(Batch)         ? tablet_.label("app.flush.type-batch")
        : fields_.typed<units::Volume>(Batch) ? QString()
                                              : tablet_.label("app.pad.not-a-number");
    showBatches(done, {flush.left.value(), flush.batch ? std::optional(flush.batch->value()) : std::nullopt, wanted});
    showRecord(job);
}

void FlushView::showRecord(const run::Job& job)
{
    const run::FlushOpened& flush = *job.flush();
    const auto standing = run::jobStanding(job, tablet_.jobTime(job)).flush;
    const auto row = [&](const char* label, const QString& value) {
        return RowModel::Row{tablet_.label(label), value};
    };
    QList<RowModel::Row> rows = {
        row("app.flush.cart", toQt(flush.cart)),
        row("app.flush.from", oilAsShown(tablet_, flush.fromFluid.empty() ? "–" : flush.fromFluid)),
        row("app.flush.to", oilAsShown(tablet_, flush.toFluid)),
        row("app.flush.left", asWanted(flush.left, tablet_.wants())),
        row("app.flush.wanted", flush.wanted ? toQt(flush.wanted->toText()) : QStringLiteral("–")),
        row("app.flush.oil-used", asShown(units::shown(standing->flushed, flush.left.unit(), tablet_.wanted()))),
        row("app.flush.approver", flush.approver.empty() ? QStringLiteral("–") : tablet_.personTold(flush.approver))};
    if (!job.isOpen()) {
        rows.append(
            row("app.flush.then-left", standing->residual ? partText(*standing->residual) : QStringLiteral("–")));
        for (const run::JobFact& fact : job.facts) {
            if (const auto* closed = std::get_if<run::FlushClosed>(&fact.said)) {
                rows.append(row("app.flush.elements",
                                tablet_.label(closed->elementsRenewed ? "app.answer.yes" : "app.answer.no")));
                rows.append(
                    row("app.flush.closed-by",
                        tablet_.nameOf(fact.header.person) + QLatin1Char(' ') + clockText(fact.header.entered)));
            }
        }
    }
    outcome_.setRows(std::move(rows));
}

QString FlushView::fromTo() const
{
    if (const run::Job* known = job(); known != nullptr) {
        const std::string& from = known->flush()->fromFluid;
        return oilAsShown(tablet_, from.empty() ? "?" : from) + QStringLiteral(" → ")
            + oilAsShown(tablet_, known->flush()->toFluid);
    }
    return {};
}

/// What warmth the oil has is logged nowhere, so none of it is called hot or not.
QString FlushView::caution() const
{
    const auto act = phase_ == Phase::Plan ? run::Act::Couple
        : phase_ == Phase::Flushing        ? run::Act::Flush
                                           : run::Act::Disconnect;
    return cautionText(tablet_, act, run::Circumstances{});
}

QString FlushView::mainText() const
{
    const run::Job* known = job();
    return phase_ == Phase::Plan
        ? tablet_.label("app.flush.start")
        : tablet_.say({"app.flush.log-batch",
                       {{"number", std::to_string(known != nullptr ? known->batches().size() + 1 : 1)}}});
}

void FlushView::goOn()
{
    if (!problem_.isEmpty()) {
        return;
    }
    if (phase_ == Phase::Plan) {
        const auto opened = tablet_.openJob(*planned());
        if (opened) {
            job_ = *opened;
            phase_ = Phase::Flushing;
            fields_.clear();
            fields_.select(Batch);
            refresh();
        }
    } else if (phase_ == Phase::Flushing
               && tablet_.sayOfJob(job_, run::FlushBatch{*fields_.typed<units::Volume>(Batch)})) {
        fields_.clear();
        fields_.select(Batch);
    }
}

void FlushView::close(bool elementsRenewed)
{
    if (phase_ == Phase::Flushing && tablet_.sayOfJob(job_, run::FlushClosed{elementsRenewed, {}})) {
        phase_ = Phase::Closed;
        refresh();
    }
}

void FlushView::chooseCart(int row)
{
    cart_ = row;
    refresh();
}

void FlushView::chooseFluid(int row)
{
    fluid_ = row;
    refresh();
}

void FlushView::chooseWanted(int row)
{
    part_ = row;
    refresh();
}

void FlushView::chooseApprover(int row)
{
    approver_ = row;
    refresh();
}

} // namespace loopside::app
